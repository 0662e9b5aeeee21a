/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the canvas share among themselves. */
#pragma once

#include "editor/band/band-canvas.h"
#include "editor/cloth/band-faces.h"
#include "editor/cloth/band-layout.h"
#include "editor/cloth/band-style.h"
#include "editor/cloth/band-tiles.h"
#include "core/base/lattice.h"
#include "editor/tool/hand.h"
#include "editor/tool/piece.h"

#define ZOOM_NOTCH 1.2 /* a notch of the wheel, a press of a key */

typedef enum {
  BW_FIT_NOT,
  BW_FIT_TO_DRAW, /* beads large enough to be drawn on: what a band opens with */
  BW_FIT_WHOLE,
} BwBandFit;

struct _BwBandCanvas {
  GtkWidget parent;

  BwSession *session;
  BwProject *project; /* the session's, with our handlers on it */
  BwHand *hand;

  BwBandLayout layout;
  BwBandFit fitted; /* how the view follows band and window until the maker zooms or rolls */

  BwBandFaces faces;
  gboolean faces_hold;
  BwBandTiles *tiles;
  BwBandStyle style;
  PangoLayout *text;
  gboolean letters;

  BwBeadAt cursor;       /* the keyboard's bead; always on the band */
  gboolean cursor_shown; /* the keyboard was used last */
  gboolean by_keyboard;  /* the tool under way was begun with a key */
  double key_u;          /* where the keys have led it, through the repeats */
  gboolean extending;    /* Shift and the arrows are selecting, */
  BwBeadAt anchor;       /* from this long row and column */
  char *words;           /* the status told last */
  char *note;            /* told instead until the maker goes on, NULL for none */

  /* A piece lying on top, its step of undo open; NULL for none. */
  BwPiece *piece;
  BwPaint *piece_paint;
  gboolean piece_held;         /* the pointer pulls it */
  BwBeadAt piece_from;         /* where the pointer took it, */
  int piece_row, piece_column; /* and where it lay then */

  /* While gestures are under way. */
  double pointer_x, pointer_y; /* last seen, widget pixels */
  gboolean pointer_inside;
  double held_x, held_y; /* where the last step of a drag was */
  double drag_x, drag_y; /* where a drag began */
  double pinch_zoom;     /* zoom when the pinch began */

  guint glide;                 /* tick callback that rolls to a place, 0 when at rest */
  double glide_from, glide_to; /* roll */
  gint64 glide_start;          /* frame time */

  guint push;            /* tick callback while a stroke is held beyond the view, 0 otherwise */
  double push_x, push_y; /* where it is held */
  gint64 push_last;      /* frame time of the step before */
};

/* band-draw.c */
void bw_band_canvas_draw (BwBandCanvas *self, GtkSnapshot *snapshot);

/* band-input.c */
void bw_band_canvas_add_controllers (BwBandCanvas *self);

/* band-keys.c */
gboolean bw_band_canvas_on_key (GtkEventControllerKey *keys, guint key, guint code,
                                GdkModifierType state, BwBandCanvas *self);
gboolean bw_band_canvas_on_modifiers (GtkEventControllerKey *keys, GdkModifierType state,
                                      BwBandCanvas *self);
guint bw_band_held (GdkModifierType state); /* flags of BwHeld */
/* How large the box is that Shift and the arrows have selected; owned by the caller. */
char *bw_band_canvas_extent (BwBandCanvas *self);

/* band-piece.c: lays down what is in the air and finishes what a key began. */
void bw_band_canvas_settle (BwBandCanvas *self);
void bw_band_canvas_lay_down (BwBandCanvas *self);
void bw_band_canvas_drop_piece (BwBandCanvas *self);
void bw_band_canvas_walk_piece (BwBandCanvas *self, int along, int up);
/* The pointer takes hold of the piece when it lies there; then it follows. */
gboolean bw_band_canvas_hold_piece (BwBandCanvas *self, BwBandPoint at);
void bw_band_canvas_pull_piece (BwBandCanvas *self, BwBandPoint at);

/* band-canvas.c */
const BwBandFaces *bw_band_canvas_faces (BwBandCanvas *self);
/* The view moved by hand: it is no longer fitted; what the pointer is over is looked up anew. */
void bw_band_canvas_moved (BwBandCanvas *self);
void bw_band_canvas_hover_at (BwBandCanvas *self, double x, double y);
void bw_band_canvas_unhover (BwBandCanvas *self);
void bw_band_canvas_set_cursor_bead (BwBandCanvas *self, BwBeadAt bead, gboolean shown);
/* Scrolls as little as it takes to show the cursor. */
void bw_band_canvas_reveal_cursor (BwBandCanvas *self);
void bw_band_canvas_tell (BwBandCanvas *self);
/* Tells a sentence in the status line until the maker's next key or press; NULL ends it. */
void bw_band_canvas_say (BwBandCanvas *self, const char *note);

/* What shows is another part of the band: draw it, and keep the numbers small. */
void bw_band_canvas_shown_anew (BwBandCanvas *self);

/* band-roll.c: rolls there, gently where animations are on. */
void bw_band_canvas_glide_to (BwBandCanvas *self, double roll);
void bw_band_canvas_stop_glide (BwBandCanvas *self);
/* A stroke is held at (x, y): beyond the view's edges the band rolls on under it. */
void bw_band_canvas_push (BwBandCanvas *self, double x, double y);
void bw_band_canvas_stop_push (BwBandCanvas *self);

/* band-words.c: "Row 12, column 5, face 3, Night water"; owned by the caller. NULL when the band
 * has no such bead: views may ask about one that a new measurement has just taken away. */
char *bw_band_words (BwProject *project, int row, int column);
