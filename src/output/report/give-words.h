/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much bed and thread give, in the maker's words. */
#pragma once

#include "project/book/book.h"
#include "project/document/length.h"

/* "1.2 % ± 0.2 %". Owned. */
char *bw_give_words (BwGive give);
/* What is learnt of both in this design, and where from; NULL where nothing is. Owned. */
char *bw_give_words_learnt (const BwDesign *design);
/* What the book knows of one thread or one cord. Owned. */
char *bw_give_words_thread (const BwBookGive *thread, BwUnit unit);
char *bw_give_words_cord (const BwBookGive *cord, BwUnit unit);
