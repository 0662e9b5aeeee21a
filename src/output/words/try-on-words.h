/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a strip is tried on: the same sentences wherever they are said, so that what the maker reads
 * is what the program takes it for. Borrowed, translated. */
#pragma once

/* Pulling at every second row until the ends meet. */
const char *bw_try_on_words_procedure (void);

/* The same in short, at each such row after the first. */
const char *bw_try_on_words_again (void);

/* What is read in between, and that it is told how. */
const char *bw_try_on_words_reading (void);
