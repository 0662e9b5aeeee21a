/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drop-downs are made anew only when the tray is another, so that a list that is open stays so.
 */
#include "config.h"

#include "app/kit/bead-swatch.h"
#include "app/draw/colour-rows.h"
#include "app/kit/tip.h"
#include "app/kit/tray-row.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct {
  GtkWidget *box;
  BwBeadSwatch *bead;
  GtkDropDown *names;
} Row;

struct _BwColourRows {
  GtkWidget parent_instance;
  Row row[BW_MOTIF_COLOURS];
  GtkWidget *buttons, *more, *fewer;
  BwTray tray;
  int n, least, most, spared;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (BwColourRows, bw_colour_rows, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
show_count (BwColourRows *self)
{
  for (int i = 0; i < BW_MOTIF_COLOURS; i++)
    gtk_widget_set_visible (self->row[i].box, i < self->n);
  gtk_widget_set_visible (self->buttons, self->most > self->least);
  gtk_widget_set_sensitive (self->more, self->n < self->most);
  gtk_widget_set_sensitive (self->fewer, self->n > self->least);
}

static void
show_beads (BwColourRows *self)
{
  for (int i = 0; i < self->n; i++) {
    guint chosen = gtk_drop_down_get_selected (self->row[i].names);
    if (chosen < (guint)self->tray.n_colours)
      bw_bead_swatch_set_colour (self->row[i].bead, &self->tray.colour[chosen]);
  }
}

static void
show_names (BwColourRows *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  for (int i = 0; i < self->tray.n_colours; i++)
    gtk_string_list_take (names, bw_colour_words (&self->tray.colour[i]));
  for (int i = 0; i < BW_MOTIF_COLOURS; i++)
    gtk_drop_down_set_model (self->row[i].names, G_LIST_MODEL (names));
}

void
bw_colour_rows_show (BwColourRows *self, const BwTray *tray, const guint8 *colours, int n,
                     int least, int most, int spared)
{
  g_return_if_fail (BW_IS_COLOUR_ROWS (self) && n >= 1 && n <= BW_MOTIF_COLOURS);
  self->showing = TRUE;
  if (memcmp (&self->tray, tray, sizeof *tray) != 0) {
    self->tray = *tray;
    show_names (self);
  }
  self->n = n;
  self->least = least;
  self->most = most;
  self->spared = spared;
  for (int i = 0; i < n; i++)
    gtk_drop_down_set_selected (self->row[i].names, colours[i]);
  show_count (self);
  show_beads (self);
  self->showing = FALSE;
}

int
bw_colour_rows_get (BwColourRows *self, guint8 colours[BW_MOTIF_COLOURS])
{
  g_return_val_if_fail (BW_IS_COLOUR_ROWS (self), 0);
  for (int i = 0; i < self->n; i++)
    colours[i] = (guint8)gtk_drop_down_get_selected (self->row[i].names);
  return self->n;
}

static void
chosen (BwColourRows *self)
{
  if (self->showing)
    return;
  show_beads (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

/* The first colour that is not chosen yet; the spared one, or the first, where all are. */
static guint
next_colour (BwColourRows *self)
{
  gboolean taken[BW_TRAY_MAX] = { FALSE };
  guint n = (guint)self->tray.n_colours, spared = (guint)MAX (0, self->spared);
  for (int i = 0; i < self->n; i++)
    taken[gtk_drop_down_get_selected (self->row[i].names) % BW_TRAY_MAX] = TRUE;
  for (guint i = 0; i < n; i++)
    if (!taken[i] && (int)i != self->spared)
      return i;
  return spared < n ? spared : 0;
}

static void
more_clicked (BwColourRows *self)
{
  self->showing = TRUE;
  gtk_drop_down_set_selected (self->row[self->n].names, next_colour (self));
  self->showing = FALSE;
  self->n++;
  show_count (self);
  chosen (self);
}

static void
fewer_clicked (BwColourRows *self)
{
  self->n--;
  show_count (self);
  chosen (self);
}

static void
bw_colour_rows_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_colour_rows_parent_class)->dispose (object);
}

static void
bw_colour_rows_class_init (BwColourRowsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_colour_rows_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_COLOUR_ROWS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
add_row (BwColourRows *self, int i)
{
  Row *row = &self->row[i];
  g_autofree char *name = g_strdup_printf (_ ("Colour %d"), i + 1);
  row->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  row->bead = BW_BEAD_SWATCH (bw_bead_swatch_new ());
  row->names = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  gtk_widget_set_hexpand (GTK_WIDGET (row->names), TRUE);
  bw_tip_set (GTK_WIDGET (row->names), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->names), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  gtk_box_append (GTK_BOX (row->box), GTK_WIDGET (row->bead));
  gtk_box_append (GTK_BOX (row->box), GTK_WIDGET (row->names));
  gtk_widget_set_parent (row->box, GTK_WIDGET (self));
  g_signal_connect_swapped (row->names, "notify::selected", G_CALLBACK (chosen), self);
}

static GtkWidget *
add_button (BwColourRows *self, const char *icon, const char *words, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  bw_tip_set (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  gtk_box_append (GTK_BOX (self->buttons), button);
  g_signal_connect_swapped (button, "clicked", clicked, self);
  return button;
}

static void
bw_colour_rows_init (BwColourRows *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 4);
  for (int i = 0; i < BW_MOTIF_COLOURS; i++)
    add_row (self, i);
  self->buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_set_parent (self->buttons, GTK_WIDGET (self));
  self->more = add_button (self, "bandwright-more-symbolic", _ ("One colour more"),
                           G_CALLBACK (more_clicked));
  self->fewer = add_button (self, "bandwright-fewer-symbolic", _ ("One colour fewer"),
                            G_CALLBACK (fewer_clicked));
}
