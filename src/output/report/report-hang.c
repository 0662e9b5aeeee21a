/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the finished piece hangs: its mass and balance, the bail's opening, the tilt at rest, whether
 * the band stays on the stone, and at which height of the band it would hang otherwise. */
#include "config.h"

#include "core/band/finished.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const char *
style_word (BwBailStyle style)
{
  static const char *const words[] = {
    [BW_BAIL_NONE] = "none", [BW_BAIL_FLAP] = "flap", [BW_BAIL_UPRIGHT] = "upright",
    [BW_BAIL_RING] = "ring", [BW_BAIL_OVER] = "over",
  };
  return words[style];
}

static const char *
up_word (BwUp up)
{
  static const char *const words[]
      = { [BW_UP_TIP] = "tip", [BW_UP_BASE] = "base", [BW_UP_LEVEL] = "level" };
  return words[up];
}

static const char *
thin_word (BwThinEnd end)
{
  static const char *const words[]
      = { [BW_THIN_NEITHER] = NULL, [BW_THIN_TIP] = "tip", [BW_THIN_BASE] = "base" };
  return words[end];
}

static const char *
want_word (BwWant want)
{
  static const char *const words[]
      = { [BW_WANT_LEVEL] = "level", [BW_WANT_TIP_DOWN] = "tip-down", [BW_WANT_TIP_UP] = "tip-up" };
  return words[want];
}

static void
json_rest (BwAnswer *json, const BwHang *hang)
{
  gboolean hangs = hang->has_bail;
  bw_answer_number_if (json, hangs, "tilt_deg", hang->tilt_deg);
  bw_answer_number_if (json, hangs, "off_deg", bw_hang_off_deg (hang->tilt_deg));
  bw_answer_string (json, "up", hangs ? up_word (hang->up) : NULL);
  if (hangs)
    bw_answer_boolean (json, "level", hang->level);
  else
    bw_answer_null (json, "level");
  bw_answer_number_if (json, hang->has_margin, "margin_mm", hang->margin_mm);
  bw_answer_number_if (json, hangs, "opening_mm", hang->loop.opening_mm);
  bw_answer_number_if (json, hangs, "largest_cord_mm", hang->loop.largest_cord_mm);
  bw_answer_number_if (json, hangs && hang->loop.rows_needed > 0, "rows_needed",
                       hang->loop.rows_needed);
}

/* Of a loop over the tip: how far its feet turn, and what room the stone leaves it. */
static void
json_over (BwAnswer *json, const BwHang *hang, const BwBail *bail)
{
  gboolean over = hang->has_bail && bail->style == BW_BAIL_OVER;
  bw_answer_number_if (json, over, "twist_deg", hang->frame.twist_deg);
  bw_answer_number_if (json, over, "beside_mm", hang->frame.beside_mm);
}

/* The ring of a ring bail; null without one. */
static void
json_ring (BwAnswer *json, const BwHang *hang, const BwDesign *design)
{
  BwHangRing ring;
  if (!hang->has_bail || !bw_hang_ring_init (&ring, design, &hang->loop)) {
    bw_answer_null (json, "ring");
    return;
  }
  bw_answer_open_object (json, "ring");
  bw_answer_number (json, "inner_mm", ring.inner_mm);
  bw_answer_number (json, "wire_mm", ring.wire_mm);
  bw_answer_number (json, "passes_mm", ring.passes_mm);
  bw_answer_close (json);
}

static void
json_wedge (BwAnswer *json, const BwWedge *wedge, double friction)
{
  bw_answer_open_object (json, "wedge");
  bw_answer_number (json, "alpha_deg", wedge->alpha_deg);
  bw_answer_string (json, "thin_end", thin_word (wedge->thin_end));
  bw_answer_boolean (json, "slips_towards_thin", wedge->slips);
  bw_answer_number (json, "friction", friction);
  bw_answer_close (json);
}

static void
json_suggestions (BwAnswer *json, BwProject *project)
{
  BwHangHeight heights[3];
  int n = bw_hang_suggest (heights, bw_project_get_design (project), bw_project_stone (project));
  bw_answer_open_array (json, "suggestions");
  for (int i = 0; i < n; i++) {
    bw_answer_open_object (json, NULL);
    bw_answer_string (json, "want", want_word (heights[i].want));
    bw_answer_number (json, "bottom_mm", heights[i].bottom_mm);
    bw_answer_number (json, "tilt_deg", heights[i].tilt_deg);
    bw_answer_string (json, "up", up_word (heights[i].up));
    bw_answer_boolean (json, "reached", heights[i].reached);
    bw_answer_close (json);
  }
  bw_answer_close (json);
}

static char *
hang_json (BwProject *project)
{
  const BwHang *hang = bw_project_hang (project);
  const BwDesign *design = bw_project_get_design (project);
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_number (&json, "mass_g", hang->mass_g);
  bw_answer_numbers (&json, "centroid_mm",
                     (double[]){ hang->centroid.x, hang->centroid.y, hang->centroid.z }, 3);
  BwFinished size
      = bw_finished_size (design, bw_project_stone (project), bw_project_places (project));
  bw_answer_numbers (&json, "finished_mm", (double[]){ size.length_mm, size.breadth_mm }, 2);
  bw_answer_string (&json, "style", style_word (design->bail.style));
  json_rest (&json, hang);
  json_ring (&json, hang, design);
  json_over (&json, hang, &design->bail);
  json_wedge (&json, &hang->wedge, design->limits.friction);
  json_suggestions (&json, project);
  bw_answer_warnings (&json, project, BW_TOPIC_HANG, NULL);
  return bw_answer_finish (&json);
}

static void
text_masses (BwTable *facts, const BwHang *hang)
{
  bw_text_fact (facts, _ ("Mass"), g_strdup_printf (_ ("%.2f g"), hang->mass_g));
  bw_text_fact (facts, _ ("of which stone"), g_strdup_printf (_ ("%.2f g"), hang->stone_g));
  bw_text_fact (facts, _ ("band"), g_strdup_printf (_ ("%.2f g"), hang->band_g));
  bw_text_fact (facts, _ ("bed"), g_strdup_printf (_ ("%.2f g"), hang->bed_g));
  if (hang->has_bail)
    bw_text_fact (facts, _ ("bail"), g_strdup_printf (_ ("%.2f g"), hang->bail_g));
  bw_text_fact (facts, _ ("Balance point"),
                g_strdup_printf (_ ("%.1f mm above the base, %.1f mm off the axis"),
                                 hang->centroid.z, hypot (hang->centroid.x, hang->centroid.y)));
}

static const char *
style_sentence (BwBailStyle style)
{
  switch (style) {
  case BW_BAIL_FLAP:
    return _ ("flap, worked off the band round the stone; the cord runs along the stone");
  case BW_BAIL_UPRIGHT:
    return _ ("upright strip; the cord runs across the stone");
  case BW_BAIL_RING:
    return _ ("flap with a ring, free to turn");
  case BW_BAIL_OVER:
    return _ ("loop over the tip, from the upper edge to the upper edge; the cord runs across the "
              "tip");
  case BW_BAIL_NONE:
    break;
  }
  return _ ("none: how the piece hangs is told once it has one");
}

static char *
rest_sentence (const BwHang *hang)
{
  return bw_hang_words (hang->level ? BW_UP_LEVEL : hang->up, hang->tilt_deg);
}

static char *
cord_sentence (const BwLoop *loop)
{
  if (loop->opening_mm <= 0)
    return g_strdup (_ ("none: nothing passes"));
  if (loop->largest_cord_mm <= 0)
    return g_strdup (_ ("none: the opening leaves no clearance"));
  return bw_text_mm (loop->largest_cord_mm, BW_TEXT_MEASURED);
}

static void
text_bail (BwTable *facts, const BwHang *hang, const BwBail *bail)
{
  bw_text_fact (facts, _ ("Bail"), g_strdup (style_sentence (bail->style)));
  if (!hang->has_bail)
    return;
  bw_text_fact (facts, _ ("Opening"), bw_text_mm (hang->loop.opening_mm, BW_TEXT_MEASURED));
  bw_text_fact (facts, _ ("Largest cord"), cord_sentence (&hang->loop));
  g_autofree char *cord = bw_text_mm (bail->cord_mm, BW_TEXT_MEASURED);
  /* Translators: how many rows the bail must have for the cord of that thickness. */
  g_autofree char *label = g_strdup_printf (_ ("Rows for a %s cord"), cord);
  bw_text_fact (facts, label,
                hang->loop.rows_needed > 0 ? bw_text_count ((guint64)hang->loop.rows_needed)
                                           : g_strdup (_ ("no row count lets it through")));
  bw_text_fact (facts, _ ("Hangs"), rest_sentence (hang));
  if (hang->has_margin)
    bw_text_fact (facts, _ ("Margin before it tips"),
                  bw_text_mm (hang->margin_mm, BW_TEXT_MEASURED));
}

static char *
thin_sentence (const BwWedge *wedge)
{
  if (wedge->thin_end == BW_THIN_NEITHER)
    return g_strdup (_ ("straight under the band"));
  return g_strdup_printf (wedge->thin_end == BW_THIN_TIP ? _ ("%.2f°, thinner towards the tip")
                                                         : _ ("%.2f°, thinner towards the base"),
                          fabs (wedge->alpha_deg));
}

static void
text_wedge (BwTable *facts, const BwWedge *wedge, double friction)
{
  bw_text_fact (facts, _ ("Slope of the stone"), thin_sentence (wedge));
  bw_text_fact (facts, _ ("Band"),
                g_strdup_printf (wedge->slips
                                     ? _ ("may slip towards the thin end (friction taken as %g)")
                                     : _ ("stays where it is (friction taken as %g, no promise)"),
                                 friction));
}

static const char *
want_sentence (BwWant want)
{
  switch (want) {
  case BW_WANT_LEVEL:
    return _ ("level");
  case BW_WANT_TIP_DOWN:
    return _ ("tip down");
  case BW_WANT_TIP_UP:
    break;
  }
  return _ ("tip up");
}

static void
text_suggestions (GString *text, BwProject *project)
{
  BwHangHeight heights[3];
  int n = bw_hang_suggest (heights, bw_project_get_design (project), bw_project_stone (project));
  if (n == 0)
    return;
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "lrll");
  bw_table_add (&table, g_strdup (_ ("To hang")), g_strdup (_ ("lower edge mm")),
                g_strdup (_ ("hangs")), g_strdup (""));
  for (int i = 0; i < n; i++)
    bw_table_add (&table, g_strdup (want_sentence (heights[i].want)),
                  bw_text_number (heights[i].bottom_mm, BW_TEXT_MEASURED),
                  bw_hang_words (heights[i].up, heights[i].tilt_deg),
                  g_strdup (heights[i].reached ? "" : _ ("the nearest there is")));
  g_string_append_c (text, '\n');
  bw_table_write (&table, text, 0);
}

static char *
hang_text (BwProject *project)
{
  const BwHang *hang = bw_project_hang (project);
  const BwDesign *design = bw_project_get_design (project);
  GString *text = g_string_new (NULL);
  bw_text_heading (text, project, _ ("how it hangs"));
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  text_masses (&facts, hang);
  text_bail (&facts, hang, &design->bail);
  text_wedge (&facts, &hang->wedge, design->limits.friction);
  bw_table_write (&facts, text, 0);
  text_suggestions (text, project);
  bw_text_warnings (text, project, BW_TOPIC_HANG, BW_UNIT_MM);
  return bw_text_done (text);
}

char *
bw_report_hang (BwProject *project, gboolean json)
{
  return json ? hang_json (project) : hang_text (project);
}
