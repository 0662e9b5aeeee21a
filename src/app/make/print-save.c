/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/make/print-save.h"

#include "project/piece-name.h"

#include <glib/gi18n-lib.h>

void
bw_print_ask_file (GtkWindow *parent, BwProject *project, BwPrintKind what, BwFileKind kind,
                   BwFileChosen chosen, gpointer data)
{
  g_autofree char *piece = bw_piece_name (project);
  g_autofree char *full = g_strdup_printf (_ ("%s — %s"), piece, bw_print_kind_file (what));
  g_autofree char *name = bw_file_name_for (full, kind);
  bw_file_dialog_save (parent, kind, name, bw_project_get_file (project), chosen, data);
}

gboolean
bw_print_has_path (GFile *file, GError **error)
{
  if (g_file_peek_path (file))
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                       _ ("choose a folder of this computer"));
  return FALSE;
}
