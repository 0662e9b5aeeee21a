/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a number is in JSON, and how it and a text are written (RFC 8259, sections 6 and 7), the
 * same in every locale and for everything that is written: projects, answers of the tool, models.
 */
#pragma once

#include <glib.h>

/* Where the number that begins at `from` ends, by the grammar alone; NULL when none begins there.
 */
const char *bw_json_scan_number (const char *from, const char *end);

/* Appends a finite number in the fewest digits that read back as the same double. */
void bw_json_append_number (GString *text, double number);

/* Appends a finite number rounded to so many significant digits, 1..17. */
void bw_json_append_rounded (GString *text, double number, int digits);

/* Appends UTF-8 text in quotation marks. What a terminal would obey and not show is escaped, C1
 * controls (U+0080 to U+009F) too. */
void bw_json_append_text (GString *text, const char *string);
