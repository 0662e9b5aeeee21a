/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/failed-file.h"

#include "project/fault/fault-error.h"

void
bw_failed_file (const char *path, const GError *failure, BwIoWay way, GError **error)
{
  g_autofree char *name = g_filename_display_name (path);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name,
               failure->domain == BW_FAULT ? failure->message : bw_io_words (failure, way));
}
