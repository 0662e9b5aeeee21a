/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/fit/fit-sign.h"
#include "app/kit/palette.h"

#include <math.h>

#define FACES 6

struct _BwFitSignView {
  GtkWidget parent_instance;
  BwFitSign sign;
};

G_DEFINE_FINAL_TYPE (BwFitSignView, bw_fit_sign_view, GTK_TYPE_WIDGET)

static void
bw_fit_sign_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  g_autoptr (PangoLayout) text = bw_palette_text (widget, "0", 1, FALSE);
  int height;
  pango_layout_get_pixel_size (text, NULL, &height);
  *minimum = *natural = (int)(3.0 * height);
}

static void
draw_stone (cairo_t *cr, const BwPalette *palette, double radius)
{
  GdkRGBA body = bw_palette_alpha (palette->hair, 0.35);
  cairo_new_path (cr);
  for (int i = 0; i < FACES; i++) {
    double angle = G_PI * (2 * i + 1) / FACES;
    cairo_line_to (cr, radius * cos (angle), radius * sin (angle));
  }
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &body);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  cairo_set_line_width (cr, 0.055);
  cairo_stroke (cr);
}

/* A part of the band, in turns from the top. */
static void
draw_band (cairo_t *cr, double radius, double from, double to, gboolean dotted)
{
  double dots[] = { 0.001, 0.27 };
  cairo_save (cr);
  cairo_set_line_width (cr, dotted ? 0.15 : 0.2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  if (dotted)
    cairo_set_dash (cr, dots, 2, 0);
  cairo_new_path (cr);
  cairo_arc (cr, 0, 0, radius, 2 * G_PI * from - G_PI / 2, 2 * G_PI * to - G_PI / 2);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* In units of half the sign, about its middle. */
static void
draw_sign (cairo_t *cr, const BwPalette *palette, BwFitSign sign)
{
  draw_stone (cr, palette, sign == BW_SIGN_LOOSE ? 0.48 : 0.62);
  gdk_cairo_set_source_rgba (cr, sign == BW_SIGN_SNUG             ? &palette->good
                                 : sign == BW_SIGN_WILL_NOT_CLOSE ? &palette->bad
                                                                  : &palette->warn);
  switch (sign) {
  case BW_SIGN_SNUG:
    draw_band (cr, 0.78, 0, 1, FALSE);
    break;
  case BW_SIGN_NEAR_EVEN:
    draw_band (cr, 0.78, 0.14, 0.86, FALSE);
    draw_band (cr, 0.78, -0.08, 0.09, TRUE);
    break;
  case BW_SIGN_LOOSE:
    draw_band (cr, 0.87, 0, 1, FALSE);
    break;
  case BW_SIGN_WILL_NOT_CLOSE:
  default:
    draw_band (cr, 0.78, 0.14, 0.86, FALSE);
  }
}

static void
bw_fit_sign_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  BwPalette palette = bw_palette_get (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  cairo_translate (cr, width / 2.0, height / 2.0);
  cairo_scale (cr, MIN (width, height) / 2.0, MIN (width, height) / 2.0);
  draw_sign (cr, &palette, BW_FIT_SIGN_VIEW (widget)->sign);
  cairo_destroy (cr);
}

void
bw_fit_sign_view_set (BwFitSignView *self, BwFitSign sign)
{
  g_return_if_fail (BW_IS_FIT_SIGN_VIEW (self));
  self->sign = sign;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_fit_sign_view_class_init (BwFitSignViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_fit_sign_view_measure;
  widget_class->snapshot = bw_fit_sign_view_snapshot;
  gtk_widget_class_set_css_name (widget_class, "fitsign");
  /* The word beside it says the same. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_fit_sign_view_init (BwFitSignView *self)
{
  bw_palette_follow (GTK_WIDGET (self));
}
