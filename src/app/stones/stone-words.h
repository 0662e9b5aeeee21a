/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A kept stone in words. */
#pragma once

#include "project/book/book-stones.h"
#include "project/document/length.h"

/* "waiting". Translated, borrowed. */
const char *bw_stone_state_words (BwStoneState state);
/* "waiting · quartz · 6 faces, 58 mm long, 80 mm round · 2026-11-29 · smoky.jpg". Owned. */
char *bw_stone_words (const BwKeptStone *stone, BwUnit unit);
