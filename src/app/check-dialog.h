/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another number of rows while the band is on the bench: what speaks for which, and what becomes of
 * the drawing. */
#pragma once

#include "app/draft.h"
#include <gtk/gtk.h>

/* What a strip length just measured says. FALSE with *error when it cannot be. */
gboolean bw_check_dialog_show_length (GtkWindow *parent, BwDraft *draft, double length_mm,
                                      GError **error);
/* What a try-on says: end with this many rows. */
void bw_check_dialog_show_rows (GtkWindow *parent, BwDraft *draft, const char *why, int rows);
