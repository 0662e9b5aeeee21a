/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper a bench sketch is drawn on, and the hand that writes on it. */
#include "config.h"

#include "app/form/sketch.h"

#include <math.h>

#define PAD 3

G_DEFINE_ABSTRACT_TYPE (BwSketch, bw_sketch, BW_TYPE_CARD)

void
bw_sketch_write (BwSketch *self, cairo_t *cr, double x, double y, double anchor_x, double anchor_y,
                 const char *text)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), text, 0.9, FALSE);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  double left = round (x - anchor_x * (width + 2 * PAD)), top = round (y - anchor_y * height);
  gdk_cairo_set_source_rgba (cr, &palette.paper);
  cairo_rectangle (cr, left, top, width + 2 * PAD, height);
  cairo_fill (cr);
  gdk_cairo_set_source_rgba (cr, &palette.faint);
  cairo_move_to (cr, left + PAD, top);
  pango_cairo_show_layout (cr, layout);
}

double
bw_sketch_line_height (BwSketch *self)
{
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), "0", 0.9, FALSE);
  int height;
  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static int
by_height (gconstpointer a, gconstpointer b, gpointer data)
{
  const double *y = data;
  double difference = y[*(const int *)a] - y[*(const int *)b];
  return (difference > 0) - (difference < 0);
}

void
bw_sketch_spread (double *y, int n, double gap, double lo, double hi)
{
  g_autofree int *order = g_new (int, MAX (n, 1));
  for (int i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, n, sizeof (int), by_height, y);
  for (int i = 0; i < n; i++) {
    double least = i ? y[order[i - 1]] + gap : lo;
    y[order[i]] = MAX (y[order[i]], least);
  }
  for (int i = n - 1; i >= 0; i--) {
    double most = i + 1 < n ? y[order[i + 1]] - gap : hi;
    y[order[i]] = MIN (y[order[i]], most);
  }
}

static void
bw_sketch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwSketch *self = BW_SKETCH (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  BwPalette palette = bw_palette_get (widget);
  if (!bw_card_get_project (BW_CARD (self)))
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  BW_SKETCH_GET_CLASS (self)->draw (self, cr, &palette, width, height);
  cairo_destroy (cr);
}

static void
bw_sketch_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                   int *natural, int *minimum_baseline, int *natural_baseline)
{
  double line = bw_sketch_line_height (BW_SKETCH (widget));
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? (int)(16 * line) : (int)(14 * line);
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? (int)(24 * line) : (int)(20 * line);
}

static void
bw_sketch_refresh (BwCard *card)
{
  gtk_widget_queue_draw (GTK_WIDGET (card));
}

static void
bw_sketch_class_init (BwSketchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_sketch_refresh;
  widget_class->snapshot = bw_sketch_snapshot;
  widget_class->measure = bw_sketch_measure;
  gtk_widget_class_set_css_name (widget_class, "sketch");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_sketch_init (BwSketch *self)
{
  gtk_widget_set_layout_manager (GTK_WIDGET (self), NULL);
  bw_palette_follow (GTK_WIDGET (self));
}
