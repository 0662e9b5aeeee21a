/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list is written by every program of the desktop: an address in it may be anything. */
#include "config.h"

#include "app/shelf/shelf-recent.h"

#define URI_MOST 4096 /* bytes */

static int
newest_first (gconstpointer a, gconstpointer b)
{
  GDateTime *first = gtk_recent_info_get_modified ((GtkRecentInfo *)a);
  GDateTime *second = gtk_recent_info_get_modified ((GtkRecentInfo *)b);
  return first && second ? g_date_time_compare (second, first) : (second != NULL) - (first != NULL);
}

static gboolean
is_ours (GtkRecentInfo *info)
{
  const char *uri = gtk_recent_info_get_uri (info);
  return uri && strlen (uri) <= URI_MOST && g_str_has_suffix (uri, ".bandwright");
}

GPtrArray *
bw_shelf_recent (void)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_object_unref);
  GList *all = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  all = g_list_sort (all, newest_first);
  for (GList *item = all; item && files->len < BW_SHELF_DESIGNS_MOST; item = item->next)
    if (is_ours (item->data))
      g_ptr_array_add (files, g_file_new_for_uri (gtk_recent_info_get_uri (item->data)));
  g_list_free_full (all, (GDestroyNotify)gtk_recent_info_unref);
  return files;
}

void
bw_shelf_forget (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  gtk_recent_manager_remove_item (gtk_recent_manager_get_default (), uri, NULL);
}
