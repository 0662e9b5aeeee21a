/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Needle, necklace and findings in words, for every list that shows them. All owned, translated. */
#pragma once

#include "project/document/length.h"
#include "project/project.h"

/* "size 12 (0.36 mm) or finer", or why none of the trade's goes. */
/* What is cut off a spool, rounded up: metres to the centimetre, or feet to the tenth. */
char *bw_cut_words (double mm, BwUnit unit);
char *bw_needle_words (const BwMaterials *materials, BwUnit unit);
/* "457 mm, closed with knots that take 150 mm more". */
char *bw_necklace_words (const BwSupply *supply, BwUnit unit);
/* "at least 8.5 mm inside, of 1.2 mm wire; a cord of up to 2.3 mm passes it". Owned. */
char *bw_ring_size_words (const BwHangRing *ring, BwUnit unit);

/* Both NULL where there is nothing to buy. */
char *bw_ring_words (const BwMaterials *materials, BwUnit unit);
char *bw_clasp_words (const BwMaterials *materials, const BwDesign *design, BwUnit unit);
/* "5 h 10 min" of work for all pieces. */
char *bw_hours_words (double hours);
