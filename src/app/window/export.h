/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the window as a list, a picture or a model: the commands for it. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BW_TYPE_EXPORT (bw_export_get_type ())
G_DECLARE_FINAL_TYPE (BwExport, bw_export, BW, EXPORT, GObject)

/* For this window, which must own it and is asked before and told after; adds the commands to its
 * actions. */
BwExport *bw_export_new (GtkApplicationWindow *window, BwDraft *draft);

G_END_DECLS
