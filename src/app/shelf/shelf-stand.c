/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces stand beside one another as their stones would: drawn by their length, within bounds, so
 * that a small one is still to be made out. */
#include "config.h"

#include "app/shelf/shelf-stand.h"
#include "app/kit/line-height.h"
#include "app/kit/palette.h"

#define LINES_HIGH 11.2 /* in lines of text */
#define LINES_WIDE 9.8
#define BOARD_LINES 0.62
#define TALLEST_MM 66.0 /* as high as the place */
#define LEAST 0.52      /* of the height of the place */
#define SINKS 0.35      /* of the board: how far its upper side reaches before the piece */

struct _BwShelfStand {
  GtkWidget parent_instance;
  BwStandKind kind;
  GdkTexture *texture;
  double share; /* of the height of the place */
};

G_DEFINE_FINAL_TYPE (BwShelfStand, bw_shelf_stand, GTK_TYPE_WIDGET)

int
bw_shelf_stand_board (GtkWidget *self)
{
  return MAX (6, (int)(BOARD_LINES * bw_line_height (self)));
}

static void
bw_shelf_stand_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  double lines = orientation == GTK_ORIENTATION_VERTICAL ? LINES_HIGH : LINES_WIDE;
  *minimum = *natural = (int)(lines * bw_line_height (widget));
}

static GdkTexture *
texture_of (cairo_surface_t *picture)
{
  int width = cairo_image_surface_get_width (picture);
  int height = cairo_image_surface_get_height (picture);
  gsize stride = (gsize)cairo_image_surface_get_stride (picture);
  cairo_surface_flush (picture);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (picture), stride * (gsize)height);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}

void
bw_shelf_stand_set (BwShelfStand *self, BwStandKind kind, cairo_surface_t *picture,
                    double length_mm)
{
  g_return_if_fail (BW_IS_SHELF_STAND (self));
  self->kind = kind;
  g_clear_object (&self->texture);
  if (picture)
    self->texture = texture_of (picture);
  self->share = length_mm > 0 ? CLAMP (length_mm / TALLEST_MM, LEAST, 1) : 0.8;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A pool of shade on the board, darkest under the middle of the piece. */
static void
append_shadow (GtkSnapshot *snapshot, double middle, double foot, double half)
{
  double high = half * 0.16;
  GskColorStop stops[]
      = { { 0, { 0, 0, 0, 0.34f } }, { 0.55f, { 0, 0, 0, 0.16f } }, { 1, { 0, 0, 0, 0 } } };
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)(middle - half), (float)(foot - high),
                                               (float)(2 * half), (float)(2 * high));
  gtk_snapshot_append_radial_gradient (snapshot, &bounds,
                                       &GRAPHENE_POINT_INIT ((float)middle, (float)foot),
                                       (float)half, (float)high, 0, 1, stops, G_N_ELEMENTS (stops));
}

static void
append_piece (BwShelfStand *self, GtkSnapshot *snapshot, double width, double foot)
{
  double w = gdk_texture_get_width (self->texture), h = gdk_texture_get_height (self->texture);
  double scale = MIN (self->share * foot * 0.94 / h, width * 0.92 / w);
  append_shadow (snapshot, width / 2, foot - 1, scale * w * 0.62);
  gtk_snapshot_append_texture (snapshot, self->texture,
                               &GRAPHENE_RECT_INIT ((float)((width - scale * w) / 2),
                                                    (float)(foot - scale * h), (float)(scale * w),
                                                    (float)(scale * h)));
}

/* A plain crystal point: a prism seen on one of its edges, and the faces of its point. */
static void
trace_stone (cairo_t *cr, double middle, double foot, double high)
{
  double half = high * 0.24, shoulder = foot - high * 0.70, tip = foot - high;
  cairo_move_to (cr, middle - half, foot - half * 0.10);
  cairo_line_to (cr, middle - half, shoulder);
  cairo_line_to (cr, middle + half * 0.10, tip);
  cairo_line_to (cr, middle + half, shoulder - half * 0.1);
  cairo_line_to (cr, middle + half, foot - half * 0.10);
  cairo_line_to (cr, middle - half * 0.25, foot);
  cairo_close_path (cr);
  cairo_move_to (cr, middle - half * 0.25, foot);
  cairo_line_to (cr, middle - half * 0.25, shoulder + half * 0.16);
  cairo_line_to (cr, middle + half * 0.10, tip);
  cairo_move_to (cr, middle - half, shoulder);
  cairo_line_to (cr, middle - half * 0.25, shoulder + half * 0.16);
  cairo_line_to (cr, middle + half, shoulder - half * 0.1);
}

static GdkRGBA
outline_colour (BwShelfStand *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  BwPalette palette = bw_palette_get (widget);
  GdkRGBA brass;
  if (self->kind == BW_STAND_BLANK)
    return gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), "bw_brass",
                                           &brass)
               ? brass
               : palette.ink;
  return bw_palette_alpha (palette.ink, self->kind == BW_STAND_GONE ? 0.6 : 0.3);
}

static void
append_outline (BwShelfStand *self, GtkSnapshot *snapshot, double width, double foot)
{
  const double dashes[] = { 6, 4 };
  GdkRGBA colour = outline_colour (self);
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)foot + 2));
  trace_stone (cr, width / 2, foot - 1, foot * 0.8);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, self->kind == BW_STAND_BLANK ? 2 : 1.5);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (self->kind == BW_STAND_BLANK || self->kind == BW_STAND_GONE)
    cairo_set_dash (cr, dashes, 2, 0);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
bw_shelf_stand_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwShelfStand *self = BW_SHELF_STAND (widget);
  double board = bw_shelf_stand_board (widget);
  double width = gtk_widget_get_width (widget);
  double foot = gtk_widget_get_height (widget) - board * (1 - SINKS);
  if (self->texture)
    append_piece (self, snapshot, width, foot);
  else
    append_outline (self, snapshot, width, foot);
}

static void
bw_shelf_stand_finalize (GObject *object)
{
  g_clear_object (&BW_SHELF_STAND (object)->texture);
  G_OBJECT_CLASS (bw_shelf_stand_parent_class)->finalize (object);
}

static void
bw_shelf_stand_class_init (BwShelfStandClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_shelf_stand_finalize;
  widget_class->measure = bw_shelf_stand_measure;
  widget_class->snapshot = bw_shelf_stand_snapshot;
  gtk_widget_class_set_css_name (widget_class, "shelfstand");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_shelf_stand_init (BwShelfStand *self)
{
  self->share = 0.8;
  bw_palette_follow (GTK_WIDGET (self));
}
