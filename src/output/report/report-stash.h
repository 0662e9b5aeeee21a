/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's stash, for programs and people. */
#pragma once

#include "project/book/book.h"

/* As JSON it is a book of the stash alone. Owned. */
char *bw_report_stash (const BwBook *book, gboolean json);
/* A line each after RFC 4180, lengths in metres; the same in every locale. Owned. */
char *bw_report_stash_csv (const BwBook *book);
