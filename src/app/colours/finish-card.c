/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the card holds is made when it is first opened, for a long tray has many of them. The
 * pictures are made by a thread then, and kept until it is opened on another colour; until they
 * are there each finish shows the bead of the tray's list. */
#include "config.h"

#include "app/colours/finish-card.h"
#include "app/kit/bead-swatch.h"
#include "app/kit/tray-row.h"
#include "preview/picture/finish-pictures.h"

#include <glib/gi18n-lib.h>

#define SIDE 72 /* of a picture */
#define COLUMNS 5

struct _BwFinishCard {
  GtkWidget parent_instance;
  GtkMenuButton *button;
  GtkPopover *card;
  GtkGrid *grid;
  GtkToggleButton *choice[BW_N_FINISHES];
  GtkPicture *picture[BW_N_FINISHES];
  char *title; /* NULL: the usual one */
  BwColour colour;
  gboolean painted; /* the pictures are of this colour, or being made of it */
  gboolean showing; /* what is toggled now is not the maker's doing */
};

G_DEFINE_FINAL_TYPE (BwFinishCard, bw_finish_card, GTK_TYPE_WIDGET)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- Pictures ----------------------------------------------------------------------------------
 */

typedef struct {
  guint32 srgb;
  int side;
  cairo_surface_t *picture[BW_N_FINISHES];
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  for (BwFinish finish = 0; finish < BW_N_FINISHES; finish++)
    g_clear_pointer (&job->picture[finish], cairo_surface_destroy);
  g_free (job);
}

static void
make (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  Job *job = data;
  g_task_return_boolean (task, bw_finish_pictures (job->srgb, job->side, job->picture));
}

static void
hang_picture (GtkPicture *place, cairo_surface_t *surface)
{
  cairo_surface_flush (surface);
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  gsize stride = (gsize)cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (surface), stride * (gsize)height);
  g_autoptr (GdkTexture) texture
      = gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
  gtk_picture_set_paintable (place, GDK_PAINTABLE (texture));
}

static void
made (GObject *source, GAsyncResult *result, gpointer data)
{
  BwFinishCard *self = BW_FINISH_CARD (source);
  const Job *job = g_task_get_task_data (G_TASK (result));
  if (!g_task_propagate_boolean (G_TASK (result), NULL) || job->srgb != self->colour.srgb)
    return;
  for (BwFinish finish = 0; finish < BW_N_FINISHES; finish++)
    hang_picture (self->picture[finish], job->picture[finish]);
}

/* At once, by the canvas's own way of drawing a bead. */
static void
hang_beads (BwFinishCard *self)
{
  BwColour colour = self->colour;
  for (colour.finish = 0; colour.finish < BW_N_FINISHES; colour.finish++) {
    cairo_surface_t *surface
        = bw_bead_surface (&colour, SIDE, gtk_widget_get_scale_factor (GTK_WIDGET (self)));
    hang_picture (self->picture[colour.finish], surface);
    cairo_surface_destroy (surface);
  }
}

/* --- Choosing ----------------------------------------------------------------------------------
 */

static void
toggled (BwFinishCard *self, GtkToggleButton *choice)
{
  if (self->showing || !gtk_toggle_button_get_active (choice))
    return;
  BwFinish finish = 0;
  while (self->choice[finish] != choice)
    finish++;
  gtk_popover_popdown (self->card);
  g_signal_emit (self, signals[CHOSEN], 0, (guint)finish);
}

static void
add_choice (BwFinishCard *self, BwFinish finish)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *label = gtk_label_new (bw_finish_words (finish));
  GtkWidget *choice = gtk_toggle_button_new ();
  self->picture[finish] = GTK_PICTURE (gtk_picture_new ());
  self->choice[finish] = GTK_TOGGLE_BUTTON (choice);
  gtk_widget_set_size_request (GTK_WIDGET (self->picture[finish]), SIDE, SIDE);
  gtk_picture_set_can_shrink (self->picture[finish], TRUE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->picture[finish]));
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (choice), box);
  gtk_widget_add_css_class (choice, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  bw_finish_words (finish), -1);
  if (finish > 0)
    gtk_toggle_button_set_group (self->choice[finish], self->choice[0]);
  g_signal_connect_swapped (choice, "toggled", G_CALLBACK (toggled), self);
  gtk_grid_attach (self->grid, choice, (int)finish % COLUMNS, (int)finish / COLUMNS, 1, 1);
}

/* The finish shown is the one that is pressed. */
static void
press (BwFinishCard *self)
{
  if (!self->choice[0])
    return;
  self->showing = TRUE;
  gtk_toggle_button_set_active (self->choice[self->colour.finish], TRUE);
  self->showing = FALSE;
}

static void
fill (BwFinishCard *self)
{
  for (BwFinish finish = 0; !self->choice[BW_N_FINISHES - 1]; finish++)
    add_choice (self, finish);
  press (self);
}

static void
card_shown (BwFinishCard *self)
{
  fill (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->choice[self->colour.finish]));
  if (self->painted)
    return;
  self->painted = TRUE;
  hang_beads (self);
  g_autoptr (GTask) task = g_task_new (self, NULL, made, NULL);
  Job *job = g_new0 (Job, 1);
  job->srgb = self->colour.srgb;
  job->side = SIDE * gtk_widget_get_scale_factor (GTK_WIDGET (self));
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, make);
}

static void
show_name (BwFinishCard *self)
{
  const char *title = self->title ? self->title : _ ("Finish");
  g_autofree char *words = g_strdup_printf ("%s: %s", title, bw_finish_words (self->colour.finish));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->button), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
}

void
bw_finish_card_show (BwFinishCard *self, const BwColour *colour)
{
  g_return_if_fail (BW_IS_FINISH_CARD (self));
  self->painted = self->painted && colour->srgb == self->colour.srgb;
  self->colour = *colour;
  press (self);
  gtk_menu_button_set_label (self->button, bw_finish_words (colour->finish));
  show_name (self);
}

void
bw_finish_card_set_title (BwFinishCard *self, const char *title)
{
  g_return_if_fail (BW_IS_FINISH_CARD (self));
  g_free (self->title);
  self->title = g_strdup (title);
  show_name (self);
}

static void
bw_finish_card_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_finish_card_parent_class)->dispose (object);
}

static void
bw_finish_card_finalize (GObject *object)
{
  g_free (BW_FINISH_CARD (object)->title);
  G_OBJECT_CLASS (bw_finish_card_parent_class)->finalize (object);
}

static void
bw_finish_card_class_init (BwFinishCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_finish_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_finish_card_finalize;
  signals[CHOSEN] = g_signal_new ("chosen", BW_TYPE_FINISH_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/finish-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFinishCard, button);
  gtk_widget_class_bind_template_child (widget_class, BwFinishCard, card);
  gtk_widget_class_bind_template_child (widget_class, BwFinishCard, grid);
  gtk_widget_class_bind_template_callback (widget_class, card_shown);
}

static void
bw_finish_card_init (BwFinishCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
