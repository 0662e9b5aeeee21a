/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings outlive the program that set them, with nothing running beside it: this test starts
 * itself once more for each of the maker's starts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/kit/settings.h"

#include <glib/gstdio.h>
#include <math.h>

#define SHARE 0.4375

typedef struct {
  char *folder, *kept;
} Home;

static int
make_home (void **state)
{
  Home *home = g_new0 (Home, 1);
  home->folder = g_dir_make_tmp ("bandwright-kept-XXXXXX", NULL);
  home->kept = g_build_filename (home->folder, "bandwright", "preferences.ini", NULL);
  *state = home;
  return home->folder == NULL;
}

static int
remove_home (void **state)
{
  Home *home = *state;
  g_autofree char *within = g_path_get_dirname (home->kept);
  g_unlink (home->kept);
  g_rmdir (within);
  g_rmdir (home->folder);
  g_free (home->folder);
  g_free (home->kept);
  g_free (home);
  return 0;
}

/* No session bus and none that could be started, and the store that GLib takes by itself, unless
 * one is named. */
static char **
bare_environment (const char *folder, const char *backend)
{
  char **environment = g_environ_setenv (g_get_environ (), "XDG_CONFIG_HOME", folder, TRUE);
  environment = g_environ_setenv (environment, "XDG_RUNTIME_DIR", folder, TRUE);
  environment = g_environ_setenv (environment, "DBUS_SESSION_BUS_ADDRESS", "disabled:", TRUE);
  environment = g_environ_unsetenv (environment, "DISPLAY");
  return backend ? g_environ_setenv (environment, "GSETTINGS_BACKEND", backend, TRUE)
                 : g_environ_unsetenv (environment, "GSETTINGS_BACKEND");
}

/* Whether a start of its own that is to do this ended well. */
static gboolean
start (const char *folder, const char *backend, const char *what)
{
  g_autofree char *own_path = g_file_read_link ("/proc/self/exe", NULL);
  g_auto (GStrv) environment = bare_environment (folder, backend);
  char *argv[] = { own_path, (char *)what, NULL };
  int status;
  assert_true (g_spawn_sync (NULL, argv, environment, G_SPAWN_DEFAULT, NULL, NULL, NULL, NULL,
                             &status, NULL));
  return g_spawn_check_wait_status (status, NULL);
}

static void
choose (void)
{
  g_object_set (bw_settings_get (), "units", "inch", "show-letters", TRUE, "stage-share", SHARE,
                NULL);
}

static gboolean
are_as_chosen (void)
{
  BwSettings *settings = bw_settings_get ();
  return bw_settings_get_unit (settings) == BW_UNIT_INCH
         && bw_settings_get_flag (settings, "show-letters")
         && fabs (bw_settings_get_number (settings, "stage-share") - SHARE) < 1e-12
         && bw_settings_get_count (settings, "window-height") == 860;
}

/* Whether what is to be done was done: "choose" that it be kept, "try" that it be not, "are they"
 * at a later start. */
static gboolean
do_once_more (const char *what)
{
  if (g_str_equal (what, "are they"))
    return are_as_chosen ();
  choose ();
  return are_as_chosen ()
         && bw_settings_are_kept (bw_settings_get ()) == g_str_equal (what, "choose");
}

static void
what_is_chosen_holds_at_the_next_start_without_a_session_bus (void **state)
{
  Home *home = *state;
  assert_false (start (home->folder, NULL, "are they"));
  assert_true (start (home->folder, NULL, "choose"));
  assert_true (start (home->folder, NULL, "are they"));
}

static void
a_file_that_was_spoilt_by_hand_costs_no_more_than_what_it_says (void **state)
{
  Home *home = *state;
  g_autofree char *text = NULL;
  assert_true (start (home->folder, NULL, "choose"));
  assert_true (g_file_set_contents (home->kept,
                                    "[preferences]\nunits='ell'\nshow-letters=\n"
                                    "stage-share=7\nwindow-width=\xff\n",
                                    -1, NULL));
  assert_false (start (home->folder, NULL, "are they"));
  assert_true (start (home->folder, NULL, "choose"));
  assert_true (start (home->folder, NULL, "are they"));
}

static void
a_store_that_is_named_goes_before (void **state)
{
  Home *home = *state;
  assert_true (start (home->folder, "memory", "choose"));
  assert_false (g_file_test (home->kept, G_FILE_TEST_EXISTS));
}

/* Below a file no folder can be made. */
static void
where_nothing_can_be_written_they_last_as_long_as_the_program (void **state)
{
  Home *home = *state;
  g_autofree char *nowhere = g_build_filename (home->folder, "file", "below", NULL);
  g_autofree char *file = g_path_get_dirname (nowhere);
  assert_true (g_file_set_contents (file, "", 0, NULL));
  assert_true (start (nowhere, NULL, "try"));
  assert_false (start (nowhere, NULL, "are they"));
  g_unlink (file);
}

int
main (int argc, char *argv[])
{
#define AT_HOME(test) cmocka_unit_test_setup_teardown (test, make_home, remove_home)
  const struct CMUnitTest tests[] = {
    AT_HOME (what_is_chosen_holds_at_the_next_start_without_a_session_bus),
    AT_HOME (a_file_that_was_spoilt_by_hand_costs_no_more_than_what_it_says),
    AT_HOME (a_store_that_is_named_goes_before),
    AT_HOME (where_nothing_can_be_written_they_last_as_long_as_the_program),
  };
  if (argc > 1)
    return !do_once_more (argv[1]);
  return cmocka_run_group_tests_name ("settings kept", tests, NULL, NULL);
}
