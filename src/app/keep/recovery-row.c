/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A maker who has several pieces in hand knows them by their look sooner than by their time. */
#include "config.h"

#include "app/keep/recovery-row.h"
#include "project/fault/fault-error.h"
#include "preview/picture/projection.h"

#include <glib/gi18n-lib.h>

#define PICTURE_PX 96
#define WORDS_CHARACTERS 44

static void
found_free (gpointer data)
{
  BwFound *found = data;
  bw_leftover_free (found->leftover);
  g_clear_object (&found->project);
  g_free (found->fault);
  g_clear_pointer (&found->picture, cairo_surface_destroy);
  g_free (found);
}

/* Drawn, not rendered: no display and no driver is needed, and any thread may. */
static cairo_surface_t *
picture_of (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  gboolean bail = design->bail.style != BW_BAIL_NONE;
  BwCamera camera = { .turn_deg = (bail ? design->bail.at_deg : design->band.seam_deg) + 35,
                      .tip_deg = 10,
                      .zoom = 1 };
  guint layers = BW_LAYER_ALL & ~(guint)BW_LAYER_THREAD;
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, PICTURE_PX, PICTURE_PX);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, layers, BW_LIGHT_DAY, -1, PICTURE_PX, PICTURE_PX);
  cairo_destroy (cr);
  return surface;
}

GPtrArray *
bw_found_all (void)
{
  g_autoptr (GPtrArray) leftovers = bw_recovery_find ();
  GPtrArray *all = g_ptr_array_new_with_free_func (found_free);
  while (leftovers->len > 0) {
    g_autoptr (GError) error = NULL;
    BwFound *found = g_new0 (BwFound, 1);
    found->leftover = g_ptr_array_steal_index (leftovers, 0);
    found->project = bw_leftover_load (found->leftover, &error);
    if (found->project)
      found->picture = picture_of (found->project);
    else
      found->fault = g_strdup (bw_fault_sentence (error));
    g_ptr_array_add (all, found);
  }
  return all;
}

static GtkWidget *
picture_new (cairo_surface_t *surface)
{
  gsize stride = (gsize)cairo_image_surface_get_stride (surface);
  cairo_surface_flush (surface);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (surface), stride * PICTURE_PX);
  g_autoptr (GdkTexture) texture
      = gdk_memory_texture_new (PICTURE_PX, PICTURE_PX, GDK_MEMORY_DEFAULT, bytes, stride);
  GtkWidget *picture = gtk_picture_new_for_paintable (GDK_PAINTABLE (texture));
  gtk_widget_set_size_request (picture, PICTURE_PX, PICTURE_PX);
  gtk_widget_set_valign (picture, GTK_ALIGN_CENTER);
  return picture;
}

static GtkWidget *
line_new (const char *words, const char *css_class)
{
  GtkWidget *label = gtk_label_new (words);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), WORDS_CHARACTERS);
  if (css_class)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static char *
place_words (const BwLeftover *leftover)
{
  g_autofree char *path = leftover->file ? g_file_get_path (leftover->file) : NULL;
  if (path)
    return g_filename_display_name (path);
  return leftover->file ? g_file_get_parse_name (leftover->file) : g_strdup (_ ("Never saved"));
}

static const char *
age_words (BwLeftoverAge age)
{
  switch (age) {
  case BW_LEFTOVER_NEWER:
    return _ ("The copy is newer than the file.");
  case BW_LEFTOVER_OLDER:
    return _ ("The file was written after this copy was made.");
  case BW_LEFTOVER_ALONE:
    return _ ("The file is not there any more.");
  case BW_LEFTOVER_UNSAVED:
  default:
    return _ ("There is this copy alone.");
  }
}

/* A time that cannot be told in this language is not told at all. */
static char *
time_words (const BwLeftover *leftover)
{
  g_autofree char *when = leftover->when ? g_date_time_format (leftover->when, "%x %X") : NULL;
  return when ? g_strdup_printf (_ ("Copied %s. %s"), when, age_words (leftover->age))
              : g_strdup (age_words (leftover->age));
}

static GtkWidget *
words_new (const BwFound *found)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  g_autofree char *place = place_words (found->leftover);
  g_autofree char *when = time_words (found->leftover);
  gtk_box_append (GTK_BOX (box), line_new (found->leftover->title, "heading"));
  gtk_box_append (GTK_BOX (box), line_new (place, "small"));
  gtk_box_append (GTK_BOX (box), line_new (when, "small"));
  if (found->fault) {
    g_autofree char *fault = g_strdup_printf (_ ("It cannot be read: %s"), found->fault);
    gtk_box_append (GTK_BOX (box), line_new (fault, "error"));
  }
  gtk_widget_set_hexpand (box, TRUE);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  return box;
}

/* name: what the button does to which design, for who cannot see the row; taken. */
static GtkWidget *
button_new (const char *label, const char *action, char *name)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_free (name);
  return button;
}

static GtkWidget *
buttons_new (const BwFound *found)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  const char *title = found->leftover->title;
  if (found->project) {
    GtkWidget *recover
        = button_new (_ ("_Recover"), "row.recover", g_strdup_printf (_ ("Recover “%s”"), title));
    gtk_widget_add_css_class (recover, "suggested-action");
    gtk_box_append (GTK_BOX (box), recover);
  }
  gtk_box_append (GTK_BOX (box), button_new (_ ("_Discard"), "row.discard",
                                             g_strdup_printf (_ ("Discard “%s”"), title)));
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  return box;
}

GtkWidget *
bw_recovery_row_new (const BwFound *found)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  if (found->picture)
    gtk_box_append (GTK_BOX (row), picture_new (found->picture));
  gtk_box_append (GTK_BOX (row), words_new (found));
  gtk_box_append (GTK_BOX (row), buttons_new (found));
  return row;
}
