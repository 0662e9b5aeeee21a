/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a folded group of the Make stage holds, in one line. */
#pragma once

#include "project/document/length.h"
#include "project/project.h"

typedef enum {
  BW_MAKE_LIST,
  BW_MAKE_COST,
  BW_MAKE_NECKLACE,
  BW_MAKE_CARE,
  BW_MAKE_WORDS,
  BW_MAKE_COVER,
  BW_N_MAKE_LINES,
} BwMakeLine;

/* Owned, translated, without a line break. */
char *bw_make_line (BwMakeLine line, BwProject *project, BwUnit unit);
