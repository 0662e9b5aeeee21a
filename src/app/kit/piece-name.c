/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/piece-name.h"

#include <glib/gi18n-lib.h>

const char *
bw_piece_name (BwProject *project)
{
  const char *title = bw_project_get_title (project);
  return title && *title ? title : _ ("Untitled");
}
