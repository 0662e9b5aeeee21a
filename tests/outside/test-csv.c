/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What we print, read by others: the CSV module and the JSON module of the Python 3 standard
 * library (docs.python.org, "csv — CSV File Reading and Writing", "json — JSON encoder and
 * decoder"), in the strict mode of either. The records they find are compared with the project. */
#include "output/report/report.h"
#include "sample.h"

#include <gio/gio.h>
#include <json-glib/json-glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
#include <math.h>

static const char csv_reader[]
    = "import csv, io, json, sys\n"
      "text = sys.stdin.buffer.read().decode('utf-8')\n"
      "assert text.endswith('\\r\\n')\n"
      "json.dump(list(csv.reader(io.StringIO(text, newline=''), strict=True)), sys.stdout)\n";

/* NaN and the infinities, which Python reads and RFC 8259 does not know, are refused. */
static const char json_reader[] = "import json, sys\n"
                                  "def no(word): raise ValueError(word)\n"
                                  "data = json.loads(sys.stdin.buffer.read().decode('utf-8'), "
                                  "parse_constant=no)\n"
                                  "assert isinstance(data, dict)\n"
                                  "json.dump([repr(data)], sys.stdout)\n";

/* What the Python program prints for this input, as JSON. */
static JsonArray *
read_by_python (const char *program, const char *input)
{
  const char *argv[] = { "/usr/bin/python3", "-c", program, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) python = g_subprocess_newv (
      argv, G_SUBPROCESS_FLAGS_STDIN_PIPE | G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autofree char *output = NULL;
  assert_non_null (python);
  assert_true (g_subprocess_communicate_utf8 (python, input, NULL, &output, NULL, &error));
  assert_true (g_subprocess_get_successful (python));
  assert_true (json_parser_load_from_data (parser, output, -1, NULL));
  return json_array_ref (json_node_get_array (json_parser_get_root (parser)));
}

static const char *
field (JsonArray *records, guint record, guint i)
{
  return json_array_get_string_element (json_array_get_array_element (records, record), i);
}

static BwProject *
load (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static void
assert_header (JsonArray *records)
{
  static const char *const header[]
      = { "item",     "letter",    "name",        "count",    "quantity", "unit",
          "grams",    "packs",     "article",     "size",     "finish",   "colour",
          "needed g", "in hand g", "order beads", "in stash", "to buy" };
  for (guint i = 0; i < G_N_ELEMENTS (header); i++)
    assert_string_equal (field (records, 0, i), header[i]);
  for (guint r = 0; r < json_array_get_length (records); r++)
    assert_int_equal (json_array_get_length (json_array_get_array_element (records, r)),
                      G_N_ELEMENTS (header));
}

/* Two places and no more: a third is not what anybody weighs or pays. */
static void
assert_as_a_scale_shows (const char *number)
{
  const char *point = strchr (number, '.');
  assert_true (!point || strlen (point + 1) <= 2);
}

/* Names arrive as the maker wrote them, but for the apostrophe before what looks like a formula. */
static void
assert_bead (JsonArray *records, guint record, const Sample *sample, const BwBeadNeed *need)
{
  int i = *field (records, record, 1) - 'a';
  const char *name = sample->names[i];
  g_autofree char *disarmed = g_strconcat (*name == '=' ? "'" : "", name, NULL);
  assert_string_equal (field (records, record, 0), "bead");
  assert_string_equal (field (records, record, 2), disarmed);
  assert_int_equal (g_ascii_strtoull (field (records, record, 3), NULL, 10), need[i].count);
  assert_int_equal (g_ascii_strtoull (field (records, record, 4), NULL, 10), need[i].with_spare);
  assert_string_equal (field (records, record, 5), "beads");
  double grams = g_ascii_strtod (field (records, record, 6), NULL);
  assert_true (fabs (grams - need[i].grams) <= 0.005 + 1e-12);
  assert_as_a_scale_shows (field (records, record, 6));
  assert_int_equal (g_ascii_strtoull (field (records, record, 7), NULL, 10), need[i].packs);
}

static void
another_reader_finds_every_bead_of_the_list (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4180);
  for (int k = 0; k < 12; k++) {
    g_autoptr (Sample) sample = sample_new (rand, 10, 0, k % 4);
    g_autoptr (BwProject) project = load (sample);
    const BwMaterials *materials = bw_project_materials (project);
    g_autofree char *csv = bw_materials_csv (project, 0);
    g_autoptr (JsonArray) records = read_by_python (csv_reader, csv);
    guint record = 1;
    assert_header (records);
    for (int i = 0; i < sample->n_colours; i++)
      if (materials->need[i].count > 0)
        assert_bead (records, record++, sample, materials->need);
    assert_string_equal (field (records, record, 0), "all beads");
    assert_int_equal (g_ascii_strtoull (field (records, record, 3), NULL, 10),
                      materials->total_beads);
    assert_int_equal (g_ascii_strtoull (field (records, record, 4), NULL, 10),
                      materials->total_with_spare);
    assert_int_equal (g_ascii_strtoull (field (records, record, 7), NULL, 10),
                      materials->total_packs);
  }
}

/* The quantity of the first record of this item and name (any when NULL). */
static double
quantity_of (JsonArray *records, const char *item, const char *name, const char **unit)
{
  for (guint r = 1; r < json_array_get_length (records); r++)
    if (g_str_equal (field (records, r, 0), item)
        && (!name || g_str_equal (field (records, r, 2), name))) {
      *unit = field (records, r, 5);
      assert_as_a_scale_shows (field (records, r, 4));
      return g_ascii_strtod (field (records, r, 4), NULL);
    }
  fail_msg ("no record of %s", item);
  return 0;
}

static void
assert_quantity (JsonArray *records, const char *item, const char *name, double value,
                 const char *unit)
{
  const char *found_unit;
  double found = quantity_of (records, item, name, &found_unit);
  if (g_str_equal (unit, "m")) /* never cut too short, nor a whole centimetre too long */
    assert_true (found >= value / 1000 - 1e-9 && found < value / 1000 + 0.01 + 1e-9);
  else
    assert_true (fabs (found - value) <= 0.005 + 1e-9);
  assert_string_equal (found_unit, unit);
}

static void
another_reader_finds_cord_and_thread_and_no_cost (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4181);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  sample->prices = TRUE;
  g_autoptr (BwProject) project = load (sample);
  const BwMaterials *materials = bw_project_materials (project);
  g_autofree char *csv = bw_materials_csv (project, 0);
  g_autoptr (JsonArray) records = read_by_python (csv_reader, csv);
  assert_quantity (records, "bed cord", "1 mm", materials->bed_cord_mm, "m");
  assert_quantity (records, "thread", "0.15 mm", materials->thread_mm, "m");
  assert_quantity (records, "thread lengths", NULL, (double)materials->thread_lengths, "lengths");
  g_autofree char *size = g_strconcat ("size ", materials->needle->number, NULL);
  assert_quantity (records, "needle", size, materials->needles, "pieces");
  assert_quantity (records, "stopper bead", NULL, materials->stopper_beads, "pieces");
  assert_int_equal (materials->needles, bw_project_get_design (project)->supply.pieces);
  assert_int_equal (materials->stopper_beads, materials->needles);
  assert_quantity (records, "hanging cord", "2 mm", materials->hanging_cord_mm, "m");
  assert_quantity (records, "design", bw_project_get_title (project),
                   bw_project_get_design (project)->supply.pieces, "pieces");
  assert_null (strstr (csv, "cost"));
  assert_null (strstr (csv, "EUR"));
}

/* What is in hand is not ordered, and never less than nothing. */
static void
what_is_in_hand_is_taken_off_the_order (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4184);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = load (sample);
  const BwMaterials *materials = bw_project_materials (project);
  const BwDesign *design = bw_project_get_design (project);
  BwTray tray = *bw_project_get_tray (project);
  for (int i = 0; i < tray.n_colours; i++) {
    g_snprintf (tray.colour[i].article, sizeof tray.colour[i].article, "TW-%d", i + 1);
    tray.colour[i].in_hand_g = i % 2 ? materials->need[i].grams + 1 : materials->need[i].grams / 3;
  }
  assert_true (bw_project_set_tray (project, "Hand", &tray, NULL));
  materials = bw_project_materials (project);
  g_autofree char *csv = bw_materials_csv (project, 0);
  g_autoptr (JsonArray) records = read_by_python (csv_reader, csv);
  guint record = 1;
  double all = 0;
  for (int i = 0; i < tray.n_colours; i++) {
    const BwBeadNeed *need = &materials->need[i];
    if (need->count == 0)
      continue;
    g_autofree char *article = g_strdup_printf ("TW-%d", i + 1);
    g_autofree char *colour = g_strdup_printf ("#%06x", tray.colour[i].srgb);
    double order = i % 2 ? 0 : need->grams * 2 / 3;
    all += order;
    assert_true (fabs (g_ascii_strtod (field (records, record, 6), NULL) - order) <= 0.0051);
    assert_int_equal (g_ascii_strtoull (field (records, record, 7), NULL, 10),
                      (guint64)ceil (order / design->supply.pack_g - 1e-9));
    assert_string_equal (field (records, record, 8), article);
    assert_string_equal (field (records, record, 9), design->bead.name);
    assert_string_equal (field (records, record, 10), bw_finish_word (tray.colour[i].finish));
    assert_string_equal (field (records, record, 11), colour);
    assert_true (fabs (g_ascii_strtod (field (records, record, 12), NULL) - need->grams) <= 0.0051);
    double beads = (double)need->with_spare * order / need->grams;
    assert_int_equal (g_ascii_strtoull (field (records, record, 14), NULL, 10),
                      (guint64)ceil (beads - 1e-6));
    record++;
  }
  assert_string_equal (field (records, record, 0), "all beads");
  assert_true (fabs (g_ascii_strtod (field (records, record, 6), NULL) - all) <= 0.0051);
}

/* A colour called "=1+1" arrives as text, and the list with it as a whole. */
static void
a_colour_named_like_a_formula_arrives_as_text (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4182);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = load (sample);
  BwTray tray = *bw_project_get_tray (project);
  g_strlcpy (tray.colour[0].name, "=1+1", sizeof tray.colour[0].name);
  assert_true (bw_project_set_tray (project, "Name", &tray, NULL));
  g_autofree char *csv = bw_materials_csv (project, 0);
  g_autoptr (JsonArray) records = read_by_python (csv_reader, csv);
  assert_string_equal (field (records, 1, 2), "'=1+1");
  for (guint r = 0; r < json_array_get_length (records); r++)
    for (guint c = 0; c < 15; c++)
      assert_null (strchr ("=+-@", *field (records, r, c) ? *field (records, r, c) : 'x'));
}

/* Ring and clasp stand in the list of a piece that has them. */
static void
another_reader_finds_ring_and_clasp (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4183);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_RING);
  sample->prices = TRUE;
  g_autoptr (BwProject) project = load (sample);
  BwDesign design = *bw_project_get_design (project);
  design.supply.closing = BW_CLOSING_CLASP;
  design.supply.hanging_cord_per_m = 1.8;
  design.supply.findings = 2.5;
  assert_true (bw_project_set_design (project, "Clasp", &design, NULL));
  g_autofree char *csv = bw_materials_csv (project, 0);
  g_autoptr (JsonArray) records = read_by_python (csv_reader, csv);
  assert_quantity (records, "metal ring", NULL, 3, "pieces");
  assert_quantity (records, "clasp", NULL, 3, "pieces");
}

static void
another_reader_takes_every_json_report (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8259);
  for (int k = 0; k < 3; k++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 8, g_rand_int_range (rand, 1, 130), SAMPLE_NO_BAIL);
    sample->taper = k % 2;
    g_autoptr (BwProject) project = load (sample);
    char *reports[] = { bw_report_fit (project, 0, TRUE, NULL),
                        bw_report_stone (project, TRUE),
                        bw_report_section (project, 64, TRUE, NULL),
                        bw_report_hang (project, TRUE),
                        bw_report_thread (project, TRUE, TRUE),
                        bw_report_materials (project, 5, BW_UNIT_MM, TRUE) };
    for (gsize i = 0; i < G_N_ELEMENTS (reports); i++) {
      g_autoptr (JsonArray) data = read_by_python (json_reader, reports[i]);
      assert_true (strlen (json_array_get_string_element (data, 0)) > 20);
      g_free (reports[i]);
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (another_reader_finds_every_bead_of_the_list),
    cmocka_unit_test (another_reader_finds_cord_and_thread_and_no_cost),
    cmocka_unit_test (what_is_in_hand_is_taken_off_the_order),
    cmocka_unit_test (a_colour_named_like_a_formula_arrives_as_text),
    cmocka_unit_test (another_reader_finds_ring_and_clasp),
    cmocka_unit_test (another_reader_takes_every_json_report),
  };
  return cmocka_run_group_tests_name ("csv and json readers", tests, NULL, NULL);
}
