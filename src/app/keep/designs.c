/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list on the disk is read anew before each change, so that two programs add to one list. It
 * has no lock: what could be lost by two of them at one moment is a line that the next opening
 * brings back. */
#include "config.h"

#include "app/keep/designs.h"

#include "app/keep/demos.h"
#include "project/file/save-whole.h"

#include <glib/gstdio.h>
#include <gtk/gtk.h>
#include <string.h>

#define URI_MOST 4096 /* bytes */
#define BYTES_MOST ((goffset)BW_DESIGNS_MOST * (URI_MOST + 1) * 2)

struct _BwDesigns {
  GObject parent_instance;
  GPtrArray *uris; /* newest first; what is known where no disk can be read or written */
};

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwDesigns, bw_designs, G_TYPE_OBJECT)

static char *
list_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "bandwright", "designs.txt", NULL);
}

/* The list is a text that anybody may have edited: an address in it may be anything. */
static gboolean
is_ours (const char *uri)
{
  return uri && strlen (uri) <= URI_MOST && g_str_has_suffix (uri, ".bandwright")
         && g_utf8_validate (uri, -1, NULL);
}

static void
add_uri (GPtrArray *uris, const char *uri)
{
  if (uris->len < BW_DESIGNS_MOST && is_ours (uri)
      && !g_ptr_array_find_with_equal_func (uris, uri, g_str_equal, NULL))
    g_ptr_array_add (uris, g_strdup (uri));
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  GDateTime *first = gtk_recent_info_get_modified ((GtkRecentInfo *)a);
  GDateTime *second = gtk_recent_info_get_modified ((GtkRecentInfo *)b);
  return first && second ? g_date_time_compare (second, first) : (second != NULL) - (first != NULL);
}

/* NULL without a display. */
static GtkRecentManager *
desktops_list (void)
{
  return gtk_settings_get_default () ? gtk_recent_manager_get_default () : NULL;
}

/* What the desktop remembers is where a list begins. */
static void
take_the_desktops (GPtrArray *uris)
{
  GList *all = desktops_list () ? gtk_recent_manager_get_items (desktops_list ()) : NULL;
  all = g_list_sort (all, newest_first);
  for (GList *item = all; item; item = item->next)
    add_uri (uris, gtk_recent_info_get_uri (item->data));
  g_list_free_full (all, (GDestroyNotify)gtk_recent_info_unref);
}

static void
take_lines (GPtrArray *uris, const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_ptr_array_set_size (uris, 0);
  for (char **line = lines; *line; line++)
    add_uri (uris, *line);
}

static void
look_anew (BwDesigns *self)
{
  g_autofree char *path = list_path (), *text = NULL;
  GStatBuf status;
  if (g_stat (path, &status) != 0) {
    if (self->uris->len == 0)
      take_the_desktops (self->uris);
  } else if (S_ISREG (status.st_mode) && status.st_size <= BYTES_MOST
             && g_file_get_contents (path, &text, NULL, NULL)) {
    take_lines (self->uris, text);
  }
}

/* A list that cannot be kept is no reason to disturb anybody at work: it lasts as long as the
 * program. */
static void
keep (BwDesigns *self)
{
  g_autofree char *path = list_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < self->uris->len; i++)
    g_string_append_printf (text, "%s\n", (const char *)g_ptr_array_index (self->uris, i));
  if (g_mkdir_with_parents (folder, 0700) == 0)
    bw_save_whole (path, text->str, text->len, BW_SAVE_PRIVATE, NULL, NULL);
  g_signal_emit (self, signals[CHANGED], 0);
}

static gboolean
drop (BwDesigns *self, const char *uri)
{
  guint at;
  if (!g_ptr_array_find_with_equal_func (self->uris, uri, g_str_equal, &at))
    return FALSE;
  g_ptr_array_remove_index (self->uris, at);
  return TRUE;
}

static gboolean
may_remember (void)
{
  GtkSettings *desktop = gtk_settings_get_default ();
  gboolean may = TRUE;
  if (desktop)
    g_object_get (desktop, "gtk-recent-files-enabled", &may, NULL);
  return may;
}

GPtrArray *
bw_designs_list (BwDesigns *self)
{
  g_return_val_if_fail (BW_IS_DESIGNS (self), NULL);
  GPtrArray *files = g_ptr_array_new_with_free_func (g_object_unref);
  look_anew (self);
  for (guint i = 0; i < self->uris->len; i++)
    g_ptr_array_add (files, g_file_new_for_uri (g_ptr_array_index (self->uris, i)));
  return files;
}

static void
tell_the_desktop (const char *uri)
{
  GtkRecentData data = { .mime_type = (char *)"application/x-bandwright+json",
                         .app_name = (char *)"Bandwright",
                         .app_exec = (char *)"bandwright %u" };
  if (desktops_list ())
    gtk_recent_manager_add_full (desktops_list (), uri, &data);
}

void
bw_designs_remember (BwDesigns *self, GFile *file)
{
  g_return_if_fail (BW_IS_DESIGNS (self));
  g_autofree char *uri = g_file_get_uri (file);
  if (!may_remember () || !is_ours (uri) || bw_demos_have (file))
    return;
  look_anew (self);
  drop (self, uri);
  g_ptr_array_insert (self->uris, 0, g_steal_pointer (&uri));
  if (self->uris->len > BW_DESIGNS_MOST)
    g_ptr_array_set_size (self->uris, BW_DESIGNS_MOST);
  tell_the_desktop (g_ptr_array_index (self->uris, 0));
  keep (self);
}

void
bw_designs_forget (BwDesigns *self, GFile *file)
{
  g_return_if_fail (BW_IS_DESIGNS (self));
  g_autofree char *uri = g_file_get_uri (file);
  look_anew (self);
  if (desktops_list ())
    gtk_recent_manager_remove_item (desktops_list (), uri, NULL);
  if (drop (self, uri))
    keep (self);
}

static void
bw_designs_finalize (GObject *object)
{
  g_ptr_array_unref (BW_DESIGNS (object)->uris);
  G_OBJECT_CLASS (bw_designs_parent_class)->finalize (object);
}

static void
bw_designs_class_init (BwDesignsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_designs_finalize;
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_DESIGNS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
bw_designs_init (BwDesigns *self)
{
  self->uris = g_ptr_array_new_with_free_func (g_free);
}

BwDesigns *
bw_designs_get (void)
{
  static BwDesigns *designs;
  if (!designs)
    designs = g_object_new (BW_TYPE_DESIGNS, NULL);
  return designs;
}
