/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the command line: which options were given, with what values, and what is left. */
#pragma once

#include "core/bail/hang.h"
#include "core/band/try-on.h"
#include "core/pattern/anew.h"
#include "output/page/sheet.h"
#include "preview/fine/turntable.h"

#define BW_USAGE (bw_usage_quark ())

/* Wrong usage: every error of this domain ends the program with status 2. */
typedef enum { BW_USAGE_WRONG } BwUsageCode;

GQuark bw_usage_quark (void);

typedef enum {
  BW_OPTION_JSON = 1 << 0,
  BW_OPTION_CSV = 1 << 1,
  BW_OPTION_ROWS = 1 << 2,
  BW_OPTION_SECTION = 1 << 3,
  BW_OPTION_ALL = 1 << 4,
  BW_OPTION_PIECES = 1 << 5,
  BW_OPTION_OUTPUT = 1 << 6,
  BW_OPTION_SIZE = 1 << 7,
  BW_OPTION_TURN = 1 << 8,
  BW_OPTION_TIP = 1 << 9,
  BW_OPTION_HELP = 1 << 10,
  BW_OPTION_VERSION = 1 << 11,
  BW_OPTION_PAPER = 1 << 12,
  BW_OPTION_KIT = 1 << 13,
  BW_OPTION_READING = 1 << 14,
  BW_OPTION_HOW = 1 << 15,
  BW_OPTION_UNIT = 1 << 16,
  BW_OPTION_TOOL = 1 << 17,
  BW_OPTION_GROUND = 1 << 18,
  BW_OPTION_VIEW = 1 << 19,
  BW_OPTION_BOOK = 1 << 20,
  BW_OPTION_SEED = 1 << 21,
  BW_OPTION_LIMIT = 1 << 22,
  BW_OPTION_WANT = 1 << 23,
  BW_OPTION_STONE = 1 << 24,
  BW_OPTION_BY_HAND = 1 << 25,
  BW_OPTION_LARGE = 1 << 26,
  BW_OPTION_SPARING = 1 << 27,
  BW_OPTION_COSTS = 1 << 28,
  BW_OPTION_FINE = 1 << 29,
  BW_OPTION_TURNTABLE = 1 << 30,
  BW_OPTION_FRAMES = 1u << 31,
  BW_OPTION_BEAD = 1ull << 32,
  BW_OPTION_FROM = 1ull << 33,
  BW_OPTION_PLAY = 1ull << 34,
  BW_OPTION_UNITS = 1ull << 35,
  BW_OPTION_LIGHT = 1ull << 36,
  BW_OPTION_NEAR = 1ull << 37,
} BwOption;

#define BW_PICTURE_MIN 16
#define BW_PICTURE_MAX 8192
#define BW_NEAR_MOST 20

typedef struct {
  guint64 given; /* flags of BwOption */
  int rows, pieces;
  double section_mm, turn_deg, tip_deg;
  int width, height;
  int frames;         /* of a turntable or of the weaving; BW_TURNTABLE_USUAL unless given */
  BwGround ground;    /* clear unless given */
  gboolean by_lamp;   /* else by day */
  double near;        /* so many times as large as the whole piece fits; 1 unless given */
  const char *view;   /* "front", "join", "above" or "rest"; borrowed, NULL unless given */
  BwPaper paper;      /* A4 unless given */
  BwUnit units;       /* of what is read; millimetres unless given */
  double reading;     /* of a try-on: short, negative over */
  BwTriedHow how;     /* slack unless given */
  gboolean in_beads;  /* the reading; else millimetres */
  BwTriedTool tool;   /* as goes with the unit unless given */
  int kit;            /* makers in a class; 0: no kit sheet */
  const char *output; /* borrowed from argv */
  BwWant want;        /* of ways: how the piece is to hang */
  int seed, limit;    /* of ways: 0 and 8 unless given */
  const char *book;   /* borrowed from argv; NULL: the user's own */
  const char *stone;  /* a project file; borrowed from argv */
  const char *bead;   /* a name; borrowed from argv, NULL unless given */
  const char *from;   /* another book; borrowed from argv */
  BwAnewWay by_hand;  /* repeated unless given */
  GPtrArray *words;   /* what is not an option, borrowed from argv */
} BwOptions;

/* Options may stand anywhere; "--" ends them; the last of a repeated option holds. Errors are
 * BW_USAGE. *options is to be cleared in either case. */
gboolean bw_options_parse (BwOptions *options, int argc, char **argv, GError **error);
void bw_options_clear (BwOptions *options);

/* An error that names the first option of `given` that is not in `allowed`; TRUE when all are. */
gboolean bw_options_check (const BwOptions *options, guint64 allowed, const char *command,
                           GError **error);

/* Appends a line of help for each option in `which`. */
void bw_options_describe (GString *text, guint64 which);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwOptions, bw_options_clear)
