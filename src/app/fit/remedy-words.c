/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/fit/remedy-words.h"

#include "output/report/remedy-also.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static char *
rows_words (const BwRemedy *remedy, const BwDesign *now)
{
  int rows = remedy->design.band.rows, more = rows - now->band.rows;
  if (more > 0)
    return g_strdup_printf (_ ("Weave %d rows (%d more)"), rows, more);
  return g_strdup_printf (_ ("Weave %d rows (%d fewer)"), rows, -more);
}

static char *
bed_words (double change_mm, BwUnit unit)
{
  g_autofree char *by = bw_length_format (fabs (change_mm), unit, 2);
  if (change_mm < 0)
    return g_strdup_printf (_ ("Make the bed %s thinner"), by);
  return g_strdup_printf (_ ("Make the bed %s thicker"), by);
}

static char *
grade_alone_words (const BwRemedy *remedy, BwUnit unit)
{
  g_autofree char *extra = bw_length_format (fabs (remedy->value), unit, 2);
  int rows = remedy->design.band.rows;
  if (remedy->value < 0)
    return g_strdup_printf (_ ("Make the bed %s thicker at the lower edge, weave %d rows"), extra,
                            rows);
  if (remedy->value > 0)
    return g_strdup_printf (_ ("Make the bed %s thicker at the top edge, weave %d rows"), extra,
                            rows);
  return g_strdup_printf (_ ("Lay the bed evenly, weave %d rows"), rows);
}

/* Layers and grade together, where the grade alone would take away more bed than there is. */
static char *
grade_words (const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  g_autofree char *alone = grade_alone_words (remedy, unit);
  int layers = remedy->design.bed.layers;
  if (layers == now->bed.layers)
    return g_steal_pointer (&alone);
  /* Translators: the second is "Make the bed … thicker at the lower edge, weave … rows". */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Wind %d layer of cord. %s",
                                       "Wind %d layers of cord. %s", (gulong)layers),
                          layers, alone);
}

static char *
move_words (double bottom_mm, double now_mm, BwUnit unit)
{
  g_autofree char *to = bw_length_format (bottom_mm, unit, 2);
  if (bottom_mm > now_mm)
    return g_strdup_printf (_ ("Move the band up to %s"), to);
  return g_strdup_printf (_ ("Move the band down to %s"), to);
}

static char *
alone_words (const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  const BwDesign *then = &remedy->design;
  switch (remedy->kind) {
  case BW_REMEDY_ROWS:
    return rows_words (remedy, now);
  case BW_REMEDY_BED:
    return bed_words (remedy->value, unit);
  case BW_REMEDY_LAYERS:
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Wind %d layer of cord",
                                         "Wind %d layers of cord", (gulong)then->bed.layers),
                            then->bed.layers);
  case BW_REMEDY_GRADE:
    return grade_words (remedy, now, unit);
  case BW_REMEDY_MOVE:
    return move_words (then->band.bottom_mm, now->band.bottom_mm, unit);
  case BW_REMEDY_BEAD:
  default:
    return g_strdup_printf (_ ("Use %s beads: %d columns, %d rows"), then->bead.name,
                            then->band.columns, then->band.rows);
  }
}

char *
bw_remedy_words_do (const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  return bw_remedy_with_also (alone_words (remedy, now, unit), remedy, now, unit);
}

char *
bw_remedy_words_gives (const BwRemedy *remedy, BwUnit unit)
{
  gboolean snug = remedy->verdict == BW_VERDICT_SNUG;
  const char *verdict = snug ? _ ("Snug on paper") : bw_fit_words_verdict (remedy->verdict);
  g_autofree char *gaps = bw_fit_words_gaps (remedy->gap_min_mm, remedy->gap_max_mm, unit);
  g_autofree char *gives = g_strdup_printf ("%s, %s", verdict, gaps);
  if (!remedy->voids_girth_over)
    return g_steal_pointer (&gives);
  return g_strdup_printf (_ ("%s; the girth measured over the bed no longer holds"), gives);
}

char *
bw_remedy_words_promise (const BwRemedy *remedy, const BwFitTold *told, BwUnit unit)
{
  if (remedy->kind == BW_REMEDY_ROWS && remedy->design.band.rows == told->safer_rows)
    return g_strdup_printf (_ ("The safer count: it closes with %.0f %%, if a little long"),
                            100 * told->safer);
  return bw_remedy_words_gives (remedy, unit);
}
