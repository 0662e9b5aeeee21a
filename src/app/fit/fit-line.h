/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line under every stage that tells whether the band on screen fits, and what helps. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_FIT_LINE (bw_fit_line_get_type ())
G_DECLARE_FINAL_TYPE (BwFitLine, bw_fit_line, BW, FIT_LINE, GtkWidget)

void bw_fit_line_bind (BwFitLine *self, BwDraft *draft);
