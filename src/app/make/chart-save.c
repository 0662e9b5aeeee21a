/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/make/chart-save.h"

#include "app/form/typed.h"
#include "app/ask/tell-file.h"
#include "app/make/print-kind.h"
#include "app/make/print-save.h"
#include "output/chart/chart.h"

/* The dialog goes with its window. */
static void
chosen (GFile *file, gpointer window)
{
  BwDraft *draft = g_object_get_data (window, "chart-draft");
  g_autoptr (GError) error = NULL;
  if (bw_print_has_path (file, &error))
    bw_chart_write (bw_draft_get_project (draft), g_file_peek_path (file), &error);
  bw_tell_file_written (window, file, error);
}

void
bw_chart_save (GtkWindow *window, BwDraft *draft, BwFileKind kind)
{
  if (!bw_typed_stands (GTK_WIDGET (window), draft))
    return;
  g_object_set_data_full (G_OBJECT (window), "chart-draft", g_object_ref (draft), g_object_unref);
  bw_print_ask_file (window, bw_draft_get_project (draft), BW_PRINT_CHART, kind, chosen, window);
}
