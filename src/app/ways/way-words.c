/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-words.h"

#include "output/report/report-ways.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

char *
bw_way_words_band (const BwDesign *design)
{
  if (!*design->bead.name)
    return g_strdup_printf (_ ("%d columns of your own bead"), design->band.columns);
  return g_strdup_printf (_ ("%d columns of %s"), design->band.columns, design->bead.name);
}

static char *
layers_words (const BwBed *bed)
{
  if (bed->has_girth_over)
    return g_strdup (_ ("on the bed as measured"));
  if (bed->layers == 0)
    return g_strdup (_ ("on the bare stone"));
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "on %d layer of cord",
                                       "on %d layers of cord", (gulong)bed->layers),
                          bed->layers);
}

char *
bw_way_words_bed (const BwDesign *design, BwUnit unit)
{
  double extra = design->bed.top_extra_mm;
  g_autofree char *bottom = bw_length_format (design->band.bottom_mm, unit, 1);
  g_autofree char *layers = layers_words (&design->bed);
  g_autofree char *thicker = bw_length_format (fabs (extra), unit, 2);
  /* Translators: such as "114 rows from 12 mm up, on 1 layer of cord". */
  g_autofree char *plain
      = g_strdup_printf (_ ("%d rows from %s up, %s"), design->band.rows, bottom, layers);
  if (extra > 0)
    return g_strdup_printf (_ ("%s, %s thicker at the top edge"), plain, thicker);
  if (extra < 0)
    return g_strdup_printf (_ ("%s, %s thicker at the lower edge"), plain, thicker);
  return g_steal_pointer (&plain);
}

char *
bw_way_words_hang (const BwWay *way)
{
  const char *style = bw_report_ways_bail (way->design.bail.style);
  if (!way->hangs)
    return g_strdup (style);
  g_autofree char *hangs = bw_hang_words (way->up, way->tilt_deg);
  return g_strdup_printf ("%s: %s", style, hangs);
}

/* What the stash gives, and what is to be bought beyond it. */
static char *
stash_price (const BwWay *way, const BwWayLook *look, const char *hours)
{
  g_autofree char *beads
      = look->covered ? g_strdup_printf (_ ("all %.1f g of beads from the stash"), look->stash_g)
                      : g_strdup_printf (_ ("%.1f g of beads from the stash, %.0f beads to buy"),
                                         look->stash_g, (double)look->beads);
  if (!look->has_cost)
    return g_strdup_printf ("%s · %s", beads, hours);
  return g_strdup_printf ("%s · %s · %.2f %s", beads, hours, look->cost,
                          way->design.supply.currency);
}

char *
bw_way_words_price (const BwWay *way, const BwWayLook *look)
{
  g_autofree char *hours = g_strdup_printf (_ ("%.1f h"), look ? look->hours : way->worth.hours);
  if (!look)
    return g_strdup_printf (_ ("%.0f beads · %s"), way->worth.beads, hours);
  if (look->stash_g > 0)
    return stash_price (way, look, hours);
  if (!look->has_cost)
    return g_strdup_printf (_ ("%.0f beads to buy · %s"), (double)look->beads, hours);
  return g_strdup_printf (_ ("%.0f beads to buy · %s · %.2f %s"), (double)look->beads, hours,
                          look->cost, way->design.supply.currency);
}

char *
bw_way_words_cover (const BwWay *way)
{
  return g_strdup_printf (_ ("covers %.0f %% of the stone"), 100 * way->coverage);
}
