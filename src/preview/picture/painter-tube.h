/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cord and metal ring, painted piece by piece among the beads. */
#pragma once

#include "preview/picture/painter.h"

/* How many pieces cord and ring are painted in: cord first. Each lies between two stations. */
int bw_painter_n_tubes (const BwPainter *p);
/* The middle of a piece of tube. */
void bw_painter_tube_middle (const BwPainter *p, int piece, float at[3]);
void bw_painter_paint_tube (const BwPainter *p, int piece);
