/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's commands for paper: "print" with the word of a kind shows what can be printed, and
 * the chart goes into a file of its own. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BW_TYPE_PAPERWORK (bw_paperwork_get_type ())
G_DECLARE_FINAL_TYPE (BwPaperwork, bw_paperwork, BW, PAPERWORK, GObject)

/* For this window, which must own it and is asked before and told after; adds the commands to its
 * actions. */
BwPaperwork *bw_paperwork_new (GtkApplicationWindow *window, BwDraft *draft);

G_END_DECLS
