/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How likely a count closes and grips, once a strip has been read round the stone.
 *
 * Both are asked of the same few errors, so that neither chance follows from the other. Let column
 * c at height z_c lack g_c when slack and pulling give it q_c, as the fit has it. Not known, normal
 * and independent of one another are
 *
 *   a  what lengthens every column alike: the way round the stone, the bed, the pitch;
 *   b  by how much less pulling gives;
 *   x  by how much more the girth grows with each millimetre of height than was measured.
 *
 * Two girths at z1 and z2, of errors σ1 and σ2, are a line through two points: its slope is known
 * to hypot (σ1, σ2)/|z2 − z1|, and what is wrong with it at
 * z0 = z1 + (z2 − z1) σ1²/(σ1² + σ2²) is independent of that and known to σ1 σ2/hypot (σ1, σ2). So
 * column c really lacks g_c + a + x (z_c − z0) slack, and as much − q_c + b pulled. Prisms that
 * taper much are rare, and of those measured to taper much most taper a little less: x is as likely
 * as the two girths make it, times how usual such a prism is (BW_TAPER_USUAL).
 *
 * For one x the fit's columns say which of them decides, D lacking most when pulled with Q to pull,
 * and the least that any lacks, L. Then the count
 *
 *   closes when a + b ≤ Q − D,   grips when a ≥ −slack − L,
 *
 * and the reading r, of error R², was D' + a (slack ends) or D' − Q' + a + b (pulled) of the rows
 * woven then. That leaves a and a + b normal together, and both conditions are one integral of the
 * bivariate normal distribution; the answer is their mean over x, each weighed by how well it
 * explains the reading. */
#pragma once

#include "core/band/fit.h"

/* How strongly a prism tapers, as a share of its girth for each millimetre: the scale of Student's
 * distribution of four degrees of freedom. One prism in ten changes by more than 4.3 % over
 * two centimetres (common practice, no source). */
#define BW_TAPER_USUAL 0.001

/* How the strip lay when it was read. There is no default: a reading that does not say it would be
 * out by all that pulling gives, more than half a bead. */
typedef enum {
  BW_TRIED_SLACK = 1, /* laid round, the ends touching nothing */
  BW_TRIED_PULLED,    /* drawn together as at the zip */
} BwTriedHow;

typedef enum { BW_TRIED_BY_EYE, BW_TRIED_BY_CALLIPER } BwTriedTool;

/* Standard errors of a reading, of a study of makers; the hand's is a share of what pulling gives.
 * By eye half beads are told, which adds the error of rounding, a half bead / √12. */
#define BW_TRIED_EYE_BEADS 0.15
#define BW_TRIED_EYE_STEP_BEADS 0.5
#define BW_TRIED_CALLIPER_MM 0.15
#define BW_TRIED_HAND_SHARE 0.15

/* What was read. Negative: the ends overlap. */
typedef struct {
  double short_mm;
  BwTriedHow how;
  BwTriedTool tool;
} BwReading;

/* The column that decides by the fit, of a strip of so many rows: the one that pulling leaves open
 * the most. An odd row counts with half a bead, since it raises beads on both ends. */
typedef struct {
  double gap_mm;  /* slack */
  double pull_mm; /* what pulling gives */
} BwDeciding;

#define BW_TAPERS 33

/* One taper the stone may have, and what the reading says if it has. */
typedef struct {
  double weight;    /* how likely; the weights sum to 1 */
  double slope;     /* x */
  double slack_mm;  /* a, its mean */
  double pulled_mm; /* a + b */
} BwKnownTaper;

/* A strip as it is known after the reading. Borrows design and stone. */
typedef struct {
  const BwDesign *design;
  const BwStone *stone;
  int rows;         /* woven when it was read */
  BwDeciding woven; /* of them, by the fit */
  double pivot_mm;  /* z0 */
  int n_tapers;
  BwKnownTaper taper[BW_TAPERS];
  double slack_sd_mm, pulled_sd_mm; /* of a and of a + b */
  double together;                  /* their correlation */
  double longer_mm, longer_sd_mm;   /* by how much more the deciding column lacks, pulled, than the
                                       fit foretells */
  double astray_mm; /* by how much the reading contradicts what was known: more than three standard
                       errors of both; 0: it does not */
} BwKnownStrip;

/* Bounded to half of what the limits of rows allow. */
void bw_known_strip_init (BwKnownStrip *known, const BwDesign *design, const BwStone *stone,
                          int rows, const BwReading *reading);

/* What is known of one count of beads around. */
typedef struct {
  double closes; /* the chance that no more is missing than pulling gives */
  double snug;   /* and that no column is too long by more than the slack */
  double fewest; /* that it closes and a bead less would not */
  double off_mm; /* how far what is likely lies from snug; 0: it does not */
} BwOdds;

BwOdds bw_known_strip_odds (const BwKnownStrip *known, int beads_around);

BwDeciding bw_deciding (const BwDesign *design, const BwStone *stone, int rows);
