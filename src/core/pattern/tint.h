/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own colours by name, as data/style/tints.def defines them, for whoever draws: the
 * window, its sketches, the stone's stage and the printed pages. */
#pragma once

#include <glib.h>

typedef enum {
#define TINT(NAME, name, day, dark) BW_TINT_##NAME,
#include "tints.def"
#undef TINT
  BW_N_TINTS
} BwTint;

/* sRGB as 0xrrggbb, for a light or a dark ground. */
guint32 bw_tint_srgb (BwTint tint, gboolean dark);
/* One part of it, 0: red, 1: green, 2: blue; 0..1. */
double bw_tint_part (BwTint tint, gboolean dark, int part);
/* All three as arguments of a function that sets a colour; on printed pages by name. */
#define BW_TINT_RGB(tint, dark)                                                                    \
  bw_tint_part (tint, dark, 0), bw_tint_part (tint, dark, 1), bw_tint_part (tint, dark, 2)
#define BW_ON_PAPER(NAME) BW_TINT_RGB (BW_TINT_##NAME, FALSE)
/* As style sheets name it: "on_tide". */
const char *bw_tint_name (BwTint tint);
