/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/report/remedy-also.h"

#include "core/base/tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Rows and columns of another bead, grade and layers of a grade are in its kind's own words. */
static gboolean
tells (BwRemedyKind kind, gboolean of_bed)
{
  if (kind == BW_REMEDY_MOVE)
    return TRUE;
  return of_bed ? kind == BW_REMEDY_BEAD : kind == BW_REMEDY_LAYERS;
}

static char *
grade_words (double extra_mm, BwUnit unit)
{
  g_autofree char *extra = bw_length_format (fabs (extra_mm), unit, 2);
  if (fabs (extra_mm) < BW_ROUNDING_MM)
    return g_strdup (_ ("a level bed"));
  return g_strdup_printf (extra_mm < 0 ? _ ("the bed %s thicker at the lower edge")
                                       : _ ("the bed %s thicker at the top edge"),
                          extra);
}

static void
list_bed (GPtrArray *parts, const BwBed *then, const BwBed *now, BwUnit unit)
{
  if (then->layers != now->layers)
    g_ptr_array_add (parts,
                     g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d layer of cord",
                                                   "%d layers of cord", (gulong)then->layers),
                                      then->layers));
  if (fabs (then->top_extra_mm - now->top_extra_mm) >= BW_ROUNDING_MM)
    g_ptr_array_add (parts, grade_words (then->top_extra_mm, unit));
}

static void
list_band (GPtrArray *parts, const BwBand *then, const BwBand *now)
{
  if (then->columns != now->columns)
    g_ptr_array_add (parts, g_strdup_printf (_ ("%d columns"), then->columns));
  if (then->rows != now->rows)
    g_ptr_array_add (parts, g_strdup_printf (_ ("%d rows"), then->rows));
}

char *
bw_remedy_with_also (char *what, const BwRemedy *remedy, const BwDesign *now, BwUnit unit)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *alone = what;
  if (remedy->joint && tells (remedy->kind, TRUE))
    list_bed (parts, &remedy->design.bed, &now->bed, unit);
  if (remedy->joint && tells (remedy->kind, FALSE))
    list_band (parts, &remedy->design.band, &now->band);
  if (parts->len == 0)
    return g_steal_pointer (&alone);
  g_ptr_array_add (parts, NULL);
  g_autofree char *list = g_strjoinv (", ", (char **)parts->pdata);
  /* Translators: what to do, and what goes with it: "Move the band up to 12 mm; with it 2 layers
   * of cord, 116 rows". */
  return g_strdup_printf (_ ("%s; with it %s"), alone, list);
}
