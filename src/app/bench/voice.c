/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The service's own command is asked, so that the program needs no library of it. What was being
 * said is stopped first, and only then do new words go out: two commands at once could reach the
 * service in either order, and the row in hand would be the one that is silenced. */
#include "config.h"

#include "app/bench/voice.h"

#include <gio/gio.h>

#define COMMAND "spd-say"

struct _BwVoice {
  GSubprocess *hushing; /* the command that stops what is said, while it runs */
  char *next;           /* to be said once it has ended */
  gboolean spoken;      /* something may be being said */
};

gboolean
bw_voice_is_there (void)
{
  g_autofree char *path = g_find_program_in_path (COMMAND);
  return path != NULL;
}

/* What the command has to say about itself is for nobody. NULL when it cannot be started. */
static GSubprocess *
run (const char *option, const char *words)
{
  const char *const arguments[] = { COMMAND, option, words, NULL };
  g_autoptr (GError) error = NULL;
  GSubprocess *process = g_subprocess_newv (
      arguments, G_SUBPROCESS_FLAGS_STDOUT_SILENCE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, &error);
  if (!process)
    g_info ("%s", error->message);
  return process;
}

static void
say_next (BwVoice *self)
{
  g_autofree char *words = g_steal_pointer (&self->next);
  g_autoptr (GSubprocess) process = words ? run ("--", words) : NULL;
  self->spoken = process != NULL;
}

static void
clear (gpointer data)
{
  BwVoice *self = data;
  g_clear_object (&self->hushing);
  g_free (self->next);
}

static void
hushed (GObject *process, GAsyncResult *result, gpointer data)
{
  BwVoice *self = data;
  g_clear_object (&self->hushing);
  say_next (self);
  g_rc_box_release_full (self, clear);
}

static void
start_hushing (BwVoice *self)
{
  self->spoken = FALSE;
  self->hushing = run ("--cancel", NULL);
  if (self->hushing)
    g_subprocess_wait_async (self->hushing, NULL, hushed, g_rc_box_acquire (self));
}

BwVoice *
bw_voice_new (void)
{
  return g_rc_box_new0 (BwVoice);
}

void
bw_voice_free (BwVoice *self)
{
  bw_voice_hush (self);
  g_rc_box_release_full (self, clear);
}

void
bw_voice_say (BwVoice *self, const char *words)
{
  if (!words || !*words || !bw_voice_is_there ())
    return;
  g_free (self->next);
  self->next = g_strdup (words);
  if (self->spoken)
    start_hushing (self);
  if (!self->hushing)
    say_next (self);
}

void
bw_voice_hush (BwVoice *self)
{
  g_clear_pointer (&self->next, g_free);
  if (self->spoken && !self->hushing)
    start_hushing (self);
}
