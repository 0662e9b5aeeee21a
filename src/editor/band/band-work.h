/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas at work, without its widget class: the parts that pointer, keys and deeds move, and
 * the few moves that concern several of them. Its parts know nothing of each other. */
#pragma once

#include "editor/band/band-air.h"
#include "editor/band/band-cursor.h"
#include "editor/band/band-roll.h"
#include "editor/tool/toolbox.h"

#define BW_ZOOM_NOTCH 1.2 /* a notch of the wheel, a press of a key */

typedef struct {
  BwBandView *view;
  BwHand *hand;
  BwBandRoll roll;
  BwBandAir air;
  BwBandCursor cursor;
  gboolean by_keyboard; /* the tool under way was begun with a key */
  gboolean laid;        /* the last step laid a piece down because the maker went on */

  double pointer_x, pointer_y; /* last seen, widget pixels */
  gboolean pointer_inside;

  char *note; /* told instead until the maker goes on, NULL for none */
} BwBandWork;

void bw_band_work_init (BwBandWork *work, BwBandView *view, BwSession *session);
void bw_band_work_clear (BwBandWork *work);

/* Whether a tool that the pointer began is under way. */
gboolean bw_band_work_is_drawing (const BwBandWork *work);

/* Lays down what is in the air and finishes what a key began. */
void bw_band_work_settle (BwBandWork *work);
/* Lays down what is in the air because the maker went on elsewhere, and says so; until the next
 * step bw_band_work_take_up() takes that step back. FALSE when there is none. */
void bw_band_work_lay_down (BwBandWork *work);
gboolean bw_band_work_take_up (BwBandWork *work);
/* Takes back whatever is half done. */
void bw_band_work_drop (BwBandWork *work);

void bw_band_work_hover_at (BwBandWork *work, double x, double y);
void bw_band_work_unhover (BwBandWork *work);
void bw_band_work_set_cursor (BwBandWork *work, BwBeadAt bead, gboolean shown);
/* The view was moved by hand: what the pointer is over is looked up anew. */
void bw_band_work_moved (BwBandWork *work);
/* About the pointer, or the middle of the view. */
void bw_band_work_zoom (BwBandWork *work, double zoom);

/* Asks whoever shows the canvas for the menu of a bead, a row (column 0), a column (row 0) or the
 * canvas (both 0), at a point of the widget. */
void bw_band_work_open_menu (BwBandWork *work, double x, double y, BwBeadAt bead);

/* Brings the status line, and what a screen reader hears, up to date. */
void bw_band_work_tell (BwBandWork *work);
/* Takes the colour of a bead in hand, or says why not. */
void bw_band_work_pick_up (BwBandWork *work, BwBeadAt bead);
/* Tells a sentence in the status line until the maker's next key or press; NULL ends it. */
void bw_band_work_say (BwBandWork *work, const char *note);
