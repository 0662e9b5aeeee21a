/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Words to be set in lines: each number is kept on one line with its unit, and a share that ends a
 * line with the word before it. Owned. */
char *bw_words_kept (const char *words);
/* Shows words so. */
void bw_label_set_words (GtkLabel *label, const char *words);
