/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two parts of the main menu that are not known beforehand: recent files and demo projects. */
#include "config.h"

#include "app/keep/demos.h"
#include "app/keep/designs.h"
#include "project/file/file-name.h"
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

static void
fill_recent (GMenu *menu)
{
  g_autoptr (GPtrArray) files = bw_designs_list (bw_designs_get ());
  g_menu_remove_all (menu);
  for (guint i = 0; i < MIN (files->len, RECENT_MOST); i++) {
    g_autofree char *name = bw_file_stem (g_ptr_array_index (files, i));
    g_autofree char *uri = g_file_get_uri (g_ptr_array_index (files, i));
    add_item (menu, name, "win.open-file", uri);
  }
  if (files->len == 0)
    g_menu_append (menu, _ ("None yet"), "win.nothing-recent");
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
  g_signal_connect_object (bw_designs_get (), "changed", G_CALLBACK (fill_recent), menu,
                           G_CONNECT_SWAPPED);
}
