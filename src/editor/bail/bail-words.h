/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the bail is, in words. */
#pragma once

#include "editor/cloth/unrolled.h"

/* "Bail from row 118 to row 4, columns 5 to 10, face 4"; owned. */
char *bw_bail_place_words (BwProject *project);

/* Tells it to the status label and to a screen reader; note, when not NULL, to the label instead.
 */
void bw_bail_words_tell (BwUnrolled *unrolled, const char *note);
