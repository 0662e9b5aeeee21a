/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/trays/tray-dialog.h"

#include "app/keep/book-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/words.h"
#include "app/trays/photo-pane.h"
#include "app/trays/tray-editor.h"
#include "project/document/line.h"

#include <glib/gi18n-lib.h>

struct _BwTrayDialog {
  GtkWindow parent_instance;
  BwWorkbook *book;
  BwKeptTray *before; /* NULL: new */
  GtkEntry *name;
  GtkLabel *result;
  BwTrayEditor *editor;
  BwPhotoPane *photo;
  GtkWidget *save;
  BwTrayKept kept;
  GWeakRef owner;
};

G_DEFINE_FINAL_TYPE (BwTrayDialog, bw_tray_dialog, GTK_TYPE_WINDOW)

/* --- Keeping -----------------------------------------------------------------------------------
 */

typedef struct {
  BwKeptTray *before, *tray;
} Change;

static void
change_free (gpointer data)
{
  Change *change = data;
  g_free (change->before);
  g_free (change->tray);
  g_free (change);
}

static gboolean
keep (BwBook *book, gpointer data, GError **error)
{
  const Change *change = data;
  return bw_book_change_tray (book, change->before, change->tray, error);
}

static char *
typed_name (BwTrayDialog *self)
{
  g_autofree char *line = bw_line_make (gtk_editable_get_text (GTK_EDITABLE (self->name)));
  return g_strdup (g_strstrip (line));
}

static void
is_kept (GtkWindow *window)
{
  BwTrayDialog *self = BW_TRAY_DIALOG (window);
  g_autoptr (GObject) owner = g_weak_ref_get (&self->owner);
  g_autofree char *name = typed_name (self);
  if (owner)
    self->kept (name, owner);
}

static void
save_clicked (BwTrayDialog *self)
{
  const BwBookDialog dialog = { GTK_WINDOW (self), self->save, self->result };
  g_autofree char *name = typed_name (self);
  Change *change = g_new0 (Change, 1);
  change->before = g_memdup2 (self->before, self->before ? sizeof *self->before : 0);
  change->tray = g_new0 (BwKeptTray, 1);
  change->tray->tray = *bw_tray_editor_get (self->editor);
  bw_copy_text (change->tray->name, sizeof change->tray->name, name);
  bw_workbook_try (self->book, keep, change, change_free, bw_book_dialog_told,
                   bw_book_dialog_rest (&dialog, is_kept));
}

/* --- Whether it can be kept --------------------------------------------------------------------
 */

static gboolean
is_anothers (BwTrayDialog *self, const char *name)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  return book && bw_book_find_tray (book, name) >= 0
         && !(self->before && g_str_equal (self->before->name, name));
}

/* Why not; NULL when it can. Owned. */
static char *
reason (BwTrayDialog *self)
{
  g_autofree char *name = typed_name (self);
  if (!*name)
    return g_strdup (_ ("Give the tray a name."));
  if (is_anothers (self, name))
    return g_strdup_printf (_ ("Another tray is called “%s”. Give this one another name."), name);
  if (bw_tray_editor_get (self->editor)->n_colours == 0)
    return g_strdup (_ ("A tray needs one colour at least."));
  return NULL;
}

static void
changed (BwTrayDialog *self)
{
  g_autofree char *why = reason (self);
  bw_label_set_words (self->result, why ? why : "");
  gtk_widget_set_visible (GTK_WIDGET (self->result), why != NULL);
  gtk_widget_set_sensitive (self->save, why == NULL);
}

static void
found (BwTrayDialog *self)
{
  BwTray tray;
  bw_photo_pane_get_tray (self->photo, &tray);
  bw_tray_editor_set (self->editor, &tray);
  changed (self);
}

/* --- The window --------------------------------------------------------------------------------
 */

static void
bw_tray_dialog_finalize (GObject *object)
{
  BwTrayDialog *self = BW_TRAY_DIALOG (object);
  g_clear_object (&self->book);
  g_free (self->before);
  g_weak_ref_clear (&self->owner);
  G_OBJECT_CLASS (bw_tray_dialog_parent_class)->finalize (object);
}

static void
bw_tray_dialog_class_init (BwTrayDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_tray_dialog_finalize;
  g_type_ensure (BW_TYPE_PHOTO_PANE);
  g_type_ensure (BW_TYPE_TRAY_EDITOR);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTrayDialog, name);
  gtk_widget_class_bind_template_child (widget_class, BwTrayDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwTrayDialog, editor);
  gtk_widget_class_bind_template_child (widget_class, BwTrayDialog, photo);
  gtk_widget_class_bind_template_child (widget_class, BwTrayDialog, save);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, found);
  gtk_widget_class_bind_template_callback (widget_class, save_clicked);
}

static void
bw_tray_dialog_init (BwTrayDialog *self)
{
  g_weak_ref_init (&self->owner, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* A name that no other tray has. Owned. */
static char *
free_name (BwTrayDialog *self, const char *wanted)
{
  char *name = g_strdup (wanted);
  for (int i = 2; is_anothers (self, name); i++) {
    g_free (name);
    name = g_strdup_printf ("%s %d", wanted, i);
  }
  return name;
}

static BwTrayDialog *
dialog_new (GtkWindow *parent, BwWorkbook *book, const BwKeptTray *before, BwTrayKept kept,
            GObject *owner)
{
  BwTrayDialog *self = g_object_new (BW_TYPE_TRAY_DIALOG, "transient-for", parent, NULL);
  self->book = g_object_ref (book);
  self->before = g_memdup2 (before, before ? sizeof *before : 0);
  self->kept = kept;
  g_weak_ref_set (&self->owner, owner);
  return self;
}

static void
present (BwTrayDialog *self, const char *wanted)
{
  g_autofree char *name = free_name (self, *wanted ? wanted : _ ("Tray"));
  gtk_editable_set_text (GTK_EDITABLE (self->name), name);
  changed (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

void
bw_tray_dialog_show (GtkWindow *parent, BwWorkbook *book, const BwKeptTray *before,
                     const BwKeptTray *tray, BwTrayKept kept, GObject *owner)
{
  BwTrayDialog *self = dialog_new (parent, book, before, kept, owner);
  bw_tray_editor_set (self->editor, &tray->tray);
  gtk_window_set_title (GTK_WINDOW (self), before ? _ ("Edit a Tray") : _ ("Keep a Tray"));
  present (self, tray->name);
}

#define PHOTO_WIDTH 860 /* beside it the colours have room */
#define PHOTO_HEIGHT 520

void
bw_tray_dialog_show_photo (GtkWindow *parent, BwWorkbook *book, GFile *photo, const char *name,
                           BwTrayKept kept, GObject *owner)
{
  BwTrayDialog *self = dialog_new (parent, book, NULL, kept, owner);
  gtk_window_set_default_size (GTK_WINDOW (self), PHOTO_WIDTH, PHOTO_HEIGHT);
  gtk_window_set_title (GTK_WINDOW (self), _ ("Tray From a Photograph"));
  gtk_widget_set_visible (GTK_WIDGET (self->photo), TRUE);
  bw_photo_pane_open (self->photo, photo);
  present (self, name);
}
