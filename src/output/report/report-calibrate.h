/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what the maker's book told of the hands came true. */
#pragma once

#include "project/book/book.h"

/* As readable text or as one JSON object: pieces, mean_z, sd_z, within_1_sd, within_2_sd, finished,
 * right_told, right_came, tenths [{n, told, came}]; what was not foretold is null. Owned. */
char *bw_report_calibrate (const BwBook *book, gboolean json);
