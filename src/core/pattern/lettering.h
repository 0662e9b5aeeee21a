/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of text set in beads, read round the stone: capitals, as high as the columns it is given
 * allow. Five and seven columns high they are drawn bead for bead; from nine on by strokes, which
 * fill any height. An accent takes columns of its own above them, so that all letters of a text are
 * equally high.
 *
 * Places are half pitches from the text's left edge, and columns from the lowest it is given. */
#pragma once

#include <glib.h>

typedef struct {
  const char *text; /* borrowed */
  int columns;      /* what it is given */
  int height;       /* of the letters, in columns, their accents left out */
  int foot;         /* columns left free beneath them */
  double unit;      /* of the stroke alphabet's box, in columns; 0: bead for bead */
  double reach;     /* of the pen from a stroke's middle line, in columns */
  int length; /* half pitches from the left edge of the first letter to the right one of the last */
} BwLettering;

/* The first character of a text that no alphabet has; 0 when all can be set. */
gunichar bw_lettering_unknown (const char *text);

/* How many columns a text needs at least: five, and two for the dots of Ä, Ö and Ü, or seven and
 * three for other accents. */
int bw_lettering_needs (const char *text);

/* Sets a text, whose letters must be known, in `columns`, which must not be less than it needs. */
BwLettering bw_lettering_set (const char *text, int columns);

/* Whether a bead that begins at x half pitches, in column y, belongs to a letter. Where the letters
 * are bead for bead, x + y − foot must be even. */
gboolean bw_lettering_inked (const BwLettering *lettering, int x, int y);
