/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads in words at the bench: each colour by a picture of its bead with the letter, "3▭ · ▭".
 * Private to the sheets of this room. */
#pragma once

#include "project/document/tray.h"
#include <pango/pangocairo.h>

typedef struct _BwBeadWords BwBeadWords;

/* tray is borrowed and must outlive it. Without pictures the words are only set well. */
BwBeadWords *bw_bead_words_new (const BwTray *tray, gboolean pictures);
void bw_bead_words_free (BwBeadWords *words);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwBeadWords, bw_bead_words_free)

/* A layout, in large type, of text as bw_words_runs() writes it ("3 Night water, 1 Lamp glass"),
 * with whatever stands before the first count; without pictures each colour by its printed letter
 * alone. It must not outlive `words`. A count is never parted from its bead. Owned. */
PangoLayout *bw_bead_words_bench (BwBeadWords *words, cairo_t *cr, const char *text, double width);
