/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/help-words.h"

#include <glib/gi18n-lib.h>

char *
bw_help_words (const BwHelp *help)
{
  switch (help->kind) {
  case BW_HELP_SWATCH:
    return g_strdup_printf (_ ("Weave a swatch of %d rows and measure it by ruler"), help->rows);
  case BW_HELP_SWATCH_CALLIPER:
    return g_strdup_printf (_ ("Weave a swatch of %d rows and measure it by calliper"), help->rows);
  case BW_HELP_STRIP:
    return g_strdup_printf (_ ("Measure the strip once %d rows are woven"), help->rows);
  case BW_HELP_FLATS:
    return g_strdup (_ ("Measure the stone across its flats by calliper"));
  case BW_HELP_GIRTH_AGAIN:
    return g_strdup (_ ("Measure the girth once more and take the mean"));
  case BW_HELP_STRETCH:
    return g_strdup_printf (_ ("Measure a swatch of %d rows slack and pulled, by calliper"),
                            help->rows);
  case BW_HELP_SQUEEZE:
    return g_strdup (
        _ ("Measure the girth over the bed, slack and under a pulled strip, by calliper"));
  case BW_HELP_GIRTH_OVER:
  default:
    return g_strdup (_ ("Measure the girth over the bed"));
  }
}

const char *
bw_help_tool_word (BwHelpKind kind)
{
  if (kind == BW_HELP_SWATCH_CALLIPER || kind == BW_HELP_STRETCH || kind == BW_HELP_SQUEEZE)
    return bw_strip_tool_words[BW_STRIP_BY_CALLIPER];
  if (kind == BW_HELP_SWATCH || kind == BW_HELP_STRIP)
    return bw_strip_tool_words[BW_STRIP_BY_RULER];
  return NULL;
}
