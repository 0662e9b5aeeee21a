/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tool prints to files: written without a display, whole or not at all, and one plain line
 * when it cannot be. */
#include "sample.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <cmocka.h>

typedef struct {
  char *folder, *project;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  g_autoptr (Sample) sample = sample_new (rand, 10, 0, SAMPLE_UPRIGHT);
  g_autofree char *json = sample_json (sample);
  bench->folder = g_dir_make_tmp ("bandwright-print-XXXXXX", NULL);
  bench->project = g_build_filename (bench->folder, "piece.bandwright", NULL);
  assert_true (g_file_set_contents (bench->project, json, -1, NULL));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_remove (bench->project);
  g_assert_no_errno (g_rmdir (bench->folder));
  g_free (bench->folder);
  g_free (bench->project);
  g_free (bench);
  return 0;
}

/* No file may grow beyond a page or so: as on a disk that fills up while it is written. */
static void
fill_disk (gpointer data)
{
  struct rlimit limit = { 1500, 1500 };
  signal (SIGXFSZ, SIG_IGN);
  setrlimit (RLIMIT_FSIZE, &limit);
}

/* Runs a command with these words after the project's name, no display in reach. prepare is called
 * in its process before it begins; may be NULL. */
static int
run_prepared (const Bench *bench, const char *command, const char *const *words,
              GSpawnChildSetupFunc prepare, char **err)
{
  g_autoptr (GStrvBuilder) argv = g_strv_builder_new ();
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);
  g_autofree char *out = NULL;
  g_strv_builder_add_many (argv, g_getenv ("BW_TOOL"), command, bench->project, NULL);
  for (; *words; words++)
    g_strv_builder_add (argv, *words);
  g_auto (GStrv) all = g_strv_builder_end (argv);
  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  g_subprocess_launcher_unsetenv (launcher, "WAYLAND_DISPLAY");
  g_subprocess_launcher_set_child_setup (launcher, prepare, NULL, NULL);
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawnv (launcher, (const char *const *)all, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, err, NULL));
  assert_true (g_subprocess_get_if_exited (process));
  assert_string_equal (out, "");
  return g_subprocess_get_exit_status (process);
}

static int
run (const Bench *bench, const char *command, const char *const *words, char **err)
{
  return run_prepared (bench, command, words, NULL, err);
}

/* The file a command writes begins as its kind does, and is taken away again. */
static void
assert_writes (const Bench *bench, const char *command, const char *name, const char *option,
               const char *value, const char *begins)
{
  g_autofree char *path = g_build_filename (bench->folder, name, NULL), *err = NULL, *data = NULL;
  const char *words[] = { "-o", path, option, value, NULL };
  assert_int_equal (run (bench, command, words, &err), 0);
  assert_string_equal (err, "");
  assert_true (g_file_get_contents (path, &data, NULL, NULL));
  assert_true (g_str_has_prefix (data, begins));
  g_remove (path);
}

static void
each_command_writes_its_kind_of_file (void **state)
{
  assert_writes (*state, "sheet", "a.pdf", NULL, NULL, "%PDF-");
  assert_writes (*state, "sheet", "b.pdf", "--paper", "letter", "%PDF-");
  assert_writes (*state, "sheet", "c.pdf", "--kit", "3", "%PDF-");
  assert_writes (*state, "strip", "d.pdf", "--paper", "a4", "%PDF-");
  assert_writes (*state, "chart", "e.svg", NULL, NULL, "<?xml");
  assert_writes (*state, "chart", "f.png", NULL, NULL, "\211PNG");
  assert_writes (*state, "model", "g.glb", NULL, NULL, "glTF");
}

/* What a reader of PDF finds in the file that a command writes: its pages, their size, its words.
 */
static void
expect_paper (const Bench *bench, const char *command, const char *option, const char *value,
              const char *told, const char *says)
{
  g_autofree char *path = g_build_filename (bench->folder, "paper.pdf", NULL), *err = NULL;
  g_autofree char *info = NULL, *text = NULL;
  const char *words[] = { "-o", path, option, value, NULL };
  char *ask_info[] = { "pdfinfo", path, NULL }, *ask_text[] = { "pdftotext", path, "-", NULL };
  assert_int_equal (run (bench, command, words, &err), 0);
  assert_true (g_spawn_sync (NULL, ask_info, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &info, NULL,
                             NULL, NULL));
  assert_true (g_spawn_sync (NULL, ask_text, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, NULL,
                             NULL, NULL));
  g_remove (path);
  if (!g_regex_match_simple (told, info, 0, 0))
    fail_msg ("%s does not match: %s", told, info);
  if (!strstr (text, says))
    fail_msg ("“%s” is not said", says);
}

static void
each_paper_is_what_was_asked_for (void **state)
{
  expect_paper (*state, "sheet", NULL, NULL, "595\\.\\d+ x 841\\.\\d+ pts", "Chart of the band");
  expect_paper (*state, "sheet", "--paper", "letter", "612 x 792 pts", "Winding the bed");
  expect_paper (*state, "sheet", "--kit", "3", "Pages: +4\n", "Try on after row");
  expect_paper (*state, "strip", "--paper", "a4", "595\\.\\d+ x 841\\.\\d+ pts",
                "Round the bare stone");
  expect_paper (*state, "strip", "--paper", "letter", "612 x 792 pts", "2 inches");
}

static void
assert_misused (const Bench *bench, const char *command, const char *const *words, const char *says)
{
  g_autofree char *err = NULL;
  assert_int_equal (run (bench, command, words, &err), 2);
  if (!strstr (err, says))
    fail_msg ("%s does not say %s", err, says);
}

static void
wrong_words_are_told (void **state)
{
  static const char *const none[] = { NULL };
  static const char *const paper[] = { "-o", "x.pdf", "--paper", "a7", NULL };
  static const char *const kit[] = { "-o", "x.pdf", "--kit", "0", NULL };
  static const char *const both[] = { "-o", "x.pdf", "--json", NULL };
  static const char *const kind[] = { "-o", "chart.gif", NULL };
  static const char *const stray[] = { "-o", "x.svg", "--paper", "a4", NULL };
  assert_misused (*state, "sheet", none, "wants -o and a file to write");
  assert_misused (*state, "sheet", paper,
                  "--paper: 'a7' is not a4, a5, letter, or a width and a height "
                  "in millimetres such as 216x356, each from 180 to 1200");
  assert_misused (*state, "sheet", kit, "--kit: '0' is not a whole number from 1 to 1000");
  assert_misused (*state, "sheet", both, "takes --json or -o, not both");
  assert_misused (*state, "chart", kind, "chart.gif: the name must end in .svg, .png or .pdf");
  assert_misused (*state, "chart", stray, "--paper does not go with 'chart'");
}

static void
a_target_out_of_reach_is_one_line_and_no_file (void **state)
{
  static const char *const commands[] = { "sheet", "strip", "model" };
  static const char *const words[] = { "-o", "/no/such/folder/out.pdf", NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_autofree char *err = NULL;
    assert_int_equal (run (*state, commands[i], words, &err), 1);
    assert_string_equal (err,
                         "bandwright-tool: /no/such/folder/out.pdf: there is no such folder\n");
  }
  assert_false (g_file_test ("/no", G_FILE_TEST_EXISTS));
}

/* Every command that writes, with a name of the kind it writes. */
static const struct {
  const char *command, *name;
} writers[] = {
  { "sheet", "out.pdf" }, { "strip", "out.pdf" },  { "chart", "out.svg" },
  { "chart", "out.png" }, { "render", "out.png" }, { "model", "out.glb" },
};

static void
assert_refused (const Bench *bench, const char *command, const char *path, const char *why)
{
  const char *words[] = { "-o", path, NULL };
  g_autofree char *err = NULL, *line = g_strdup_printf ("bandwright-tool: %s: %s\n", path, why);
  assert_int_equal (run (bench, command, words, &err), 1);
  assert_string_equal (err, line);
}

/* The last is a folder in which nobody, whatever his rights, makes a file. */
static void
a_target_that_is_no_file_is_named_and_left_alone (void **state)
{
  const Bench *bench = *state;
  struct stat full;
  for (gsize i = 0; i < G_N_ELEMENTS (writers); i++) {
    g_autofree char *folder = g_strconcat (bench->folder, "/", writers[i].name, NULL);
    g_autofree char *sealed = g_strconcat ("/sys/", writers[i].name, NULL);
    assert_int_equal (g_mkdir (folder, 0755), 0);
    assert_refused (bench, writers[i].command, folder, "this is a folder");
    assert_int_equal (g_rmdir (folder), 0);
    assert_refused (bench, writers[i].command, sealed, "you are not allowed to write here");
  }
  assert_refused (bench, "sheet", "/dev/full", "this is no ordinary file");
  assert_int_equal (g_stat ("/dev/full", &full), 0);
  assert_true (S_ISCHR (full.st_mode));
}

static int
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
a_disk_that_fills_up_leaves_what_was_there_and_nothing_else (void **state)
{
  const Bench *bench = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (writers); i++) {
    g_autofree char *path = g_build_filename (bench->folder, writers[i].name, NULL), *kept = NULL;
    const char *words[] = { "-o", path, NULL };
    for (int there = 0; there < 2; there++) {
      g_autofree char *err = NULL;
      if (there)
        assert_true (g_file_set_contents (path, "old", -1, NULL));
      assert_int_equal (run_prepared (bench, writers[i].command, words, fill_disk, &err), 1);
      assert_non_null (strstr (err, path));
      assert_int_equal (count_files (bench->folder), 1 + there);
    }
    assert_true (g_file_get_contents (path, &kept, NULL, NULL));
    assert_string_equal (kept, "old");
    g_remove (path);
  }
}

static void
no_command_writes_over_its_project (void **state)
{
  static const char *const commands[] = { "sheet", "strip", "chart", "render", "model" };
  const Bench *bench = *state;
  const char *words[] = { "-o", bench->project, NULL };
  g_autofree char *before = NULL;
  assert_true (g_file_get_contents (bench->project, &before, NULL, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++) {
    g_autofree char *after = NULL;
    assert_misused (bench, commands[i], words, "this is the project itself; name another file");
    assert_true (g_file_get_contents (bench->project, &after, NULL, NULL));
    assert_string_equal (before, after);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_command_writes_its_kind_of_file),
    cmocka_unit_test (each_paper_is_what_was_asked_for),
    cmocka_unit_test (wrong_words_are_told),
    cmocka_unit_test (a_target_out_of_reach_is_one_line_and_no_file),
    cmocka_unit_test (a_target_that_is_no_file_is_named_and_left_alone),
    cmocka_unit_test (a_disk_that_fills_up_leaves_what_was_there_and_nothing_else),
    cmocka_unit_test (no_command_writes_over_its_project),
  };
  return cmocka_run_group_tests_name ("print", tests, set_up, tear_down);
}
