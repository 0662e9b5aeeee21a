/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makers at the bench, drawn at random: what is true, what the program is told of it, and what a
 * strip would really do. The same for the same seed. */
#pragma once

#include "core/band/try-on.h"
#include "samples.h"

/* Spreads of what is woven and of what is measured, from a study of 2,000 makers: pitch 2 %, flats
 * 0.1 mm, a girth by a strip of paper 0.4 mm, bed 0.02 mm, squeeze 0.15 ± 0.05, stretch 0.010 ±
 * 0.003, a reading by eye 0.15 bead, by calliper 0.15 mm, a pull 15 % of itself. */
#define MAKER_PITCH_SHARE 0.02
#define MAKER_FLATS_MM 0.1
#define MAKER_GIRTH_MM 0.4
#define MAKER_BED_MM 0.02
#define MAKER_SQUEEZE_SD 0.05
#define MAKER_STRETCH_SD 0.003
#define MAKER_HAND_SHARE 0.15

typedef struct {
  BwDesign truth, told;
  BwStone real, known;
  int right;       /* rows with which the band first closes */
  double pitch_mm; /* woven */
} Maker;

/* A normal number. */
double maker_normal (GRand *rand, double mean, double sd);

/* A six-sided stone without taper, 14 to 30 mm across, measured across its flats, under 11/0
 * cylinder beads; a swatch of 24 rows by ruler and two checks on the way. FALSE: what was drawn
 * cannot be made; draw again. */
gboolean maker_init (Maker *maker, GRand *rand);

/* How a maker of more than one kind goes about it. */
typedef struct {
  gboolean by_strip; /* the stone's girth by a strip of paper, instead of its flats */
  gboolean any_bead; /* one of the sizes of the trade, and one to three layers of cord */
  gboolean tapers;   /* the stone does, by up to 4 %, and a second girth is measured by a strip */
} MakerHabits;

/* The same by these habits, the pitch not learnt yet: the program has its first guess. */
gboolean maker_init_with (Maker *maker, GRand *rand, MakerHabits habits);

/* A strip of these rows, measured with an error: what a check says. */
BwCheck maker_check (const Maker *maker, GRand *rand, int rows, double error_mm);

/* What a strip of these rows really lacks at its tightest column: slack, and when it is pulled as
 * at the zip. */
void maker_lacks (const Maker *maker, int rows, double *slack, double *pulled);

/* Whether these rows really close and grip. */
gboolean maker_is_snug (const Maker *maker, int rows);

/* One reading of a strip: by eye half beads are read; a pulled one is pulled a little harder or
 * less each time. */
BwReading maker_read (const Maker *maker, GRand *rand, int rows, BwTriedHow how, BwTriedTool tool);

/* Whether the ends meet when they are pulled once. */
gboolean maker_pull (const Maker *maker, GRand *rand, int rows);
