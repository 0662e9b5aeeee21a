/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogues are checked against the formats they translate, which a compiler cannot see. */
#include "project/document/filled.h"

char *
bw_filled (const char *format, const char *word)
{
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  return g_strdup_printf (format, word);
#pragma GCC diagnostic pop
}
