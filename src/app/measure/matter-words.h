/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a maker measures, each matter told in one line, for when its group is folded. */
#pragma once

#include "project/project.h"

typedef enum {
  BW_MATTER_STONE,
  BW_MATTER_BEAD,
  BW_MATTER_BED,
  BW_MATTER_THREAD,
  BW_MATTER_PIECE,
  BW_N_MATTERS,
} BwMatter;

/* Owned; no end stop. */
char *bw_matter_words (BwMatter matter, BwProject *project, BwUnit unit);
