/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers that decide whether the group is worth opening, and no more. */
#include "config.h"

#include "app/make/make-lines.h"

#include "output/report/material-words.h"
#include "output/sheet/cautions.h"

#include <glib/gi18n-lib.h>

static int
colours_used (BwProject *project)
{
  const BwMaterials *materials = bw_project_materials (project);
  int used = 0;
  for (int i = 0; i < bw_project_get_tray (project)->n_colours; i++)
    used += materials->need[i].count > 0;
  return used;
}

static char *
list_line (BwProject *project)
{
  const BwMaterials *materials = bw_project_materials (project);
  int colours = colours_used (project);
  gulong packs = (gulong)materials->total_packs;
  g_autofree char *in_packs
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%lu pack", "%lu packs", packs), packs);
  /* Translators: beads in all, of how many colours, and in how many packs. */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%lu beads of %d colour, %s",
                                       "%lu beads of %d colours, %s", (gulong)colours),
                          (gulong)materials->total_with_spare, colours, in_packs);
}

static char *
cost_line (BwProject *project)
{
  const BwSupply *supply = &bw_project_get_design (project)->supply;
  const BwMaterials *materials = bw_project_materials (project);
  g_autofree char *pieces = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d piece", "%d pieces", (gulong)supply->pieces),
      supply->pieces);
  if (!materials->has_cost)
    return g_strdup_printf (_ ("%s, %.0f %% to spare; the cost is not worked out"), pieces,
                            100 * supply->spare);
  /* Translators: how many pieces, the price of one, the currency. */
  return g_strdup_printf (_ ("%s, %.2f %s each"), pieces, materials->cost.piece, supply->currency);
}

static char *
necklace_line (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  if (design->bail.style == BW_BAIL_NONE)
    return g_strdup (_ ("none: the piece has no bail"));
  return bw_necklace_words (&design->supply, unit);
}

/* What the thread or the list warns of comes before the cautions of the trade. */
static char *
care_line (BwProject *project, BwUnit unit)
{
  int grave;
  g_auto (GStrv) warnings
      = bw_project_warnings_about (project, BW_TOPIC_THREAD | BW_TOPIC_MATERIALS, unit);
  g_auto (GStrv) cautions = bw_cautions_new (project, &grave);
  return g_strdup (warnings[0] ? warnings[0] : cautions[0] ? cautions[0] : "");
}

static char *
words_line (BwProject *project)
{
  int rows = bw_project_get_design (project)->band.rows;
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d row, from the bed to the last end",
                                       "%d rows, from the bed to the last end", (gulong)rows),
                          rows);
}

static char *
cover_line (BwProject *project)
{
  GString *line = g_string_new (NULL);
  for (BwAbout about = 0; about < BW_N_ABOUT; about++) {
    const char *words = bw_project_get_about (project, about);
    if (*words)
      g_string_append_printf (line, "%s%s", line->len > 0 ? " · " : "", words);
  }
  if (line->len == 0)
    g_string_append (line, _ ("maker, licence, version: nothing is told yet"));
  return g_string_free (line, FALSE);
}

char *
bw_make_line (BwMakeLine line, BwProject *project, BwUnit unit)
{
  switch (line) {
  case BW_MAKE_LIST:
    return list_line (project);
  case BW_MAKE_COST:
    return cost_line (project);
  case BW_MAKE_NECKLACE:
    return necklace_line (project, unit);
  case BW_MAKE_CARE:
    return care_line (project, unit);
  case BW_MAKE_COVER:
    return cover_line (project);
  case BW_MAKE_WORDS:
  default:
    return words_line (project);
  }
}
