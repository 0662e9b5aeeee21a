/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Shows words in lines, each number on one line with its unit. */
void bw_label_set_words (GtkLabel *label, const char *words);
