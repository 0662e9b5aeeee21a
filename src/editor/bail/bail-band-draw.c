/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band as on the Draw stage, and over it the bail as something to take hold of. */
#include "config.h"

#include "editor/bail/bail-band-private.h"

#include "editor/cloth/band-paint.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define GHOST_OPACITY 0.55
#define HANDLE_PX 9.0

static graphene_rect_t
rect_of (const BwBandPaint *paint, BwBailBox box)
{
  double left = bw_band_paint_x (paint, box.left), right = bw_band_paint_x (paint, box.right);
  double top = bw_band_paint_y (paint, box.top), bottom = bw_band_paint_y (paint, box.bottom);
  return GRAPHENE_RECT_INIT ((float)left, (float)top, (float)(right - left), (float)(bottom - top));
}

static void
frame (const BwBandPaint *paint, graphene_rect_t rect, double out, double thickness, GdkRGBA colour,
       float radius)
{
  GskRoundedRect rounded;
  float t = (float)thickness;
  float widths[4] = { t, t, t, t };
  GdkRGBA colours[4] = { colour, colour, colour, colour };
  graphene_rect_inset (&rect, (float)-out, (float)-out);
  gsk_rounded_rect_init_from_rect (&rounded, &rect, radius);
  gtk_snapshot_append_border (paint->snapshot, &rounded, widths, colours);
}

/* A light plate with a dark rim shows on every colour of bead. */
static void
handle (const BwBandPaint *paint, double x, double y, gboolean lit)
{
  double side = HANDLE_PX + (lit ? 4 : 0);
  graphene_rect_t rect
      = GRAPHENE_RECT_INIT ((float)bw_band_snap (paint, x - side / 2),
                            (float)bw_band_snap (paint, y - side / 2), (float)side, (float)side);
  GskRoundedRect rounded;
  GdkRGBA fill = lit ? paint->style->mark : (GdkRGBA){ 1, 1, 1, 1 };
  gsk_rounded_rect_init_from_rect (&rounded, &rect, 3);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &rounded);
  gtk_snapshot_append_color (paint->snapshot, &fill, &rect);
  gtk_snapshot_pop (paint->snapshot);
  frame (paint, rect, 1, 1.5, (GdkRGBA){ 0, 0, 0, 0.8f }, 4);
}

static void
handles (const BwBailBand *self, const BwBandPaint *paint, const graphene_rect_t *rect)
{
  BwBailGrip lit = self->held ? self->held : self->over;
  double x = rect->origin.x, y = rect->origin.y, w = rect->size.width, h = rect->size.height;
  handle (paint, x, y + h / 2, lit == BW_BAIL_GRIP_LEFT);
  handle (paint, x + w, y + h / 2, lit == BW_BAIL_GRIP_RIGHT);
  handle (paint, x + w / 2, y + h, lit == BW_BAIL_GRIP_BOTTOM);
  handle (paint, x + w / 2, y, lit == BW_BAIL_GRIP_TOP);
}

static void
label (const BwBandPaint *paint, const graphene_rect_t *rect)
{
  const char *words = _ ("Bail");
  double width = rect->size.width, height = rect->size.height, text = paint->style->text;
  if (width < bw_band_paint_text_width (paint, words) + 8 + HANDLE_PX || height < text + HANDLE_PX)
    return;
  bw_band_paint_label (paint, words, (double)rect->origin.x + width / 2,
                       (double)rect->origin.y + (height - text) / 2, (GdkRGBA){ 0, 0, 0, 0.65f },
                       (GdkRGBA){ 1, 1, 1, 1 });
}

static void
paint_bail (BwBailBand *self, const BwBandPaint *paint, BwBailBox box)
{
  double around = bw_band_layout_around (paint->layout);
  gboolean busy = self->held || self->stepping || self->over == BW_BAIL_GRIP_BODY;
  gboolean focus = gtk_widget_has_visible_focus (GTK_WIDGET (self));
  double line = 1 + paint->style->line;
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++) {
    BwBailBox here = { box.left + image * around, box.right + image * around, box.bottom, box.top };
    graphene_rect_t rect = rect_of (paint, here);
    GdkRGBA tint = bw_band_style_fade (paint->style->accent, busy ? 0.5 : 0.32);
    gtk_snapshot_append_color (paint->snapshot, &tint, &rect);
    frame (paint, rect, line + 1, line, (GdkRGBA){ 0, 0, 0, 0.75f }, 5);
    frame (paint, rect, 1, line, focus || busy ? paint->style->mark : (GdkRGBA){ 1, 1, 1, 0.95f },
           4);
    label (paint, &rect);
    handles (self, paint, &rect);
  }
}

static void
paint_content (BwBailBand *self, const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const BwBailBase *base = bw_project_bail_base (self->project);
  gtk_snapshot_push_clip (paint->snapshot,
                          &GRAPHENE_RECT_INIT ((float)layout->x, (float)layout->y,
                                               (float)layout->width, (float)layout->height));
  bw_band_paint_rect (paint, layout->x, layout->y, layout->width, layout->height,
                      paint->style->ground);
  bw_band_paint_stone (paint);
  bw_band_beads_take (paint, self->tiles, self->project, bw_project_shown_drawing (self->project),
                      FALSE);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    bw_band_paint_beads (paint, self->tiles, image, GHOST_OPACITY);
  bw_band_tiles_trim (self->tiles);
  bw_band_paint_edges (paint);
  bw_band_paint_join (paint);
  if (base)
    paint_bail (self, paint, bw_bail_box (base));
  bw_band_paint_face_names (paint);
  gtk_snapshot_pop (paint->snapshot);
}

static void
paint_focus (BwBailBand *self, const BwBandPaint *paint)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  graphene_rect_t rect = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  if (gtk_widget_has_visible_focus (GTK_WIDGET (self)))
    frame (paint, rect, -1, 2, paint->style->mark, 6);
}

void
bw_bail_band_draw (BwBailBand *self, GtkSnapshot *snapshot)
{
  BwBandPaint paint = {
    .snapshot = snapshot,
    .layout = &self->layout,
    .style = &self->style,
    .faces = bw_bail_band_faces (self),
    .text = self->text,
    .range = bw_band_layout_range (&self->layout),
    .scale = gtk_widget_get_scale_factor (GTK_WIDGET (self)),
    .widget_height = gtk_widget_get_height (GTK_WIDGET (self)),
  };
  if (self->layout.width <= 0 || self->layout.height <= 0)
    return;
  paint_content (self, &paint);
  bw_band_paint_rulers (&paint);
  paint_focus (self, &paint);
}
