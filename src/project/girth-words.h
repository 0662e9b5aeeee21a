/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two girths of one stone that do not agree, in a sentence. */
#pragma once

#include "core/stone/stone.h"
#include "project/document/length.h"

/* By how much they differ, and what each is used for; NULL where they agree, or the stone cannot be
 * solved. Owned. */
char *bw_girth_words (const BwStoneMeasures *measures, BwUnit unit);
