/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawn by the motif's own rule, so that the small picture never promises what the band would not
 * get. Two shades of the text colour: it follows light, dark and high contrast. */
#include "config.h"

#include "app/draw/motif-picture.h"
#include "app/draw/motif-words.h"
#include "app/kit/line-height.h"
#include "app/kit/palette.h"
#include "core/base/lattice.h"

#define COLUMNS 10
#define ROWS 24

struct _BwMotifPicture {
  GtkWidget parent_instance;
  BwMotifKind kind;
};

G_DEFINE_FINAL_TYPE (BwMotifPicture, bw_motif_picture, GTK_TYPE_WIDGET)

/* Grows with the text. */
static int
side_of (GtkWidget *widget)
{
  return bw_line_height (widget) + 10;
}

static void
bw_motif_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = side_of (widget);
}

static BwDrawing *
scrap (BwMotifKind kind)
{
  BwDrawing *drawing = bw_drawing_new (COLUMNS, ROWS, 1);
  BwMotif motif;
  bw_motif_init (&motif, kind, COLUMNS, ROWS);
  motif.repeats = kind == BW_MOTIF_BARS ? 2 : 1;
  motif.centre = ROWS / 4.0;
  motif.density = 0.25;
  motif.size = kind == BW_MOTIF_DIAMONDS ? 5 : kind == BW_MOTIF_WAVES ? 3 : motif.size;
  motif.size = kind == BW_MOTIF_CHEVRONS || kind == BW_MOTIF_SPIRAL ? 2.5 : motif.size;
  motif.reach = kind == BW_MOTIF_WAVES ? 2 : 4;
  motif.slope = kind == BW_MOTIF_CHEVRONS ? 0.7 : 1;
  motif.first_column = 1;
  motif.last_column = COLUMNS;
  if (kind == BW_MOTIF_LETTERS) {
    motif.first_column = 2;
    motif.last_column = COLUMNS - 1;
    g_strlcpy (motif.text, "A", sizeof motif.text);
  }
  bw_motif_draw (&motif, drawing);
  return drawing;
}

static void
bw_motif_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  g_autoptr (BwDrawing) drawing = scrap (BW_MOTIF_PICTURE (widget)->kind);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double dx = width / (ROWS + 1), dy = height / COLUMNS;
  GdkRGBA ink;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < COLUMNS / 2; j++) {
      int column = bw_lattice_column (row, j);
      GdkRGBA shade = ink;
      shade.alpha *= bw_drawing_get (drawing, row, column) == 0 ? 0.9f : 0.18f;
      gtk_snapshot_append_color (snapshot, &shade,
                                 &GRAPHENE_RECT_INIT ((float)((row - 1) * dx),
                                                      (float)(height - column * dy),
                                                      (float)(2 * dx - 0.5), (float)(dy - 0.5)));
    }
}

static void
bw_motif_picture_class_init (BwMotifPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_motif_picture_measure;
  widget_class->snapshot = bw_motif_picture_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_motif_picture_init (BwMotifPicture *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
bw_motif_picture_new (BwMotifKind kind)
{
  BwMotifPicture *self = g_object_new (BW_TYPE_MOTIF_PICTURE, NULL);
  self->kind = kind;
  return GTK_WIDGET (self);
}
