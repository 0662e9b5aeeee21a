/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first four name what goes wrong at the bench, the others what goes wrong afterwards. Small
 * parts and neck cords: 16 CFR 1501.4 and EN 71-1 (toys) give the idea, not a rule for jewellery.
 */
#include "config.h"

#include "output/cautions.h"

#include "output/sheet-private.h"

#include <glib/gi18n-lib.h>

#define TOGETHER 200.0 /* the whole list, points */

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
  g_strv_builder_add (cautions, _ ("Know your mineral. Some are soft or cleave at a knock, some "
                                   "dissolve or dull in water, some are not for the skin. When in "
                                   "doubt keep it dry and away from heat, acid and ultrasonic "
                                   "cleaners."));
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
  g_strv_builder_add (cautions, _ ("Grip, thread and balance are estimates. Tug the finished piece "
                                   "over something soft, and look over cord and thread for wear "
                                   "before each wearing."));
}

char **
bw_cautions_new (BwProject *project)
{
  g_autoptr (GStrvBuilder) cautions = g_strv_builder_new ();
  add_bench (cautions, &bw_project_get_design (project)->bed);
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

void
bw_sheet_add_cautions (BwFlow *flow, BwProject *project)
{
  g_auto (GStrv) cautions = bw_cautions_new (project);
  bw_flow_heading (flow, _ ("Mind"), TOGETHER);
  for (char **caution = cautions; *caution; caution++)
    bw_flow_item (flow, "!", *caution, 10);
  bw_flow_text (flow, BW_TYPE_SMALL, bw_cautions_deference ());
}
