/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The service's own command is asked, so that the program needs no library of it. */
#include "config.h"

#include "app/voice.h"

#include <gio/gio.h>

#define COMMAND "spd-say"

gboolean
bw_voice_is_there (void)
{
  g_autofree char *path = g_find_program_in_path (COMMAND);
  return path != NULL;
}

/* What the command has to say about itself is for nobody. */
static void
run (const char *option, const char *words)
{
  const char *const arguments[] = { COMMAND, option, words, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_newv (
      arguments, G_SUBPROCESS_FLAGS_STDOUT_SILENCE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, &error);
  if (!process)
    g_info ("%s", error->message);
}

void
bw_voice_say (const char *words)
{
  if (!bw_voice_is_there () || !words || !*words)
    return;
  bw_voice_hush ();
  run ("--", words);
}

void
bw_voice_hush (void)
{
  if (bw_voice_is_there ())
    run ("--cancel", NULL);
}
