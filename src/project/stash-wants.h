/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a project wants of the maker's stash, and what a finished piece took from it. */
#pragma once

#include "project/book/book-stash.h"
#include "project/project.h"

/* All that the materials list: of each colour used the grams, spare included, in the order of the
 * tray; then each BwStashWhat but beads, in its order. An owned array of BwStashWant whose names
 * are the project's. */
GArray *bw_stash_wants_new (BwProject *project, const BwMaterials *materials);

/* What one piece takes: beads without those to spare, cord and thread as they are cut; the stopper
 * bead comes off again. From this stash, as far as it goes. *taking is to be cleared. date as
 * bw_observed_today() gives it. */
void bw_stash_taking_init (BwStashTaking *taking, BwProject *project, const BwStash *stash,
                           const char *date);
