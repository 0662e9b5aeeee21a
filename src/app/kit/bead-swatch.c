/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same picture of a bead as on the band, at the size of a line of text. */
#include "config.h"

#include "app/kit/bead-swatch.h"
#include "app/kit/palette.h"
#include "editor/cloth/bead-picture.h"

#include <math.h>

struct _BwBeadSwatch {
  GtkWidget parent_instance;
  BwColour colour;
};

G_DEFINE_FINAL_TYPE (BwBeadSwatch, bw_bead_swatch, GTK_TYPE_WIDGET)

static int
side_of (GtkWidget *widget)
{
  g_autoptr (PangoLayout) text = bw_palette_text (widget, "0", 1, FALSE);
  int height;
  pango_layout_get_pixel_size (text, NULL, &height);
  return height + 10;
}

static void
bw_bead_swatch_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = side_of (widget);
}

static void
draw_letter (GtkWidget *widget, cairo_t *cr, const BwColour *colour, int side)
{
  char letter[8] = { 0 };
  int width, height;
  g_unichar_to_utf8 (colour->id, letter);
  g_autoptr (PangoLayout) text = bw_palette_text (widget, letter, 0.9, TRUE);
  pango_layout_get_pixel_size (text, &width, &height);
  double shade = bw_bead_letter_is_black (colour->srgb) ? 0 : 1;
  cairo_set_source_rgb (cr, shade, shade, shade);
  cairo_move_to (cr, (side - width) / 2.0, (side - height) / 2.0);
  pango_cairo_show_layout (cr, text);
}

cairo_surface_t *
bw_bead_surface (const BwColour *colour, double side, int scale)
{
  int pixels = MAX ((int)lround (side * scale), 1);
  BwBeadFrame frame
      = { .width = pixels, .height = pixels, .fill_x = 0.94, .fill_y = 0.94, .calm = TRUE };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, pixels, pixels);
  cairo_surface_flush (surface);
  bw_bead_picture_paint ((guint32 *)(void *)cairo_image_surface_get_data (surface), pixels, pixels,
                         &frame, colour->srgb, colour->finish);
  cairo_surface_mark_dirty (surface);
  cairo_surface_set_device_scale (surface, scale, scale);
  return surface;
}

static void
bw_bead_swatch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBeadSwatch *self = BW_BEAD_SWATCH (widget);
  int side = side_of (widget);
  cairo_surface_t *surface
      = bw_bead_surface (&self->colour, side, gtk_widget_get_scale_factor (widget));
  cairo_t *cr
      = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)side, (float)side));
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_paint (cr);
  draw_letter (widget, cr, &self->colour, side);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

void
bw_bead_swatch_set_colour (BwBeadSwatch *self, const BwColour *colour)
{
  g_return_if_fail (BW_IS_BEAD_SWATCH (self));
  self->colour = *colour;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_bead_swatch_class_init (BwBeadSwatchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_bead_swatch_measure;
  widget_class->snapshot = bw_bead_swatch_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_bead_swatch_init (BwBeadSwatch *self)
{
  self->colour = (BwColour){ .id = 'a', .srgb = bw_tint_srgb (BW_TINT_HAIR, FALSE) };
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
bw_bead_swatch_new (void)
{
  return g_object_new (BW_TYPE_BEAD_SWATCH, NULL);
}
