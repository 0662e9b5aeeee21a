/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Demos are copies to play with; the files that came with the program are never written to. */
#include "config.h"

#include "app/keep/demos.h"

static char *
demo_folder (void)
{
  const char *data = g_getenv ("BANDWRIGHT_DATA_DIR");
  return g_build_filename (data && *data ? data : BW_PKGDATA_DIR, "demo", NULL);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  g_autofree char *first = g_file_get_basename (*(GFile *const *)a);
  g_autofree char *second = g_file_get_basename (*(GFile *const *)b);
  return g_strcmp0 (first, second);
}

GPtrArray *
bw_demos_find (void)
{
  GPtrArray *found = g_ptr_array_new_with_free_func (g_object_unref);
  g_autofree char *folder = demo_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    if (g_str_has_suffix (name, ".bandwright"))
      g_ptr_array_add (found, g_file_new_build_filename (folder, name, NULL));
  g_ptr_array_sort (found, by_name);
  return found;
}

gboolean
bw_demos_have (GFile *file)
{
  g_autofree char *path = demo_folder ();
  g_autoptr (GFile) folder = g_file_new_for_path (path);
  return g_file_has_parent (file, folder);
}

BwProject *
bw_demo_load (GFile *file, GError **error)
{
  BwProject *project = bw_project_load (file, error);
  if (!project)
    return NULL;
  bw_project_set_file (project, NULL);
  bw_project_set_modified (project, FALSE);
  return project;
}
