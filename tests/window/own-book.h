/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book as a test fills it, and the workshop's window as a maker opens it. */
#pragma once

#include "kelp.h"

#include "app/workshop/workshop-window.h"
#include "project/book/book-file.h"

#include <glib/gstdio.h>
#include <string.h>

static inline void
fill_book (BwBookEdit edit, gpointer data)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autoptr (GError) error = NULL;
  if (!bw_book_change (path, edit, data, &error))
    g_error ("%s", error->message);
}

static inline BwBook *
read_book (void)
{
  g_autofree char *path = bw_book_usual_path ();
  g_autoptr (GError) error = NULL;
  BwBook *book = bw_book_load (path, &error);
  if (!book)
    g_error ("%s", error->message);
  return book;
}

static inline int
set_up_book (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  return set_up (state);
}

static inline int
tear_down_book (void **state)
{
  g_autofree char *path = bw_book_usual_path ();
  g_unlink (path);
  return tear_down (state);
}

static inline GtkWidget *
open_workshop (Maker *maker, const char *page)
{
  g_action_group_activate_action (G_ACTION_GROUP (maker_application ()), "workshop",
                                  g_variant_new_string (page));
  return GTK_WIDGET (maker_dialog (maker));
}

static inline void
close_workshop (Maker *maker, GtkWidget *window)
{
  gtk_window_present (GTK_WINDOW (window));
  gtk_window_close (GTK_WINDOW (window));
  maker_no_dialog (maker);
}

static inline gboolean
label_holds (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words);
}

typedef struct {
  GtkWidget *window;
  const char *words;
} Shown;

static inline gboolean
is_shown (gpointer data)
{
  const Shown *shown = data;
  return desk_look_for (shown->window, label_holds, shown->words) != NULL;
}

static inline void
wait_for (GtkWidget *window, const char *words)
{
  Shown shown = { window, words };
  desk_until (is_shown, &shown);
  desk_settle ();
}

/* The topmost window of this type, once it is there. */
typedef struct {
  GType type;
  GtkWidget *found;
} Wanted;

static inline gboolean
is_there (gpointer data)
{
  Wanted *wanted = data;
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  for (GList *item = all; item; item = item->next)
    if (g_type_is_a (G_OBJECT_TYPE (item->data), wanted->type) && gtk_widget_get_mapped (item->data)
        && gtk_window_is_active (item->data))
      wanted->found = item->data;
  return wanted->found != NULL;
}

static inline GtkWidget *
wait_for_window (GType type)
{
  Wanted wanted = { type, NULL };
  desk_until (is_there, &wanted);
  desk_settle ();
  return wanted.found;
}

static inline gboolean
has_name (GtkWidget *widget, gconstpointer name)
{
  return g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), name) == 0;
}

static inline void
write_in (GtkWidget *window, const char *name, const char *text)
{
  GtkWidget *field = desk_look_for (window, has_name, name);
  desk_click (field);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
}

static inline GtkWidget *
button_of (GtkWidget *window, const char *words)
{
  return gtk_widget_get_ancestor (desk_find_label (window, words), GTK_TYPE_BUTTON);
}

/* A book of so many things under one key, each written by `add`. */
static inline void
write_many (const char *key, int n, void (*add) (GString *text, int i))
{
  g_autofree char *path = bw_book_usual_path (), *folder = g_path_get_dirname (path);
  g_autoptr (GString) text = g_string_new ("{\"format\": \"bandwright-book\", \"version\": 1");
  g_autoptr (GError) error = NULL;
  g_string_append_printf (text, ", \"%s\": [", key);
  for (int i = 0; i < n; i++) {
    g_string_append (text, i ? "," : "");
    add (text, i);
  }
  g_string_append (text, "]}");
  g_mkdir_with_parents (folder, 0700);
  if (!g_file_set_contents (path, text->str, (gssize)text->len, &error))
    g_error ("%s", error->message);
}

static inline gboolean
is_list (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LIST_VIEW (widget);
}

/* How many rows the list in sight has made. */
static inline int
count_rows (GtkWidget *window)
{
  GtkWidget *list = desk_look_for (window, is_list, NULL);
  int n = 0;
  if (!list)
    return 0;
  for (GtkWidget *row = gtk_widget_get_first_child (list); row;
       row = gtk_widget_get_next_sibling (row))
    n++;
  return n;
}
