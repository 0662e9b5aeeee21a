/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's own kinds of bead, for programs and people. */
#pragma once

#include "output/report/answer.h"
#include "project/book/book.h"

/* The members that make of an answer a book that can be read in. */
void bw_report_book_head (BwAnswer *json);

/* name: that kind alone; NULL: all. NULL when there is none of that name. As JSON it is a book of
 * these alone. Owned. */
char *bw_report_beads (const BwBook *book, const char *name, gboolean json);
/* A line each, sizes in mm, after RFC 4180; the same in every locale. Owned. */
char *bw_report_beads_csv (const BwBook *book);
