/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/colours/tray-starts.h"
#include "app/colours/tray-use.h"

#include <glib/gi18n-lib.h>

void
bw_tray_use (BwProject *project, const BwTray *other, const char *name)
{
  const BwDrawing *bail = bw_project_get_bail_drawing (project);
  BwTray tray = *bw_project_get_tray (project);
  guint64 counts[256] = { 0 };
  guint8 map[256];
  bw_drawing_count (bw_project_get_drawing (project), counts);
  if (bail)
    bw_drawing_count (bail, counts);
  bw_tray_lay (&tray, other, counts, map);
  g_autofree char *label = g_strdup_printf (_ ("Tray: %s"), name);
  bw_project_replace_tray (project, label, &tray, map, NULL);
}
