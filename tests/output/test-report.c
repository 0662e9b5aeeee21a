/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every report: exactly the keys the man page tells, and in each the number the core gives. */
#include "output/report/fit-told.h"
#include "output/report/report.h"
#include "output/report/what-if.h"
#include "sample.h"

#include "project/fault/fault-error.h"
#include "core/band/would-help.h"
#include "core/stone/section.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static BwProject *
load (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (json, strlen (json), &error);
  if (!project)
    fail_msg ("%s", error->message);
  return project;
}

static BwProject *
sample_project (guint32 seed, SampleBail bail)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (Sample) sample = sample_new (rand, 14, 0, bail);
  sample->prices = TRUE;
  sample->taper = seed % 2;
  return load (sample);
}

/* Takes text. */
static JsonObject *
parse (char *text)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  assert_non_null (text);
  if (!json_parser_load_from_data (parser, text, -1, &error))
    fail_msg ("%s in %s", error->message, text);
  g_free (text);
  return json_object_ref (json_node_get_object (json_parser_get_root (parser)));
}

/* keys: blank-separated, in order. "warnings" may follow when `warned`. */
static void
assert_keys (JsonObject *object, const char *keys, gboolean warned)
{
  g_autoptr (GList) members = json_object_get_members (object);
  g_autoptr (GString) found = g_string_new (NULL);
  for (GList *member = members; member; member = member->next)
    if (!warned || member->next || !g_str_equal (member->data, "warnings"))
      g_string_append_printf (found, found->len > 0 ? " %s" : "%s", (char *)member->data);
  assert_string_equal (found->str, keys);
}

static JsonArray *
list_of (JsonObject *object, const char *key, const char *keys)
{
  JsonArray *list = json_object_get_array_member (object, key);
  for (guint i = 0; i < json_array_get_length (list); i++)
    assert_keys (json_array_get_object_element (list, i), keys, FALSE);
  return list;
}

static void
assert_number (JsonObject *object, const char *key, double value)
{
  assert_false (json_object_get_null_member (object, key));
  double found = json_object_get_double_member (object, key);
  if (found < value || found > value)
    fail_msg ("%s is %.17g, not %.17g", key, found, value);
}

static void
assert_number_if (JsonObject *object, gboolean there, const char *key, double value)
{
  if (there)
    assert_number (object, key, value);
  else
    assert_true (json_object_get_null_member (object, key));
}

static void
assert_point (JsonArray *point, BwVec3 wanted)
{
  assert_int_equal (json_array_get_length (point), 3);
  assert_true (json_array_get_double_element (point, 0) == wanted.x);
  assert_true (json_array_get_double_element (point, 1) == wanted.y);
  assert_true (json_array_get_double_element (point, 2) == wanted.z);
}

static void
assert_fit_columns (JsonObject *object, const BwFit *fit)
{
  JsonArray *columns = list_of (object, "columns",
                                "column height_mm girth_mm chord_mm gap_mm pull_mm closes grips");
  assert_int_equal (json_array_get_length (columns), fit->n_columns);
  for (int c = 0; c < fit->n_columns; c++) {
    JsonObject *column = json_array_get_object_element (columns, (guint)c);
    assert_number (column, "column", c + 1);
    assert_number (column, "height_mm", fit->column[c].height_mm);
    assert_number (column, "girth_mm", fit->column[c].girth_mm);
    assert_number_if (column, fit->column[c].has_chord, "chord_mm", fit->column[c].chord_mm);
    assert_number (column, "gap_mm", fit->column[c].gap_mm);
    assert_number (column, "pull_mm", fit->column[c].pull_mm);
    assert_int_equal (json_object_get_boolean_member (column, "closes"), fit->column[c].closes);
    assert_int_equal (json_object_get_boolean_member (column, "grips"), fit->column[c].grips);
  }
}

static void
assert_chances (JsonObject *object, const BwForecast *forecast)
{
  JsonArray *chances = list_of (object, "probability", "beads_around rows p");
  assert_int_equal (json_array_get_length (chances), forecast->n_chances);
  for (int i = 0; i < forecast->n_chances; i++) {
    JsonObject *chance = json_array_get_object_element (chances, (guint)i);
    assert_number (chance, "beads_around", forecast->chance[i].beads_around);
    assert_number (chance, "p", forecast->chance[i].p);
  }
  assert_number (object, "sigma_mm", forecast->sigma_mm);
  assert_number (object, "recommended_beads_around", forecast->recommended);
  assert_number (object, "closes_probability", forecast->closes_probability);
  assert_number (object, "try_on_row", forecast->try_on_row);
}

static void
assert_remedy (JsonObject *object, const BwRemedy *remedy)
{
  gboolean many = remedy->kind == BW_REMEDY_GRADE || remedy->kind == BW_REMEDY_BEAD;
  assert_keys (object,
               remedy->kind == BW_REMEDY_GRADE
                   ? "kind value columns rows layers verdict gap_min_mm gap_max_mm key also"
               : many ? "kind value columns rows verdict gap_min_mm gap_max_mm key also"
                      : "kind value verdict gap_min_mm gap_max_mm key also",
               FALSE);
  list_of (object, "also", "key value");
  assert_string_equal (json_object_get_string_member (object, "kind"),
                       bw_remedy_word (remedy->kind));
  if (remedy->kind == BW_REMEDY_BEAD)
    assert_string_equal (json_object_get_string_member (object, "value"), remedy->design.bead.name);
  else
    assert_number (object, "value", remedy->value);
  if (many) {
    assert_number (object, "columns", remedy->design.band.columns);
    assert_number (object, "rows", remedy->design.band.rows);
  }
  assert_number (object, "gap_min_mm", remedy->gap_min_mm);
  assert_number (object, "gap_max_mm", remedy->gap_max_mm);
}

static void
assert_remedies (JsonObject *object, const GArray *remedies)
{
  JsonArray *list = json_object_get_array_member (object, "remedies");
  assert_int_equal (json_array_get_length (list), remedies->len);
  for (guint i = 0; i < remedies->len; i++)
    assert_remedy (json_array_get_object_element (list, i), &g_array_index (remedies, BwRemedy, i));
}

#define JOIN_KEYS "rows interlocks gap_mm overlap_mm repeat_rows repeat_closes broken_beads"

static void
assert_join (JsonObject *object, const BwJoin *join)
{
  assert_keys (object, JOIN_KEYS, FALSE);
  assert_number (object, "rows", join->rows);
  assert_int_equal (json_object_get_boolean_member (object, "interlocks"), join->interlocks);
  assert_number_if (object, join->interlocks, "gap_mm", join->gap_mm);
  assert_number_if (object, join->interlocks, "overlap_mm", join->overlap_mm);
  JsonArray *broken = list_of (object, "broken_beads", "row column");
  assert_int_equal (json_array_get_length (broken), join->broken->len);
}

static void
assert_helps (JsonObject *object, BwProject *project)
{
  BwHelps helps;
  JsonArray *list = json_object_get_array_member (object, "would_help");
  bw_helps_init (&helps, bw_project_get_design (project), bw_project_stone (project));
  assert_number (object, "likeliest_chance", helps.now);
  assert_int_equal (json_array_get_length (list), helps.n);
  for (int i = 0; i < helps.n; i++) {
    JsonObject *help = json_array_get_object_element (list, (guint)i);
    assert_keys (help, "measure rows tool chance", FALSE);
    assert_number (help, "chance", helps.help[i].chance);
    assert_number_if (help, helps.help[i].rows > 0, "rows", helps.help[i].rows);
    assert_string_equal (json_object_get_string_member (help, "measure"),
                         bw_help_word (helps.help[i].kind));
  }
  assert_true (helps.n > 0);
}

static void
assert_fit (JsonObject *object, BwProject *project)
{
  const BwFit *fit = bw_project_fit (project);
  assert_keys (
      object,
      "columns beads_around rows verdict pitch_mm pitch_sd_mm squeeze squeeze_sd squeeze_learnt "
      "stretch stretch_sd stretch_learnt sigma_mm splay_max_deg "
      "splay_limit_deg splay_cure_mm strips "
      "recommended_beads_around closes_probability probability try_on_row "
      "likeliest_chance would_help remedies join other_stones",
      TRUE);
  assert_fit_columns (object, fit);
  assert_number (object, "beads_around", fit->beads_around);
  assert_number (object, "rows", fit->rows);
  assert_string_equal (json_object_get_string_member (object, "verdict"),
                       bw_verdict_word (fit->verdict));
  assert_number (object, "pitch_mm", bw_project_get_design (project)->pitch.mm);
  assert_number (object, "pitch_sd_mm", bw_project_get_design (project)->pitch.sd_mm);
  assert_number (object, "splay_max_deg", bw_project_splay (project)->max_deg);
  assert_chances (object, bw_project_forecast (project));
  assert_helps (object, project);
  assert_remedies (object, bw_project_remedies (project));
  assert_join (json_object_get_object_member (object, "join"), bw_project_join (project));
}

static void
the_fit_has_its_keys_and_the_cores_numbers (void **state)
{
  for (guint32 seed = 1; seed <= 4; seed++) {
    g_autoptr (BwProject) project = sample_project (seed, SAMPLE_NO_BAIL);
    g_autoptr (JsonObject) object = parse (bw_report_fit (project, 0, TRUE, NULL));
    assert_fit (object, project);
  }
}

/* The project with other rows, made by the test through the project's own edits. */
static BwProject *
with_rows (guint32 seed, int rows)
{
  BwProject *project = sample_project (seed, SAMPLE_NO_BAIL);
  BwDesign design = *bw_project_get_design (project);
  design.band.rows = rows;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  return project;
}

static void
the_fit_for_other_rows_is_that_of_a_project_with_those_rows (void **state)
{
  static const int rows[] = { 1, 2, 7, 40, 112, 113, 116, 300 };
  g_autoptr (BwProject) project = sample_project (3, SAMPLE_NO_BAIL);
  g_autofree char *before = bw_report_fit (project, 0, TRUE, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (BwProject) other = with_rows (3, rows[i]);
    g_autoptr (JsonObject) object = parse (bw_report_fit (project, rows[i], TRUE, NULL));
    assert_number (object, "rows", rows[i]);
    assert_fit_columns (object, bw_project_fit (other));
    assert_chances (object, bw_project_forecast (other));
    assert_remedies (object, bw_project_remedies (other));
  }
  g_autofree char *after = bw_report_fit (project, 0, TRUE, NULL);
  assert_string_equal (before, after);
}

static void
a_strip_of_partial_work_has_no_chord_and_an_odd_one_no_gap_at_the_join (void **state)
{
  g_autoptr (BwProject) project = sample_project (5, SAMPLE_NO_BAIL);
  g_autoptr (JsonObject) object = parse (bw_report_fit (project, 21, TRUE, NULL));
  JsonArray *columns = json_object_get_array_member (object, "columns");
  JsonObject *column = json_array_get_object_element (columns, 0);
  JsonObject *join = json_object_get_object_member (object, "join");
  assert_true (json_object_get_null_member (column, "chord_mm"));
  assert_false (json_object_get_null_member (column, "gap_mm"));
  assert_string_equal (json_object_get_string_member (object, "verdict"), "odd-rows");
  assert_keys (join, JOIN_KEYS, FALSE);
  assert_false (json_object_get_boolean_member (join, "interlocks"));
  assert_true (json_object_get_null_member (join, "gap_mm"));
  assert_true (json_object_get_null_member (join, "overlap_mm"));
  assert_true (json_object_get_null_member (join, "repeat_closes"));
}

/* A drawing of stripes every eight rows, on a band of 112 rows. */
static BwProject *
striped_project (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  g_autoptr (Sample) sample = sample_new (rand, 6, 112, SAMPLE_NO_BAIL);
  sample->n_colours = 2;
  for (int i = 0; i < 112; i++)
    memset (sample->cells->pdata[i], i % 8 < 4 ? 'a' : 'b', 3);
  return load (sample);
}

static void
a_repeat_is_carried_on_when_rows_are_added (void **state)
{
  g_autoptr (BwProject) project = striped_project ();
  for (int rows = 104; rows <= 124; rows++) {
    g_autoptr (JsonObject) object = parse (bw_report_fit (project, rows, TRUE, NULL));
    JsonObject *join = json_object_get_object_member (object, "join");
    assert_number (join, "repeat_rows", 8);
    if (rows % 2 == 0)
      assert_int_equal (json_object_get_boolean_member (join, "repeat_closes"), rows % 8 == 0);
  }
}

static void
rows_out_of_range_are_refused_by_name (void **state)
{
  g_autoptr (BwProject) project = sample_project (6, SAMPLE_NO_BAIL);
  g_autoptr (GError) error = NULL;
  assert_null (bw_report_fit (project, 20001, TRUE, &error));
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  assert_string_equal (pointer, "/band/rows");
}

static void
the_stone_has_its_keys_and_the_cores_numbers (void **state)
{
  g_autoptr (BwProject) project = sample_project (7, SAMPLE_NO_BAIL);
  const BwStone *stone = bw_project_stone (project);
  g_autoptr (JsonObject) object = parse (bw_report_stone (project, TRUE));
  assert_keys (object, "volume_mm3 mass_g centroid_mm vertices faces closing_error_mm", TRUE);
  assert_number (object, "volume_mm3", stone->volume_mm3);
  assert_number (object, "mass_g", stone->mass_g);
  assert_number (object, "closing_error_mm", stone->closing_error_mm);
  assert_point (json_object_get_array_member (object, "centroid_mm"), stone->centroid);
  JsonArray *vertices = json_object_get_array_member (object, "vertices");
  assert_int_equal (json_array_get_length (vertices), stone->n_vertices);
  for (int i = 0; i < stone->n_vertices; i++)
    assert_point (json_array_get_array_element (vertices, (guint)i), stone->vertex[i]);
}

/* Euler's formula: a polyhedron has as many vertices and faces as edges and two more, and each edge
 * is run along once in either direction. */
static void
the_faces_name_a_closed_polyhedron (void **state)
{
  g_autoptr (BwProject) project = sample_project (8, SAMPLE_NO_BAIL);
  g_autoptr (JsonObject) object = parse (bw_report_stone (project, TRUE));
  g_autoptr (GHashTable) half_edges = g_hash_table_new (NULL, NULL);
  JsonArray *faces = list_of (object, "faces", "name vertices");
  for (guint f = 0; f < json_array_get_length (faces); f++) {
    JsonArray *corners
        = json_object_get_array_member (json_array_get_object_element (faces, f), "vertices");
    guint n = json_array_get_length (corners);
    for (guint i = 0; i < n; i++) {
      gint64 a = json_array_get_int_element (corners, i);
      gint64 b = json_array_get_int_element (corners, (i + 1) % n);
      assert_true (g_hash_table_add (half_edges, GINT_TO_POINTER ((int)(a * 1000 + b + 1))));
    }
  }
  guint n_vertices = json_array_get_length (json_object_get_array_member (object, "vertices"));
  assert_int_equal (n_vertices + json_array_get_length (faces),
                    g_hash_table_size (half_edges) / 2 + 2);
  JsonObject *first = json_array_get_object_element (faces, 0);
  JsonObject *last = json_array_get_object_element (faces, json_array_get_length (faces) - 1);
  assert_string_equal (json_object_get_string_member (first, "name"), "prism 0");
  assert_string_equal (json_object_get_string_member (last, "name"), "base");
}

static void
a_section_has_its_girth_and_its_corners (void **state)
{
  g_autoptr (BwProject) project = sample_project (9, SAMPLE_NO_BAIL);
  for (double z = 0; z <= 64; z += 8) {
    BwSection section;
    bw_section_init (&section, bw_project_stone (project), z);
    g_autoptr (JsonObject) object = parse (bw_report_section (project, z, TRUE, NULL));
    assert_keys (object, "girth_mm polygon", FALSE);
    assert_number (object, "girth_mm", section.girth_mm);
    JsonArray *polygon = json_object_get_array_member (object, "polygon");
    double round = 0;
    for (guint i = 0; i < 6; i++) {
      JsonArray *a = json_array_get_array_element (polygon, i);
      JsonArray *b = json_array_get_array_element (polygon, (i + 1) % 6);
      round += hypot (json_array_get_double_element (b, 0) - json_array_get_double_element (a, 0),
                      json_array_get_double_element (b, 1) - json_array_get_double_element (a, 1));
    }
    assert_true (fabs (round - section.girth_mm) < 1e-9);
  }
}

static void
a_height_off_the_stone_is_refused (void **state)
{
  g_autoptr (BwProject) project = sample_project (10, SAMPLE_NO_BAIL);
  static const double heights[] = { -0.001, 64.001, (double)NAN, (double)INFINITY };
  for (gsize i = 0; i < G_N_ELEMENTS (heights); i++) {
    g_autoptr (GError) error = NULL;
    assert_null (bw_report_section (project, heights[i], TRUE, &error));
    assert_non_null (strstr (error->message, "from 0 to 64 mm"));
  }
}

#define HANG_KEYS                                                                                  \
  "mass_g centroid_mm finished_mm style tilt_deg off_deg up level margin_mm opening_mm "           \
  "largest_cord_mm rows_needed ring twist_deg beside_mm wedge suggestions"

static void
assert_suggestions (JsonObject *object, BwProject *project)
{
  static const char *const wants[] = { "level", "tip-down", "tip-up" };
  static const char *const ups[] = { "tip", "base", "level" };
  BwHangHeight heights[3];
  int n = bw_hang_suggest (heights, bw_project_get_design (project), bw_project_stone (project));
  JsonArray *list = list_of (object, "suggestions", "want bottom_mm tilt_deg up reached");
  assert_int_equal (json_array_get_length (list), n);
  for (int i = 0; i < n; i++) {
    JsonObject *height = json_array_get_object_element (list, (guint)i);
    assert_string_equal (json_object_get_string_member (height, "want"), wants[heights[i].want]);
    assert_number (height, "bottom_mm", heights[i].bottom_mm);
    assert_number (height, "tilt_deg", heights[i].tilt_deg);
    assert_string_equal (json_object_get_string_member (height, "up"), ups[heights[i].up]);
    assert_int_equal (json_object_get_boolean_member (height, "reached"), heights[i].reached);
  }
}

static void
assert_hang (JsonObject *object, BwProject *project, const char *style)
{
  const BwHang *hang = bw_project_hang (project);
  JsonObject *wedge = json_object_get_object_member (object, "wedge");
  assert_keys (object, HANG_KEYS, TRUE);
  assert_string_equal (json_object_get_string_member (object, "style"), style);
  assert_number (object, "mass_g", hang->mass_g);
  assert_point (json_object_get_array_member (object, "centroid_mm"), hang->centroid);
  assert_keys (wedge, "alpha_deg thin_end slips_towards_thin friction", FALSE);
  assert_number (wedge, "alpha_deg", hang->wedge.alpha_deg);
  assert_int_equal (json_object_get_boolean_member (wedge, "slips_towards_thin"),
                    hang->wedge.slips);
  assert_suggestions (object, project);
}

/* Which ring a ring bail wants is told in numbers, as the sentences tell it. */
static void
assert_ring (JsonObject *object, BwProject *project)
{
  BwHangRing ring;
  const BwDesign *design = bw_project_get_design (project);
  if (design->bail.style != BW_BAIL_RING) {
    assert_true (json_object_get_null_member (object, "ring"));
    return;
  }
  assert_true (bw_hang_ring_init (&ring, design, &bw_project_hang (project)->loop));
  JsonObject *told = json_object_get_object_member (object, "ring");
  assert_keys (told, "inner_mm wire_mm passes_mm", FALSE);
  assert_number (told, "inner_mm", ring.inner_mm);
  assert_number (told, "wire_mm", ring.wire_mm);
  assert_number (told, "passes_mm", ring.passes_mm);
}

static void
how_it_hangs_has_its_keys_and_the_cores_numbers (void **state)
{
  static const char *const styles[] = { "none", "flap", "upright", "ring" };
  static const char *const ups[] = { "tip", "base", "level" };
  for (int i = SAMPLE_FLAP; i <= SAMPLE_RING; i++) {
    g_autoptr (BwProject) project = sample_project (20 + (guint32)i, i);
    const BwHang *hang = bw_project_hang (project);
    g_autoptr (JsonObject) object = parse (bw_report_hang (project, TRUE));
    assert_hang (object, project, styles[i]);
    assert_number (object, "tilt_deg", hang->tilt_deg);
    assert_string_equal (json_object_get_string_member (object, "up"), ups[hang->up]);
    assert_int_equal (json_object_get_boolean_member (object, "level"), hang->level);
    assert_int_equal (hang->has_margin, i == SAMPLE_FLAP);
    assert_number_if (object, hang->has_margin, "margin_mm", hang->margin_mm);
    assert_number (object, "opening_mm", hang->loop.opening_mm);
    assert_number (object, "largest_cord_mm", hang->loop.largest_cord_mm);
    assert_number (object, "rows_needed", hang->loop.rows_needed);
    assert_number (object, "off_deg", MIN (hang->tilt_deg, 90 - hang->tilt_deg));
    assert_ring (object, project);
  }
}

static void
without_a_bail_how_it_hangs_is_null (void **state)
{
  static const char *const empty[]
      = { "tilt_deg",        "off_deg",     "up",   "level",     "margin_mm", "opening_mm",
          "largest_cord_mm", "rows_needed", "ring", "twist_deg", "beside_mm" };
  g_autoptr (BwProject) project = sample_project (30, SAMPLE_NO_BAIL);
  g_autoptr (JsonObject) object = parse (bw_report_hang (project, TRUE));
  assert_hang (object, project, "none");
  for (gsize i = 0; i < G_N_ELEMENTS (empty); i++)
    assert_true (json_object_get_null_member (object, empty[i]));
}

static void
the_thread_has_its_keys_and_the_cores_numbers (void **state)
{
  static const char *const parts[] = { "pick-up", "rows",       "zip",        "return", "anchors",
                                       "bail",    "attachment", "weaving-in", "tails" };
  g_autoptr (BwProject) project = sample_project (40, SAMPLE_FLAP);
  const BwPath *path = bw_project_path (project);
  g_autoptr (JsonObject) object = parse (bw_report_thread (project, FALSE, TRUE));
  assert_keys (
      object, "visits passes_max parts length_mm lengths working_mm n_full_holes full_holes", TRUE);
  assert_number (object, "visits", path->visits->len);
  assert_number (object, "passes_max", path->passes_max);
  assert_number (object, "length_mm", path->length_mm);
  JsonArray *list = list_of (object, "parts", "part visits length_mm");
  assert_int_equal (json_array_get_length (list), G_N_ELEMENTS (parts));
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++) {
    JsonObject *part = json_array_get_object_element (list, i);
    assert_string_equal (json_object_get_string_member (part, "part"), parts[i]);
    assert_number (part, "visits", (double)path->part[i].visits);
    assert_number (part, "length_mm", path->part[i].length_mm);
  }
  JsonArray *lengths = list_of (object, "lengths", "length from_row to_row length_mm");
  assert_int_equal (json_array_get_length (lengths), path->lengths->len);
  list_of (object, "full_holes", "in row column passes");
}

static guint64
sum_of_lists (JsonObject *object, const char *key, guint rows, guint per_row)
{
  JsonArray *list = json_object_get_array_member (object, key);
  guint64 sum = 0;
  assert_int_equal (json_array_get_length (list), rows);
  for (guint i = 0; i < rows; i++) {
    JsonArray *row = json_array_get_array_element (list, i);
    assert_int_equal (json_array_get_length (row), per_row);
    for (guint j = 0; j < per_row; j++)
      sum += (guint64)json_array_get_int_element (row, j);
  }
  return sum;
}

/* Every visit is a pass through the hole of one bead. */
static void
the_passes_of_all_beads_add_up_to_the_visits (void **state)
{
  g_autoptr (BwProject) project = sample_project (41, SAMPLE_FLAP);
  const BwDesign *design = bw_project_get_design (project);
  g_autoptr (JsonObject) object = parse (bw_report_thread (project, TRUE, TRUE));
  assert_keys (object,
               "visits passes_max parts length_mm lengths working_mm n_full_holes full_holes "
               "band_passes bail_passes",
               TRUE);
  guint64 sum = sum_of_lists (object, "band_passes", (guint)design->band.rows,
                              (guint)design->band.columns / 2)
                + sum_of_lists (object, "bail_passes", (guint)design->bail.rows,
                                (guint)design->bail.columns / 2);
  assert_number (object, "visits", (double)sum);
}

static void
assert_need (JsonObject *bead, const Sample *sample, const BwMaterials *materials)
{
  const char *letter = json_object_get_string_member (bead, "id");
  int i = *letter - 'a';
  guint64 count = 0;
  for (guint row = 0; row < sample->cells->len; row++)
    for (const char *c = sample->cells->pdata[row]; *c; c++)
      count += *c == *letter;
  for (guint row = 0; row < sample->bail_cells->len; row++)
    for (const char *c = sample->bail_cells->pdata[row]; *c; c++)
      count += *c == *letter;
  assert_true (count > 0);
  assert_string_equal (json_object_get_string_member (bead, "name"), sample->names[i]);
  assert_number (bead, "count", (double)count);
  assert_number (bead, "with_spare", (double)materials->need[i].with_spare);
  assert_number (bead, "grams", materials->need[i].grams);
  assert_number (bead, "packs", (double)materials->need[i].packs);
}

static void
assert_totals (JsonObject *object, const BwMaterials *materials)
{
  assert_number (object, "total_beads", (double)materials->total_beads);
  assert_number (object, "total_with_spare", (double)materials->total_with_spare);
  assert_number (object, "total_grams", materials->total_grams);
  assert_number (object, "bed_cord_mm", materials->bed_cord_mm);
  assert_number (object, "thread_mm", materials->thread_mm);
  assert_number (object, "thread_lengths", (double)materials->thread_lengths);
  assert_number (object, "hanging_cord_mm", materials->hanging_cord_mm);
}

#define MATERIALS_KEYS                                                                             \
  "pieces bead_size pack_g beads total_beads total_with_spare total_grams total_packs "            \
  "total_in_hand_g total_order_g total_order_packs bed_cord_mm bed_cord_width_mm thread_mm "       \
  "thread_thickness_mm thread_lengths thread_rows further_rows further_thread_mm needle_mm "       \
  "needles "                                                                                       \
  "needle_size needle_shaft_mm needle_most_mm stopper_beads hanging_cord_mm "                      \
  "hanging_cord_thickness_mm necklace_mm closing_mm clasps rings ring_inner_mm ring_wire_mm "      \
  "ring_passes_mm fitting_most_mm in_stash to_buy cost hours"

static void
materials_add_up_to_the_drawing (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (50);
  for (int k = 0; k < 12; k++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, k % 4);
    g_autoptr (BwProject) project = load (sample);
    g_autoptr (JsonObject) object = parse (bw_report_materials (project, 0, BW_UNIT_MM, TRUE));
    assert_keys (object, MATERIALS_KEYS, TRUE);
    JsonArray *beads = list_of (object, "beads",
                                "id name count with_spare grams packs article in_hand_g order_g "
                                "order_beads order_packs");
    gint64 total = 0;
    for (guint i = 0; i < json_array_get_length (beads); i++) {
      JsonObject *bead = json_array_get_object_element (beads, i);
      assert_need (bead, sample, bw_project_materials (project));
      total += json_object_get_int_member (bead, "count");
    }
    assert_int_equal (total, sample->rows * sample->columns / 2
                                 + sample->bail_rows * sample->bail_columns / 2);
    assert_number (object, "total_beads", (double)total);
    assert_totals (object, bw_project_materials (project));
    assert_true (json_object_get_null_member (object, "cost"));
  }
}

static void
a_colour_is_listed_from_its_first_bead_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_NO_BAIL);
  sample->n_colours = 3;
  for (guint row = 0; row < sample->cells->len; row++)
    memset (sample->cells->pdata[row], 'a', 4);
  ((char *)sample->cells->pdata[50])[2] = 'c';
  g_autoptr (BwProject) project = load (sample);
  g_autoptr (JsonObject) object = parse (bw_report_materials (project, 0, BW_UNIT_MM, TRUE));
  JsonArray *beads = json_object_get_array_member (object, "beads");
  assert_int_equal (json_array_get_length (beads), 2);
  JsonObject *second = json_array_get_object_element (beads, 1);
  assert_string_equal (json_object_get_string_member (second, "id"), "c");
  assert_number (second, "count", 1);
  assert_number (second, "with_spare", 2);
}

static void
materials_for_a_class_scale_with_the_pieces (void **state)
{
  g_autoptr (BwProject) project = sample_project (51, SAMPLE_RING);
  g_autoptr (JsonObject) own = parse (bw_report_materials (project, 0, BW_UNIT_MM, TRUE));
  g_autoptr (JsonObject) three = parse (bw_report_materials (project, 3, BW_UNIT_MM, TRUE));
  g_autoptr (JsonObject) thirty = parse (bw_report_materials (project, 30, BW_UNIT_MM, TRUE));
  assert_true (json_object_equal (own, three));
  assert_number (thirty, "total_beads", json_object_get_double_member (own, "total_beads"));
  double ratio = json_object_get_double_member (thirty, "bed_cord_mm")
                 / json_object_get_double_member (own, "bed_cord_mm");
  assert_true (fabs (ratio - 10) < 1e-12);
  double reserve = json_object_get_double_member (own, "further_thread_mm");
  assert_true (reserve > 0 && fmod (reserve, 3 * BW_CUT_MM) == 0);
  assert_number (thirty, "further_thread_mm", 10 * reserve);
  assert_int_equal (bw_project_get_design (project)->supply.pieces, 3);
}

static void
the_cost_has_its_keys_and_its_sum (void **state)
{
  g_autoptr (BwProject) project = sample_project (52, SAMPLE_FLAP);
  g_autoptr (JsonObject) object = parse (bw_report_materials (project, 4, BW_UNIT_MM, TRUE));
  JsonObject *cost = json_object_get_object_member (object, "cost");
  static const char *const parts[] = { "beads", "thread", "bed_cord", "stone", "labour" };
  double sum = 0;
  assert_keys (cost, "currency beads thread bed_cord stone labour piece total", FALSE);
  assert_string_equal (json_object_get_string_member (cost, "currency"), "EUR");
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    sum += json_object_get_double_member (cost, parts[i]);
  assert_true (fabs (sum - json_object_get_double_member (cost, "total")) < 1e-9);
  assert_true (fabs (sum / 4 - json_object_get_double_member (cost, "piece")) < 1e-9);
}

/* Whether a text has millimetres of more than one decimal; grams may. */
static gboolean
has_hundredths (const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new ("\\.\\d\\d+(?! g)\\b(?!\\d* g)", 0, 0, NULL);
  return g_regex_match (regex, text, 0, NULL);
}

/* A stone is told as finely as it is measured, in every report and on the sheet alike. */
static void
what_is_measured_on_the_stone_is_told_to_a_tenth (void **state)
{
  assert_true (has_hundredths ("Girth 82.85 mm"));
  for (guint32 seed = 61; seed < 67; seed++) {
    g_autoptr (BwProject) project = sample_project (seed, SAMPLE_FLAP);
    const BwFitColumn *column = &bw_project_fit (project)->column[0];
    g_autofree char *stone = bw_report_stone (project, FALSE);
    g_autofree char *hang = bw_report_hang (project, FALSE);
    g_autofree char *fit = bw_report_fit (project, 0, FALSE, NULL);
    g_autofree char *line = g_strdup_printf ("%d +%.1f +%.1f +\\d", column->column,
                                             column->height_mm, column->girth_mm);
    assert_false (has_hundredths (stone));
    g_auto (GStrv) lines = g_strsplit (hang, "\n", -1);
    for (char **l = lines; *l; l++)
      if (strstr (*l, " mm"))
        assert_false (has_hundredths (*l));
    assert_true (g_regex_match_simple (line, fit, 0, 0));
  }
}

/* A second girth that the flats deny is told of by the stone and by the fit, which rests on it. */
static void
girths_that_disagree_are_warned_of (void **state)
{
  g_autoptr (BwProject) project = sample_project (52, SAMPLE_FLAP);
  BwDesign design = *bw_project_get_design (project);
  for (int i = 0; i < 2; i++) {
    design.stone.has_second = TRUE;
    design.stone.second_at_mm = design.stone.at_mm + 22;
    design.stone.second_girth_mm = bw_project_stone (project)->girth_mm - (i ? 20 : 2);
    assert_true (bw_project_set_design (project, "", &design, NULL));
    g_autofree char *fit = bw_report_fit (project, 0, TRUE, NULL);
    g_autofree char *words = bw_report_fit (project, 0, FALSE, NULL);
    g_autofree char *stone = bw_report_stone (project, TRUE);
    assert_int_equal (strstr (fit, "they differ by 20 mm over 22 mm") != NULL, i);
    assert_int_equal (strstr (words, "the tape says") != NULL, i);
    assert_int_equal (strstr (stone, "the tape says") != NULL, i);
  }
}

static void
warnings_are_plain_sentences (void **state)
{
  g_autoptr (BwProject) project = sample_project (60, SAMPLE_NO_BAIL);
  g_autoptr (JsonObject) object = parse (bw_report_fit (project, 100, TRUE, NULL));
  JsonArray *warnings = json_object_get_array_member (object, "warnings");
  assert_true (json_array_get_length (warnings) > 0);
  for (guint i = 0; i < json_array_get_length (warnings); i++)
    assert_true (g_str_has_suffix (json_array_get_string_element (warnings, i), "."));
}

static void
a_measurement_that_a_remedy_makes_void_is_told (void **state)
{
  g_autoptr (BwProject) project = sample_project (61, SAMPLE_NO_BAIL);
  BwDesign design = *bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwSection section;
  bw_section_init (&section, stone, bw_band_span_mid (bw_design_span (&design)));
  design.bed.has_girth_over = TRUE;
  design.bed.girth_over_mm = section.girth_mm + 2;
  g_autofree char *before = bw_report_fit (project, 0, TRUE, NULL);
  assert_true (bw_project_set_design (project, "", &design, NULL));
  g_autofree char *after = bw_report_fit (project, 0, TRUE, NULL);
  assert_null (strstr (before, "no longer holds"));
  assert_non_null (strstr (after, "no longer holds"));
}

/* The verdict that the odds and the foot of the window give must be the list's. */
static void
a_count_to_weave_is_not_said_to_fail (void **state)
{
  int likely = 0, listed = 0;
  for (guint32 seed = 80; seed < 110; seed++) {
    g_autoptr (BwProject) project = sample_project (seed, SAMPLE_NO_BAIL);
    BwDesign design = *bw_project_get_design (project);
    design.band.rows = 2 * bw_project_forecast (project)->recommended;
    assert_true (bw_project_set_design (project, "", &design, NULL));
    BwFitTold told = bw_fit_told (project);
    g_autofree char *text = bw_report_fit (project, 0, FALSE, NULL);
    const char *tried = strstr (text, "What else was tried");
    for (int rows = told.first_rows; rows <= told.last_rows && rows > 0; rows += 2) {
      g_autofree char *weave = g_strdup_printf ("weave %d rows", rows);
      const char *line = strstr (text, weave);
      likely++;
      if (!line)
        continue;
      g_autofree char *words = g_strndup (line, strcspn (line, "\n"));
      assert_non_null (strstr (words, "the try-on decides"));
      assert_true (!tried || line < tried);
      listed++;
    }
    for (const char *loose = text; (loose = strstr (loose, "  loose")); loose++)
      assert_true (tried && loose > tried);
  }
  assert_true (likely > 20 && listed > 3);
}

/* JSON counts faces and corners from 0, as the file does. */
static void
people_count_faces_from_one (void **state)
{
  g_autoptr (BwProject) project = sample_project (8, SAMPLE_NO_BAIL);
  g_autofree char *stone = bw_report_stone (project, FALSE);
  g_autofree char *section = bw_report_section (project, 20, FALSE, NULL);
  int faces = bw_project_stone (project)->faces;
  assert_int_equal (faces, 6);
  assert_null (strstr (stone, "face 0"));
  assert_null (strstr (stone, " 0 ")); /* nor a corner 0 */
  assert_non_null (strstr (stone, "face 1 "));
  assert_non_null (strstr (stone, "face 6 "));
  assert_non_null (strstr (stone, "face 6 of the point "));
  assert_null (strstr (section, "\n   0  "));
  assert_non_null (strstr (section, "\n   6  "));
}

static void
odd_rows_say_that_their_thread_is_estimated (void **state)
{
  for (int rows = 112; rows <= 113; rows++) {
    g_autoptr (BwProject) project = with_rows (12, rows);
    g_autofree char *list = bw_report_materials (project, 0, BW_UNIT_MM, FALSE);
    gboolean said = strstr (list, "A strip of 113 rows cannot be zipped") != NULL;
    assert_int_equal (said, rows % 2);
  }
}

static void
the_list_for_a_class_counts_needles_and_stopper_beads (void **state)
{
  g_autoptr (BwProject) project = sample_project (13, SAMPLE_NO_BAIL);
  g_autofree char *list = bw_report_materials (project, 7, BW_UNIT_MM, FALSE);
  g_autoptr (GRegex) needle = g_regex_new ("Needle +7, size 1", 0, 0, NULL);
  g_autoptr (GRegex) stopper = g_regex_new ("Stopper bead +7\n", 0, 0, NULL);
  assert_true (g_regex_match (needle, list, 0, NULL));
  assert_true (g_regex_match (stopper, list, 0, NULL));
}

static void
every_report_reads_as_text_without_blanks_at_the_ends_of_lines (void **state)
{
  for (int i = SAMPLE_NO_BAIL; i <= SAMPLE_RING; i++) {
    g_autoptr (BwProject) project = sample_project (70 + (guint32)i, i);
    char *texts[] = { bw_report_fit (project, 0, FALSE, NULL),
                      bw_report_fit (project, 31, FALSE, NULL),
                      bw_report_stone (project, FALSE),
                      bw_report_section (project, 50, FALSE, NULL),
                      bw_report_hang (project, FALSE),
                      bw_report_thread (project, TRUE, FALSE),
                      bw_report_materials (project, 0, BW_UNIT_MM, FALSE),
                      bw_words (project, BW_UNIT_MM) };
    for (gsize k = 0; k < G_N_ELEMENTS (texts); k++) {
      assert_true (g_str_has_prefix (texts[k], "Harbour Night: "));
      assert_true (g_str_has_suffix (texts[k], "\n"));
      assert_true (g_utf8_validate (texts[k], -1, NULL));
      assert_null (strstr (texts[k], " \n"));
      assert_null (strstr (texts[k], "nan"));
      assert_null (strstr (texts[k], "inf "));
      g_free (texts[k]);
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_fit_has_its_keys_and_the_cores_numbers),
    cmocka_unit_test (the_fit_for_other_rows_is_that_of_a_project_with_those_rows),
    cmocka_unit_test (a_strip_of_partial_work_has_no_chord_and_an_odd_one_no_gap_at_the_join),
    cmocka_unit_test (a_repeat_is_carried_on_when_rows_are_added),
    cmocka_unit_test (rows_out_of_range_are_refused_by_name),
    cmocka_unit_test (the_stone_has_its_keys_and_the_cores_numbers),
    cmocka_unit_test (the_faces_name_a_closed_polyhedron),
    cmocka_unit_test (a_section_has_its_girth_and_its_corners),
    cmocka_unit_test (a_height_off_the_stone_is_refused),
    cmocka_unit_test (how_it_hangs_has_its_keys_and_the_cores_numbers),
    cmocka_unit_test (without_a_bail_how_it_hangs_is_null),
    cmocka_unit_test (the_thread_has_its_keys_and_the_cores_numbers),
    cmocka_unit_test (the_passes_of_all_beads_add_up_to_the_visits),
    cmocka_unit_test (materials_add_up_to_the_drawing),
    cmocka_unit_test (a_colour_is_listed_from_its_first_bead_on),
    cmocka_unit_test (materials_for_a_class_scale_with_the_pieces),
    cmocka_unit_test (the_cost_has_its_keys_and_its_sum),
    cmocka_unit_test (what_is_measured_on_the_stone_is_told_to_a_tenth),
    cmocka_unit_test (girths_that_disagree_are_warned_of),
    cmocka_unit_test (warnings_are_plain_sentences),
    cmocka_unit_test (a_measurement_that_a_remedy_makes_void_is_told),
    cmocka_unit_test (a_count_to_weave_is_not_said_to_fail),
    cmocka_unit_test (people_count_faces_from_one),
    cmocka_unit_test (odd_rows_say_that_their_thread_is_estimated),
    cmocka_unit_test (the_list_for_a_class_counts_needles_and_stopper_beads),
    cmocka_unit_test (every_report_reads_as_text_without_blanks_at_the_ends_of_lines),
  };
  return cmocka_run_group_tests_name ("report", tests, NULL, NULL);
}
