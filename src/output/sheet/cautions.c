/* SPDX-License-Identifier: GPL-3.0-or-later */
/* First why a stone is not for wearing at all, then what goes wrong at the bench, then what goes
 * wrong afterwards. Small parts and neck cords: 16 CFR 1501.4 and EN 71-1 (toys) give the idea, not
 * a rule for jewellery. Dust of stones: respirable crystalline silica is an IARC Group 1 carcinogen
 * (NIOSH Hazard Review 2002-129). Metals on the skin: Regulation (EC) 1907/2006 Annex XVII, entries
 * 23, 27 and 63. */
#include "config.h"

#include "output/sheet/cautions.h"

#include "output/sheet/sheet-parts.h"

#include <glib/gi18n-lib.h>

#define MOST_TOGETHER 0.32 /* of a page that stays empty for them to stand together */
#define LAST_TOGETHER 4    /* cautions */
#define INDENT 10.0
#define AFTER_CAUTION 3.0

static void
add_bench (GStrvBuilder *cautions, const BwBed *bed)
{
  if (bed->layers > 0 || bed->has_girth_over)
    g_strv_builder_add (cautions, _ ("Waxed cord burns. No flame near it, and none near your work "
                                     "to seal a thread: cut and weave in."));
  g_strv_builder_add (cautions, _ ("Never force a needle through a bead: glass splinters. Wear "
                                   "glasses when a bead must be broken, and count your needles "
                                   "before you leave the table."));
  g_strv_builder_add (cautions,
                      _ ("Do not cut, drill or sand the stone for this piece: the dust of "
                         "many minerals harms the lungs."));
}

static gboolean
has_metal (const BwDesign *design)
{
  return design->bail.style != BW_BAIL_NONE
         && (design->bail.style == BW_BAIL_RING || design->supply.closing == BW_CLOSING_CLASP);
}

static void
add_wear (GStrvBuilder *cautions, const BwDesign *design)
{
  g_strv_builder_add (cautions,
                      _ ("Beads, needles and the finished piece are small parts, and a cord "
                         "round the neck can strangle: not for children under three, and "
                         "for no child unwatched."));
  g_strv_builder_add (cautions,
                      _ ("Do not sleep, climb or work at machines in it; a clasp that "
                         "opens under a pull is wise. Stop wearing it if the skin reacts."));
  if (design->bail.style == BW_BAIL_RING)
    g_strv_builder_add (cautions,
                        _ ("A metal ring rubs beading thread through. Take a closed, smooth "
                           "ring, and look the loop over for wear from time to time."));
  if (has_metal (design))
    g_strv_builder_add (cautions, _ ("Ring and clasp lie on the skin: ask for metal that keeps to "
                                     "the limits on nickel, lead and cadmium."));
  g_strv_builder_add (cautions, _ ("Grip, thread and balance are estimates. Tug the finished piece "
                                   "over something soft, and look over cord and thread for wear "
                                   "before each wearing."));
}

char **
bw_cautions_new (BwProject *project, int *n_grave)
{
  const char *name = bw_project_get_mineral (project);
  g_autoptr (GStrvBuilder) cautions = g_strv_builder_new ();
  g_auto (GStrv) grave = bw_mineral_cautions_grave (name);
  g_auto (GStrv) mineral = bw_mineral_cautions (name);
  if (n_grave)
    *n_grave = (int)g_strv_length (grave);
  g_strv_builder_addv (cautions, (const char **)grave);
  add_bench (cautions, &bw_project_get_design (project)->bed);
  g_strv_builder_addv (cautions, (const char **)mineral);
  add_wear (cautions, bw_project_get_design (project));
  return g_strv_builder_end (cautions);
}

const char *
bw_cautions_deference (void)
{
  return _ (
      "These lines are no substitute for the rules where you live, for what the makers of your "
      "materials print on them, or for somebody licensed to judge stones, metals or the safety "
      "of what you sell. Where they differ, follow those.");
}

/* How much of a page they take. */
static double
cautions_height (const BwFlow *flow, char **cautions)
{
  double all = 0;
  for (char **caution = cautions; *caution; caution++) {
    int height;
    g_autoptr (PangoLayout) layout
        = bw_type_layout (flow->cr, BW_TYPE_TEXT, *caution, flow->width - INDENT);
    pango_layout_get_size (layout, NULL, &height);
    all += pango_units_to_double (height) + AFTER_CAUTION;
  }
  return all;
}

void
bw_sheet_add_cautions (BwFlow *flow, BwProject *project)
{
  g_auto (GStrv) cautions = bw_cautions_new (project, NULL);
  double empty
      = MOST_TOGETHER * (flow->bottom - flow->top) - bw_flow_heading_height (flow, _ ("Take Care"));
  bw_flow_heading (flow, _ ("Take Care"), MIN (cautions_height (flow, cautions), empty));
  bw_flow_text (flow, BW_TYPE_SMALL, bw_cautions_deference ());
  for (char **caution = cautions; *caution; caution++) {
    /* The last are never alone on a page. */
    if (g_strv_length (caution) == LAST_TOGETHER)
      bw_flow_room (flow, cautions_height (flow, caution));
    bw_flow_item (flow, "!", *caution, INDENT);
  }
}
