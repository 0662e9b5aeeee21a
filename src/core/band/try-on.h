/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The try-on: the strip is laid round the bed where the stone under the band is widest, and the
 * maker reads by how much its ends miss each other or overlap. */
#pragma once

#include "core/band/odds.h"

/* A reading in beads of a column, as it is taken by eye; a bead is one pitch of the design's. */
BwReading bw_reading_beads (const BwDesign *design, double short_beads, BwTriedHow how);

/* A fault at /progress/rows_done when a strip of `rows` rows cannot overlap by so much, or when
 * there is no strip yet. */
gboolean bw_reading_validate (const BwReading *reading, const BwDesign *design, int rows,
                              BwFault *fault);

typedef struct {
  int rows;                  /* to end with: even, at least 6 */
  int change;                /* rows to add (positive) or to pick out (negative) to get there */
  double closes_probability; /* of that count, after the reading */
  double snug_probability;   /* that it closes and grips */
  double pulled_mm;          /* what pulling must then still close; ≤ 0: nothing */
  double over_mm;     /* what the strip is then longer than the way round; ≤ 0: it is not */
  double bed_mm;      /* how much thicker the bed must be for it to grip; 0: it grips as it is */
  double stay_bed_mm; /* how much thicker instead of picking rows out; 0: nothing is to be picked
                         out, or an odd row is among them */
  double more_bed_mm; /* how much thicker with two rows more, where no count is likely to be snug
                         and this one does not close; 0: neither */
  double astray_mm;   /* by how much the reading contradicts the forecast: short of it (positive) or
                         over it by more than three standard errors; 0: it does not */
} BwTryOn;

/* What to do with a strip of `rows` rows that was read so. A bead more is two rows and one pitch of
 * length; an odd row counts with half a bead, since it raises beads on both ends. All is reckoned
 * in what is missing when the strip is pulled, bead by bead as the fit has it: a pulled reading
 * says it, and from a slack one the pull of the column that decides is taken off, as bw_fit_init()
 * has it.
 *
 * The reading is weighed with the forecast as "core/band/odds.h" says: the forecast's error is
 * bw_forecast_sigma_mm() with the girth known as well as two measurements of it make it. A pulled
 * reading's is hypot (tool, hand). A slack one's is the tool's alone; what its pull will give is as
 * little known as in the forecast, bw_forecast_pull_sd_mm(), and stands aside while the two are
 * weighed, for it is one and the same error. More than three standard errors off the forecast
 * contradicts it, and counts alone: something measured is wrong, and the strip round the stone
 * knows better. From two and a half on the forecast fades, so that what is told does not jump
 * there.
 *
 * A count is right when it closes and grips: the tightest column lacks no more than pulling gives,
 * the loosest no less than −slack. The count most
 * likely to be right is best; among those right with 99 % and more the one nearest to what is
 * woven; and where the stone tapers so much that none is right with 1 %, the one most likely to be
 * the fewest rows that close. So the count changes only where two are as likely right, to within
 * that one per cent, and never falls when more is read to be missing. Where
 * a strip is longer by more than the slack, a bed thicker by the excess / 2π takes it up (exact
 * round every convex section: Steiner's formula for parallel bodies).
 *
 * short_mm is bounded to half of what the limits of rows allow. */
void bw_try_on_init (BwTryOn *try_on, const BwDesign *design, const BwStone *stone, int rows,
                     const BwReading *reading);

/* The words of the file and of the command line, in the order of the values. */
extern const char *const bw_tried_how_words[];  /* "slack", "pulled", NULL */
extern const char *const bw_tried_tool_words[]; /* "eye", "calliper", NULL */

/* A reading that is kept: it was taken when so many rows were woven; rows 0: there is none. */
typedef struct {
  int rows;
  BwReading reading;
} BwTried;

/* What the reading teaches, weighed with all that is measured: bw_try_on_init() in other words. The
 * design's own belief is not looked at. */
BwBelief bw_tried_belief (const BwDesign *design, const BwStone *stone, const BwTried *tried);

/* The same reading as it would have been with `rows` rows, and over what the other design winds or
 * where that lays the band: moved by as much as the forecasts of the two differ. */
BwTried bw_tried_carry (const BwTried *tried, const BwDesign *before, const BwDesign *after,
                        const BwStone *stone, int rows);

/* By how many beads a strip of `rows` rows can overlap at most: three must be left to go round. */
double bw_try_on_most_over (int rows);

/* Makes the bed thicker by by_mm > 0: one layer of cord, or each of its layers, becomes so much
 * thicker that together they do; a girth measured over the bed is dropped, because it no longer
 * holds. FALSE with a fault of the bed when the bed cannot be so thick; *design is then as it was.
 */
gboolean bw_try_on_thicken (BwDesign *design, const BwStone *stone, double by_mm, BwFault *fault);
