/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stone in outline, seen level from the side. */
#pragma once

#include "core/stone/stone.h"
#include <gtk/gtk.h>

/* As large as the space has room for; nothing where the measures make no stone. */
void bw_stone_sketch_paint (GtkWidget *widget, cairo_t *cr, const BwStoneMeasures *measures,
                            int width, int height);
