/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of the trade, explained where they stand. */
#pragma once

/* "peyote", "pitch", "bed", "bail", "splay", "zip", "join": its name and what it means here,
 * translated; NULL for another. */
const char *bw_term_name (const char *term);
const char *bw_term_meaning (const char *term);
