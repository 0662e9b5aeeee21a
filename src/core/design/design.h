/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything the numbers depend on, in one plain value: copied by assignment, compared by its
 * meaning, no pointers. The drawing itself (which bead has which colour) is not in it. */
#pragma once

#include "core/design/bail.h"
#include "core/design/bead.h"
#include "core/design/bed.h"
#include "core/design/gauge.h"
#include "core/stone/stone-look.h"
#include "core/stone/stone.h"

typedef struct {
  int columns;      /* W, even */
  int rows;         /* woven or planned; even to close */
  double bottom_mm; /* lower edge of the band */
  double seam_deg;  /* azimuth of the join */
} BwBand;

typedef struct {
  double diameter_mm;
  double needle_mm;
  double working_mm; /* longest length to work with */
  double tail_mm;
  double stretch;    /* ε; 0.01 is common practice, no source */
  double stretch_sd; /* of ε once it is learnt, and then by bw_design_give(); 0: it is not */
  gboolean has_hands;
  BwGive hands; /* what the pieces woven before say of ε */
  gboolean has_pulled;
  BwStretchReading pulled; /* what was measured of it */
} BwThread;

typedef struct {
  double slack_mm; /* 0.8 is common practice, no source */
  double friction; /* μ; an assumption, not a published value */
} BwFitLimits;

#define BW_CURRENCY_BYTES 16

/* How the hanging cord is closed behind the neck. */
typedef enum { BW_CLOSING_KNOT, BW_CLOSING_SLIDING, BW_CLOSING_CLASP } BwClosing;

/* Bounds of a necklace: no shorter goes round a neck, no longer is worn (common practice, no
 * source). */
#define BW_NECK_MIN_MM 250
#define BW_NECK_MAX_MM 2000
#define BW_CLOSING_MAX_MM 1000

#define BW_MARKUP_MAX 100

typedef struct {
  double spare;  /* share, 0.10 */
  double pack_g; /* grams in a pack */
  int pieces;
  double neck_mm; /* length of the necklace, closed */
  BwClosing closing;
  double closing_mm; /* cord beyond the necklace's length, for both ends together */
  gboolean has_prices;
  char currency[BW_CURRENCY_BYTES];
  double pack, thread_per_m, bed_cord_per_m, stone, hour, rows_per_hour; /* prices; rows/h > 0 */
  int pace_columns; /* of the band that rows_per_hour was told of; 0: whatever the band has */
  double hanging_cord_per_m, findings; /* prices; findings: ring and clasp of one piece */
  double markup;   /* what is asked beyond the cost, as a share of it, 0..BW_MARKUP_MAX */
  double round_to; /* the price is a whole number of these; 0: as it comes */
} BwSupply;

/* The band gets another width: a pace that was told of the band at hand is that of its old one from
 * now on. */
void bw_supply_keep_pace (BwSupply *supply, int columns_before, int columns);

/* What a try-on taught about the way round the stone that the strip has to close: derived from the
 * reading by bw_tried_belief() and no key of its own. */
typedef struct {
  gboolean is_told;
  double longer_mm; /* the way round is so much longer than stone and bed alone foretell */
  double sd_mm;     /* how sure that is, the error of the pitch in it */
  int beads_around; /* the count most likely to close and grip */
} BwBelief;

typedef struct {
  BwStoneMeasures stone;
  BwStoneLook look;
  BwBead bead;
  BwGauge gauge;
  BwPitch pitch; /* what fit uses; derived from gauge and checks by bw_gauge_pitch() */
  BwBelief tried;
  BwBed bed;
  BwBand band;
  BwBail bail;
  BwThread thread;
  BwFitLimits limits;
  BwSupply supply;
} BwDesign;

/* The defaults of every key that has one; stone, bead and columns still want filling. */
void bw_design_defaults (BwDesign *design);

/* Brings squeeze and stretch, and how sure they are, in line with what hands and readings say of
 * them; without either they stay. A reading that cannot be is left to bw_design_validate(). */
void bw_design_give (BwDesign *design);

/* Takes away what was learnt of either; the value is then what is usual. */
void bw_bed_unlearn (BwBed *bed);
void bw_thread_unlearn (BwThread *thread);

BwBandSpan bw_design_span (const BwDesign *design);

/* What both ends of a hanging cord take, by the way it is closed: knots 150 mm, two sliding knots
 * 300 mm, cord ends with a clasp 30 mm. Common practice, no source. */
double bw_closing_usual_mm (BwClosing closing);

/* Every range and every joint condition: the stone can be, the band lies on it (fault at
 * /band/bottom_mm or /band/columns), columns even, the bed is nowhere negative, the needle and
 * thread go through an empty hole, no more than BW_ROWS_MAX rows go round (fault at
 * /gauge/pitch_mm), the bail arches over a base that lies on the band, a strip of its own
 * reaches no more than once round it. The first fault found is
 * reported. stone, when not NULL, receives the solved stone. */
gboolean bw_design_validate (const BwDesign *design, BwStone *stone, BwFault *fault);

/* The most columns its bail can have, even: a flap leaves a column free on either side, a strip
 * of its own goes round the stone once. 0: none. */
int bw_design_bail_columns_most (const BwDesign *design);

/* The ranges of spare, packs, pieces, necklace and, when there are some, prices: a part of the
 * above. */
gboolean bw_supply_validate (const BwSupply *supply, BwFault *fault);

/* The bottom_mm that centres the band on the prism; moved as little as keeps a band wider than the
 * prism on the stone. */
double bw_design_centred_bottom (const BwDesign *design, const BwStone *stone);
