/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another number of rows while the band is on the bench: what speaks for which, and what becomes of
 * the drawing. */
#pragma once

#include "app/form/draft.h"
#include "core/band/try-on.h"
#include <gtk/gtk.h>

/* What a strip length just measured says. FALSE with *error when it cannot be. */
gboolean bw_check_dialog_show_length (GtkWindow *parent, BwDraft *draft, double length_mm,
                                      GError **error);
/* What to do with a strip that was read so when it was tried on. FALSE with *error when that cannot
 * be. */
gboolean bw_check_dialog_show_try_on (GtkWindow *parent, BwDraft *draft, const BwReading *reading,
                                      GError **error);
