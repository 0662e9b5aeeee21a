/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two parts of the main menu that are not known beforehand: recent files and demo projects. */
#include "config.h"

#include "app/keep/demos.h"
#include "app/window/menus.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define RECENT_MOST 10

/* A label in which no underline stands for a key. Owned. */
static char *
plain_label (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "_", -1);
  return g_strjoinv ("__", parts);
}

static void
add_item (GMenu *menu, const char *text, const char *action, const char *target)
{
  g_autofree char *label = plain_label (text);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
  g_menu_item_set_action_and_target (item, action, "s", target);
  g_menu_append_item (menu, item);
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  GDateTime *first = gtk_recent_info_get_modified ((GtkRecentInfo *)a);
  GDateTime *second = gtk_recent_info_get_modified ((GtkRecentInfo *)b);
  return g_date_time_compare (second, first);
}

static gboolean
is_ours (GtkRecentInfo *info)
{
  return g_str_has_suffix (gtk_recent_info_get_uri (info), ".bandwright")
         && gtk_recent_info_exists (info);
}

/* The name without its ending, which says the same of all of them. Owned. */
static char *
recent_name (GtkRecentInfo *info)
{
  const char *name = gtk_recent_info_get_display_name (info);
  const char *ending = g_strrstr (name, ".bandwright");
  return ending ? g_strndup (name, (gsize)(ending - name)) : g_strdup (name);
}

static void
fill_recent (GMenu *menu)
{
  GList *all = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  int n = 0;
  g_menu_remove_all (menu);
  all = g_list_sort (all, newest_first);
  for (GList *item = all; item && n < RECENT_MOST; item = item->next) {
    if (!is_ours (item->data))
      continue;
    g_autofree char *name = recent_name (item->data);
    add_item (menu, name, "win.open-file", gtk_recent_info_get_uri (item->data));
    n++;
  }
  if (n == 0)
    g_menu_append (menu, _ ("None yet"), "win.nothing-recent");
  g_list_free_full (all, (GDestroyNotify)gtk_recent_info_unref);
}

/* "harbour-lamp.bandwright" is listed as "Harbour Lamp", as its title is written. */
static char *
demo_name (GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  char *dot = strrchr (name, '.');
  if (dot)
    *dot = '\0';
  for (char *c = name; *c; c++)
    if (c == name || c[-1] == ' ')
      *c = g_ascii_toupper (*c);
    else if (*c == '-')
      *c = ' ';
  return g_steal_pointer (&name);
}

void
bw_demo_menu_fill (GMenu *menu)
{
  g_autoptr (GPtrArray) demos = bw_demos_find ();
  for (guint i = 0; i < demos->len; i++) {
    GFile *file = g_ptr_array_index (demos, i);
    g_autofree char *name = demo_name (file);
    add_item (menu, name, "win.open-demo", g_file_peek_path (file));
  }
  if (demos->len == 0)
    g_menu_append (menu, _ ("None installed"), "win.no-demos");
}

void
bw_recent_menu_follow (GMenu *menu)
{
  fill_recent (menu);
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (fill_recent),
                           menu, G_CONNECT_SWAPPED);
}
