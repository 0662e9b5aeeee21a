/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead in words. */
#pragma once

#include "project/project.h"

/* "Row 12, column 5, face 3, Night water"; owned by the caller. NULL when the band has no such
 * bead: views may ask about one that a new measurement has just taken away. */
char *bw_band_words (BwProject *project, int row, int column);
