/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line knows its place in the tray: lines are made anew when colours come or go, and changed
 * where they stand by everything else, so that the keyboard stays in its field. */
#include "config.h"

#include "app/trays/tray-editor.h"

#include "app/colours/finish-card.h"
#include "app/kit/bead-swatch.h"
#include "app/ask/colour-dialog.h"
#include "app/kit/part-names.h"
#include "app/kit/tray-row.h"
#include "core/pattern/tint.h"
#include "project/document/line.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwTrayEditor {
  GtkWidget parent_instance;
  GtkWidget *box, *add;
  GtkListBox *list;
  GtkSizeGroup *finishes;
  BwTray tray;
};

G_DEFINE_FINAL_TYPE (BwTrayEditor, bw_tray_editor, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* What one line is made of, in its row's data. */
typedef struct {
  BwTrayEditor *editor;
  int at;
  GtkWidget *bead;
  BwFinishCard *finish;
} Line;

static Line *
line_of (GtkWidget *control)
{
  GtkWidget *row = gtk_widget_get_ancestor (control, GTK_TYPE_LIST_BOX_ROW);
  return g_object_get_data (G_OBJECT (row), "line");
}

static BwColour *
colour_of (const Line *line)
{
  return &line->editor->tray.colour[line->at];
}

static void
tell (const Line *line)
{
  bw_bead_swatch_set_colour (BW_BEAD_SWATCH (line->bead), colour_of (line));
  bw_finish_card_show (line->finish, colour_of (line));
  g_signal_emit (line->editor, signals[CHANGED], 0);
}

/* --- What is done to a colour ------------------------------------------------------------------
 */

static void
name_typed (GtkEditable *entry)
{
  Line *line = line_of (GTK_WIDGET (entry));
  BwColour *colour = colour_of (line);
  g_autofree char *name = bw_line_make (gtk_editable_get_text (entry));
  bw_copy_text (colour->name, sizeof colour->name, name);
  tell (line);
}

static void
finish_chosen (GtkWidget *card, guint finish)
{
  Line *line = line_of (card);
  colour_of (line)->finish = (BwFinish)finish;
  tell (line);
}

/* The line may be gone when the answer comes. */
static void
recoloured (guint32 srgb, gpointer row)
{
  Line *line = g_object_get_data (row, "line");
  if (!gtk_widget_get_parent (row) || line->at >= line->editor->tray.n_colours)
    return;
  colour_of (line)->srgb = srgb;
  tell (line);
}

static void
recolour_clicked (GtkWidget *button)
{
  Line *line = line_of (button);
  bw_colour_dialog_ask (GTK_WINDOW (gtk_widget_get_root (button)), _ ("Bead colour"),
                        colour_of (line)->srgb, recoloured,
                        g_object_ref (gtk_widget_get_ancestor (button, GTK_TYPE_LIST_BOX_ROW)),
                        g_object_unref);
}

static void show_all (BwTrayEditor *self);

static void
remove_clicked (GtkWidget *button)
{
  Line *line = line_of (button);
  BwTrayEditor *self = line->editor;
  int at = line->at;
  memmove (&self->tray.colour[at], &self->tray.colour[at + 1],
           sizeof *self->tray.colour * (gsize)(self->tray.n_colours - at - 1));
  self->tray.n_colours--;
  show_all (self);
  gtk_widget_child_focus (GTK_WIDGET (self->list), GTK_DIR_TAB_FORWARD);
  g_signal_emit (self, signals[CHANGED], 0);
}

/* A grey that is plainly to be changed, and another where that is there already. */
static void
add_clicked (BwTrayEditor *self)
{
  BwTray *tray = &self->tray;
  if (tray->n_colours >= BW_TRAY_MAX)
    return;
  tray->colour[tray->n_colours]
      = (BwColour){ .id = bw_tray_free_letter (tray),
                    .srgb = bw_tray_free_colour (tray, bw_tint_srgb (BW_TINT_HAIR, FALSE)) };
  tray->n_colours++;
  show_all (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

/* --- The lines ---------------------------------------------------------------------------------
 */

static GtkWidget *
swatch_button (const BwColour *colour, Line *line, const char *name)
{
  GtkWidget *button = gtk_button_new ();
  g_autofree char *words = g_strdup_printf (_ ("Change the colour of %s"), name);
  line->bead = bw_bead_swatch_new ();
  bw_bead_swatch_set_colour (BW_BEAD_SWATCH (line->bead), colour);
  gtk_button_set_child (GTK_BUTTON (button), line->bead);
  gtk_widget_set_tooltip_text (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  g_signal_connect (button, "clicked", G_CALLBACK (recolour_clicked), NULL);
  return button;
}

static GtkWidget *
name_entry (const BwColour *colour, const char *name)
{
  GtkWidget *entry = gtk_entry_new ();
  g_autofree char *words = g_strdup_printf (_ ("Name of %s"), name);
  gtk_editable_set_text (GTK_EDITABLE (entry), colour->name);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 6);
  gtk_entry_set_max_length (GTK_ENTRY (entry), sizeof colour->name - 1);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), name);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  g_signal_connect (entry, "changed", G_CALLBACK (name_typed), NULL);
  return entry;
}

static GtkWidget *
finish_choice (const BwColour *colour, Line *line, const char *name)
{
  g_autofree char *title = g_strdup_printf (_ ("Finish of %s"), name);
  line->finish = g_object_new (BW_TYPE_FINISH_CARD, NULL);
  bw_finish_card_set_title (line->finish, title);
  bw_finish_card_show (line->finish, colour);
  gtk_size_group_add_widget (line->editor->finishes, GTK_WIDGET (line->finish));
  g_signal_connect (line->finish, "chosen", G_CALLBACK (finish_chosen), NULL);
  return GTK_WIDGET (line->finish);
}

static GtkWidget *
remove_button (const char *name)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("bandwright-close-symbolic");
  g_autofree char *words = g_strdup_printf (_ ("Remove %s"), name);
  gtk_widget_set_tooltip_text (button, words);
  gtk_widget_add_css_class (button, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  g_signal_connect (button, "clicked", G_CALLBACK (remove_clicked), NULL);
  return button;
}

static GtkWidget *
row_new (BwTrayEditor *self, int at)
{
  const BwColour *colour = &self->tray.colour[at];
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  Line *line = g_new0 (Line, 1);
  g_autofree char *name = bw_colour_words (colour);
  line->editor = self;
  line->at = at;
  g_object_set_data_full (G_OBJECT (row), "line", line, g_free);
  gtk_box_append (GTK_BOX (box), swatch_button (colour, line, name));
  gtk_box_append (GTK_BOX (box), name_entry (colour, name));
  gtk_box_append (GTK_BOX (box), finish_choice (colour, line, name));
  gtk_box_append (GTK_BOX (box), remove_button (name));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  return row;
}

static void
show_all (BwTrayEditor *self)
{
  GtkListBoxRow *row;
  while ((row = gtk_list_box_get_row_at_index (self->list, 0)))
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (int i = 0; i < self->tray.n_colours; i++)
    gtk_list_box_append (self->list, row_new (self, i));
  gtk_widget_set_sensitive (self->add, self->tray.n_colours < BW_TRAY_MAX);
  bw_part_names_give (GTK_WIDGET (self));
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
bw_tray_editor_dispose (GObject *object)
{
  g_clear_pointer (&BW_TRAY_EDITOR (object)->box, gtk_widget_unparent);
  g_clear_object (&BW_TRAY_EDITOR (object)->finishes);
  G_OBJECT_CLASS (bw_tray_editor_parent_class)->dispose (object);
}

static void
bw_tray_editor_class_init (BwTrayEditorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_tray_editor_dispose;
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_TRAY_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-editor.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTrayEditor, box);
  gtk_widget_class_bind_template_child (widget_class, BwTrayEditor, add);
  gtk_widget_class_bind_template_child (widget_class, BwTrayEditor, list);
  gtk_widget_class_bind_template_callback (widget_class, add_clicked);
}

static void
bw_tray_editor_init (BwTrayEditor *self)
{
  self->finishes = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
bw_tray_editor_set (BwTrayEditor *self, const BwTray *tray)
{
  g_return_if_fail (BW_IS_TRAY_EDITOR (self));
  self->tray = *tray;
  show_all (self);
}

const BwTray *
bw_tray_editor_get (BwTrayEditor *self)
{
  g_return_val_if_fail (BW_IS_TRAY_EDITOR (self), NULL);
  return &self->tray;
}
