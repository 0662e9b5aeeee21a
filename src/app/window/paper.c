/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's commands for paper: to a printer, and into files that look the same. */
#include "config.h"

#include "app/form/typed.h"
#include "app/kit/file-dialog.h"
#include "app/make/print-run.h"
#include "project/piece-name.h"
#include "app/kit/tell-file.h"
#include "app/window/paper.h"
#include "output/chart/chart.h"

#include <glib/gi18n-lib.h>

struct _BwPaperwork {
  GObject parent_instance;
  GtkWindow *window; /* borrowed: it owns us */
  BwDraft *draft;
};

G_DEFINE_FINAL_TYPE (BwPaperwork, bw_paperwork, G_TYPE_OBJECT)

static BwProject *
project_of (BwPaperwork *self)
{
  return bw_draft_get_project (self->draft);
}

static void
tell (BwPaperwork *self, GFile *file, const GError *error)
{
  bw_tell_file_written (GTK_WIDGET (self->window), file, error);
}

static void
not_printed (const char *sentence, gpointer window)
{
  bw_tell (window, GTK_MESSAGE_ERROR, sentence);
}

static void
print (BwPaperwork *self, BwPrintKind kind)
{
  if (!bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    return;
  bw_print_run (self->window, project_of (self), kind, not_printed, G_OBJECT (self->window));
}

static void
print_sheet (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  print (data, BW_PRINT_SHEET);
}

static void
print_strip (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  print (data, BW_PRINT_STRIP);
}

static void
print_kit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  print (data, BW_PRINT_KIT);
}

static gboolean
has_path (GFile *file, GError **error)
{
  if (g_file_peek_path (file))
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                       _ ("choose a folder of this computer"));
  return FALSE;
}

static void
write_sheet (BwPaperwork *self, GFile *file, BwPrintKind kind)
{
  g_autoptr (GError) error = NULL;
  if (has_path (file, &error)) {
    g_autoptr (BwSheet) sheet = bw_print_sheet_new (project_of (self), kind, bw_print_paper ());
    bw_sheet_write_pdf (sheet, g_file_peek_path (file), &error);
  }
  tell (self, file, error);
}

static void
sheet_chosen (GFile *file, gpointer data)
{
  write_sheet (data, file, BW_PRINT_SHEET);
}

static void
strip_chosen (GFile *file, gpointer data)
{
  write_sheet (data, file, BW_PRINT_STRIP);
}

static void
kit_chosen (GFile *file, gpointer data)
{
  write_sheet (data, file, BW_PRINT_KIT);
}

static void
chart_chosen (GFile *file, gpointer data)
{
  BwPaperwork *self = data;
  g_autoptr (GError) error = NULL;
  if (has_path (file, &error))
    bw_chart_write (project_of (self), g_file_peek_path (file), &error);
  tell (self, file, error);
}

/* Offers "TITLE — WHAT.ext" beside the project. */
static void
ask (BwPaperwork *self, const char *what, BwFileKind kind, BwFileChosen chosen)
{
  if (!bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    return;
  g_autofree char *piece = bw_piece_name (project_of (self));
  g_autofree char *full = g_strdup_printf (_ ("%s — %s"), piece, what);
  g_autofree char *name = bw_file_name_for (full, kind);
  bw_file_dialog_save (self->window, kind, name, bw_project_get_file (project_of (self)), chosen,
                       self);
}

static void
save_sheet (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("work sheet"), BW_FILES_PDF, sheet_chosen);
}

static void
save_strip (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("paper strip"), BW_FILES_PDF, strip_chosen);
}

static void
save_kit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("kit sheet"), BW_FILES_PDF, kit_chosen);
}

static void
save_chart_svg (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("chart"), BW_FILES_SVG, chart_chosen);
}

static void
save_chart_png (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("chart"), BW_FILES_PICTURE, chart_chosen);
}

static void
save_chart_pdf (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ask (data, _ ("chart"), BW_FILES_PDF, chart_chosen);
}

static void
bw_paperwork_dispose (GObject *object)
{
  g_clear_object (&BW_PAPERWORK (object)->draft);
  G_OBJECT_CLASS (bw_paperwork_parent_class)->dispose (object);
}

static void
bw_paperwork_class_init (BwPaperworkClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_paperwork_dispose;
}

static void
bw_paperwork_init (BwPaperwork *self)
{
}

BwPaperwork *
bw_paperwork_new (GtkApplicationWindow *window, BwDraft *draft)
{
  static const GActionEntry entries[] = {
    { "print-sheet", print_sheet },       { "print-strip", print_strip },
    { "print-kit", print_kit },           { "save-sheet", save_sheet },
    { "save-strip", save_strip },         { "save-kit", save_kit },
    { "save-chart-svg", save_chart_svg }, { "save-chart-png", save_chart_png },
    { "save-chart-pdf", save_chart_pdf },
  };
  BwPaperwork *self = g_object_new (BW_TYPE_PAPERWORK, NULL);
  self->window = GTK_WINDOW (window);
  self->draft = g_object_ref (draft);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  return self;
}
