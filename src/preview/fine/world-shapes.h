/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers under which the piece's shapes are known to the rays. */
#pragma once

enum {
  BW_SHAPE_STONE,
  BW_SHAPE_BED,
  BW_SHAPE_CORD,
  BW_SHAPE_RING,
  BW_SHAPE_THREAD,
  BW_SHAPE_BEADS = 16, /* the first of them; then on by their place in the scene */
};
