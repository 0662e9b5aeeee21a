/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A maker's hands: what the pieces already woven say of the pitch of the next one.
 *
 * For piece j of bead kind k let y = ln(p / D), p the pitch woven and D the bead's nominal
 * diameter. y = h + b_k + l_j: h is the maker's hands, b_k how this kind of bead differs from its
 * nominal size, l_j what thread, day and lot add. The three are independent and normal with mean 0.
 * All is linear, so the posterior is one small symmetric solve; because kinds share nothing but h,
 * and pieces of a kind nothing but h + b_k, the solve falls apart into sums and costs O(pieces). */
#pragma once

#include <glib.h>

/* Standard deviations of h, b_k and l_j, of the natural logarithm. */
typedef struct {
  double hands, kind, piece; /* each > 0 */
} BwHandsSpread;

/* 0.013, 0.013 and √(0.02² − 2·0.013²): together the 2 % with which a pitch is believed before
 * anything is known (common practice, no source). */
BwHandsSpread bw_hands_usual_spread (void);

/* One reading of one piece: y and its standard error. */
typedef struct {
  double y, sd; /* sd > 0 */
} BwHandsReading;

/* A strip of `rows` rows that measures length_mm ± error_mm from edge to edge, of beads of this
 * diameter: y = ln (2 length / ((rows + 1) diameter)), sd = error / length. All > 0. */
BwHandsReading bw_hands_strip (int rows, double length_mm, double error_mm, double diameter_mm);

/* A finished piece that closed with beads_around beads, the fewest that did, on a ring which just
 * closes with these at closing_pitch_mm, p*. A bead less would have closed from p* n/(n − 1) on, so
 * the pitch woven lies between the two, and most likely in the middle, within the girth's error and
 * that step: y = ln (p* n/(n − ½) / diameter), sd = hypot (girth_sd, p* / √12) / (n p*). All > 0,
 * girth_sd_mm ≥ 0. */
BwHandsReading bw_hands_finished (int beads_around, double closing_pitch_mm, double girth_sd_mm,
                                  double diameter_mm);

/* What is known of one piece. A piece without readings says nothing and may stand in the list. */
typedef struct {
  int kind;      /* 0 ≤ kind < n_kinds */
  double y;      /* precision-weighted mean of its readings */
  double weight; /* sum of their precisions, 1/sd²; 0 when there are none */
} BwHandsPiece;

/* Adds a reading to a piece, which begins as { kind, 0, 0 }. */
void bw_hands_add (BwHandsPiece *piece, BwHandsReading reading);

typedef struct {
  double mean, sd;
} BwHandsBelief;

/* The posterior of the hands and, for each kind, of the *next* piece of it: h + b_k + l_new. With
 * no pieces the hands are 0 ± spread.hands and a next piece 0 ± all three together. */
typedef struct {
  BwHandsBelief hands;
  BwHandsBelief *next; /* n_kinds of them; owned */
  int n_kinds;
} BwHands;

/* Fills self from n_pieces pieces of n_kinds kinds (n_kinds may exceed the kinds that occur). */
void bw_hands_init (BwHands *self, BwHandsSpread spread, const BwHandsPiece *pieces, int n_pieces,
                    int n_kinds);
void bw_hands_clear (BwHands *self);

/* From so many pieces with readings on the spread is estimated too. */
#define BW_HANDS_FIT_FROM 20

/* The spread that makes the pieces most likely, looked for on a grid of factors of the usual one
 * and shrunk towards that with the weight of ten: s² = (m ŝ² + 10 s₀²) / (m + 10), where m counts
 * what the spread was seen in: pieces with readings for the pieces', their kinds for the kinds',
 * and one pair of hands for the hands'. Shrunk by the pieces throughout, a maker of one or two
 * kinds would be told a third by far too surely. *fitted tells whether there were enough; without,
 * the usual spread is returned. O(pieces), but for a factor. */
BwHandsSpread bw_hands_fit_spread (const BwHandsPiece *pieces, int n_pieces, int n_kinds,
                                   gboolean *fitted);

/* Natural logarithm of the pieces' likelihood under a spread, up to a constant that does not depend
 * on it. */
double bw_hands_log_likelihood (BwHandsSpread spread, const BwHandsPiece *pieces, int n_pieces,
                                int n_kinds);

/* The belief about a next piece as a pitch of beads of this diameter: mm = diameter × e^mean, sd_mm
 * = mm × sd. */
typedef struct {
  double mm, sd_mm;
} BwHandsPitch;
BwHandsPitch bw_hands_pitch (BwHandsBelief next, double diameter_mm);
