/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pen does on paper: every line and every word that the program itself draws is noted, in
 * points from the page's top left corner, so that a test can ask where a thing stands. */
#pragma once

#include <cairo.h>
#include <glib.h>

typedef struct {
  char *text;
  double x, y;          /* top left corner of the layout */
  double width, height; /* of the layout */
  const void *page;     /* the same for all that is on one page */
  guint32 srgb;         /* the colour it is written in */
} PenWords;

typedef struct {
  double x0, y0, x1, y1;
  const void *page;
} PenLine;

/* Forgets everything and notes from now on. */
void pen_begin (void);

guint pen_n_words (void);
const PenWords *pen_word (guint i);
guint pen_n_lines (void);
const PenLine *pen_line (guint i);

/* Rectangles: their first corner and the one across, as large as on a page that nothing scales. */
guint pen_n_boxes (void);
const PenLine *pen_box (guint i);

/* The first words that begin so. Fails the test when there are none. */
const PenWords *pen_find (const char *beginning);
/* NULL when there are none. */
const PenWords *pen_look_for (const char *beginning);
/* These very words with their middle within a point of x; NULL when there are none. */
const PenWords *pen_at (const char *text, double x);
/* All words one after the other, a space between them. Owned. */
char *pen_text (void);

static inline double
pen_middle (const PenWords *words)
{
  return words->x + words->width / 2;
}
