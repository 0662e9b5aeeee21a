/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a maker keeps, told by the built tool: kinds of bead, stash, trays, stones, habits, and the
 * colours of a photograph; as text, as JSON that another book reads in, and what is said of what
 * cannot be read. */
#include "running.h"

#include <cairo.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <signal.h>
#include <sys/resource.h>

#define HEAD "{\"format\": \"bandwright-book\", \"version\": 1"

static const char whole[]
    = HEAD ", \"beads\": [{\"name\": \"Mine\", \"diameter_mm\": 1.62, \"length_mm\": 1.33, "
           "\"hole_mm\": 0.8, "
           "\"per_100_g\": 0.52, \"finishes\": [\"matte\"], \"article\": \"M-1\", \"price\": 3.5, "
           "\"pack_g\": 7.2, \"currency\": \"EUR\", \"lot\": \"7\", \"note\": \"a, \\\"b\\\"\"}],"
           "\"stash\": [{\"what\": \"thread\", \"name\": \"Smoke\", \"length_mm\": 45000},"
           "{\"what\": \"beads\", \"name\": \"Ink\", \"bead\": \"Mine\", \"srgb\": \"#112233\", "
           "\"finish\": \"matte\", \"grams\": 5.25},"
           "{\"what\": \"ring\", \"name\": \"Link\", \"count\": 3}],"
           "\"trays\": [{\"name\": \"Shore\", \"tray\": [{\"letter\": \"A\", \"name\": \"Ink\", "
           "\"srgb\": \"#112233\", \"finish\": \"matte\"}, {\"letter\": \"B\", \"name\": \"Foam\", "
           "\"srgb\": \"#eeeeff\", \"finish\": \"opaque\"}]}],"
           "\"stones\": [{\"name\": \"Grey\", \"state\": \"in-design\", \"date\": \"2026-11-01\", "
           "\"stone\": {\"faces\": 6, \"measured\": \"girth\", \"values_mm\": [40], \"at_mm\": 10, "
           "\"length_mm\": 50, \"shoulder_mm\": 40}}],"
           "\"habits\": {\"tail_mm\": 200, \"spare\": 0.15}}";

static const char *const commands[] = { "beads", "stash", "trays", "stones", "habits" };

static char *
told (const char *command, const char *book)
{
  g_auto (Result) result = run (command, "--book", book, NULL);
  assert_string_equal (result.err, "");
  assert_int_equal (result.status, 0);
  return g_steal_pointer (&result.out);
}

static JsonObject *
told_json (const char *command, const char *book, JsonNode **root)
{
  g_auto (Result) result = run (command, "--json", "--book", book, NULL);
  assert_string_equal (result.err, "");
  assert_int_equal (result.status, 0);
  *root = json_from_string (result.out, NULL);
  assert_non_null (*root);
  return json_node_get_object (*root);
}

static void
what_is_kept_is_told_in_lines (void **state)
{
  static const char *const wanted[] = {
    "bead  diameter   length     hole  grams of 100  article no.\n"
    "Mine   1.62 mm  1.33 mm  0.80 mm          0.52  M-1\n",
    "what    name   bead  finish    there  article no.\n"
    "thread  Smoke                45.00 m\n"
    "beads   Ink    Mine  matte    5.25 g\n"
    "ring    Link                       3\n",
    "Shore: #112233 #eeeeff\n",
    "Grey: in a design, 6 faces, 50 mm long\n",
    "/thread/tail_mm 200\n/materials/spare 0.15\n",
  };
  g_autofree char *book = bench_file (*state, "whole.json", whole);
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_autofree char *text = told (commands[i], book);
    assert_string_equal (text, wanted[i]);
  }
}

/* Each prints that one thing, and what it prints makes another book that prints the same. */
static void
json_of_one_thing_is_a_book_of_it (void **state)
{
  g_autofree char *book = bench_file (*state, "whole.json", whole);
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_autofree char *copy = bench_file (*state, "copy.json", NULL);
    g_autoptr (JsonNode) root = NULL;
    JsonObject *object = told_json (commands[i], book, &root);
    for (gsize k = 0; k < G_N_ELEMENTS (commands); k++)
      assert_int_equal (json_object_has_member (object, commands[k]), k == i);
    g_auto (Result) first = run (commands[i], "--json", "--book", book, NULL);
    g_autofree char *only = bench_file (*state, "only.json", first.out);
    Result read = run ("read-in", "--from", only, "--book", copy, NULL);
    assert_prints (&read, g_strdup (""));
    Result again = run (commands[i], "--json", "--book", copy, NULL);
    assert_prints (&again, g_strdup (first.out));
    g_remove (copy);
  }
}

static void
json_has_the_values_of_the_book (void **state)
{
  g_autofree char *book = bench_file (*state, "whole.json", whole);
  g_autoptr (JsonNode) trays = NULL, stones = NULL, habits = NULL, stash = NULL, beads = NULL;
  JsonObject *tray = json_array_get_object_element (
      json_object_get_array_member (told_json ("trays", book, &trays), "trays"), 0);
  JsonObject *stone = json_array_get_object_element (
      json_object_get_array_member (told_json ("stones", book, &stones), "stones"), 0);
  JsonObject *ink = json_array_get_object_element (
      json_object_get_array_member (told_json ("stash", book, &stash), "stash"), 1);
  JsonObject *bead = json_array_get_object_element (
      json_object_get_array_member (told_json ("beads", book, &beads), "beads"), 0);
  JsonObject *habit = json_object_get_object_member (told_json ("habits", book, &habits), "habits");
  JsonObject *foam = json_array_get_object_element (json_object_get_array_member (tray, "tray"), 1);
  assert_string_equal (json_object_get_string_member (tray, "name"), "Shore");
  assert_string_equal (json_object_get_string_member (foam, "srgb"), "#eeeeff");
  assert_string_equal (json_object_get_string_member (stone, "state"), "in-design");
  assert_float_equal (
      json_object_get_double_member (json_object_get_object_member (stone, "stone"), "length_mm"),
      50, 0);
  assert_float_equal (json_object_get_double_member (ink, "grams"), 5.25, 0);
  assert_string_equal (json_object_get_string_member (ink, "finish"), "matte");
  assert_float_equal (json_object_get_double_member (bead, "price"), 3.5, 0);
  assert_string_equal (json_object_get_string_member (bead, "note"), "a, \"b\"");
  assert_float_equal (json_object_get_double_member (habit, "spare"), 0.15, 0);
}

static void
beads_and_stash_are_told_as_csv (void **state)
{
  g_autofree char *book = bench_file (*state, "whole.json", whole);
  Result beads = run ("beads", "--csv", "--book", book, NULL);
  Result stash = run ("stash", "--csv", "--book", book, NULL);
  assert_prints (&beads, g_strdup ("name,diameter mm,length mm,hole mm,grams of 100,finishes,"
                                   "article,price,for grams,currency,lot,note\r\n"
                                   "Mine,1.62,1.33,0.8,0.52,matte,M-1,3.5,7.2,EUR,7,"
                                   "\"a, \"\"b\"\"\"\r\n"));
  assert_prints (&stash, g_strdup ("what,name,bead,finish,colour,width mm,amount,unit,article,lot,"
                                   "note\r\n"
                                   "thread,Smoke,,,,,45,m,,,\r\n"
                                   "beads,Ink,Mine,matte,#112233,,5.25,g,,,\r\n"
                                   "ring,Link,,,,,3,pieces,,,\r\n"));
}

static void
what_is_not_there_yet_is_said_in_a_sentence (void **state)
{
  static const char *const sentences[]
      = { "No bead of your own is in the book yet.\n", "Nothing is in the stash yet.\n",
          "No tray of your own is in the book yet.\n", "No stone is in the book yet.\n",
          "No habit is in the book yet.\n" };
  g_autofree char *book = bench_file (*state, "empty.json", HEAD "}");
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_autofree char *text = told (commands[i], book);
    g_autoptr (JsonNode) root = NULL;
    JsonNode *none = json_object_get_member (told_json (commands[i], book, &root), commands[i]);
    assert_string_equal (text, sentences[i]);
    assert_non_null (none);
    assert_true (JSON_NODE_HOLDS_ARRAY (none)
                     ? json_array_get_length (json_node_get_array (none)) == 0
                     : json_object_get_size (json_node_get_object (none)) == 0);
  }
}

/* One line that begins so, on standard error alone. */
static void
assert_fails (Result *result, const char *sentence)
{
  g_autofree char *wanted = g_strconcat ("bandwright-tool: ", sentence, NULL);
  if (result->status != 1)
    fail_msg ("%d instead of 1: \"%s\", \"%s\"", result->status, result->out, result->err);
  assert_string_equal (result->out, "");
  assert_int_equal (line_count (result->err), 1);
  if (!g_str_has_prefix (result->err, wanted))
    fail_msg ("\"%s\" does not begin with \"%s\"", result->err, wanted);
  result_clear (result);
}

static void
assert_refused (const Bench *bench, const char *book, const char *sentence)
{
  g_autofree char *path = bench_file (bench, "bad.json", book);
  g_autofree char *wanted = g_strdup_printf ("%s: %s", path, sentence);
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    Result result = run (commands[i], "--book", path, NULL);
    Result json = run (commands[i], "--json", "--book", path, NULL);
    assert_fails (&result, wanted);
    assert_fails (&json, wanted);
  }
}

static void
a_book_that_cannot_be_is_refused_by_every_command (void **state)
{
  static const char *const cases[][2] = {
    { "", "" },
    { HEAD, "" },
    { "{\"format\": \"bandwright-book\", \"version\": 2}",
      "/version: this book was written by a newer Bandwright (version 2 of the format; this "
      "program knows 1)." },
    { "{\"format\": \"bandwright-project\", \"version\": 1}", "/format: " },
    { HEAD
      ", \"beads\": [{\"name\": \"A\", \"diameter_mm\": 0, \"length_mm\": 1.3, \"hole_mm\": 0.8}]}",
      "/beads/0/diameter_mm: " },
    { HEAD ", \"beads\": [{\"diameter_mm\": 1.6}]}", "/beads/0/name: " },
    { HEAD ", \"stash\": [{\"what\": \"glue\", \"name\": \"A\"}]}", "/stash/0/what: " },
    { HEAD ", \"stash\": [{\"what\": \"thread\", \"name\": \"A\", \"length_mm\": -1}]}",
      "/stash/0/length_mm: " },
    { HEAD ", \"trays\": [{\"name\": \"A\", \"tray\": [{\"letter\": \"A\", \"srgb\": \"red\"}]}]}",
      "/trays/0/tray/0/srgb: " },
    { HEAD ", \"trays\": [{\"name\": \" \", \"tray\": []}]}", "/trays/0/name: a name is needed." },
    { HEAD ", \"stones\": [{\"name\": \"A\", \"state\": \"lost\", \"stone\": {}}]}",
      "/stones/0/state: " },
    { HEAD ", \"stones\": [{\"name\": \"A\"}]}", "/stones/0/stone: " },
    { HEAD ", \"habits\": {\"needle_mm\": \"thin\"}}", "/habits/needle_mm: " },
    { HEAD ", \"habits\": {\"spare\": 11}}", "/habits/spare: " },
    { HEAD ", \"habits\": []}", "/habits: " },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (*state, cases[i][0], cases[i][1]);
}

static void
a_book_that_is_not_there_is_named (void **state)
{
  const Bench *bench = *state;
  g_autofree char *folder = g_strdup_printf ("%s: this is a folder, not a file", bench->folder);
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    Result none = run (commands[i], "--book", "/no/such/book", NULL);
    Result wrong = run (commands[i], "--book", bench->folder, NULL);
    assert_fails (&none, "/no/such/book: there is no such file");
    assert_fails (&wrong, folder);
  }
  Result mine = run ("beads", "--bead", "Yours", "--book", "/no/such/book", NULL);
  assert_fails (&mine, "/no/such/book: ");
}

static void
what_does_not_go_with_a_command_is_wrong_usage (void **state)
{
  const char *file = ((const Bench *)*state)->project;
  struct {
    Result result;
    const char *sentence;
  } cases[] = {
    { run ("trays", "--csv", NULL), "--csv does not go with 'trays'" },
    { run ("stones", "--csv", NULL), "--csv does not go with 'stones'" },
    { run ("habits", "--bead", "Mine", NULL), "--bead does not go with 'habits'" },
    { run ("stash", "--json", "--csv", NULL), "'stash' takes --json or --csv, not both" },
    { run ("trays", file, NULL), "'trays' takes no project file" },
    { run ("stones", file, NULL), "'stones' takes no project file" },
    { run ("habits", file, NULL), "'habits' takes no project file" },
    { run ("stash", "--book", NULL), "--book wants a file name" },
    { run ("read-in", NULL), "'read-in' wants --from and a file to read" },
    { run ("tray", NULL), "'tray' wants --from and a file to read" },
    { run ("tray", "--from", NULL), "--from wants a file name" },
    { run ("tray", "--from", "x.png", "--limit", "0", NULL),
      "--limit: '0' is not a whole number from 1 to 100" },
    { run ("tray", "--from", "x.png", "--limit", "25", NULL),
      "--limit: a photograph gives 24 colours at most" },
    { run ("tray", "--from", "x.png", "--json", "-o", "x.gpl", NULL),
      "'tray' takes --json or -o, not both" },
    { run ("tray", "--from", "x.png", "-o", "x.txt", NULL),
      "x.txt: the name must end in .gpl or .css" },
    { run ("tray", "--from", "x.png", "--book", "x", NULL), "--book does not go with 'tray'" },
    { run ("tray", "--from", "x.png", file, NULL), "'tray' takes no project file" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_misuse (&cases[i].result, cases[i].sentence);
}

/* --- A photograph ------------------------------------------------------------------------------
 */

static void
disc (cairo_t *cr, double x, double radius, double red, double green, double blue)
{
  cairo_arc (cr, x, 30, radius, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, red, green, blue);
  cairo_fill (cr);
}

/* Two beads on paper: a large red one and a smaller blue one. */
static char *
photograph (const Bench *bench)
{
  char *path = bench_file (bench, "beads.png", NULL);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 100, 60);
  cairo_t *cr = cairo_create (picture);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_NONE);
  cairo_set_source_rgb (cr, 1, 1, 0.8);
  cairo_paint (cr);
  disc (cr, 28, 20, 0.8, 0, 0);
  disc (cr, 75, 14, 0, 0.2, 0.6);
  cairo_destroy (cr);
  assert_int_equal (cairo_surface_write_to_png (picture, path), CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (picture);
  return path;
}

/* What a disc covers is as its radius squared: 400 to 196; its edge, where colours meet, is left
 * out. */
static void
the_colours_of_a_photograph_are_told_the_most_first (void **state)
{
  g_autofree char *photo = photograph (*state);
  g_auto (Result) text = run ("tray", "--from", photo, NULL);
  g_auto (Result) json = run ("tray", "--json", "--from", photo, NULL);
  g_auto (Result) one = run ("tray", "--from", photo, "--limit", "1", NULL);
  g_autoptr (JsonNode) root = json_from_string (json.out, NULL);
  JsonArray *colours = json_object_get_array_member (json_node_get_object (root), "colours");
  JsonObject *red = json_array_get_object_element (colours, 0),
             *blue = json_array_get_object_element (colours, 1);
  double most = json_object_get_double_member (red, "share"),
         least = json_object_get_double_member (blue, "share");
  assert_int_equal (text.status, 0);
  assert_int_equal (line_count (text.out), 2);
  assert_true (g_str_has_prefix (text.out, "#cc0000 6"));
  assert_non_null (strstr (text.out, "\n#003399 3"));
  assert_int_equal (json_array_get_length (colours), 2);
  assert_string_equal (json_object_get_string_member (red, "srgb"), "#cc0000");
  assert_string_equal (json_object_get_string_member (blue, "srgb"), "#003399");
  if (fabs (most - 400 / 596.0) > 0.02)
    fail_msg ("%g of it is red", most);
  assert_true (fabs (most + least - 1) < 1e-3);
  assert_int_equal (line_count (one.out), 1);
}

static void
the_colours_of_a_photograph_become_a_palette (void **state)
{
  g_autofree char *photo = photograph (*state);
  g_autofree char *gpl = bench_file (*state, "two beads.gpl", NULL);
  g_autofree char *css = bench_file (*state, "two.css", NULL), *text = NULL, *rules = NULL;
  Result first = run ("tray", "--from", photo, "-o", gpl, NULL);
  Result second = run ("tray", "--from", photo, "-o", css, NULL);
  assert_prints (&first, g_strdup (""));
  assert_prints (&second, g_strdup (""));
  assert_true (g_file_get_contents (gpl, &text, NULL, NULL));
  assert_true (g_file_get_contents (css, &rules, NULL, NULL));
  assert_true (g_str_has_prefix (text, "GIMP Palette\nName: two beads\n"));
  assert_non_null (strstr (text, "\n204   0   0\t"));
  assert_non_null (strstr (text, "\n  0  51 153\t"));
  assert_non_null (strstr (rules, "#cc0000;"));
  assert_non_null (strstr (rules, "#003399;"));
}

static void
a_photograph_that_is_none_is_named (void **state)
{
  const Bench *bench = *state;
  g_autofree char *text = bench_file (bench, "text.png", "no picture"), *whole_photo = NULL;
  g_autofree char *none = bench_file (bench, "none.png", NULL), *photo = photograph (bench);
  g_autofree char *cut = bench_file (bench, "cut.png", NULL), *clear = NULL;
  g_autofree char *is_none
      = g_strdup_printf ("%s: no picture could be read: PNG, JPEG and SVG can", text);
  g_autofree char *is_cut = g_strdup_printf ("%s: no picture could be read", cut);
  g_autofree char *is_missing = g_strdup_printf ("%s: there is no such file", none);
  g_autofree char *is_folder = g_strdup_printf ("%s: this is a folder, not a file", bench->folder);
  assert_true (g_file_get_contents (photo, &whole_photo, NULL, NULL));
  assert_true (g_file_set_contents (cut, whole_photo, 60, NULL));
  Result results[]
      = { run ("tray", "--from", text, NULL), run ("tray", "--from", cut, NULL),
          run ("tray", "--from", none, NULL), run ("tray", "--from", bench->folder, NULL) };
  assert_fails (&results[0], is_none);
  assert_fails (&results[1], is_cut);
  assert_fails (&results[2], is_missing);
  assert_fails (&results[3], is_folder);
}

/* A picture of nothing but glass: there is no colour to tell, and no palette is begun. */
static void
a_photograph_of_nothing_is_said_to_show_nothing (void **state)
{
  g_autofree char *path = bench_file (*state, "clear.png", NULL);
  g_autofree char *out = bench_file (*state, "clear.gpl", NULL);
  g_autofree char *wanted = g_strdup_printf ("%s: nothing can be seen in this picture.", path);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 8, 8);
  assert_int_equal (cairo_surface_write_to_png (picture, path), CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (picture);
  Result told_of = run ("tray", "--from", path, NULL);
  Result written = run ("tray", "--from", path, "-o", out, NULL);
  assert_fails (&told_of, wanted);
  assert_fails (&written, wanted);
  assert_false (g_file_test (out, G_FILE_TEST_EXISTS));
}

/* --- Where nothing can be written --------------------------------------------------------------
 */

/* No file may grow beyond a few bytes: as on a disk that is full. */
static void
fill_disk (gpointer data)
{
  struct rlimit limit = { 20, 20 };
  signal (SIGXFSZ, SIG_IGN);
  setrlimit (RLIMIT_FSIZE, &limit);
}

static void
a_full_disk_leaves_the_book_as_it_was (void **state)
{
  static const char old[] = HEAD ", \"pieces\": []}\n";
  g_autofree char *from = bench_file (*state, "whole.json", whole), *now = NULL;
  g_autofree char *book = bench_file (*state, "old.json", old);
  g_autofree char *wanted = g_strdup_printf ("%s: a file this large is not allowed there", book);
  Result read = run_prepared (fill_disk, "read-in", "--from", from, "--book", book, NULL);
  assert_fails (&read, wanted);
  assert_true (g_file_get_contents (book, &now, NULL, NULL));
  assert_string_equal (now, old);
}

static void
a_folder_that_is_not_there_is_named (void **state)
{
  g_autofree char *photo = photograph (*state), *in = bench_file (*state, "file", "");
  g_autofree char *out = g_build_filename (in, "x.gpl", NULL);
  g_autofree char *wanted = g_strdup_printf ("%s: there is no such folder", out);
  Result result = run ("tray", "--from", photo, "-o", out, NULL);
  assert_fails (&result, wanted);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_kept_is_told_in_lines),
    cmocka_unit_test (json_of_one_thing_is_a_book_of_it),
    cmocka_unit_test (json_has_the_values_of_the_book),
    cmocka_unit_test (beads_and_stash_are_told_as_csv),
    cmocka_unit_test (what_is_not_there_yet_is_said_in_a_sentence),
    cmocka_unit_test (a_book_that_cannot_be_is_refused_by_every_command),
    cmocka_unit_test (a_book_that_is_not_there_is_named),
    cmocka_unit_test (what_does_not_go_with_a_command_is_wrong_usage),
    cmocka_unit_test (the_colours_of_a_photograph_are_told_the_most_first),
    cmocka_unit_test (the_colours_of_a_photograph_become_a_palette),
    cmocka_unit_test (a_photograph_that_is_none_is_named),
    cmocka_unit_test (a_photograph_of_nothing_is_said_to_show_nothing),
    cmocka_unit_test (a_full_disk_leaves_the_book_as_it_was),
    cmocka_unit_test (a_folder_that_is_not_there_is_named),
  };
  return cmocka_run_group_tests_name ("kept", tests, set_up, tear_down);
}
