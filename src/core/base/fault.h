/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong with a measurement or a design, said in values alone: which key, which of its
 * values, what kind of wrong, and the numbers that show it. The core knows neither how a key is
 * written in a file nor a language; "project/fault/fault-words.h" makes the JSON Pointer and the
 * sentence of a fault. */
#pragma once

#include <glib.h>

/* Every key a fault can lie at, named as in the project file. */
typedef enum {
  BW_AT_STONE_FACES,
  BW_AT_STONE_MEASURED,
  BW_AT_STONE_VALUES, /* a list */
  BW_AT_STONE_AT,
  BW_AT_STONE_SECOND_GIRTH,
  BW_AT_STONE_SECOND_AT,
  BW_AT_STONE_LENGTH,
  BW_AT_STONE_SHOULDER,
  BW_AT_STONE_NATURAL_ANGLE,
  BW_AT_STONE_APEX_OFFSET, /* a list of two */
  BW_AT_STONE_BASE_SHOULDER,
  BW_AT_STONE_BASE_APEX_OFFSET, /* a list of two */
  BW_AT_STONE_GIRTH_SD,
  BW_AT_STONE_DENSITY,
  BW_AT_LOOK_GROWTH_LINES,
  BW_AT_LOOK_VEILS,
  BW_AT_LOOK_NEEDLES,
  BW_AT_LOOK_CHIPS,
  BW_AT_LOOK_SEED,
  BW_AT_BEAD_DIAMETER,
  BW_AT_BEAD_LENGTH,
  BW_AT_BEAD_HOLE,
  BW_AT_BEAD_GLASS,
  BW_AT_GAUGE_COLUMN,
  BW_AT_GAUGE_PITCH,
  BW_AT_HANDS_PITCH,
  BW_AT_HANDS_PITCH_SD,
  BW_AT_SWATCH_COLUMNS,
  BW_AT_SWATCH_WIDTH,
  BW_AT_SWATCH_ROWS,
  BW_AT_SWATCH_LENGTH,
  BW_AT_BED_CORD_THICKNESS,
  BW_AT_BED_CORD_WIDTH,
  BW_AT_BED_LAYERS,
  BW_AT_BED_GIRTH_OVER,
  BW_AT_BED_TOP_EXTRA,
  BW_AT_BED_SQUEEZE,
  BW_AT_BED_OVERHANG,
  BW_AT_BED_HANDS_SQUEEZE,
  BW_AT_BED_HANDS_SD,
  BW_AT_BED_PULLED_GIRTH,
  BW_AT_BED_PULLED_SLACK,
  BW_AT_BED_PULLED_PULLED,
  BW_AT_BAND_COLUMNS,
  BW_AT_BAND_ROWS,
  BW_AT_BAND_BOTTOM,
  BW_AT_BAND_SEAM,
  BW_AT_BAIL_COLUMNS,
  BW_AT_BAIL_ROWS,
  BW_AT_BAIL_BASE_BEADS,
  BW_AT_BAIL_AT,
  BW_AT_BAIL_CORD,
  BW_AT_BAIL_CLEARANCE,
  BW_AT_THREAD_DIAMETER,
  BW_AT_THREAD_NEEDLE,
  BW_AT_THREAD_WORKING,
  BW_AT_THREAD_TAIL,
  BW_AT_THREAD_STRETCH,
  BW_AT_THREAD_HANDS_STRETCH,
  BW_AT_THREAD_HANDS_SD,
  BW_AT_THREAD_PULLED_SLACK,
  BW_AT_THREAD_PULLED_PULLED,
  BW_AT_FIT_SLACK,
  BW_AT_FIT_FRICTION,
  BW_AT_MATERIALS_SPARE,
  BW_AT_MATERIALS_PACK_G,
  BW_AT_MATERIALS_PIECES,
  BW_AT_MATERIALS_NECK,
  BW_AT_MATERIALS_CLOSING,
  BW_AT_PRICES_PACK,
  BW_AT_PRICES_THREAD,
  BW_AT_PRICES_BED_CORD,
  BW_AT_PRICES_STONE,
  BW_AT_PRICES_HOUR,
  BW_AT_PRICES_ROWS_PER_HOUR,
  BW_AT_PRICES_PACE_COLUMNS,
  BW_AT_PRICES_HANGING_CORD,
  BW_AT_PRICES_FINDINGS,
  BW_AT_PRICES_MARKUP,
  BW_AT_PRICES_ROUND_TO,
  BW_AT_PROGRESS_ROWS_DONE,
  BW_AT_PROGRESS_CHECKS,
  BW_AT_MOTIF_COLOURS, /* from here on members of a motif */
  BW_AT_MOTIF_FIRST_COLUMN,
  BW_AT_MOTIF_LAST_COLUMN,
  BW_AT_MOTIF_REPEATS,
  BW_AT_MOTIF_CENTRE,
  BW_AT_MOTIF_SIZE,
  BW_AT_MOTIF_REACH,
  BW_AT_MOTIF_SLOPE,
  BW_AT_MOTIF_DENSITY,
  BW_AT_MOTIF_FACES,
  BW_AT_MOTIF_TEXT,
  BW_N_FAULT_KEYS,
} BwFaultKey;

/* Kinds of wrong, each with the numbers it tells, in order. Lengths are mm, angles degrees; faces
 * count from 0. The first is about one value alone, all others about how values stand together,
 * but for those that say so. */
typedef enum {
  BW_FAULTY_RANGE,          /* value, least, most; about one value */
  BW_FAULTY_ODD_COLUMNS,    /* columns of a band or swatch; about one value */
  BW_FAULTY_ODD_BAIL,       /* columns of a bail; about one value */
  BW_FAULTY_HALF_BEADS,     /* a base that is no whole number of half beads; about one value */
  BW_FAULTY_NO_SHOULDER,    /* nothing: a value is missing */
  BW_FAULTY_NO_FLATS,       /* faces, odd */
  BW_FAULTY_FACE_VANISHES,  /* face, its width */
  BW_FAULTY_SAME_HEIGHT,    /* the height of both girths */
  BW_FAULTY_TAPERS_AWAY,    /* nothing */
  BW_FAULTY_POINT_TOO_LONG, /* natural angle, the point's length, the stone's */
  BW_FAULTY_SHOULDER_HIGH,  /* shoulder, the stone's length */
  BW_FAULTY_POINTS_MEET,    /* where the lower point ends, shoulder */
  BW_FAULTY_OFF_PRISM,      /* height, where the prism begins, where it ends */
  BW_FAULTY_TIP_OUT,        /* how far, over which face, how far is allowed */
  BW_FAULTY_NO_GLASS,       /* hole, diameter */
  BW_FAULTY_GIRTH_UNDER,    /* girth over the bed, the stone's own there */
  BW_FAULTY_GIRTH_FAR,      /* girth over the bed, the stone's own there */
  BW_FAULTY_BED_UNDER,      /* grade, thickness at the thinner edge */
  BW_FAULTY_HOLE_TOO_SMALL, /* what shall go through, hole */
  BW_FAULTY_BAND_WIDE,      /* columns, the band's width, the stone's length */
  BW_FAULTY_BAND_HIGH,      /* the band's width, where it begins, where it may begin at most */
  BW_FAULTY_ROUND_LONG,     /* pitch, the round, the rows allowed */
  BW_FAULTY_BAND_NARROW,    /* the band's columns, too few for any bail */
  BW_FAULTY_BAIL_WIDE,      /* the bail's columns, the band's, how many are allowed */
  BW_FAULTY_STRIP_WIDE,     /* an upright bail's columns, their width, the way round the band */
  BW_FAULTY_BASE_WIDE,      /* base of an upright bail in columns, the band's columns */
  BW_FAULTY_BASE_LONG,      /* base in beads, the band's beads around */
  BW_FAULTY_LOOP_SHORT,     /* rows, the loop's length, its base */
  BW_FAULTY_NO_STRIP,       /* nothing: no rows are woven; about one value */
  BW_FAULTY_OVERLAP,        /* rows woven, beads they cannot lie over themselves; about one value */
  BW_FAULTY_FACE_NARROW,    /* face, too narrow for a motif */
  BW_FAULTY_FACES_OPEN,     /* nothing: the faces do not go once round */
  BW_FAULTY_NO_TEXT,        /* nothing */
  BW_FAULTY_NO_LETTER,      /* the character the alphabet lacks */
  BW_FAULTY_TEXT_HIGH,      /* columns a text needs, columns it is given */
  BW_FAULTY_TEXT_LONG,      /* rows a text needs, rows there are */
  BW_N_FAULT_KINDS,
} BwFaultKind;

#define BW_WHOLE (-1) /* the key as a whole, not one value of a list */

typedef struct {
  BwFaultKind kind;
  BwFaultKey key;
  int index; /* of a value in the key's list, from 0; else BW_WHOLE */
  double number[3];
} BwFault;

/* Takes a fault of a key as a whole down in *fault, which may be NULL; 0 for numbers that the kind
 * does not tell. Always FALSE, to be returned at once. */
gboolean bw_fault_is (BwFault *fault, BwFaultKind kind, BwFaultKey key, double first, double second,
                      double third);

/* The same of one value of a list. */
gboolean bw_fault_of (BwFault *fault, BwFaultKind kind, BwFaultKey key, int index, double first,
                      double second, double third);

/* TRUE when lo ≤ value ≤ hi and value is finite; else FALSE with a BW_FAULTY_RANGE at the key. */
gboolean bw_check_range (double value, double lo, double hi, BwFaultKey key, BwFault *fault);

/* The same of one value of a list. */
gboolean bw_check_range_of (double value, double lo, double hi, BwFaultKey key, int index,
                            BwFault *fault);
