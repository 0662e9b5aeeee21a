/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tray: the bead colours at hand, in order. */
#pragma once

#include "core/pattern/drawing.h"
#include <glib.h>

typedef enum {
  BW_FINISH_OPAQUE,
  BW_FINISH_MATTE,
  BW_FINISH_CLEAR,
  BW_FINISH_FROSTED,
  BW_FINISH_LINED,
  BW_FINISH_LUSTRE,
  BW_FINISH_METAL,
  BW_FINISH_RAINBOW,      /* a film on the glass that shines in many hues */
  BW_FINISH_GALVANISED,   /* a thin coat of metal, duller than metal itself */
  BW_FINISH_SILVER_LINED, /* clear, with a mirror in its hole */
  BW_N_FINISHES,
} BwFinish;

const char *bw_finish_word (BwFinish finish); /* as in the file: "opaque", … */

#define BW_IN_HAND_MAX_G 100000

/* One colour. Copied by assignment. */
typedef struct {
  gunichar
      id; /* the letter in the file and on the chart; unique in the tray, printable, no space */
  char name[64]; /* UTF-8 */
  guint32 srgb;  /* 0xRRGGBB */
  BwFinish finish;
  char article[64]; /* the maker's own number for a shop, UTF-8; "": none */
  double in_hand_g; /* of such beads at home, 0..BW_IN_HAND_MAX_G */
} BwColour;

typedef struct {
  int n_colours; /* 1..BW_TRAY_MAX */
  BwColour colour[BW_TRAY_MAX];
} BwTray;

/* One plain colour, letter a: what a project without a tray has. */
void bw_tray_init (BwTray *tray);
/* Index of a letter, −1 when absent. */
int bw_tray_find (const BwTray *tray, gunichar id);
/* What stands for a colour in print: its own letter as a capital where
 * that is one, free and not I, L or O, which are taken for numbers; else the next capital free, and
 * two of them where there are more than 23 colours. */
#define BW_TRAY_LETTER 3
void bw_tray_print_letter (const BwTray *tray, int colour, char letter[BW_TRAY_LETTER]);
/* Whether a character can be a colour's letter: visible, not a space, not a combining mark. */
gboolean bw_tray_is_letter (gunichar id);
/* The next letter not in use: a–z, A–Z, then other letters. Never 0: there are more than
 * BW_TRAY_MAX of them. */
gunichar bw_tray_free_letter (const BwTray *tray);
/* A colour (0xRRGGBB) near to this one that can be told from every colour of the tray: lighter or
 * darker, then in another hue; where the tray leaves no such, the one farthest from its nearest. */
guint32 bw_tray_free_colour (const BwTray *tray, guint32 like);
