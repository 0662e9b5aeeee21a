/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The styles of bail as little pictures beside one another, each with its name; one of them is chosen.
 * Emits "chosen" when the maker chooses another. */
#pragma once

#include "core/design/bail.h"
#include <gtk/gtk.h>

#define BW_TYPE_BAIL_CHOICE (bw_bail_choice_get_type ())
G_DECLARE_FINAL_TYPE (BwBailChoice, bw_bail_choice, BW, BAIL_CHOICE, GtkWidget)

/* Shows a style as chosen; nothing is emitted. */
void bw_bail_choice_show (BwBailChoice *self, BwBailStyle style);
BwBailStyle bw_bail_choice_get (BwBailChoice *self);
