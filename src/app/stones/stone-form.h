/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All that can be measured of a stone, as the Measure stage has it, typed in a list: how many faces
 * there are, how they are measured, how the ends are told, and every number that belongs to it.
 *
 * Signal "changed" (): something else is typed or chosen. */
#pragma once

#include "core/design/design.h"
#include <gtk/gtk.h>

#define BW_TYPE_STONE_FORM (bw_stone_form_get_type ())
G_DECLARE_FINAL_TYPE (BwStoneForm, bw_stone_form, BW, STONE_FORM, GtkWidget)

void bw_stone_form_set (BwStoneForm *self, const BwStoneMeasures *measures);
/* FALSE with a fault when what is typed makes no stone; what was left untouched is as it was set,
 * to the last digit. */
gboolean bw_stone_form_read (BwStoneForm *self, BwStoneMeasures *measures, GError **error);
