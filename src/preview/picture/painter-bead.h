/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead as the painter paints it. An index is one of the scene's beads. */
#pragma once

#include "preview/picture/painter.h"

void bw_painter_paint_bead (const BwPainter *p, int index);
/* What painting it can touch, in whole pixels of the picture. FALSE when that is nothing. */
gboolean bw_painter_bead_box (const BwPainter *p, int index, cairo_rectangle_int_t *box);
/* A ring round the bead; nothing when there is none of that index. */
void bw_painter_paint_hover (const BwPainter *p, int hover);
