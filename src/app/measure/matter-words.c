/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/measure/matter-words.h"

#include "output/report/give-words.h"

#include "project/place-words.h"

#include <glib/gi18n-lib.h>

/* The parts that say something, apart by points. Takes the parts. */
static char *
join (char *first, char *second, char *third)
{
  char *parts[] = { first, second, third };
  GString *line = g_string_new (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++) {
    if (parts[i] && *parts[i])
      g_string_append_printf (line, "%s%s", line->len ? " · " : "", parts[i]);
    g_free (parts[i]);
  }
  return g_string_free (line, FALSE);
}

static char *
stone_words (BwProject *project, BwUnit unit)
{
  const BwStone *stone = bw_project_stone (project);
  g_autofree char *girth = bw_length_format (stone->girth_mm, unit, 1);
  return join (g_strdup (bw_project_get_mineral (project)),
               g_strdup_printf (_ ("%.1f g"), stone->mass_g),
               g_strdup_printf (_ ("girth %s"), girth));
}

static char *
bead_size (const BwBead *bead, BwUnit unit)
{
  g_autofree char *diameter = bw_length_format (bead->diameter_mm, unit, 2);
  return *bead->name ? g_strdup_printf (_ ("%s, %s"), bead->name, diameter)
                     : g_strdup_printf (_ ("beads of %s"), diameter);
}

static char *
gauge_words (const BwGauge *gauge, const char *pitch)
{
  if (gauge->has_swatch)
    return g_strdup_printf (_ ("swatch %s"), pitch);
  /* Translators: the distance from bead to bead that this maker's hands are known to weave. */
  return gauge->has_hands ? g_strdup_printf (_ ("your hands %s"), pitch)
                          : g_strdup (_ ("no swatch yet"));
}

static char *
bead_words (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  int columns = design->band.columns;
  g_autofree char *size = bead_size (&design->bead, unit);
  g_autofree char *pitch = bw_length_format (design->gauge.pitch_mm, unit, 3);
  return join (g_strdup_printf (ngettext ("%s, %d column", "%s, %d columns", (gulong)columns), size,
                                columns),
               gauge_words (&design->gauge, pitch), NULL);
}

/* How much a bed gives, or a thread, once it was learnt; else NULL. */
static char *
give_words (BwGive give)
{
  return give.sd > 0 ? bw_give_words (give) : NULL;
}

static char *
bed_layers (const BwBed *bed, BwUnit unit)
{
  g_autofree char *cord = bw_length_format (bed->cord_thickness_mm, unit, 2);
  g_autofree char *over = bw_length_format (bed->girth_over_mm, unit, 1);
  if (bed->has_girth_over)
    return g_strdup_printf (_ ("girth over it %s"), over);
  if (bed->layers == 0)
    return g_strdup (_ ("none"));
  return g_strdup_printf (
      ngettext ("%d layer of %s cord", "%d layers of %s cord", (gulong)bed->layers), bed->layers,
      cord);
}

static char *
bed_words (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  double mm = bw_bed_cord_mm (&design->bed, bw_project_stone (project), bw_design_span (design));
  g_autofree char *cord = bw_length_format (mm, unit, 0);
  g_autofree char *give = give_words ((BwGive){ design->bed.squeeze, design->bed.squeeze_sd });
  return join (bed_layers (&design->bed, unit),
               mm > 0 ? g_strdup_printf (_ ("cut %s"), cord) : NULL,
               give ? g_strdup_printf (_ ("gives %s"), give) : NULL);
}

/* What was learnt takes the place of the longest length: a line holds no more. */
static char *
last_of_thread (const BwThread *thread, const char *working)
{
  g_autofree char *give = give_words ((BwGive){ thread->stretch, thread->stretch_sd });
  return give ? g_strdup_printf (_ ("stretches by %s"), give)
              : g_strdup_printf (_ ("lengths up to %s"), working);
}

static char *
thread_words (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  g_autofree char *thread = bw_length_format (design->thread.diameter_mm, unit, 3);
  g_autofree char *needle = bw_length_format (design->thread.needle_mm, unit, 3);
  g_autofree char *working = bw_length_format (design->thread.working_mm, unit, 0);
  return join (g_strdup_printf (_ ("%s thread"), thread), g_strdup_printf (_ ("%s needle"), needle),
               last_of_thread (&design->thread, working));
}

static char *
piece_words (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  int rows = design->band.rows;
  g_autofree char *place = bw_place_words (project, design->band.seam_deg);
  return join (g_strdup (bw_project_get_title (project)),
               g_strdup_printf (ngettext ("%d row", "%d rows", (gulong)rows), rows),
               g_strdup_printf (_ ("Join: %s (%.4g°)"), place, design->band.seam_deg));
}

char *
bw_matter_words (BwMatter matter, BwProject *project, BwUnit unit)
{
  static char *(*const words[BW_N_MATTERS]) (BwProject * project, BwUnit unit) = {
    [BW_MATTER_STONE] = stone_words,   [BW_MATTER_BEAD] = bead_words,   [BW_MATTER_BED] = bed_words,
    [BW_MATTER_THREAD] = thread_words, [BW_MATTER_PIECE] = piece_words,
  };
  return words[matter](project, unit);
}
