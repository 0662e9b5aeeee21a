/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comma-separated values after RFC 4180: CRLF, fields quoted where they must be. */
#pragma once

#include <glib.h>

/* Appends one record of n fields; a NULL field is empty. Text that a spreadsheet would evaluate
 * (it begins, blanks aside, with = + - @, their full-width forms, a tab, a CR or an LF) gets an
 * apostrophe first, which spreadsheets take as "this is text". */
void bw_csv_record (GString *text, const char *const *fields, int n_fields);

/* A number as programs write it, or an empty field where it is not known. Owned. */
char *bw_csv_number (double value, gboolean known);
