/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths as people type and read them: millimetres or inches, fractions, the user's decimal sign.
 */
#pragma once

#include <glib.h>

#define BW_MM_PER_INCH 25.4 /* exactly */

typedef enum { BW_UNIT_MM, BW_UNIT_INCH } BwUnit;

/* Reads "9.5", "9,5 mm", "3/8\"", "1 3/8 in", "0.375in", "2 cm" into millimetres; a bare number is
 * in `unit`. FALSE with a BW_FAULT_RANGE (pointer "") for anything else; expressions are not taken.
 * The result is finite; its range is the caller's affair. */
gboolean bw_length_parse (const char *text, BwUnit unit, double *mm, GError **error);

/* A number to be rounded for reading: where it lies at a half, whatever reckoning made of that, it
 * is rounded away from zero. Without this 83.25 typed is 83.2 and 83.25 reckoned is 83.3. */
double bw_length_half_up (double value);

/* Writes a length in `unit` with its sign ("9.5 mm", "0.374 in"), the user's decimal point, at most
 * `decimals` decimals in mm (one more in inches), trailing zeros dropped. Owned. */
char *bw_length_format (double mm, BwUnit unit, int decimals);
