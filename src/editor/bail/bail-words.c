/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the bail is, in words: what the status line shows and what a screen reader speaks. */
#include "config.h"

#include "editor/bail/bail-words.h"

#include "core/bail/bail-place.h"
#include "core/base/lattice.h"
#include "project/place-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A row counted on through the join, as the maker counts it. */
static int
maker_row (double row, int period)
{
  return bw_lattice_wrap (1 + (int)lround (row - 1), period);
}

static char *
rows_words (const BwDesign *design, const BwBailBase *base, int period)
{
  int first = maker_row (base->first_row, period), last = maker_row (base->last_row, period);
  gboolean join = first > last;
  if (design->bail.style == BW_BAIL_OVER)
    return g_strdup_printf (_ ("goes over the tip from row %d to row %d"), first, last);
  if (design->bail.style == BW_BAIL_UPRIGHT)
    return g_strdup_printf (_ ("stands over row %d"),
                            maker_row ((base->first_row + base->last_row) / 2, period));
  return g_strdup_printf (
      join ? _ ("from row %d over the join to row %d") : _ ("from row %d to row %d"), first, last);
}

char *
bw_bail_place_words (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  int period = 2 * bw_lattice_beads_around (design->band.rows);
  const BwBailBase *base = bw_project_bail_base (project);
  if (!base)
    return g_strdup (_ ("There is no bail yet: choose its style."));
  g_autofree char *rows = rows_words (design, base, period);
  g_autofree char *face = bw_place_words (project, design->bail.at_deg);
  if (design->bail.style == BW_BAIL_OVER)
    /* Translators: rows ("goes over the tip from row 3 to row 9"), the place on the stone, the
     * azimuth. */
    return g_strdup_printf (_ ("Bail %s, %s (%.10g°)"), rows, face, design->bail.at_deg);
  /* Translators: rows ("from row 3 to row 9"), columns, the place on the stone, the azimuth. */
  return g_strdup_printf (_ ("Bail %s, columns %d to %d, %s (%.10g°)"), rows, (int)base->bottom + 1,
                          (int)base->top, face, design->bail.at_deg);
}

void
bw_bail_words_tell (BwUnrolled *unrolled, const char *note)
{
  BwProject *project = bw_unrolled_view (unrolled)->project;
  g_autofree char *place = bw_bail_place_words (project);
  /* The description too: GTK 4.8 passes values on for its own widgets alone. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (unrolled), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  bw_project_get_design (project)->bail.at_deg,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, place,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, place, -1);
  bw_unrolled_tell (unrolled, note ? note : place);
}
