/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/file/file-name.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>

char *
bw_piece_name (BwProject *project)
{
  const char *title = bw_project_get_title (project);
  GFile *file = bw_project_get_file (project);
  if (title && *title)
    return g_strdup (title);
  return file ? bw_file_stem (file) : g_strdup (_ ("Untitled"));
}
