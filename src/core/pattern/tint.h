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
/* As style sheets name it: "on_tide". */
const char *bw_tint_name (BwTint tint);
