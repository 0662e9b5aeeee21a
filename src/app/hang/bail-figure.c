/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawn on a field of 64 × 48, which grows with the text. Seen from the side: a flap shows its
 * width, and the cord goes through it along the stone; an upright strip shows the round of its
 * loop. */
#include "config.h"

#include "app/hang/bail-figure.h"
#include "app/kit/line-height.h"
#include "app/kit/palette.h"

#define WIDE 64
#define HIGH 48
#define LINE 1.6

struct _BwBailFigure {
  GtkWidget parent_instance;
  BwBailStyle style;
};

G_DEFINE_FINAL_TYPE (BwBailFigure, bw_bail_figure, GTK_TYPE_WIDGET)

/* Grows with the text. */
static double
scale_of (GtkWidget *widget)
{
  return bw_line_height (widget) / 17.0;
}

static void
bw_bail_figure_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  int side = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDE : HIGH;
  *minimum = *natural = (int)(side * scale_of (widget));
}

static void
paint (cairo_t *cr, const GdkRGBA *fill, const GdkRGBA *edge)
{
  gdk_cairo_set_source_rgba (cr, fill);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, edge);
  cairo_stroke (cr);
}

static void
draw_stone (cairo_t *cr, const BwPalette *palette)
{
  GdkRGBA stone = bw_palette_alpha (palette->ink, 0.10),
          band = bw_palette_alpha (palette->accent, 0.75);
  cairo_move_to (cr, 4, 34);
  cairo_line_to (cr, 16, 25);
  cairo_line_to (cr, 60, 25);
  cairo_line_to (cr, 60, 43);
  cairo_line_to (cr, 16, 43);
  cairo_close_path (cr);
  paint (cr, &stone, &palette->ink);
  cairo_rectangle (cr, 28, 23.5, 18, 21);
  paint (cr, &band, &palette->ink);
}

/* Two lines from above, to both ends of what the cord goes through. */
static void
draw_cord (cairo_t *cr, const BwPalette *palette, double left, double right, double y)
{
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  cairo_move_to (cr, left - 6, 1);
  cairo_line_to (cr, left, y);
  cairo_move_to (cr, right + 6, 1);
  cairo_line_to (cr, right, y);
  cairo_stroke (cr);
}

static void
draw_flap (cairo_t *cr, const BwPalette *palette, double top)
{
  GdkRGBA beads = bw_palette_alpha (palette->accent, 0.9);
  cairo_rectangle (cr, 32, top, 10, 24 - top);
  paint (cr, &beads, &palette->ink);
}

static void
draw_loop (cairo_t *cr, const BwPalette *palette, double y, double radius)
{
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  cairo_new_sub_path (cr);
  cairo_arc (cr, 37, y, radius, 0, 2 * G_PI);
  cairo_stroke (cr);
}

/* The stone stands here, and the strip goes over its tip. */
static void
draw_over (cairo_t *cr, const BwPalette *palette)
{
  GdkRGBA stone = bw_palette_alpha (palette->ink, 0.10),
          band = bw_palette_alpha (palette->accent, 0.75);
  cairo_move_to (cr, 32, 16);
  cairo_line_to (cr, 40, 25);
  cairo_line_to (cr, 40, 47);
  cairo_line_to (cr, 24, 47);
  cairo_line_to (cr, 24, 25);
  cairo_close_path (cr);
  paint (cr, &stone, &palette->ink);
  cairo_set_line_width (cr, 3.5);
  cairo_move_to (cr, 23, 32);
  cairo_curve_to (cr, 21, 2, 43, 2, 41, 32);
  cairo_stroke (cr);
  cairo_set_line_width (cr, LINE);
  cairo_rectangle (cr, 22, 31, 20, 12);
  paint (cr, &band, &palette->ink);
  draw_cord (cr, palette, 31, 33, 12);
}

static void
draw_bail (cairo_t *cr, const BwPalette *palette, BwBailStyle style)
{
  switch (style) {
  case BW_BAIL_FLAP:
    draw_cord (cr, palette, 32, 42, 13);
    draw_flap (cr, palette, 10);
    break;
  case BW_BAIL_OVER:
    draw_over (cr, palette);
    break;
  case BW_BAIL_UPRIGHT:
    cairo_set_line_width (cr, 3.5);
    draw_loop (cr, palette, 16.5, 6.5);
    cairo_set_line_width (cr, LINE);
    draw_cord (cr, palette, 35, 39, 13);
    break;
  case BW_BAIL_RING:
    draw_cord (cr, palette, 36, 38, 7);
    draw_flap (cr, palette, 16);
    draw_loop (cr, palette, 12.5, 6);
    break;
  default:
    break;
  }
}

static void
bw_bail_figure_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  BwPalette palette = bw_palette_get (widget);
  double scale = MIN (width / WIDE, height / HIGH);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  cairo_translate (cr, (width - scale * WIDE) / 2, (height - scale * HIGH) / 2);
  cairo_scale (cr, scale, scale);
  cairo_set_line_width (cr, LINE);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (BW_BAIL_FIGURE (widget)->style != BW_BAIL_OVER)
    draw_stone (cr, &palette);
  draw_bail (cr, &palette, BW_BAIL_FIGURE (widget)->style);
  cairo_destroy (cr);
}

static void
bw_bail_figure_class_init (BwBailFigureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_bail_figure_measure;
  widget_class->snapshot = bw_bail_figure_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_bail_figure_init (BwBailFigure *self)
{
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  bw_palette_follow (GTK_WIDGET (self));
}

GtkWidget *
bw_bail_figure_new (BwBailStyle style)
{
  BwBailFigure *self = g_object_new (BW_TYPE_BAIL_FIGURE, NULL);
  self->style = style;
  return GTK_WIDGET (self);
}
