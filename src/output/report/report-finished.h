/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished pieces of a maker's book, one a record. */
#pragma once

#include "project/book/book.h"

/* Comma-separated values: date, title, bead, rows, rows planned, chance told, hours, cost, price,
 * currency, fate, picture. What is not known is empty; numbers are written as in a file. Owned. */
char *bw_report_finished_csv (const BwBook *book);
