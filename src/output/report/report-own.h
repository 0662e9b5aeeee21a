/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's own trays, stones and habits, for programs and people: as JSON a book of these alone,
 * to be read in elsewhere. */
#pragma once

#include "project/book/book.h"

/* Each owned. */
char *bw_report_trays (const BwBook *book, gboolean json);
char *bw_report_stones (const BwBook *book, gboolean json);
char *bw_report_habits (const BwBook *book, gboolean json);
