/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/restone.h"

#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>

/* A fault of the other file is told with its name: the name told otherwise is the design's. */
static BwProject *
load_stone (const char *name, GError **error)
{
  g_autoptr (GError) own = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (name);
  BwProject *project = bw_project_load (file, &own);
  if (project)
    return project;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "%s: %s", name,
               own->domain == BW_FAULT ? own->message : bw_io_words (own, BW_IO_READ));
  return NULL;
}

/* What the other stone is besides its measures: they are of this stone and not of the design. */
static gboolean
take_nature (BwProject *made, BwProject *other, GError **error)
{
  BwDesign design = *bw_project_get_design (made);
  design.look = bw_project_get_design (other)->look;
  bw_project_set_mineral (made, "", bw_project_get_mineral (other));
  return bw_project_set_design (made, "", &design, error);
}

char *
bw_restone_run (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (BwProject) other = load_stone (options->stone, error);
  g_autoptr (GFile) file = g_file_new_for_path (options->output);
  int left_out = 0;
  if (!other)
    return NULL;
  g_autoptr (BwProject) made = bw_project_restone (project, &bw_project_get_design (other)->stone,
                                                   NULL, options->by_hand, &left_out, error);
  if (!made || !take_nature (made, other, error))
    return NULL;
  if (!bw_project_save (made, file, error))
    return NULL;
  if (left_out == 0)
    return g_strdup ("");
  return g_strdup_printf (
      ngettext ("%d motif does not fit there: its beads count as set by hand.\n",
                "%d motifs do not fit there: their beads count as set by hand.\n",
                (gulong)left_out),
      left_out);
}
