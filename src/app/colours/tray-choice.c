/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Laying out a tray is one step of undo: no question is asked beforehand. */
#include "config.h"

#include "app/kit/bead-swatch.h"
#include "app/colours/tray-choice.h"
#include "app/colours/tray-starts.h"
#include "app/colours/tray-use.h"
#include "app/ask/file-dialog.h"
#include "app/ask/tell-file.h"
#include "project/file/file-name.h"
#include "project/file/palette.h"
#include "project/file/save-whole.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwTrayChoice {
  GtkPopover parent_instance;
  BwSession *session;
  GtkBox *starts;
};

G_DEFINE_FINAL_TYPE (BwTrayChoice, bw_tray_choice, GTK_TYPE_POPOVER)

void
bw_tray_choice_bind (BwTrayChoice *self, BwSession *session)
{
  g_return_if_fail (BW_IS_TRAY_CHOICE (self) && BW_IS_SESSION (session));
  g_set_object (&self->session, session);
}

/* The starting tray alone. */
static void
start_tray (int start, BwTray *tray)
{
  const guint64 none[256] = { 0 };
  guint8 map[256];
  bw_tray_init (tray);
  bw_tray_start_lay (tray, start, none, map);
}

static void
start_clicked (BwTrayChoice *self, GtkWidget *button)
{
  int start = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "start"));
  BwTray tray;
  start_tray (start, &tray);
  gtk_popover_popdown (GTK_POPOVER (self));
  bw_tray_use (bw_session_get_project (self->session), &tray, bw_tray_start_name (start));
}

/* --- Other programs' palettes ------------------------------------------------------------------
 */

static GtkWindow *
window_of (BwTrayChoice *self)
{
  return GTK_WINDOW (gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_WINDOW));
}

static void
read_in (GFile *file, gpointer data)
{
  BwTrayChoice *self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = bw_file_shown (file);
  BwTray tray;
  if (bw_palette_load (file, &tray, &error))
    bw_tray_use (bw_session_get_project (self->session), &tray, name);
  else
    bw_tell_file_failure (GTK_WIDGET (self), BW_FILE_OPENED, file, error);
}

static void
read_in_clicked (BwTrayChoice *self)
{
  gtk_popover_popdown (GTK_POPOVER (self));
  bw_file_dialog_open (window_of (self), BW_FILES_PALETTE, read_in, self);
}

static void
own_clicked (BwTrayChoice *self)
{
  gtk_popover_popdown (GTK_POPOVER (self));
  gtk_widget_activate_action (GTK_WIDGET (self), "app.workshop", "s", "trays");
}

static void
write_out (BwTrayChoice *self, GFile *file, const char *text)
{
  g_autoptr (GError) error = NULL;
  bw_save_file (file, text, strlen (text), BW_SAVE_PLAIN, NULL, NULL, &error);
  bw_tell_file_written (GTK_WIDGET (self), file, error);
}

static void
write_gpl (GFile *file, gpointer data)
{
  BwTrayChoice *self = data;
  BwProject *project = bw_session_get_project (self->session);
  g_autofree char *text
      = bw_palette_to_gpl (bw_project_get_tray (project), bw_project_get_title (project));
  write_out (self, file, text);
}

static void
write_css (GFile *file, gpointer data)
{
  BwTrayChoice *self = data;
  g_autofree char *text
      = bw_palette_to_css (bw_project_get_tray (bw_session_get_project (self->session)));
  write_out (self, file, text);
}

static void
export_as (BwTrayChoice *self, BwFileKind kind, BwFileChosen chosen)
{
  BwProject *project = bw_session_get_project (self->session);
  g_autofree char *name = bw_file_name_for (bw_project_get_title (project), kind);
  gtk_popover_popdown (GTK_POPOVER (self));
  bw_file_dialog_save (window_of (self), kind, name, bw_project_get_file (project), chosen, self);
}

static void
gpl_clicked (BwTrayChoice *self)
{
  export_as (self, BW_FILES_GPL, write_gpl);
}

static void
css_clicked (BwTrayChoice *self)
{
  export_as (self, BW_FILES_CSS, write_css);
}

/* --- Trays to start from -----------------------------------------------------------------------
 */

/* The name, and the beads under it. */
static GtkWidget *
picture_of (int start)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *name = gtk_label_new (bw_tray_start_name (start));
  GtkWidget *beads = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  BwTray tray;
  start_tray (start, &tray);
  for (int i = 0; i < tray.n_colours; i++) {
    GtkWidget *bead = bw_bead_swatch_new ();
    bw_bead_swatch_set_colour (BW_BEAD_SWATCH (bead), &tray.colour[i]);
    gtk_box_append (GTK_BOX (beads), bead);
  }
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), beads);
  return box;
}

static void
bw_tray_choice_dispose (GObject *object)
{
  g_clear_object (&BW_TRAY_CHOICE (object)->session);
  G_OBJECT_CLASS (bw_tray_choice_parent_class)->dispose (object);
}

static void
bw_tray_choice_class_init (BwTrayChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_tray_choice_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-choice.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTrayChoice, starts);
  gtk_widget_class_bind_template_callback (widget_class, own_clicked);
  gtk_widget_class_bind_template_callback (widget_class, read_in_clicked);
  gtk_widget_class_bind_template_callback (widget_class, gpl_clicked);
  gtk_widget_class_bind_template_callback (widget_class, css_clicked);
}

static void
bw_tray_choice_init (BwTrayChoice *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (int start = 0; start < bw_tray_starts_count (); start++) {
    GtkWidget *button = gtk_button_new ();
    gtk_button_set_child (GTK_BUTTON (button), picture_of (start));
    gtk_widget_add_css_class (button, "flat");
    gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    bw_tray_start_name (start), -1);
    g_object_set_data (G_OBJECT (button), "start", GINT_TO_POINTER (start));
    g_signal_connect_swapped (button, "clicked", G_CALLBACK (start_clicked), self);
    gtk_box_append (self->starts, button);
  }
}
