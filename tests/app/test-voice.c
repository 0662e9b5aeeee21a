/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A speech service that writes down what it is told stands in for the desktop's. Before it, two of
 * the library's functions are stood in for, so that a test knows when nothing more will be said. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/bench/voice.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <stdlib.h>

/* --- What is told the service ------------------------------------------------------------------
 */

static int n_told;    /* how often it was called */
static int n_awaited; /* calls whose end the voice waits for still */

GSubprocess *
g_subprocess_newv (const gchar *const *argv, GSubprocessFlags flags, GError **error)
{
  GSubprocess *(*usual) (const gchar *const *, GSubprocessFlags, GError **)
      = (__typeof__ (usual))dlsym (RTLD_NEXT, "g_subprocess_newv");
  n_told++;
  return usual (argv, flags, error);
}

typedef struct {
  GAsyncReadyCallback ended;
  gpointer data;
} Wait;

static void
ended (GObject *process, GAsyncResult *result, gpointer data)
{
  g_autofree Wait *wait = data;
  wait->ended (process, result, wait->data);
  n_awaited--;
}

void
g_subprocess_wait_async (GSubprocess *process, GCancellable *cancellable,
                         GAsyncReadyCallback callback, gpointer data)
{
  void (*usual) (GSubprocess *, GCancellable *, GAsyncReadyCallback, gpointer)
      = (__typeof__ (usual))dlsym (RTLD_NEXT, "g_subprocess_wait_async");
  Wait *wait = g_new (Wait, 1);
  *wait = (Wait){ callback, data };
  n_awaited++;
  usual (process, cancellable, ended, wait);
}

/* The voice speaks when it is told to and when a call ends that it waits for. */
static void
let_it_finish (void)
{
  while (n_awaited > 0)
    g_main_context_iteration (NULL, TRUE);
}

/* --- The service ------------------------------------------------------------------------------
 */

typedef struct {
  char *folder, *command, *heard, *path;
} Service;

static int
set_up (void **state)
{
  Service *service = g_new0 (Service, 1);
  service->folder = g_dir_make_tmp ("bandwright-voice-XXXXXX", NULL);
  service->command = g_build_filename (service->folder, "spd-say", NULL);
  service->heard = g_build_filename (service->folder, "heard", NULL);
  service->path = g_strdup (g_getenv ("PATH"));
  g_autofree char *script = g_strdup_printf (
      "#!/bin/sh\n[ \"$1\" = --cancel ] && sleep 0.1\necho \"$@\" >> %s\n", service->heard);
  assert_true (g_file_set_contents (service->command, script, -1, NULL));
  assert_int_equal (g_chmod (service->command, 0755), 0);
  g_autofree char *first = g_strconcat (service->folder, ":", service->path, NULL);
  g_setenv ("PATH", first, TRUE);
  *state = service;
  n_told = 0;
  return 0;
}

static int
tear_down (void **state)
{
  Service *service = *state;
  let_it_finish ();
  g_setenv ("PATH", service->path, TRUE);
  g_remove (service->command);
  g_remove (service->heard);
  g_rmdir (service->folder);
  g_free (service->folder);
  g_free (service->command);
  g_free (service->heard);
  g_free (service->path);
  g_free (service);
  return 0;
}

static char *
heard (const Service *service)
{
  char *text = NULL;
  return g_file_get_contents (service->heard, &text, NULL, NULL) ? text : g_strdup ("");
}

/* Waits until the service has heard exactly this, for at most ten seconds. */
static void
expect_heard (const Service *service, const char *words)
{
  gint64 give_up = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  g_autofree char *text = heard (service);
  while (g_strcmp0 (text, words) != 0 && g_get_monotonic_time () < give_up) {
    g_main_context_iteration (NULL, FALSE);
    g_usleep (5000);
    g_free (text);
    text = heard (service);
  }
  assert_string_equal (text, words);
}

static void
words_are_said (void **state)
{
  BwVoice *voice = bw_voice_new ();
  assert_true (bw_voice_is_there ());
  bw_voice_say (voice, "-3 Night water");
  expect_heard (*state, "-- -3 Night water\n");
  bw_voice_free (voice);
  expect_heard (*state, "-- -3 Night water\n--cancel\n");
}

static void
new_words_wait_until_the_old_ones_are_stopped (void **state)
{
  BwVoice *voice = bw_voice_new ();
  bw_voice_say (voice, "one");
  expect_heard (*state, "-- one\n");
  bw_voice_say (voice, "two");
  bw_voice_say (voice, "three");
  expect_heard (*state, "-- one\n--cancel\n-- three\n");
  bw_voice_hush (voice);
  expect_heard (*state, "-- one\n--cancel\n-- three\n--cancel\n");
  bw_voice_free (voice);
}

static void
hushing_silences_what_still_waits (void **state)
{
  BwVoice *voice = bw_voice_new ();
  bw_voice_say (voice, "one");
  expect_heard (*state, "-- one\n");
  bw_voice_say (voice, "two");
  bw_voice_hush (voice);
  bw_voice_free (voice);
  let_it_finish ();
  assert_int_equal (n_told, 2);
  expect_heard (*state, "-- one\n--cancel\n");
}

static void
silence_is_not_hushed (void **state)
{
  BwVoice *voice = bw_voice_new ();
  bw_voice_hush (voice);
  bw_voice_say (voice, "");
  bw_voice_free (voice);
  assert_int_equal (n_awaited, 0);
  assert_int_equal (n_told, 0);
}

static void
without_a_service_nothing_is_said (void **state)
{
  const Service *service = *state;
  BwVoice *voice = bw_voice_new ();
  g_remove (service->command);
  g_setenv ("PATH", service->folder, TRUE);
  assert_false (bw_voice_is_there ());
  bw_voice_say (voice, "one");
  bw_voice_hush (voice);
  bw_voice_free (voice);
  assert_int_equal (n_told, 0);
}

int
main (void)
{
#define WITH_SERVICE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WITH_SERVICE (words_are_said),
    WITH_SERVICE (new_words_wait_until_the_old_ones_are_stopped),
    WITH_SERVICE (hushing_silences_what_still_waits),
    WITH_SERVICE (silence_is_not_hushed),
    WITH_SERVICE (without_a_service_nothing_is_said),
  };
  return cmocka_run_group_tests_name ("voice", tests, NULL, NULL);
}
