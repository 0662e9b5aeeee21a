/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's commands for paper: what can be printed, and the chart as a file of its own. */
#include "config.h"

#include "app/form/typed.h"
#include "app/make/chart-save.h"
#include "app/make/print-window.h"
#include "app/window/paper.h"

struct _BwPaperwork {
  GObject parent_instance;
  GtkWindow *window; /* borrowed: it owns us */
  BwDraft *draft;
};

G_DEFINE_FINAL_TYPE (BwPaperwork, bw_paperwork, G_TYPE_OBJECT)

/* The kind is a word of bw_print_kind_word(), "" for the one that was looked at last. */
static void
print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwPaperwork *self = data;
  const char *word = g_variant_get_string (parameter, NULL);
  BwPrintKind kind = *word ? bw_print_kind_from_word (word) : bw_print_window_last (self->window);
  if (bw_typed_stands (GTK_WIDGET (self->window), self->draft))
    bw_print_window_show (self->window, self->draft, kind);
}

static void
save_chart_svg (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwPaperwork *self = data;
  bw_chart_save (self->window, self->draft, BW_FILES_SVG);
}

static void
save_chart_png (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwPaperwork *self = data;
  bw_chart_save (self->window, self->draft, BW_FILES_PICTURE);
}

static void
save_chart_pdf (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwPaperwork *self = data;
  bw_chart_save (self->window, self->draft, BW_FILES_PDF);
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
    { "print", print, "s" },
    { "save-chart-svg", save_chart_svg },
    { "save-chart-png", save_chart_png },
    { "save-chart-pdf", save_chart_pdf },
  };
  BwPaperwork *self = g_object_new (BW_TYPE_PAPERWORK, NULL);
  self->window = GTK_WINDOW (window);
  self->draft = g_object_ref (draft);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  return self;
}
