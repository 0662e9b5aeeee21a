/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program says of itself. */
#include "config.h"
#include "maker.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static void
about_names_the_licence_and_where_its_text_is (void **state)
{
  static const char *const places[]
      = { "GNU General Public License, version 3", "/usr/share/common-licenses/GPL-3",
          "https://www.gnu.org/licenses/gpl-3.0.html", BW_LICENCE_FILE };
  Maker *maker = *state;
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "about", NULL);
  GtkWindow *dialog = maker_dialog (maker);
  const char *licence = gtk_about_dialog_get_license (GTK_ABOUT_DIALOG (dialog));
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    if (!licence || !strstr (licence, places[i]))
      fail_msg ("the licence is told without “%s”", places[i]);
  gtk_window_close (dialog);
  maker_no_dialog (maker);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (about_names_the_licence_and_where_its_text_is, maker_set_up,
                                     maker_tear_down),
  };
  return maker_run (tests);
}
