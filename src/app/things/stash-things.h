/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is there to work with, as things of the workshop. */
#pragma once

#include "app/things/things.h"

extern const BwThings bw_stash_things;

/* What it is, "beads" or "bed cord". Borrowed. */
const char *bw_stash_what_words (BwStashWhat what);
/* So much of such a thing: "12.5 g", "3.20 m", "2". Owned. */
char *bw_stash_amount_words (BwStashWhat what, double amount);
