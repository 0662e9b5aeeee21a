/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pages are laid out and drawn by threads, from a copy of the project that serves until the
 * project changes. While new ones are under way the old ones are shown; who prints or saves then
 * gets the new. */
#include "config.h"

#include "app/make/print-window.h"

#include "app/form/typed.h"
#include "app/ask/notice.h"
#include "app/kit/part-names.h"
#include "app/ask/tell-file.h"
#include "app/make/chart-save.h"
#include "app/make/make-cards.h"
#include "app/make/page-view.h"
#include "app/make/print-options.h"
#include "app/make/print-run.h"
#include "app/make/print-save.h"
#include "app/measure/measure-cards.h"

#include <glib/gi18n-lib.h>

#define REST_MS 400 /* after the last change of the project */
#define LAST_KIND "bandwright-print-kind"

typedef enum { NOTHING, PRINT, SAVE } Deed;

struct _BwPrintWindow {
  GtkWindow parent_instance;
  BwDraft *draft;
  BwProject *project;
  BwPageCopy *copy;      /* NULL once the project has changed */
  GCancellable *setting; /* the pages that are being laid out; NULL: none are */
  Deed waits;            /* until they are */
  guint rest;
  int writing; /* files under way */
  gboolean showing;
  GtkLabel *title, *where;
  GtkWidget *save, *list, *piece, *price, *choices;
  GtkSpinner *busy;
  GtkDropDown *zoom;
  BwPrintOptions *options;
  BwPageView *small, *pages;
  BwNotice *notice;
};

G_DEFINE_FINAL_TYPE (BwPrintWindow, bw_print_window, GTK_TYPE_WINDOW)

/* The first two go by the room there is, the others are times life size. */
static const double zooms[]
    = { BW_ZOOM_WIDTH, BW_ZOOM_WHOLE, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 2, 3, 4, 6, 8 };
#define FIRST_SIZE 2

static BwPrintKind
kind_of (BwPrintWindow *self)
{
  return bw_print_options_get_kind (self->options);
}

static void
tell (BwPrintWindow *self, GtkMessageType type, const char *sentence)
{
  bw_notice_tell (self->notice, type, sentence);
}

/* --- What is shown -----------------------------------------------------------------------------
 */

static void
page_changed (BwPrintWindow *self)
{
  BwPageSet *set = bw_page_view_get_pages (self->pages);
  int n = set ? bw_page_set_n_pages (set) : 0, page = bw_page_view_get_page (self->pages);
  g_autofree char *words = n > 0 ? g_strdup_printf (_ ("page %d of %d"), page + 1, n)
                                 : g_strdup (_ ("the pages are being laid out"));
  gtk_label_set_text (self->where, words);
  bw_page_view_go (self->small, page);
}

static void
show_busy (BwPrintWindow *self)
{
  gboolean busy = self->setting != NULL || self->rest != 0 || self->writing > 0;
  gtk_spinner_set_spinning (self->busy, busy);
  gtk_widget_set_visible (GTK_WIDGET (self->busy), busy);
}

static void
show_kind (BwPrintWindow *self)
{
  BwPrintKind kind = kind_of (self);
  gboolean for_sale = kind == BW_PRINT_TAGS || kind == BW_PRINT_LISTING;
  gtk_label_set_text (self->title, bw_print_kind_name (kind));
  gtk_window_set_title (GTK_WINDOW (self), bw_print_kind_name (kind));
  gtk_widget_set_visible (self->piece, for_sale);
  gtk_widget_set_visible (self->price, for_sale);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "print.print", bw_print_kind_has_paper (kind));
  gtk_button_set_label (GTK_BUTTON (self->save),
                        kind == BW_PRINT_LISTING ? _ ("_Save Picture…") : _ ("_Save as PDF…"));
  g_object_set_data (G_OBJECT (gtk_window_get_transient_for (GTK_WINDOW (self))), LAST_KIND,
                     GINT_TO_POINTER (kind));
}

/* --- Printing and saving -----------------------------------------------------------------------
 */

static void
not_printed (const char *sentence, gpointer window)
{
  tell (window, GTK_MESSAGE_ERROR, sentence);
}

static void
print_now (BwPrintWindow *self)
{
  BwPrintOrder order = { .project = self->project,
                         .kind = kind_of (self),
                         .seen = bw_page_view_get_pages (self->pages),
                         .told = not_printed,
                         .owner = G_OBJECT (self) };
  bw_print_run (GTK_WINDOW (self), &order);
}

typedef struct {
  GWeakRef window; /* may be closed before the file is there */
  GFile *file;
} Writing;

static void
written (GObject *source, GAsyncResult *result, gpointer data)
{
  Writing *writing = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwPrintWindow) self = g_weak_ref_get (&writing->window);
  bw_page_set_finish_written (result, &error);
  if (self && self->draft) {
    self->writing--;
    show_busy (self);
    bw_tell_file_written (GTK_WIDGET (self), writing->file, error);
  }
  g_weak_ref_clear (&writing->window);
  g_object_unref (writing->file);
  g_free (writing);
}

static void
file_chosen (GFile *file, gpointer data)
{
  BwPrintWindow *self = data;
  g_autoptr (GError) error = NULL;
  if (!bw_print_has_path (file, &error)) {
    bw_tell_file_written (GTK_WIDGET (self), file, error);
    return;
  }
  Writing *writing = g_new0 (Writing, 1);
  g_weak_ref_init (&writing->window, self);
  writing->file = g_object_ref (file);
  self->writing++;
  show_busy (self);
  bw_page_set_ask_written (bw_page_view_get_pages (self->pages), g_file_peek_path (file), NULL,
                           written, writing);
}

static void
save_now (BwPrintWindow *self)
{
  BwPrintKind kind = kind_of (self);
  bw_print_ask_file (GTK_WINDOW (self), self->project, kind,
                     kind == BW_PRINT_LISTING ? BW_FILES_PICTURE : BW_FILES_PDF, file_chosen, self);
}

static void
do_now (BwPrintWindow *self, Deed deed)
{
  if (deed == PRINT && bw_print_kind_has_paper (kind_of (self)))
    print_now (self);
  else if (deed == SAVE)
    save_now (self);
}

/* --- Laying out --------------------------------------------------------------------------------
 */

static void
stop (BwPrintWindow *self)
{
  g_clear_handle_id (&self->rest, g_source_remove);
  if (self->setting)
    g_cancellable_cancel (self->setting);
  g_clear_object (&self->setting);
}

/* Of what was stopped nothing is heard but that, and there may be no window any more. */
static void
laid_out (GObject *source, GAsyncResult *result, gpointer data)
{
  BwPrintWindow *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwPageSet) set = bw_page_set_finish (result, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&self->setting);
  show_busy (self);
  if (!set) {
    tell (self, GTK_MESSAGE_ERROR, error->message);
    return;
  }
  bw_page_view_set_pages (self->pages, set);
  bw_page_view_set_pages (self->small, set);
  gtk_widget_set_visible (self->list, bw_page_set_n_pages (set) > 1);
  page_changed (self);
  Deed deed = self->waits;
  self->waits = NOTHING;
  do_now (self, deed);
}

static void
refresh (BwPrintWindow *self)
{
  if (!self->draft)
    return;
  stop (self);
  if (!self->copy)
    self->copy = bw_page_copy_new (self->project);
  self->setting = g_cancellable_new ();
  bw_page_set_ask (self->copy, kind_of (self), bw_print_options_get_paper (self->options),
                   self->setting, laid_out, self);
  show_kind (self);
  show_busy (self);
}

static gboolean
rested (gpointer data)
{
  BwPrintWindow *self = data;
  self->rest = 0;
  refresh (self);
  return G_SOURCE_REMOVE;
}

static void
project_changed (BwPrintWindow *self)
{
  g_clear_pointer (&self->copy, bw_page_copy_unref);
  stop (self);
  self->rest = g_timeout_add (REST_MS, rested, self);
  show_busy (self);
}

/* What is typed last, here or behind, is on the pages before they are printed. */
static void
ask (BwPrintWindow *self, Deed deed)
{
  GtkWindow *behind = gtk_window_get_transient_for (GTK_WINDOW (self));
  if (!bw_typed_stands (GTK_WIDGET (self), self->draft)
      || !bw_typed_stands (GTK_WIDGET (behind), self->draft))
    return;
  if (self->rest)
    refresh (self);
  if (self->setting)
    self->waits = deed;
  else
    do_now (self, deed);
}

static void
print_asked (GtkWidget *widget, const char *action, GVariant *parameter)
{
  ask (BW_PRINT_WINDOW (widget), PRINT);
}

static void
save_asked (GtkWidget *widget, const char *action, GVariant *parameter)
{
  ask (BW_PRINT_WINDOW (widget), SAVE);
}

static void
save_chart (BwPrintWindow *self, int kind)
{
  bw_chart_save (GTK_WINDOW (self), self->draft, (BwFileKind)kind);
}

/* --- Going about -------------------------------------------------------------------------------
 */

static void
zoom_chosen (BwPrintWindow *self)
{
  guint selected = gtk_drop_down_get_selected (self->zoom);
  if (selected < G_N_ELEMENTS (zooms))
    bw_page_view_set_zoom (self->pages, zooms[selected]);
}

/* From what is shown now to the next size that differs from it to the eye. */
static void
step_zoom (BwPrintWindow *self, int by)
{
  double now = bw_page_view_get_size (self->pages);
  guint i = by > 0 ? FIRST_SIZE : G_N_ELEMENTS (zooms) - 1;
  while (by > 0 && i < G_N_ELEMENTS (zooms) - 1 && zooms[i] < now * 1.02)
    i++;
  while (by < 0 && i > FIRST_SIZE && zooms[i] > now * 0.98)
    i--;
  gtk_drop_down_set_selected (self->zoom, i);
}

static void
larger (GtkWidget *widget, const char *action, GVariant *parameter)
{
  step_zoom (BW_PRINT_WINDOW (widget), 1);
}

static void
smaller (GtkWidget *widget, const char *action, GVariant *parameter)
{
  step_zoom (BW_PRINT_WINDOW (widget), -1);
}

/* As wide as there is room, and when it is that already, whole. */
static void
fit (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwPrintWindow *self = BW_PRINT_WINDOW (widget);
  gtk_drop_down_set_selected (self->zoom, gtk_drop_down_get_selected (self->zoom) == 0 ? 1 : 0);
}

static gboolean
wheel_turned (BwPrintWindow *self, double dx, double dy, GtkEventController *wheel)
{
  if (!(gtk_event_controller_get_current_event_state (wheel) & GDK_CONTROL_MASK) || dy == 0)
    return FALSE;
  step_zoom (self, dy < 0 ? 1 : -1);
  return TRUE;
}

static void
picked (BwPrintWindow *self, int page)
{
  bw_page_view_go (self->pages, page);
}

static gboolean
turn (BwPrintWindow *self, int by, gboolean whole_pages)
{
  if (whole_pages)
    bw_page_view_go (self->pages, bw_page_view_get_page (self->pages) + by);
  else
    bw_page_view_read_on (self->pages, by);
  return TRUE;
}

/* Wherever the focus is: what scrolls beside the pages would take these keys for itself. */
static gboolean
key_pressed (BwPrintWindow *self, guint key, guint code, GdkModifierType state)
{
  gboolean whole = (state & GDK_CONTROL_MASK) != 0;
  gboolean writes = GTK_IS_EDITABLE (gtk_window_get_focus (GTK_WINDOW (self)));
  switch (key) {
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    return turn (self, 1, whole);
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    return turn (self, -1, whole);
  case GDK_KEY_Home:
  case GDK_KEY_End:
    if (writes)
      return FALSE;
    bw_page_view_go (self->pages, key == GDK_KEY_Home ? 0 : G_MAXINT);
    return TRUE;
  default:
    return FALSE;
  }
}

/* --- The window --------------------------------------------------------------------------------
 */

static BwPrintWindow *
find_of (GtkWindow *parent)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  for (GList *item = all; item; item = item->next)
    if (BW_IS_PRINT_WINDOW (item->data)
        && gtk_window_get_transient_for (GTK_WINDOW (item->data)) == parent)
      return item->data;
  return NULL;
}

BwPrintKind
bw_print_window_last (GtkWindow *parent)
{
  return (BwPrintKind)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (parent), LAST_KIND));
}

static void
fill_zooms (BwPrintWindow *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gtk_string_list_append (names, _ ("Page width"));
  gtk_string_list_append (names, _ ("Whole page"));
  for (gsize i = FIRST_SIZE; i < G_N_ELEMENTS (zooms); i++)
    gtk_string_list_take (names, g_strdup_printf (_ ("%.0f %%"), 100 * zooms[i]));
  gtk_drop_down_set_model (self->zoom, G_LIST_MODEL (names));
}

static void
begin (BwPrintWindow *self, BwDraft *draft, BwPrintKind kind)
{
  bw_cards_bind (self->choices, draft);
  bw_print_options_set_kind (self->options, kind);
  self->project = g_object_ref (bw_draft_get_project (draft));
  self->draft = g_object_ref (draft);
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (gtk_window_close), self, G_CONNECT_SWAPPED);
  bw_part_names_give (GTK_WIDGET (self));
  page_changed (self);
  refresh (self);
  bw_print_options_focus (self->options);
}

void
bw_print_window_show (GtkWindow *parent, BwDraft *draft, BwPrintKind kind)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwPrintWindow *self = find_of (parent);
  if (self) {
    bw_print_options_set_kind (self->options, kind);
  } else {
    self = g_object_new (BW_TYPE_PRINT_WINDOW, "transient-for", parent, NULL);
    begin (self, draft, kind);
  }
  gtk_window_present (GTK_WINDOW (self));
}

static void
told (GtkWidget *widget, const char *action, GVariant *parameter)
{
  int type;
  const char *sentence;
  g_variant_get (parameter, "(i&s)", &type, &sentence);
  tell (BW_PRINT_WINDOW (widget), type, sentence);
}

static void
bw_print_window_dispose (GObject *object)
{
  BwPrintWindow *self = BW_PRINT_WINDOW (object);
  stop (self);
  g_clear_pointer (&self->copy, bw_page_copy_unref);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_print_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, title);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, where);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, save);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, list);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, piece);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, price);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, choices);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, busy);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, zoom);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, options);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, small);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, BwPrintWindow, notice);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
  gtk_widget_class_bind_template_callback (widget_class, save_chart);
  gtk_widget_class_bind_template_callback (widget_class, zoom_chosen);
  gtk_widget_class_bind_template_callback (widget_class, picked);
  gtk_widget_class_bind_template_callback (widget_class, page_changed);
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  static const struct {
    guint key;
    const char *action;
  } keys[] = {
    { GDK_KEY_p, "print.print" },       { GDK_KEY_s, "print.save" },
    { GDK_KEY_plus, "print.larger" },   { GDK_KEY_equal, "print.larger" },
    { GDK_KEY_KP_Add, "print.larger" }, { GDK_KEY_minus, "print.smaller" },
    { GDK_KEY_0, "print.fit" },         { GDK_KEY_KP_Subtract, "print.smaller" },
    { GDK_KEY_w, "window.close" },
  };
  gtk_widget_class_install_action (widget_class, "win." BW_TELL_ACTION, "(is)", told);
  gtk_widget_class_install_action (widget_class, "print.print", NULL, print_asked);
  gtk_widget_class_install_action (widget_class, "print.save", NULL, save_asked);
  gtk_widget_class_install_action (widget_class, "print.larger", NULL, larger);
  gtk_widget_class_install_action (widget_class, "print.smaller", NULL, smaller);
  gtk_widget_class_install_action (widget_class, "print.fit", NULL, fit);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i].key, GDK_CONTROL_MASK,
                                         keys[i].action, NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
bw_print_window_class_init (BwPrintWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_print_window_dispose;
  g_type_ensure (BW_TYPE_PRINT_OPTIONS);
  g_type_ensure (BW_TYPE_PIECE_CARD);
  g_type_ensure (BW_TYPE_PRICE_CARD);
  g_type_ensure (BW_TYPE_PAGE_VIEW);
  g_type_ensure (BW_TYPE_NOTICE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/print-window.ui");
  bind_children (widget_class);
  install_actions (widget_class);
}

static void
bw_print_window_init (BwPrintWindow *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *wheel = gtk_event_controller_scroll_new (
      GTK_EVENT_CONTROLLER_SCROLL_VERTICAL | GTK_EVENT_CONTROLLER_SCROLL_DISCRETE);
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_zooms (self);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_event_controller_set_propagation_phase (wheel, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  g_signal_connect_swapped (wheel, "scroll", G_CALLBACK (wheel_turned), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self->pages), wheel);
}
