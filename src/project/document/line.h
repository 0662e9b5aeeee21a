/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts of a project: titles and names, one line each. */
#pragma once

#include <glib.h>

/* Characters of a title or a mineral's name; more than a sheet's head shows. */
#define BW_LINE_MAX 200

/* TRUE when the UTF-8 text is one line of visible characters; else a BW_FAULT_RANGE at pointer. A
 * control character would be obeyed by a terminal, and break a line that nobody can see. */
gboolean bw_line_check (const char *text, const char *pointer, GError **error);

/* The UTF-8 text with spaces for what bw_line_check() refuses: to be told where it would be obeyed.
 * Owned. */
char *bw_line_tell (const char *text);

/* As much of a UTF-8 text as there is room for, in whole characters. */
void bw_copy_text (char *to, gsize bytes, const char *text);

/* The text as a title may be: UTF-8, spaces for what bw_line_check() refuses, cut after BW_LINE_MAX
 * characters. NULL is taken for "". Owned. */
char *bw_line_make (const char *text);
