/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's first lines: what must be settled before GTK starts. */
#include "config.h"

#include "app/application.h"
#include "app/kit/gsk-choice.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

/* The C library keeps returning and refaulting the large buffers of a software OpenGL driver; some
 * room at the top of the heap makes the same frame three to four times faster. */
static void
keep_heap (void)
{
#ifdef __GLIBC__
  mallopt (M_TOP_PAD, 64 << 20);
#endif
}

/* $BANDWRIGHT_LOCALE_DIR is for a program run from its build folder. Templates of the interface are
 * looked up in the default domain. */
static void
find_words (void)
{
  const char *folder = g_getenv ("BANDWRIGHT_LOCALE_DIR");
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, folder ? folder : BW_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

int
main (int argc, char *argv[])
{
  keep_heap ();
  find_words ();
  bw_gsk_choose ();
  g_autoptr (BwApplication) application = bw_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
