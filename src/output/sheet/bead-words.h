/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads in words with a picture of each colour's bead before its name: "3 ▭ Night water". Private
 * to the sheets of this room. */
#pragma once

#include "project/document/tray.h"
#include <pango/pangocairo.h>

typedef struct _BwBeadWords BwBeadWords;

/* tray is borrowed and must outlive it. Without pictures the words are only set well. */
BwBeadWords *bw_bead_words_new (const BwTray *tray, gboolean pictures);
void bw_bead_words_free (BwBeadWords *words);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwBeadWords, bw_bead_words_free)

/* A layout of text as bw_words_runs() writes it, with whatever stands before the first count; it
 * must not outlive `words`. A count is never parted from its colour. Owned. */
PangoLayout *bw_bead_words_layout (BwBeadWords *words, cairo_t *cr, const char *text, double width);
/* The same in large type, each colour by its bead with the letter and no name: "▭ · 3▭". */
PangoLayout *bw_bead_words_bench (BwBeadWords *words, cairo_t *cr, const char *text, double width);
