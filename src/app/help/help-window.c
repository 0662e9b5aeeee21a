/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/help/help-files.h"
#include "app/help/help-page.h"
#include "app/help/help-window.h"

#include <glib/gi18n-lib.h>

#define CONTENTS "index"

struct _BwHelpWindow {
  GtkWindow parent_instance;
  GtkScrolledWindow *sheet;
  GtkWidget *back, *contents;
  GPtrArray *way; /* names of the pages come by; the last is shown */
};

G_DEFINE_FINAL_TYPE (BwHelpWindow, bw_help_window, GTK_TYPE_WINDOW)

const char *
bw_help_window_get_page (BwHelpWindow *self)
{
  g_return_val_if_fail (BW_IS_HELP_WINDOW (self), NULL);
  return self->way->len ? g_ptr_array_index (self->way, self->way->len - 1) : CONTENTS;
}

static BwHelpText *
read_page (const char *name, GError **error)
{
  g_autofree char *file = g_strconcat (name, ".page", NULL);
  g_autofree char *path = bw_help_find (file);
  g_autofree char *page = NULL;
  gsize length;
  if (!path) {
    g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT,
                 _ ("The help page “%s” is not installed."), name);
    return NULL;
  }
  return g_file_get_contents (path, &page, &length, error)
             ? bw_help_text_parse (page, (gssize)length, error)
             : NULL;
}

static void follow (const char *page, gpointer data);

/* A sentence to be read where a page should be. */
static BwHelpText *
say_instead (const GError *error)
{
  g_autofree char *page = g_markup_printf_escaped ("<page><p>%s</p></page>", error->message);
  return bw_help_text_parse (page, -1, NULL);
}

/* The titles of the pages that go with this one, as links beneath it. */
static void
add_others (BwHelpText *text)
{
  g_autoptr (GString) links = g_string_new (NULL);
  for (guint i = 0; i < text->others->len; i++) {
    const char *name = g_ptr_array_index (text->others, i);
    g_autoptr (BwHelpText) other = read_page (name, NULL);
    if (other && other->title)
      g_string_append_printf (links, "%s<a href=\"%s\">%s</a>", links->len ? " · " : "", name,
                              other->title);
  }
  if (!links->len)
    return;
  BwHelpBlock *block = g_new0 (BwHelpBlock, 1);
  block->kind = BW_HELP_PARAGRAPH;
  /* Translators: before the titles of help pages that go with the one shown. */
  block->markup = g_strdup_printf (_ ("See as well: %s"), links->str);
  g_ptr_array_add (text->blocks, block);
}

static void
show (BwHelpWindow *self)
{
  g_autoptr (GError) error = NULL;
  const char *name = bw_help_window_get_page (self);
  g_autoptr (BwHelpText) text = read_page (name, &error);
  if (!text)
    text = say_instead (error);
  add_others (text);
  gtk_scrolled_window_set_child (self->sheet, bw_help_page_new (text, follow, self));
  /* Else a picture, which may shrink to nothing, does. */
  gtk_scrollable_set_vscroll_policy (GTK_SCROLLABLE (gtk_scrolled_window_get_child (self->sheet)),
                                     GTK_SCROLL_NATURAL);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->sheet), 0);
  gtk_window_set_title (GTK_WINDOW (self), text->title ? text->title : _ ("Help"));
  gtk_widget_set_sensitive (self->back, self->way->len > 1);
  gtk_widget_set_sensitive (self->contents, !g_str_equal (name, CONTENTS));
  gtk_window_set_focus (GTK_WINDOW (self), NULL); /* a link far down would draw the page there */
}

static void
go_to (BwHelpWindow *self, const char *page)
{
  if (self->way->len && g_str_equal (page, bw_help_window_get_page (self)))
    return;
  g_ptr_array_add (self->way, g_strdup (page));
  show (self);
}

/* Not while the label that was clicked still speaks: it goes with the page it stands on. */
static gboolean
go_later (gpointer data)
{
  BwHelpWindow *self = data;
  g_autofree char *page = g_object_steal_data (G_OBJECT (self), "wanted");
  if (page)
    go_to (self, page);
  return G_SOURCE_REMOVE;
}

static void
follow (const char *page, gpointer data)
{
  g_object_set_data_full (G_OBJECT (data), "wanted", g_strdup (page), g_free);
  g_idle_add_full (G_PRIORITY_DEFAULT, go_later, g_object_ref (data), g_object_unref);
}

static void
go_back (BwHelpWindow *self)
{
  if (self->way->len < 2)
    return;
  g_ptr_array_remove_index (self->way, self->way->len - 1);
  show (self);
}

static void
go_to_contents (BwHelpWindow *self)
{
  go_to (self, CONTENTS);
}

static gboolean
back_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  go_back (BW_HELP_WINDOW (widget));
  return TRUE;
}

static gboolean
close_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

/* Whatever has the focus, the page is what one wants to move. */
static gboolean
scroll_pressed (GtkWidget *widget, GVariant *how, gpointer data)
{
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (BW_HELP_WINDOW (widget)->sheet);
  double page = gtk_adjustment_get_page_size (place), by = g_variant_get_double (how);
  gtk_adjustment_set_value (place, gtk_adjustment_get_value (place) + by * page);
  return TRUE;
}

static void
add_scrolling (BwHelpWindow *self)
{
  static const struct {
    guint key;
    double pages;
  } keys[] = {
    { GDK_KEY_Down, 0.1 },     { GDK_KEY_Up, -0.1 },  { GDK_KEY_Page_Down, 0.9 },
    { GDK_KEY_Page_Up, -0.9 }, { GDK_KEY_Home, -99 }, { GDK_KEY_End, 99 },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();
  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    GtkShortcut *shortcut = gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, 0),
                                              gtk_callback_action_new (scroll_pressed, NULL, NULL));
    gtk_shortcut_set_arguments (shortcut, g_variant_new_double (keys[i].pages));
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
  }
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

static void
bw_help_window_finalize (GObject *object)
{
  g_ptr_array_unref (BW_HELP_WINDOW (object)->way);
  G_OBJECT_CLASS (bw_help_window_parent_class)->finalize (object);
}

static void
bw_help_window_class_init (BwHelpWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_help_window_finalize;
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Left, GDK_ALT_MASK, back_pressed, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, close_pressed, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, close_pressed, NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/help-window.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHelpWindow, sheet);
  gtk_widget_class_bind_template_child (widget_class, BwHelpWindow, back);
  gtk_widget_class_bind_template_child (widget_class, BwHelpWindow, contents);
  gtk_widget_class_bind_template_callback (widget_class, go_back);
  gtk_widget_class_bind_template_callback (widget_class, go_to_contents);
}

static void
bw_help_window_init (BwHelpWindow *self)
{
  self->way = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  add_scrolling (self);
}

/* Help is read beside the work, and is no reason for the program to stay when that is gone. */
static void
another_closed (GtkApplication *application, GtkWindow *window, BwHelpWindow *self)
{
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (item->data != window && GTK_IS_APPLICATION_WINDOW (item->data))
      return;
  if (window != GTK_WINDOW (self))
    gtk_window_destroy (GTK_WINDOW (self));
}

static BwHelpWindow *
window_of (GtkApplication *application)
{
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (BW_IS_HELP_WINDOW (item->data))
      return item->data;
  BwHelpWindow *self = g_object_new (BW_TYPE_HELP_WINDOW, "application", application, NULL);
  g_signal_connect_object (application, "window-removed", G_CALLBACK (another_closed), self, 0);
  return self;
}

void
bw_help_show (GtkApplication *application, const char *page)
{
  BwHelpWindow *self = window_of (application);
  go_to (self, page);
  gtk_window_present (GTK_WINDOW (self));
}
