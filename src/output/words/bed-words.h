/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A graded bed as it is wound: the same sentence on every page and in the words. */
#pragma once

#include "project/document/length.h"
#include "project/project.h"

/* Whether the bed is thicker at one edge. */
gboolean bw_bed_is_graded (const BwBed *bed);

/* How much thicker, and which layer goes from where to where. Owned, translated. */
char *bw_bed_grade_words (BwProject *project, BwUnit unit);
