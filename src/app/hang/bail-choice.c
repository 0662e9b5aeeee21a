/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hang/bail-choice.h"
#include "app/hang/bail-figure.h"
#include "app/kit/tip.h"

#include <glib/gi18n-lib.h>

#define STYLES 5

struct _BwBailChoice {
  GtkWidget parent_instance;
  GtkToggleButton *button[STYLES];
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (BwBailChoice, bw_bail_choice, GTK_TYPE_WIDGET)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

static const struct {
  BwBailStyle style;
  const char *name, *meaning;
} styles[STYLES] = {
  { BW_BAIL_NONE, N_ ("none"), N_ ("The band alone") },
  { BW_BAIL_FLAP, N_ ("flap"),
    N_ ("A flap of peyote, worked off the band, over, and sewn down; the cord runs along the "
        "stone") },
  { BW_BAIL_UPRIGHT, N_ ("upright strip"),
    N_ ("A strip of its own, set across the band; the cord runs across the stone") },
  { BW_BAIL_RING, N_ ("ring through a flap"), N_ ("A metal ring in a flap, free to turn") },
  { BW_BAIL_OVER, N_ ("loop over the tip"),
    N_ ("A strip from the upper edge over the tip and back to the edge; the stone hangs upright") },
};

BwBailStyle
bw_bail_choice_get (BwBailChoice *self)
{
  g_return_val_if_fail (BW_IS_BAIL_CHOICE (self), BW_BAIL_NONE);
  for (int i = 0; i < STYLES; i++)
    if (gtk_toggle_button_get_active (self->button[i]))
      return styles[i].style;
  return BW_BAIL_NONE;
}

void
bw_bail_choice_show (BwBailChoice *self, BwBailStyle style)
{
  g_return_if_fail (BW_IS_BAIL_CHOICE (self));
  self->showing = TRUE;
  for (int i = 0; i < STYLES; i++)
    if (styles[i].style == style)
      gtk_toggle_button_set_active (self->button[i], TRUE);
  self->showing = FALSE;
}

static void
toggled (BwBailChoice *self, GtkToggleButton *button)
{
  if (!self->showing && gtk_toggle_button_get_active (button))
    g_signal_emit (self, signals[CHOSEN], 0);
}

static void
bw_bail_choice_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_bail_choice_parent_class)->dispose (object);
}

static void
bw_bail_choice_class_init (BwBailChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_bail_choice_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[CHOSEN] = g_signal_new ("chosen", BW_TYPE_BAIL_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
face_of (int i)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4),
            *name = gtk_label_new (_ (styles[i].name));
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (name), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_justify (GTK_LABEL (name), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 10);
  gtk_box_append (GTK_BOX (box), bw_bail_figure_new (styles[i].style));
  gtk_box_append (GTK_BOX (box), name);
  return box;
}

/* Two in a row: in the narrowest window their names have room for no more. */
static void
bw_bail_choice_init (BwBailChoice *self)
{
  GtkWidget *grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_widget_set_parent (grid, GTK_WIDGET (self));
  for (int i = 0; i < STYLES; i++) {
    self->button[i] = GTK_TOGGLE_BUTTON (gtk_toggle_button_new ());
    gtk_button_set_child (GTK_BUTTON (self->button[i]), face_of (i));
    bw_tip_set (GTK_WIDGET (self->button[i]), _ (styles[i].meaning));
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->button[i]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    _ (styles[i].name), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    _ (styles[i].meaning), -1);
    if (i > 0)
      gtk_toggle_button_set_group (self->button[i], self->button[0]);
    g_signal_connect_swapped (self->button[i], "toggled", G_CALLBACK (toggled), self);
    gtk_grid_attach (GTK_GRID (grid), GTK_WIDGET (self->button[i]), i % 2, i / 2, 1, 1);
  }
}
