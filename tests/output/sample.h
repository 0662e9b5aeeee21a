/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Project files for tests, written out by the test itself so that what the program makes of them
 * can be compared with what was put in. */
#pragma once

#include <glib.h>

typedef enum { SAMPLE_NO_BAIL, SAMPLE_FLAP, SAMPLE_UPRIGHT, SAMPLE_RING, SAMPLE_OVER } SampleBail;

#define SAMPLE_COLOURS 8

typedef struct {
  int columns, rows;
  int bail_columns, bail_rows; /* 0 without a bail */
  SampleBail bail;
  int n_colours;
  const char *letters[SAMPLE_COLOURS];
  const char *names[SAMPLE_COLOURS];
  GPtrArray *cells;      /* of char *, row 1 first, ASCII letters, lowest column first */
  GPtrArray *bail_cells; /* same; empty without a bail */
  gboolean prices;
  gboolean taper;
  const char *working_mm; /* as JSON writes it; NULL: the default */
  const char *at_deg;     /* same, of the bail; NULL: over the join */
} Sample;

/* A sound piece with a drawing in which stretches of rows repeat, alternate or are random. rows 0:
 * as many as fit the stone. */
Sample *sample_new (GRand *rand, int columns, int rows, SampleBail bail);
void sample_free (Sample *sample);

/* The project file. Owned. */
char *sample_json (const Sample *sample);

/* The letter of a bead of the band or the bail, by the rule of the file: rows and columns from 1,
 * odd rows fill even columns. */
char sample_bead (const GPtrArray *cells, int row, int column);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Sample, sample_free)

/* What the words call beads, as letters: "2 Night water, 1 “Red, dark”" is "aad". A comma within
 * quotes parts nothing. Ends the test at a name that is no colour's. Owned. */
char *sample_letters_of (const Sample *sample, const char *runs);
