/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Running the built tool, for tests that look at it from outside: a folder with a sound project in
 * it, and what a run prints where. Included by one file a program. */
#pragma once

#include "sample.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* A folder of the test's own with a sound project in it. */
typedef struct {
  char *folder, *project;
} Bench;

typedef struct {
  int status;
  char *out, *err;
} Result;

static void
result_clear (Result *result)
{
  g_free (result->out);
  g_free (result->err);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Result, result_clear)

static char *
bench_file (const Bench *bench, const char *name, const char *content)
{
  char *path = g_build_filename (bench->folder, name, NULL);
  if (content)
    assert_true (g_file_set_contents (path, content, -1, NULL));
  return path;
}

static char *
sample_text (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  sample->prices = TRUE;
  return sample_json (sample);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autofree char *text = sample_text ();
  bench->folder = g_dir_make_tmp ("bandwright-tool-XXXXXX", NULL);
  assert_non_null (bench->folder);
  bench->project = bench_file (bench, "harbour night.bandwright", text);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_autoptr (GDir) dir = g_dir_open (bench->folder, 0, NULL);
  for (const char *name; (name = g_dir_read_name (dir));) {
    g_autofree char *path = g_build_filename (bench->folder, name, NULL);
    g_assert_no_errno (g_remove (path));
  }
  g_assert_no_errno (g_rmdir (bench->folder));
  g_free (bench->folder);
  g_free (bench->project);
  g_free (bench);
  return 0;
}

/* Runs the tool with these arguments, up to NULL; `prepare` is called in its process before it
 * begins. */
static Result
run_words (GSpawnChildSetupFunc prepare, const char *first, va_list rest)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);
  Result result = { 0 };
  g_ptr_array_add (argv, (char *)g_getenv ("BW_TOOL"));
  assert_non_null (g_getenv ("BW_TOOL"));
  for (const char *word = first; word; word = va_arg (rest, const char *))
    g_ptr_array_add (argv, (char *)word);
  g_ptr_array_add (argv, NULL);
  g_subprocess_launcher_set_child_setup (launcher, prepare, NULL, NULL);
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawnv (launcher, (const char *const *)argv->pdata, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &result.out, &result.err, NULL));
  assert_true (g_subprocess_get_if_exited (process));
  result.status = g_subprocess_get_exit_status (process);
  return result;
}

static inline Result
run (const char *first, ...)
{
  va_list rest;
  va_start (rest, first);
  Result result = run_words (NULL, first, rest);
  va_end (rest);
  return result;
}

static inline Result
run_prepared (GSpawnChildSetupFunc prepare, const char *first, ...)
{
  va_list rest;
  va_start (rest, first);
  Result result = run_words (prepare, first, rest);
  va_end (rest);
  return result;
}

static int
line_count (const char *text)
{
  int n = 0;
  for (; *text; text++)
    n += *text == '\n';
  return n;
}

/* Takes wanted. */
static void
assert_prints (Result *result, char *wanted)
{
  assert_string_equal (result->err, "");
  assert_int_equal (result->status, 0);
  assert_string_equal (result->out, wanted);
  result_clear (result);
  g_free (wanted);
}

static void
assert_misuse (Result *result, const char *sentence)
{
  g_autofree char *wanted = g_strconcat ("bandwright-tool: ", sentence, NULL);
  assert_int_equal (result->status, 2);
  assert_string_equal (result->out, "");
  if (!g_str_has_prefix (result->err, wanted))
    fail_msg ("\"%s\" does not begin with \"%s\"", result->err, wanted);
  result_clear (result);
}
