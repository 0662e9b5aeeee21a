/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The same words, with each number kept on one line with its unit ("18.2 mm", "15 %", "2 h 5 min")
 * and a sign with what stands on either side of it ("L − 1"): the blank between them does not
 * break. For whatever is set in lines; text for other programs keeps plain blanks. Owned. */
char *bw_units_kept (const char *words);
