/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The built program as its users meet it: what it prints where, and with which exit status. */
#include "config.h"

#include "output/report/report.h"
#include "running.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <math.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

static BwProject *
load (const Bench *bench)
{
  g_autoptr (GFile) file = g_file_new_for_path (bench->project);
  BwProject *project = bw_project_load (file, NULL);
  assert_non_null (project);
  return project;
}

static void
every_report_is_printed_as_text_and_as_json (void **state)
{
  const Bench *bench = *state;
  g_autoptr (BwProject) p = load (bench);
  for (int json = 0; json <= 1; json++) {
    const char *flag = json ? "--json" : NULL;
    Result results[]
        = { run ("fit", bench->project, flag, NULL), run ("stone", bench->project, flag, NULL),
            run ("hang", bench->project, flag, NULL), run ("thread", bench->project, flag, NULL),
            run ("materials", bench->project, flag, NULL) };
    assert_prints (&results[0], bw_report_fit (p, 0, json, NULL));
    assert_prints (&results[1], bw_report_stone (p, json));
    assert_prints (&results[2], bw_report_hang (p, json));
    assert_prints (&results[3], bw_report_thread (p, FALSE, json));
    assert_prints (&results[4], bw_report_materials (p, 0, BW_UNIT_MM, json));
  }
}

static void
options_change_the_report_and_may_stand_anywhere (void **state)
{
  const Bench *bench = *state;
  g_autoptr (BwProject) p = load (bench);
  Result results[] = {
    run ("--rows", "112", "fit", "--json", bench->project, NULL),
    run ("stone", "--section=20", bench->project, "--json", NULL),
    run ("--json", "thread", "--all", bench->project, NULL),
    run ("materials", bench->project, "--csv", "--pieces", "12", NULL),
    run ("--pieces=7", "materials", "--json", "--", bench->project, NULL),
    run ("words", bench->project, NULL),
    run ("words", bench->project, "--units", "in", NULL),
    run ("materials", bench->project, "--units=in", NULL),
    run ("materials", bench->project, "--units=in", "--json", NULL),
  };
  assert_prints (&results[0], bw_report_fit (p, 112, TRUE, NULL));
  assert_prints (&results[1], bw_report_section (p, 20, TRUE, NULL));
  assert_prints (&results[2], bw_report_thread (p, TRUE, TRUE));
  assert_prints (&results[3], bw_materials_csv (p, 12));
  assert_prints (&results[4], bw_report_materials (p, 7, BW_UNIT_MM, TRUE));
  assert_prints (&results[5], bw_words (p, BW_UNIT_MM));
  assert_prints (&results[6], bw_words (p, BW_UNIT_INCH));
  assert_prints (&results[7], bw_materials_text (p, 0, BW_UNIT_INCH));
  assert_prints (&results[8], bw_report_materials (p, 0, BW_UNIT_MM, TRUE));
}

static void
json_is_one_object_and_nothing_else (void **state)
{
  const Bench *bench = *state;
  static const char *const commands[] = { "fit", "stone", "hang", "thread", "materials", "sheet" };
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_auto (Result) result = run (commands[i], "--json", bench->project, NULL);
    g_autoptr (JsonParser) parser = json_parser_new ();
    assert_true (json_parser_load_from_data (parser, result.out, -1, NULL));
    assert_true (JSON_NODE_HOLDS_OBJECT (json_parser_get_root (parser)));
    assert_int_equal (result.out[0], '{');
    assert_true (g_str_has_suffix (result.out, "\n}\n"));
  }
}

static void
a_sound_project_is_checked_in_silence (void **state)
{
  const Bench *bench = *state;
  Result result = run ("check", bench->project, NULL);
  assert_prints (&result, g_strdup (""));
}

/* Of what could be measured the greatest help comes first, and each betters what there is. */
static void
assert_help_in_order (const char *json)
{
  g_autoptr (JsonNode) root = json_from_string (json, NULL);
  JsonArray *helps = json_object_get_array_member (json_node_get_object (root), "would_help");
  double before = 1;
  assert_true (json_array_get_length (helps) >= 3);
  for (guint i = 0; i < json_array_get_length (helps); i++) {
    double chance
        = json_object_get_double_member (json_array_get_object_element (helps, i), "chance");
    assert_true (chance <= before);
    before = chance;
  }
}

static void
every_demo_is_sound_and_snug (void **state)
{
  g_autofree char *folder = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  assert_non_null (dir);
  for (const char *name; (name = g_dir_read_name (dir)); n++) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    Result check = run ("check", path, NULL);
    g_auto (Result) fit = run ("fit", path, "--json", NULL);
    assert_prints (&check, g_strdup (""));
    assert_non_null (strstr (fit.out, "\"verdict\": \"snug\","));
    assert_help_in_order (fit.out);
  }
  assert_in_range (n, 3, 100);
}

/* A book of two pieces of one bead: what the tool tells is what the book's own sums say. */
static void
hands_are_told_from_the_book (void **state)
{
  const Bench *bench = *state;
  g_autofree char *path
      = bench_file (bench, "book.json",
                    "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": ["
                    "{\"bead\": \"11/0 cylinder\", \"diameter_mm\": 1.6, \"date\": \"2026-11-29\", "
                    "\"checks\": [{\"rows\": 99, \"length_mm\": 82.0}]},"
                    "{\"bead\": \"11/0 cylinder\", \"diameter_mm\": 1.6, \"date\": \"2026-11-30\", "
                    "\"checks\": [{\"rows\": 99, \"length_mm\": 82.0}]}]}");
  g_auto (Result) json = run ("hands", "--json", "--book", path, NULL);
  g_auto (Result) text = run ("hands", "--book", path, NULL);
  g_autoptr (JsonNode) root = json_from_string (json.out, NULL);
  assert_int_equal (json.status, 0);
  assert_non_null (root);
  JsonObject *kind = json_array_get_object_element (
      json_object_get_array_member (json_node_get_object (root), "kinds"), 0);
  assert_int_equal (json_object_get_int_member (kind, "pieces"), 2);
  double pitch = json_object_get_double_member (kind, "pitch_mm");
  /* 82 mm over 50 pitches are 1.64; two pieces draw the guess of 1.6 most of the way there. */
  assert_true (pitch > 1.62 && pitch < 1.64);
  assert_true (json_object_get_double_member (kind, "pitch_sd_mm") < 0.02 * pitch);
  assert_int_equal (text.status, 0);
  assert_non_null (strstr (text.out, "11/0 cylinder"));
}

/* Drawn from one reading of each: as far towards it as a third of the usual variance is known. */
static void
what_thread_and_bed_give_is_told_from_the_book (void **state)
{
  const Bench *bench = *state;
  g_autofree char *path = bench_file (
      bench, "gives.json",
      "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": ["
      "{\"bead\": \"11/0 cylinder\", \"diameter_mm\": 1.6, \"date\": \"2026-11-29\", "
      "\"stretch\": {\"thread_mm\": 0.15, \"slack_mm\": 48.8, \"pulled_mm\": 49.6, \"tool\": "
      "\"calliper\"}, \"squeeze\": {\"cord_width_mm\": 1, \"girth_mm\": 70, \"slack_mm\": 78, "
      "\"pulled_mm\": 76, \"tool\": \"calliper\"}}]}");
  g_auto (Result) json = run ("hands", "--json", "--book", path, NULL);
  g_auto (Result) text = run ("hands", "--book", path, NULL);
  g_autoptr (JsonNode) root = json_from_string (json.out, NULL);
  assert_non_null (root);
  JsonArray *list = json_object_get_array_member (json_node_get_object (root), "stretch");
  JsonObject *thread = json_array_get_object_element (list, 0);
  /* Two thirds of the usual variance, 0.003², are shared with the next piece of this thread. */
  double said = 0.8 / 48.8, sd = 0.1 / 48.8 * sqrt (1 + 1.01 * 1.01), all = 9e-6 + sd * sd;
  assert_int_equal (json_array_get_length (list), 2);
  assert_true (
      fabs (json_object_get_double_member (thread, "share") - (0.01 + 6e-6 / all * (said - 0.01)))
      < 1e-9);
  assert_true (fabs (json_object_get_double_member (thread, "sd") - sqrt (9e-6 - 36e-12 / all))
               < 1e-9);
  assert_true (json_object_get_null_member (json_array_get_object_element (list, 1), "thread_mm"));
  assert_non_null (strstr (json.out, "\"cord_width_mm\": 1,"));
  assert_non_null (strstr (text.out, "Thread of 0.15 mm stretches by 1.2 % ± 0.3 % (1 piece)."));
}

/* The second of two like pieces is foretold by the first, and lies where it was told. */
static void
what_the_book_told_is_held_against_what_came (void **state)
{
  const Bench *bench = *state;
  static const char piece[]
      = "{\"bead\": \"11/0 cylinder\", \"diameter_mm\": 1.6, \"date\": \"2026-11-29\", "
        "\"checks\": [{\"rows\": 99, \"length_mm\": 81.0}], "
        "\"finished\": {\"rows\": 114, \"closing_pitch_mm\": 1.61, \"girth_sd_mm\": 0.4}}";
  g_autofree char *two = g_strdup_printf (
      "{\"format\": \"bandwright-book\", \"version\": 1, \"pieces\": [%s, %s]}", piece, piece);
  g_autofree char *path = bench_file (bench, "told.json", two);
  g_auto (Result) json = run ("calibrate", "--json", "--book", path, NULL);
  g_auto (Result) text = run ("calibrate", "--book", path, NULL);
  g_autoptr (JsonNode) root = json_from_string (json.out, NULL);
  assert_int_equal (json.status, 0);
  assert_non_null (root);
  JsonObject *found = json_node_get_object (root);
  assert_int_equal (json_object_get_int_member (found, "pieces"), 1);
  assert_int_equal (json_object_get_int_member (found, "finished"), 1);
  assert_true (fabs (json_object_get_double_member (found, "within_1_sd") - 1) < 1e-9);
  double told = json_object_get_double_member (found, "right_told");
  assert_true (told > 0.3 && told < 1);
  assert_int_equal (json_array_get_length (json_object_get_array_member (found, "tenths")), 10);
  assert_int_equal (text.status, 0);
  assert_non_null (strstr (text.out, "foretold"));
}

/* A project with an id and a swatch, noted twice: the book has one piece, and the hands know it. */
static void
a_project_is_noted_in_the_book_once (void **state)
{
  const Bench *bench = *state;
  g_autofree char *plain = sample_text (), *book = bench_file (bench, "noted.json", NULL);
  g_autoptr (GString) text = g_string_new (plain);
  g_string_replace (
      text, "{",
      "{\"id\": \"kelp-7\", \"progress\": {\"checks\": [{\"rows\": 20, \"length_mm\": "
      "16.9}]},",
      1);
  g_autofree char *path = bench_file (bench, "kelp.bandwright", text->str);
  g_autofree char *lock = bench_file (bench, "noted.json.lock", NULL);
  for (int i = 0; i < 2; i++) {
    Result noted = run ("note", path, "--book", book, NULL);
    assert_prints (&noted, g_strdup (""));
  }
  g_auto (Result) hands = run ("hands", "--json", "--book", book, NULL);
  assert_non_null (strstr (hands.out, "\"pieces\": 1"));
  Result nameless = run ("note", bench->project, "--book", book, NULL);
  assert_int_equal (nameless.status, 1);
  assert_non_null (strstr (nameless.err, "/id: "));
  result_clear (&nameless);
}

/* What beads and stash print as JSON is a book that another takes in, once however often. */
static void
beads_and_stash_are_told_and_read_in (void **state)
{
  const Bench *bench = *state;
  g_autofree char *from = bench_file (
      bench, "from.json",
      "{\"format\": \"bandwright-book\", \"version\": 1, \"beads\": [{\"name\": \"Mine\", "
      "\"diameter_mm\": 1.62, \"length_mm\": 1.33, \"hole_mm\": 0.8, \"per_100_g\": 0.52}], "
      "\"stash\": [{\"what\": \"thread\", \"name\": \"Smoke\", \"length_mm\": 45000}]}");
  g_auto (Result) beads = run ("beads", "--json", "--book", from, NULL);
  g_auto (Result) stash = run ("stash", "--json", "--book", from, NULL);
  g_autofree char *beads_book = bench_file (bench, "beads.json", beads.out);
  g_autofree char *stash_book = bench_file (bench, "stash.json", stash.out);
  g_autofree char *own = bench_file (bench, "own.json", NULL);
  for (int twice = 0; twice < 2; twice++) {
    Result read = run ("read-in", "--from", stash_book, "--book", own, NULL);
    assert_prints (&read, g_strdup (""));
  }
  Result read = run ("read-in", "--from", beads_book, "--book", own, NULL);
  assert_prints (&read, g_strdup (""));
  g_auto (Result) there = run ("stash", "--csv", "--book", own, NULL);
  assert_non_null (strstr (there.out, "\r\nthread,Smoke,,,,,45,m,,,\r\n"));
  assert_null (strstr (strstr (there.out, "Smoke") + 1, "Smoke"));
  g_auto (Result) mine = run ("beads", "--bead", "Mine", "--book", own, NULL);
  assert_non_null (strstr (mine.out, "1.62 mm"));
  g_auto (Result) none = run ("beads", "--bead", "Yours", "--book", own, NULL);
  assert_int_equal (none.status, 1);
  g_auto (Result) list = run ("materials", bench->project, "--json", "--book", own, NULL);
  assert_non_null (strstr (list.out, "\"thread_mm\": 45000"));
}

static void
ways_are_told_as_asked (void **state)
{
  const Bench *bench = *state;
  g_autofree char *book
      = bench_file (bench, "book.json", "{\"format\": \"bandwright-book\", \"version\": 1}");
  g_auto (Result) json
      = run ("ways", bench->project, "--json", "--limit", "2", "--book", book, NULL);
  g_auto (Result) wrong = run ("ways", bench->project, "--limit", "0", NULL);
  g_autoptr (JsonNode) root = json_from_string (json.out, NULL);
  assert_int_equal (json.status, 0);
  assert_non_null (root);
  assert_int_equal (
      json_array_get_length (json_object_get_array_member (json_node_get_object (root), "ways")),
      2);
  assert_int_equal (wrong.status, 2);
}

static void
a_book_that_cannot_be_read_is_named (void **state)
{
  const Bench *bench = *state;
  g_autofree char *path
      = bench_file (bench, "book.json", "{\"format\": \"bandwright-book\", \"version\": 7}");
  g_auto (Result) newer = run ("hands", "--book", path, NULL);
  g_auto (Result) none = run ("hands", "--book", "/no/such/book", NULL);
  assert_int_equal (newer.status, 1);
  assert_non_null (strstr (newer.err, path));
  assert_non_null (strstr (newer.err, "/version: "));
  assert_int_equal (none.status, 1);
  assert_non_null (strstr (none.err, "/no/such/book: "));
  assert_string_equal (newer.out, "");
  assert_int_equal (line_count (newer.err), 1);
}

static void
assert_fault (const char *path, const char *sentence)
{
  static const char *const commands[] = { "check", "fit", "words", "materials" };
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_auto (Result) result = run (commands[i], path, NULL);
    g_autofree char *wanted = g_strdup_printf ("%s: %s", path, sentence);
    assert_int_equal (result.status, 1);
    assert_string_equal (result.out, "");
    assert_int_equal (line_count (result.err), 1);
    if (!g_str_has_prefix (result.err, wanted))
      fail_msg ("\"%s\" does not begin with \"%s\"", result.err, wanted);
  }
}

/* One key of the sound project put wrong. */
static void
assert_broken_key (const Bench *bench, const char *right, const char *wrong, const char *pointer)
{
  g_autofree char *text = sample_text ();
  g_autoptr (GString) broken = g_string_new (text);
  g_autofree char *sentence = g_strconcat (pointer, ": ", NULL);
  assert_int_equal (g_string_replace (broken, right, wrong, 1), 1);
  g_autofree char *path = bench_file (bench, "broken.bandwright", broken->str);
  assert_fault (path, sentence);
}

static void
a_fault_is_one_line_that_names_file_and_key (void **state)
{
  const Bench *bench = *state;
  assert_broken_key (bench, "\"at_mm\": 12", "\"at_mm\": \"low\"", "/stone/at_mm");
  assert_broken_key (bench, "\"hole_mm\": 0.8", "\"hole_mm\": 1.9", "/bead/hole_mm");
  assert_broken_key (bench, "\"columns\": 12", "\"columns\": 13", "/band/columns");
  assert_broken_key (bench, "\"shoulder_mm\": 47", "\"shoulder_mm\": 65", "/stone/shoulder_mm");
  assert_broken_key (bench, "\"version\": 1", "\"version\": 99", "/version");
  assert_broken_key (bench, "\"srgb\": \"#1b2a41\"", "\"srgb\": \"blue\"", "/tray/0/srgb");
}

static void
what_is_no_project_is_said_to_be_none (void **state)
{
  const Bench *bench = *state;
  g_autofree char *missing = bench_file (bench, "missing.bandwright", NULL);
  g_autofree char *empty = bench_file (bench, "empty.bandwright", "");
  g_autofree char *noise = bench_file (bench, "noise.bandwright", "\xff\xfe{}");
  g_autofree char *cut = bench_file (bench, "cut.bandwright", "{ \"format\": \"bandw");
  assert_fault (missing, "there is no such file");
  assert_fault (bench->folder, "this is a folder, not a file");
  assert_fault (empty, "");
  assert_fault (noise, "");
  assert_fault (cut, "");
}

static void
a_file_that_may_not_be_read_is_named (void **state)
{
  const Bench *bench = *state;
  g_autofree char *locked = bench_file (bench, "locked.bandwright", "{}");
  assert_int_equal (g_chmod (locked, 0), 0);
  /* The superuser reads it all the same, and then finds no project in it. */
  assert_fault (locked, geteuid () == 0 ? "/format: " : "you are not allowed to read this file");
}

static void
a_name_with_a_line_feed_still_makes_one_line (void **state)
{
  const Bench *bench = *state;
  g_autofree char *path = g_build_filename (bench->folder, "two\nlines", NULL);
  g_auto (Result) result = run ("check", path, NULL);
  assert_int_equal (result.status, 1);
  assert_int_equal (line_count (result.err), 1);
}

/* The same as the bench helper reckons, whatever the reading is in and however it was taken. */
static void
a_try_on_is_told_as_at_the_bench (void **state)
{
  const Bench *bench = *state;
  g_autoptr (BwProject) p = load (bench);
  const BwDesign *design = bw_project_get_design (p);
  BwReading slack = { 2.4, BW_TRIED_SLACK, BW_TRIED_BY_CALLIPER };
  BwReading pulled = bw_reading_beads (design, 1.5, BW_TRIED_PULLED);
  BwReading over = { -1.25, BW_TRIED_SLACK, BW_TRIED_BY_EYE };
  Result results[] = { run ("try-on", bench->project, "--rows", "108", "--reading", "2.4", NULL),
                       run ("try-on", bench->project, "--rows=110", "--reading=1.5", "--unit",
                            "beads", "--how", "pulled", "--json", NULL),
                       run ("try-on", bench->project, "--rows", "112", "--reading", "-1.25",
                            "--tool", "eye", "--json", NULL) };
  assert_prints (&results[0], bw_report_try_on (p, 108, &slack, FALSE, NULL));
  assert_prints (&results[1], bw_report_try_on (p, 110, &pulled, TRUE, NULL));
  assert_prints (&results[2], bw_report_try_on (p, 112, &over, TRUE, NULL));
}

static void
wrong_usage_is_told_and_ends_with_status_2 (void **state)
{
  const char *file = ((const Bench *)*state)->project;
  struct {
    Result result;
    const char *sentence;
  } cases[] = {
    { run (NULL), "a command is missing" },
    { run ("weave", file, NULL), "unknown command 'weave'" },
    { run ("fit", NULL), "'fit' wants a project file" },
    { run ("fit", file, file, NULL), "'fit' takes one project file alone" },
    { run ("fit", file, "--jsn", NULL), "unknown option --jsn" },
    { run ("fit", file, "-x", NULL), "unknown option -x" },
    { run ("fit", file, "--csv", NULL), "--csv does not go with 'fit'" },
    { run ("check", file, "--json", NULL), "--json does not go with 'check'" },
    { run ("fit", file, "--json=yes", NULL), "--json takes no value" },
    { run ("fit", file, "--rows", NULL), "--rows wants a whole number from 1 to 20000" },
    { run ("fit", file, "--rows", "0", NULL), "--rows: '0' is not a whole number from 1 to 20000" },
    { run ("fit", file, "--rows=12x", NULL),
      "--rows: '12x' is not a whole number from 1 to 20000" },
    { run ("fit", file, "--rows=20001", NULL),
      "--rows: '20001' is not a whole number from 1 to 20000" },
    { run ("stone", file, "--section", "high", NULL),
      "--section: 'high' is not a height in millimetres" },
    { run ("stone", file, "--section", "nan", NULL),
      "--section: 'nan' is not a height in millimetres" },
    { run ("stone", file, "--section", "64.5", NULL),
      "--section: a height of 64.5 mm is off the stone, which reaches from 0 to 64 mm" },
    { run ("stone", file, "--section", "-1", NULL),
      "--section: a height of -1 mm is off the stone, which reaches from 0 to 64 mm" },
    { run ("materials", file, "--pieces", "-3", NULL),
      "--pieces: '-3' is not a whole number from 1 to 10000" },
    { run ("materials", file, "--pieces", "10001", NULL),
      "--pieces: '10001' is not a whole number from 1 to 10000" },
    { run ("materials", file, "--json", "--csv", NULL),
      "'materials' takes --json or --csv, not both" },
    { run ("render", file, NULL), "'render' wants -o and a file to write" },
    { run ("render", file, "-o", "x.png", "--size", "8x8", NULL),
      "--size: '8x8' is not a width and a height in pixels" },
    { run ("render", file, "-o", "x.png", "--tip", "91", NULL),
      "--tip: '91' is not an angle from -90 to 90 degrees" },
    { run ("help", "weave", NULL), "unknown command 'weave'" },
    { run ("hands", file, NULL), "'hands' takes no project file" },
    { run ("hands", "--rows", "3", NULL), "--rows does not go with 'hands'" },
    { run ("fit", file, "--book", "x", NULL), "--book does not go with 'fit'" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_misuse (&cases[i].result, cases[i].sentence);
}

static void
usage_comes_before_the_file (void **state)
{
  g_auto (Result) result = run ("materials", "--json", "--csv", "/no/such/file", NULL);
  assert_int_equal (result.status, 2);
}

static void
help_tells_of_every_command_and_each_of_its_options (void **state)
{
  static const char *const options[][2] = {
    { "fit", "--rows R" },         { "stone", "--section Z" }, { "hang", "--json" },
    { "thread", "--all" },         { "materials", "--csv" },   { "words", "--help" },
    { "render", "--output FILE" }, { "check", "--help" },      { "hands", "--book FILE" },
    { "ways", "--seed N" },        { "note", "--book FILE" },
  };
  g_auto (Result) all = run ("--help", NULL);
  assert_int_equal (all.status, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (options); i++) {
    Result help = run ("help", options[i][0], NULL);
    g_auto (Result) same = run (options[i][0], "--help", NULL);
    g_autofree char *line = g_strdup_printf ("\n  %s ", options[i][0]);
    assert_non_null (strstr (all.out, line));
    assert_non_null (strstr (same.out, options[i][1]));
    assert_prints (&help, g_strdup (same.out));
  }
}

static void
the_version_is_the_programs (void **state)
{
  Result result = run ("--version", NULL);
  assert_prints (&result, g_strdup ("bandwright-tool " BW_VERSION "\n"));
}

/* What a shell says of "bandwright-tool fit FILE REDIRECTION": the status and standard error. */
static int
run_in_shell (const Bench *bench, const char *redirection, char **err)
{
  g_autofree char *tool = g_shell_quote (g_getenv ("BW_TOOL"));
  g_autofree char *file = g_shell_quote (bench->project);
  g_autofree char *command = g_strdup_printf ("exec %s stone %s %s", tool, file, redirection);
  const char *argv[] = { "sh", "-c", command, NULL };
  g_autoptr (GSubprocess) shell = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDERR_PIPE, NULL);
  assert_non_null (shell);
  assert_true (g_subprocess_communicate_utf8 (shell, NULL, NULL, NULL, err, NULL));
  assert_true (g_subprocess_get_if_exited (shell));
  return g_subprocess_get_exit_status (shell);
}

static void
a_full_disk_is_noticed (void **state)
{
  g_autofree char *err = NULL;
  assert_int_equal (run_in_shell (*state, "> /dev/full", &err), 1);
  assert_string_equal (err, "standard output: No space left on device\n");
}

static void
a_closed_standard_output_is_noticed (void **state)
{
  g_autofree char *err = NULL;
  assert_int_equal (run_in_shell (*state, ">&-", &err), 1);
  assert_string_equal (err, "standard output: Bad file descriptor\n");
}

/* The reader's end of the pipe is gone before the tool writes. */
static void
a_closed_pipe_is_noticed (void **state)
{
  const Bench *bench = *state;
  const char *argv[] = { g_getenv ("BW_TOOL"), "stone", bench->project, NULL };
  int ends[2];
  g_autofree char *err = NULL;
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDERR_PIPE);
  assert_int_equal (pipe (ends), 0);
  close (ends[0]);
  g_subprocess_launcher_take_stdout_fd (launcher, ends[1]);
  g_autoptr (GSubprocess) process = g_subprocess_launcher_spawnv (launcher, argv, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, NULL, &err, NULL));
  assert_true (g_subprocess_get_if_exited (process));
  assert_int_equal (g_subprocess_get_exit_status (process), 1);
  assert_string_equal (err, "standard output: Broken pipe\n");
}

/* What a terminal would obey stands in no line of the tool's, whether the file puts it into a title
 * or into a key; C1 controls (U+0080 to U+009F) are obeyed by some as well. */
static void
a_file_cannot_speak_to_the_terminal (void **state)
{
  static const char *const files[] = {
    "{\"format\":\"bandwright-project\",\"version\":1,\"title\":\"a\\u001b[31mb\"}",
    "{\"format\":\"bandwright-project\",\"version\":1,\"title\":\"\\u009b31m\"}",
    "{\"a\\u001b[31m\":{\"\\u009b31m\":}}",
    "{\"format\":\"\\u001b[31m\"}",
  };
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *path = bench_file (*state, "loud.bandwright", files[i]);
    g_auto (Result) result = run ("check", path, NULL);
    assert_int_equal (result.status, 1);
    assert_string_equal (result.out, "");
    assert_int_equal (line_count (result.err), 1);
    for (const char *p = result.err; *p; p = g_utf8_next_char (p))
      assert_true (*p == '\n' || !g_unichar_iscntrl (g_utf8_get_char (p)));
  }
}

static void
a_design_goes_on_the_stone_of_another_project (void **state)
{
  const Bench *bench = *state;
  g_autoptr (BwProject) slim = bw_project_new ();
  BwDesign design = *bw_project_get_design (slim);
  for (int i = 0; i < 3; i++)
    design.stone.values_mm[i] *= 1.2;
  design.look
      = (BwStoneLook){ .growth_lines = 0.5, .chips = 0.25, .base = BW_BASE_BROKEN, .seed = 7 };
  assert_true (bw_project_set_design (slim, "Stone", &design, NULL));
  bw_project_set_mineral (slim, "Mineral", "smoky quartz");
  g_autofree char *text = bw_project_to_data (slim, NULL);
  g_autofree char *stone = bench_file (bench, "slim.bandwright", text);
  g_autofree char *out = bench_file (bench, "restoned.bandwright", NULL);
  g_autofree char *demo
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "split-tide.bandwright", NULL);
  g_auto (Result) made
      = run ("restone", demo, "--stone", stone, "-o", out, "--by-hand", "stretch", NULL);
  assert_string_equal (made.err, "");
  assert_int_equal (made.status, 0);
  g_autoptr (GFile) file = g_file_new_for_path (out);
  g_autoptr (BwProject) project = bw_project_load (file, NULL);
  assert_non_null (project);
  const BwDesign *now = bw_project_get_design (project);
  assert_memory_equal (now->stone.values_mm, design.stone.values_mm, 3 * sizeof (double));
  assert_int_equal (now->band.rows, 2 * bw_fit_recommended (now, bw_project_stone (project)));
  assert_int_equal (now->band.columns, 14);
  assert_true (bw_stone_look_equal (&now->look, &design.look));
  assert_string_equal (bw_project_get_mineral (project), "smoky quartz");

  g_auto (Result) without = run ("restone", demo, "-o", out, NULL);
  assert_int_equal (without.status, 2);
  g_auto (Result) wrong
      = run ("restone", demo, "--stone", stone, "-o", out, "--by-hand", "guess", NULL);
  assert_int_equal (wrong.status, 2);
  g_autofree char *broken = bench_file (bench, "broken.bandwright", "{");
  g_auto (Result) fault = run ("restone", demo, "--stone", broken, "-o", out, NULL);
  assert_int_equal (fault.status, 1);
  assert_non_null (strstr (fault.err, "broken.bandwright"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_report_is_printed_as_text_and_as_json),
    cmocka_unit_test (options_change_the_report_and_may_stand_anywhere),
    cmocka_unit_test (json_is_one_object_and_nothing_else),
    cmocka_unit_test (a_sound_project_is_checked_in_silence),
    cmocka_unit_test (every_demo_is_sound_and_snug),
    cmocka_unit_test (hands_are_told_from_the_book),
    cmocka_unit_test (what_thread_and_bed_give_is_told_from_the_book),
    cmocka_unit_test (what_the_book_told_is_held_against_what_came),
    cmocka_unit_test (a_book_that_cannot_be_read_is_named),
    cmocka_unit_test (a_project_is_noted_in_the_book_once),
    cmocka_unit_test (beads_and_stash_are_told_and_read_in),
    cmocka_unit_test (ways_are_told_as_asked),
    cmocka_unit_test (a_fault_is_one_line_that_names_file_and_key),
    cmocka_unit_test (what_is_no_project_is_said_to_be_none),
    cmocka_unit_test (a_file_that_may_not_be_read_is_named),
    cmocka_unit_test (a_name_with_a_line_feed_still_makes_one_line),
    cmocka_unit_test (a_file_cannot_speak_to_the_terminal),
    cmocka_unit_test (a_try_on_is_told_as_at_the_bench),
    cmocka_unit_test (a_design_goes_on_the_stone_of_another_project),
    cmocka_unit_test (wrong_usage_is_told_and_ends_with_status_2),
    cmocka_unit_test (usage_comes_before_the_file),
    cmocka_unit_test (help_tells_of_every_command_and_each_of_its_options),
    cmocka_unit_test (the_version_is_the_programs),
    cmocka_unit_test (a_full_disk_is_noticed),
    cmocka_unit_test (a_closed_standard_output_is_noticed),
    cmocka_unit_test (a_closed_pipe_is_noticed),
  };
  return cmocka_run_group_tests_name ("tool", tests, set_up, tear_down);
}
