/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/thing-dialog.h"

#include "app/keep/book-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/things/thing-field.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwThingDialog {
  GtkWindow parent_instance;
  const BwThings *things;
  BwWorkbook *book;
  gpointer before; /* owned; NULL: a new one */
  gpointer shown;  /* what the picture shows: the last that could be read */
  BwThingSaved saved;
  GWeakRef data;
  GtkWidget **controls; /* one for each field */
  GtkGrid *fields;
  GtkDrawingArea *picture;
  GtkLabel *about, *result, *doubt;
  GtkWidget *save;
};

G_DEFINE_FINAL_TYPE (BwThingDialog, bw_thing_dialog, GTK_TYPE_WINDOW)

/* The choice that decides which fields are asked for; the first one. */
static guint
choice_of (BwThingDialog *self, gconstpointer thing)
{
  for (guint i = 0; i < self->things->n_fields; i++)
    if (self->things->fields[i].sort == BW_THING_CHOICE)
      return *(const guint *)(const void *)((const char *)thing + self->things->fields[i].offset);
  return 0;
}

static gboolean
is_asked (const BwThingField *field, guint choice)
{
  return field->shown_for == 0 || (field->shown_for & 1u << choice);
}

static gboolean
read_fields (BwThingDialog *self, gpointer thing, GError **error)
{
  const BwThings *things = self->things;
  memset (thing, 0, things->bytes);
  if (self->before)
    memcpy (thing, self->before, things->bytes);
  else
    things->init (thing);
  for (guint i = 0; i < things->n_fields; i++)
    if (things->fields[i].sort == BW_THING_CHOICE
        && !bw_thing_field_read (&things->fields[i], self->controls[i], thing, error))
      return FALSE;
  guint choice = choice_of (self, thing);
  if (things->settle)
    things->settle (thing);
  for (guint i = 0; i < things->n_fields; i++)
    if (is_asked (&things->fields[i], choice)
        && !bw_thing_field_read (&things->fields[i], self->controls[i], thing, error))
      return FALSE;
  return things->validate (thing, "", error);
}

static void
show_asked (BwThingDialog *self)
{
  gpointer thing = g_malloc0 (self->things->bytes);
  for (guint i = 0; i < self->things->n_fields; i++)
    if (self->things->fields[i].sort == BW_THING_CHOICE)
      bw_thing_field_read (&self->things->fields[i], self->controls[i], thing, NULL);
  guint choice = choice_of (self, thing);
  g_free (thing);
  for (guint i = 0; i < self->things->n_fields; i++) {
    gboolean asked = is_asked (&self->things->fields[i], choice);
    gtk_widget_set_visible (self->controls[i], asked);
    gtk_widget_set_visible (gtk_grid_get_child_at (self->fields, 0, (int)i), asked);
  }
}

/* What is still empty is no fault to be told before anything is typed. */
static void
show_result (BwThingDialog *self, gpointer thing, const GError *error)
{
  gboolean waits = error && !bw_thing_fields_typed (self->things, self->controls);
  g_autofree char *doubt = !error && self->things->doubt ? self->things->doubt (thing) : NULL;
  bw_label_set_words (self->result, error && !waits ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->result), error && !waits);
  bw_label_set_words (self->doubt, doubt ? doubt : "");
  gtk_widget_set_visible (GTK_WIDGET (self->doubt), doubt != NULL);
  gtk_widget_set_sensitive (self->save, !error);
}

static void
changed (BwThingDialog *self)
{
  g_autoptr (GError) error = NULL;
  if (!self->book)
    return;
  g_autofree char *thing = g_malloc0 (self->things->bytes);
  show_asked (self);
  if (read_fields (self, thing, &error))
    memcpy (self->shown, thing, self->things->bytes);
  show_result (self, thing, error);
  gtk_widget_queue_draw (GTK_WIDGET (self->picture));
}

static void
is_kept (GtkWindow *window)
{
  BwThingDialog *self = BW_THING_DIALOG (window);
  g_autoptr (GObject) asker = g_weak_ref_get (&self->data);
  if (asker)
    self->saved (self->things->name (self->shown), asker);
}

static void
save_clicked (BwThingDialog *self)
{
  const BwBookDialog dialog = { GTK_WINDOW (self), self->save, self->result };
  if (!gtk_widget_get_sensitive (self->save) || !read_fields (self, self->shown, NULL))
    return;
  bw_things_change (self->things, self->book, self->before, self->shown, bw_book_dialog_told,
                    bw_book_dialog_rest (&dialog, is_kept));
}

/* --- Built -------------------------------------------------------------------------------------
 */

static void
paint (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  BwThingDialog *self = data;
  self->things->draw (GTK_WIDGET (area), cr, self->shown, width, height);
}

static void
add_field (BwThingDialog *self, guint i)
{
  const BwThingField *field = &self->things->fields[i];
  GtkWidget *name = gtk_label_new_with_mnemonic (_ (field->label));
  self->controls[i] = bw_thing_field_new (field, self->shown);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_widget_set_valign (name, field->sort == BW_THING_FLAGS ? GTK_ALIGN_START : GTK_ALIGN_CENTER);
  gtk_label_set_mnemonic_widget (GTK_LABEL (name), self->controls[i]);
  gtk_widget_set_hexpand (self->controls[i], TRUE);
  gtk_grid_attach (self->fields, name, 0, (int)i, 1, 1);
  gtk_grid_attach (self->fields, self->controls[i], 1, (int)i, 1, 1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->controls[i]),
                                  GTK_ACCESSIBLE_RELATION_LABELLED_BY, name, NULL, -1);
  bw_thing_field_follow (field, self->controls[i], G_CALLBACK (changed), self);
}

static void
fill (BwThingDialog *self)
{
  const BwThings *things = self->things;
  gtk_window_set_title (GTK_WINDOW (self),
                        self->before ? _ (things->edit_title) : _ (things->add_title));
  bw_label_set_words (self->about, _ (things->about));
  for (guint i = 0; i < things->n_fields; i++)
    add_field (self, i);
  gtk_drawing_area_set_draw_func (self->picture, paint, self, NULL);
  bw_palette_follow (GTK_WIDGET (self->picture));
}

static gpointer
new_thing (const BwThings *things, const BwDesign *design)
{
  gpointer thing = g_malloc0 (things->bytes);
  things->init (thing);
  if (things->begin && design)
    things->begin (thing, design);
  return thing;
}

void
bw_thing_dialog_show (GtkWindow *parent, const BwThings *things, BwWorkbook *book,
                      gconstpointer before, const BwDesign *design, BwThingSaved saved,
                      GObject *data)
{
  BwThingDialog *self = g_object_new (BW_TYPE_THING_DIALOG, "transient-for", parent, NULL);
  self->things = things;
  self->before = g_memdup2 (before, things->bytes);
  self->shown = before ? g_memdup2 (before, things->bytes) : new_thing (things, design);
  self->saved = saved;
  g_weak_ref_set (&self->data, data);
  self->controls = g_new0 (GtkWidget *, things->n_fields);
  fill (self);
  self->book = g_object_ref (book);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_thing_dialog_finalize (GObject *object)
{
  BwThingDialog *self = BW_THING_DIALOG (object);
  g_free (self->before);
  g_free (self->shown);
  g_free (self->controls);
  g_weak_ref_clear (&self->data);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (bw_thing_dialog_parent_class)->finalize (object);
}

static void
bw_thing_dialog_class_init (BwThingDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_thing_dialog_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/thing-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, fields);
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, picture);
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, about);
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, doubt);
  gtk_widget_class_bind_template_child (widget_class, BwThingDialog, save);
  gtk_widget_class_bind_template_callback (widget_class, save_clicked);
}

static void
bw_thing_dialog_init (BwThingDialog *self)
{
  g_weak_ref_init (&self->data, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}
