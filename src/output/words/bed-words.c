/* SPDX-License-Identifier: GPL-3.0-or-later */
/* "More turns there" leaves a maker to guess; heights and turns can be wound. */
#include "config.h"

#include "output/words/bed-words.h"

#include "core/base/tolerance.h"
#include "core/design/bed-layers.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>
#include <math.h>

gboolean
bw_bed_is_graded (const BwBed *bed)
{
  return fabs (bed->top_extra_mm) > BW_ROUNDING_MM;
}

static char *
thicker_words (const BwBed *bed, BwUnit unit)
{
  g_autofree char *by = bw_text_length (fabs (bed->top_extra_mm), unit, 2);
  return g_strdup_printf (bed->top_extra_mm > 0
                              ? _ ("The bed is graded, %s thicker at the upper edge than at "
                                   "the lower:")
                              : _ ("The bed is graded, %s thicker at the lower edge than at "
                                   "the upper:"),
                          by);
}

/* A grade of less than half a cord is no turn more. */
static char *
too_little_words (const BwBed *bed, BwUnit unit)
{
  g_autofree char *by = bw_text_length (fabs (bed->top_extra_mm), unit, 2);
  return g_strdup_printf (
      bed->top_extra_mm > 0
          ? _ ("It should be %s thicker at the upper edge than at the lower: less than half a "
               "cord, so no turn of a further layer is wound, and the bed is even:")
          : _ ("It should be %s thicker at the lower edge than at the upper: less than half a "
               "cord, so no turn of a further layer is wound, and the bed is even:"),
      by);
}

/* Whether some layer leaves part of the bed, so many millimetres wide, free. */
static gboolean
has_short_layer (const BwBedLayer *layers, int n, double width)
{
  for (int i = 0; i < n; i++)
    if (layers[i].high_mm - layers[i].low_mm < width - BW_ROUNDING_MM)
      return TRUE;
  return FALSE;
}

static void
append_layer (GString *text, int number, const BwBedLayer *layer, BwUnit unit)
{
  g_autofree char *low = bw_text_length (layer->low_mm, unit, 1);
  g_autofree char *high = bw_text_length (layer->high_mm, unit, 1);
  g_string_append (text, number > 1 ? "; " : " ");
  g_string_append_printf (
      text,
      /* Translators: which layer, its turns, from and to which height. */
      g_dngettext (GETTEXT_PACKAGE, "layer %d, %d turn, from %s to %s above the base",
                   "layer %d, %d turns, from %s to %s above the base", (gulong)layer->turns),
      number, layer->turns, low, high);
}

char *
bw_bed_grade_words (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  BwBedLayer layers[BW_BED_LAYERS_LISTED];
  int n = bw_bed_layers (&design->bed, bw_project_stone (project), bw_design_span (design), layers);
  double width = bw_bed_width_mm (&design->bed, bw_design_span (design));
  g_autofree char *thicker = n == 0 || has_short_layer (layers, n, width)
                                 ? thicker_words (&design->bed, unit)
                                 : too_little_words (&design->bed, unit);
  GString *text = g_string_new (thicker);
  for (int i = 0; i < n; i++)
    append_layer (text, i + 1, &layers[i], unit);
  if (n == 0)
    g_string_append_printf (text, " %s", _ ("nowhere as much as half a cord, so wind no turn"));
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}
