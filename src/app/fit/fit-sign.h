/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict as a sign: the stone seen from above with the band round it. Closed: snug. Its last
 * part dotted: the try-on decides. Wide about the stone: loose. Open: will not close. The shape
 * says it, colour only helps. */
#pragma once

#include "output/report/fit-told.h"
#include <gtk/gtk.h>

#define BW_TYPE_FIT_SIGN_VIEW (bw_fit_sign_view_get_type ())
G_DECLARE_FINAL_TYPE (BwFitSignView, bw_fit_sign_view, BW, FIT_SIGN_VIEW, GtkWidget)

void bw_fit_sign_view_set (BwFitSignView *self, BwFitSign sign);
