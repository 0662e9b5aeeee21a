/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/shelf/band-thumb.h"
#include "app/kit/line-height.h"
#include "core/base/lattice.h"

#define LEAST_WIDTH 220
#define LINES_HIGH 3.4    /* of text */
#define BEADS_MOST 200000 /* more cannot be told apart in so little room */

struct _BwBandThumb {
  GtkWidget parent_instance;
  BwDrawing *drawing;
  BwTray tray;
};

G_DEFINE_FINAL_TYPE (BwBandThumb, bw_band_thumb, GTK_TYPE_WIDGET)

static void
bw_band_thumb_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL
                            ? LEAST_WIDTH
                            : (int)(LINES_HIGH * bw_line_height (widget));
}

void
bw_band_thumb_set (BwBandThumb *self, const BwDrawing *drawing, const BwTray *tray)
{
  g_return_if_fail (BW_IS_BAND_THUMB (self));
  g_clear_pointer (&self->drawing, bw_drawing_free);
  if (drawing) {
    self->drawing = bw_drawing_copy (drawing);
    self->tray = *tray;
  }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

const BwDrawing *
bw_band_thumb_get (BwBandThumb *self)
{
  g_return_val_if_fail (BW_IS_BAND_THUMB (self), NULL);
  return self->drawing;
}

/* The beads of one colour at a time: a path of many dabs is quicker than many paths. */
static void
paint_colour (const BwBandThumb *self, cairo_t *cr, int colour, double dx, double dy)
{
  int rows = bw_drawing_rows (self->drawing), columns = bw_drawing_columns (self->drawing);
  guint32 srgb = self->tray.colour[colour].srgb;
  cairo_set_source_rgb (cr, (srgb >> 16) / 255.0, (srgb >> 8 & 255) / 255.0, (srgb & 255) / 255.0);
  for (int row = 1; row <= rows; row++) {
    const guint8 *cells = bw_drawing_row (self->drawing, row);
    for (int j = 0; j < columns / 2; j++)
      if (cells[j] == colour)
        cairo_rectangle (cr, (row - 1) * dx, (columns - bw_lattice_column (row, j)) * dy, 2 * dx,
                         dy);
  }
  cairo_fill (cr);
}

/* As large as the place allows, in the beads' own proportion. */
static void
bw_band_thumb_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBandThumb *self = BW_BAND_THUMB (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  if (!self->drawing
      || bw_drawing_rows (self->drawing) * bw_drawing_columns (self->drawing) > 2 * BEADS_MOST)
    return;
  double dx = width / (bw_drawing_rows (self->drawing) + 1);
  double dy = MIN (height / bw_drawing_columns (self->drawing), 1.7 * dx);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  cairo_translate (cr, 0, (height - dy * bw_drawing_columns (self->drawing)) / 2);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_GOOD);
  for (int colour = 0; colour < self->tray.n_colours; colour++)
    paint_colour (self, cr, colour, dx, dy);
  cairo_destroy (cr);
}

static void
bw_band_thumb_finalize (GObject *object)
{
  g_clear_pointer (&BW_BAND_THUMB (object)->drawing, bw_drawing_free);
  G_OBJECT_CLASS (bw_band_thumb_parent_class)->finalize (object);
}

static void
bw_band_thumb_class_init (BwBandThumbClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_band_thumb_finalize;
  widget_class->measure = bw_band_thumb_measure;
  widget_class->snapshot = bw_band_thumb_snapshot;
  gtk_widget_class_set_css_name (widget_class, "bandthumb");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_band_thumb_init (BwBandThumb *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}
