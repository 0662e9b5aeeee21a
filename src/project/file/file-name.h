/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names as they are shown: always text, whatever bytes the disk has, and never wider than a
 * sentence can bear. */
#pragma once

#include <gio/gio.h>

/* The file's own name without its folder. Owned. */
char *bw_file_shown (GFile *file);
/* The same without a project's ending. Owned. */
char *bw_file_stem (GFile *file);
/* The words, or their beginning and end with “…” between them when they have more than most
 * characters. Owned. */
char *bw_words_shortened (const char *words, int most);
