/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the listener beside the program under test, which goes on answering meanwhile. */
#include "heard.h"

#include "desk.h"

#include <gio/gio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <unistd.h>
#include <cmocka.h>

enum { DEPTH, ROLE, STATES, WIDTH, HEIGHT, NAME, DESCRIPTION, TEXT, N_FIELDS };

typedef struct {
  Heard heard;
  char **fields;
} Line;

static void
line_free (gpointer data)
{
  Line *line = data;
  g_strfreev (line->fields);
  g_free (line);
}

static int
number (const char *text)
{
  return (int)g_ascii_strtoll (text, NULL, 10);
}

static Line *
line_new (const char *text)
{
  Line *line = g_new0 (Line, 1);
  char **fields = line->fields = g_strsplit (text, "\t", -1);
  assert_int_equal (g_strv_length (fields), N_FIELDS);
  line->heard = (Heard){ .depth = number (fields[DEPTH]),
                         .role = fields[ROLE],
                         .states = fields[STATES],
                         .width = number (fields[WIDTH]),
                         .height = number (fields[HEIGHT]),
                         .name = fields[NAME],
                         .description = fields[DESCRIPTION],
                         .text = fields[TEXT] };
  return line;
}

static gboolean
is_answered (gpointer answer)
{
  return *(GAsyncResult **)answer != NULL;
}

static void
answered (GObject *process, GAsyncResult *result, gpointer answer)
{
  *(GAsyncResult **)answer = g_object_ref (result);
}

/* What the listener prints. Owned. */
static char *
run_listener (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GAsyncResult) answer = NULL;
  g_autofree char *pid = g_strdup_printf ("%d", (int)getpid ());
  g_autofree char *text = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error,
                                                      g_getenv ("BW_TEST_LISTENER"), pid, NULL);
  if (!process)
    fail_msg ("no listener: %s", error->message);
  g_subprocess_communicate_utf8_async (process, NULL, NULL, answered, &answer);
  desk_until (is_answered, &answer);
  if (!g_subprocess_communicate_utf8_finish (process, answer, &text, NULL, &error))
    fail_msg ("the listener: %s", error->message);
  assert_true (g_subprocess_get_successful (process));
  return g_steal_pointer (&text);
}

GPtrArray *
heard_now (void)
{
  desk_settle ();
  g_autofree char *text = run_listener ();
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  GPtrArray *all = g_ptr_array_new_with_free_func (line_free);
  for (char **line = lines; *line && **line; line++)
    g_ptr_array_add (all, line_new (*line));
  assert_true (all->len > 1);
  return all;
}

static const char *
called (const Heard *heard)
{
  return !*heard->name && g_str_equal (heard->role, "status bar") ? heard->text : heard->name;
}

const Heard *
heard_find (GPtrArray *all, const char *role, const char *name)
{
  for (guint i = 0; i < all->len; i++) {
    const Heard *heard = g_ptr_array_index (all, i);
    if ((!role || g_str_equal (heard->role, role)) && g_str_has_prefix (called (heard), name))
      return heard;
  }
  return NULL;
}

/* A scrolled page takes the keyboard only to scroll, a label only to be copied: neither is one. The
 * items of a menu are the toolkit's own: GTK 4.8 tells them as fillers with their words within, and
 * there they are listened to; 4.18 tells them as items, and no words of any. */
gboolean
heard_is_control (const Heard *heard)
{
  if (heard->width <= 1 || heard->height <= 1)
    return FALSE;
  if (g_str_equal (heard->role, "scroll pane") || g_str_equal (heard->role, "label")
      || g_str_has_suffix (heard->role, "menu item"))
    return FALSE;
  return strchr (heard->states, 'f') != NULL;
}

static gboolean
is_class_name (const char *name)
{
  return (g_str_has_prefix (name, "Gtk") || g_str_has_prefix (name, "Bw"))
         && g_ascii_isupper (name[strcspn (name, "kw") + 1]) && !strchr (name, ' ');
}

/* The item of a list is called by what stands in it, and so is what is no control but takes
 * the focus for one within: GTK 4.8 calls most of these fillers, 4.18 by names of their own. */
static gboolean
is_item (const Heard *heard)
{
  static const char *const roles[] = { "list item", "filler", "panel", NULL };
  return g_strv_contains (roles, heard->role);
}

static gboolean
holds_words (GPtrArray *all, guint i)
{
  const Heard *item = g_ptr_array_index (all, i);
  for (i++; i < all->len; i++) {
    const Heard *below = g_ptr_array_index (all, i);
    if (below->depth <= item->depth)
      return FALSE;
    if (g_str_equal (below->role, "label") && *below->name && !is_class_name (below->name))
      return TRUE;
  }
  return FALSE;
}

gboolean
heard_has_name (GPtrArray *all, guint i)
{
  const Heard *heard = g_ptr_array_index (all, i);
  return (*heard->name && !is_class_name (heard->name))
         || (is_item (heard) && holds_words (all, i));
}
