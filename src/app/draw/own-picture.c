/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads as plain bricks in the half-drop, as large as the widget's side lets them be. */
#include "config.h"

#include "app/draw/own-picture.h"
#include "app/kit/line-height.h"

struct _BwOwnPicture {
  GtkWidget parent_instance;
  BwOwnMotif *motif;
};

G_DEFINE_FINAL_TYPE (BwOwnPicture, bw_own_picture, GTK_TYPE_WIDGET)

/* Grows with the text. */
static int
side_of (GtkWidget *widget)
{
  return 3 * bw_line_height (widget);
}

static void
bw_own_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = side_of (widget);
}

typedef struct {
  GtkSnapshot *snapshot;
  const BwTray *tray;
  double px, left, bottom; /* of a row's half pitch; where row 1, column 1 begin */
} Frame;

static void
paint_bead (int row, int column, guint8 colour, gpointer data)
{
  const Frame *frame = data;
  guint32 srgb = frame->tray->colour[colour].srgb;
  GdkRGBA ink = { (float)(srgb >> 16 & 0xff) / 255, (float)(srgb >> 8 & 0xff) / 255,
                  (float)(srgb & 0xff) / 255, 1 };
  double gap = frame->px > 2 ? 0.5 : 0;
  gtk_snapshot_append_color (frame->snapshot, &ink,
                             &GRAPHENE_RECT_INIT ((float)(frame->left + (row - 1) * frame->px),
                                                  (float)(frame->bottom - column * 1.6 * frame->px),
                                                  (float)(2 * frame->px - gap),
                                                  (float)(1.6 * frame->px - gap)));
}

static void
bw_own_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  const BwOwnMotif *motif = BW_OWN_PICTURE (widget)->motif;
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  int rows = bw_clip_rows (motif->clip), columns = bw_clip_columns (motif->clip);
  Frame frame
      = { snapshot, &motif->tray, MIN (width / (rows + 1), height / (1.6 * columns)), 0, 0 };
  frame.px = MIN (frame.px, 8);
  frame.left = (width - (rows + 1) * frame.px) / 2;
  frame.bottom = (height + columns * 1.6 * frame.px) / 2;
  bw_clip_each (motif->clip, 1, 1, paint_bead, &frame);
}

static void
bw_own_picture_finalize (GObject *object)
{
  g_clear_pointer (&BW_OWN_PICTURE (object)->motif, bw_own_motif_free);
  G_OBJECT_CLASS (bw_own_picture_parent_class)->finalize (object);
}

static void
bw_own_picture_class_init (BwOwnPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_own_picture_finalize;
  widget_class->measure = bw_own_picture_measure;
  widget_class->snapshot = bw_own_picture_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_own_picture_init (BwOwnPicture *self)
{
}

GtkWidget *
bw_own_picture_new (BwOwnMotif *motif)
{
  BwOwnPicture *self = g_object_new (BW_TYPE_OWN_PICTURE, NULL);
  self->motif = motif;
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  return GTK_WIDGET (self);
}

const BwOwnMotif *
bw_own_picture_get (BwOwnPicture *self)
{
  g_return_val_if_fail (BW_IS_OWN_PICTURE (self), NULL);
  return self->motif;
}
