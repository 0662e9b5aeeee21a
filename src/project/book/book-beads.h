/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's own kinds of bead (see bead-kind.h). */
#pragma once

#include "project/book/bead-kind.h"
#include "project/book/book.h"

guint bw_book_n_beads (const BwBook *book);
const char *bw_book_bead_name (const BwBook *book, guint i); /* borrowed */
void bw_book_get_bead (const BwBook *book, guint i, BwBeadKind *kind);
/* Its place; −1 when none has this name. */
int bw_book_find_bead (const BwBook *book, const char *name);

/* Puts a kind in the place of `before`, which was read from the book some time ago; before NULL: at
 * the end; kind NULL: before is taken out. FALSE with an error, and nothing done, when before is
 * not there any more as it was, the kind is not sound, or its name is another's. */
gboolean bw_book_change_bead (BwBook *book, const BwBeadKind *before, const BwBeadKind *kind,
                              GError **error);

/* All of them as sizes to choose from. An owned array of BwBead. */
GArray *bw_book_bead_sizes (const BwBook *book);
