/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band as on the Draw stage, and over it the bail as something to take hold of. */
#include "config.h"

#include "editor/bail/bail-band-draw.h"

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

/* A light plate with a dark rim shows on every colour of bead. */
static void
handle (const BwBandPaint *paint, double x, double y, gboolean lit)
{
  double side = HANDLE_PX + (lit ? 4 : 0);
  graphene_rect_t rect
      = GRAPHENE_RECT_INIT ((float)bw_band_snap (paint, x - side / 2),
                            (float)bw_band_snap (paint, y - side / 2), (float)side, (float)side);
  GskRoundedRect rounded;
  GdkRGBA fill = lit ? paint->style->mark : bw_band_style_gleam (1);
  gsk_rounded_rect_init_from_rect (&rounded, &rect, 3);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &rounded);
  gtk_snapshot_append_color (paint->snapshot, &fill, &rect);
  gtk_snapshot_pop (paint->snapshot);
  bw_band_paint_ring (paint, rect, 1, 1.5, bw_band_style_shadow (0.8), 4);
}

static void
handles (const BwBailShown *shown, const BwBandPaint *paint, const graphene_rect_t *rect)
{
  BwBailGrip lit = shown->lit;
  double x = rect->origin.x, y = rect->origin.y, w = rect->size.width, h = rect->size.height;
  handle (paint, x, y + h / 2, lit == BW_BAIL_GRIP_LEFT);
  handle (paint, x + w, y + h / 2, lit == BW_BAIL_GRIP_RIGHT);
  /* On one column the two would lie over one another; either widens it. */
  if (h >= 2 * HANDLE_PX)
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
                       (double)rect->origin.y + (height - text) / 2, bw_band_style_shadow (0.65),
                       bw_band_style_gleam (1));
}

static void
paint_bail (const BwBailShown *shown, const BwBandPaint *paint, BwBailBox box)
{
  double around = bw_band_layout_around (paint->layout);
  gboolean busy = shown->busy;
  gboolean focus = gtk_widget_has_visible_focus (shown->view->widget);
  double line = 1 + paint->style->line;
  for (int image = paint->range.first_image - 1; image <= paint->range.last_image + 1; image++) {
    BwBailBox here = { box.left + image * around, box.right + image * around, box.bottom, box.top };
    graphene_rect_t rect = rect_of (paint, here);
    GdkRGBA tint = bw_band_style_fade (paint->style->accent, busy ? 0.5 : 0.32);
    gtk_snapshot_append_color (paint->snapshot, &tint, &rect);
    bw_band_paint_ring (paint, rect, line + 1, line, bw_band_style_shadow (0.75), 5);
    bw_band_paint_ring (paint, rect, 1, line,
                        focus || busy ? paint->style->mark : bw_band_style_gleam (0.95), 4);
    label (paint, &rect);
    handles (shown, paint, &rect);
  }
}

static void
paint_content (const BwBailShown *shown, const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const BwBailBase *base = bw_project_bail_base (shown->view->project);
  gtk_snapshot_push_clip (paint->snapshot,
                          &GRAPHENE_RECT_INIT ((float)layout->x, (float)layout->y,
                                               (float)layout->width, (float)layout->height));
  bw_band_paint_rect (paint, layout->x, layout->y, layout->width, layout->height,
                      paint->style->ground);
  bw_band_paint_stone (paint);
  bw_band_beads_take (paint, shown->view->tiles, shown->view->project,
                      bw_project_shown_drawing (shown->view->project), FALSE);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    bw_band_paint_beads (paint, shown->view->tiles, image, GHOST_OPACITY);
  bw_band_tiles_trim (shown->view->tiles);
  bw_band_paint_edges (paint);
  bw_band_paint_join (paint);
  if (base)
    paint_bail (shown, paint, bw_bail_box (base));
  bw_band_paint_face_names (paint);
  gtk_snapshot_pop (paint->snapshot);
}

static void
paint_focus (const BwBailShown *shown, const BwBandPaint *paint)
{
  int width = gtk_widget_get_width (shown->view->widget);
  int height = gtk_widget_get_height (shown->view->widget);
  graphene_rect_t rect = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  if (gtk_widget_has_visible_focus (shown->view->widget))
    bw_band_paint_ring (paint, rect, -1, 2, paint->style->mark, 6);
}

void
bw_bail_band_draw (const BwBailShown *shown, GtkSnapshot *snapshot)
{
  BwBandPaint paint;
  if (!bw_band_view_paint (shown->view, snapshot, &paint))
    return;
  paint_content (shown, &paint);
  bw_band_paint_rulers (&paint);
  paint_focus (shown, &paint);
}
