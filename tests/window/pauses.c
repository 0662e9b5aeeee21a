/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stands in for two functions of GLib, as the definitions of a program come before a library's. Who
 * calls is told by where the call returns to: the program's own code, or a library. The toolkit
 * times the frames of its windows by these functions too, and is known by its priorities. */
#include "pauses.h"

#include <gdk/gdk.h>

/* GSource, a reference each. */
static GList *pauses;
static GList *frames;
static gboolean follow_time;

static gboolean
is_own_code (const void *address)
{
  extern const char __executable_start, etext;
  return (const char *)address >= &__executable_start && (const char *)address < &etext;
}

static guint
add (int priority, guint interval, GSourceFunc function, gpointer data, GDestroyNotify notify,
     gboolean own)
{
  g_autoptr (GSource) source = g_timeout_source_new (interval);
  g_source_set_priority (source, priority);
  g_source_set_callback (source, function, data, notify);
  guint id = g_source_attach (source, NULL);
  if (!own && (priority == GDK_PRIORITY_REDRAW || priority == GDK_PRIORITY_EVENTS + 1))
    frames = g_list_prepend (frames, g_source_ref (source));
  if (own && !follow_time) {
    g_source_set_ready_time (source, -1);
    pauses = g_list_prepend (pauses, g_source_ref (source));
  }
  return id;
}

guint
g_timeout_add_full (int priority, guint interval, GSourceFunc function, gpointer data,
                    GDestroyNotify notify)
{
  return add (priority, interval, function, data, notify,
              is_own_code (__builtin_return_address (0)));
}

guint
g_timeout_add (guint interval, GSourceFunc function, gpointer data)
{
  return add (G_PRIORITY_DEFAULT, interval, function, data, NULL,
              is_own_code (__builtin_return_address (0)));
}

void
pauses_follow_time (void)
{
  follow_time = TRUE;
}

/* Makes them due and forgets them; FALSE when none was to come any more. */
static gboolean
hurry (GList **sources)
{
  gboolean any = FALSE;
  for (GList *item = *sources; item; item = item->next) {
    GSource *source = item->data;
    any |= !g_source_is_destroyed (source);
    g_source_set_ready_time (source, 0);
    g_source_unref (source);
  }
  g_clear_pointer (sources, g_list_free);
  return any;
}

gboolean
pauses_end (void)
{
  return hurry (&pauses);
}

gboolean
pauses_hurry_frame (void)
{
  return hurry (&frames);
}
