/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the canvas, from the tray upward: stone, beads, marks, what is pointed at, rulers.
 */
#include "editor/band/band-canvas-private.h"

#include "editor/cloth/band-paint.h"
#include <math.h>

#define GHOST_OPACITY 0.55

void
bw_band_paint_rect (const BwBandPaint *paint, double x, double y, double width, double height,
                    GdkRGBA colour)
{
  if (width <= 0 || height <= 0)
    return;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)x, (float)y, (float)width, (float)height);
  gtk_snapshot_append_color (paint->snapshot, &colour, &rect);
}

double
bw_band_paint_text_width (const BwBandPaint *paint, const char *words)
{
  int width;
  pango_layout_set_text (paint->text, words, -1);
  pango_layout_get_pixel_size (paint->text, &width, NULL);
  return width;
}

void
bw_band_paint_text (const BwBandPaint *paint, const char *words, double x, double y, GdkRGBA colour)
{
  double width = bw_band_paint_text_width (paint, words);
  double left = bw_band_snap (paint, x - width / 2), top = bw_band_snap (paint, y);

  gtk_snapshot_save (paint->snapshot);
  gtk_snapshot_translate (paint->snapshot, &GRAPHENE_POINT_INIT ((float)left, (float)top));
  gtk_snapshot_append_layout (paint->snapshot, paint->text, &colour);
  gtk_snapshot_restore (paint->snapshot);
}

void
bw_band_paint_label (const BwBandPaint *paint, const char *words, double x, double y,
                     GdkRGBA ground, GdkRGBA ink)
{
  double width = bw_band_paint_text_width (paint, words) + 8;
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float)bw_band_snap (paint, x - width / 2),
                                             (float)bw_band_snap (paint, y), (float)width,
                                             (float)paint->style->text);
  GskRoundedRect rounded;
  gsk_rounded_rect_init_from_rect (&rounded, &rect, 3);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &rounded);
  gtk_snapshot_append_color (paint->snapshot, &ground, &rect);
  gtk_snapshot_pop (paint->snapshot);
  bw_band_paint_text (paint, words, x, y, ink);
}

graphene_rect_t
bw_band_paint_brick (const BwBandPaint *paint, int long_row, int column)
{
  BwBandPoint middle = bw_band_middle (long_row, column);
  double left = bw_band_paint_x (paint, middle.u - 0.5);
  double right = bw_band_paint_x (paint, middle.u + 0.5);
  double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
  return GRAPHENE_RECT_INIT ((float)left, (float)top, (float)(right - left), (float)(bottom - top));
}

static void
paint_beads (BwBandCanvas *self, const BwBandPaint *paint)
{
  bw_band_beads_take (paint, self->tiles, self->project, bw_project_shown_drawing (self->project),
                      self->letters);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    bw_band_paint_beads (paint, self->tiles, image, GHOST_OPACITY);
  bw_band_tiles_trim (self->tiles);
}

/* What is woven recedes under a veil of the ground; its edge runs along the beads. */
static void
paint_woven (BwBandCanvas *self, const BwBandPaint *paint)
{
  int woven = MIN (bw_session_get_woven (self->session), paint->layout->rows);
  double around = bw_band_layout_around (paint->layout);
  GdkRGBA veil = paint->style->ground;
  veil.alpha = 0.72f;
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++)
    for (int column = 1; woven > 0 && column <= paint->layout->columns; column++) {
      int first = column % 2 ? 2 : 1, last = woven - (woven - first) % 2;
      if (last < first)
        continue;
      double left
          = bw_band_paint_x (paint, bw_band_middle (first, column).u - 0.5 + image * around);
      double right
          = bw_band_paint_x (paint, bw_band_middle (last, column).u + 0.5 + image * around);
      double top = bw_band_paint_y (paint, column), bottom = bw_band_paint_y (paint, column - 1);
      bw_band_paint_rect (paint, left, top, right - left, bottom - top, veil);
    }
}

static void
paint_ring (const BwBandPaint *paint, graphene_rect_t rect, double out, double thickness,
            GdkRGBA colour, float radius)
{
  GskRoundedRect rounded;
  float t = (float)thickness;
  float widths[4] = { t, t, t, t };
  GdkRGBA colours[4] = { colour, colour, colour, colour };
  graphene_rect_inset (&rect, (float)-out, (float)-out);
  gsk_rounded_rect_init_from_rect (&rounded, &rect, radius);
  gtk_snapshot_append_border (paint->snapshot, &rounded, widths, colours);
}

void
bw_band_paint_marked (const BwBandPaint *paint, BwBeadAt bead, GdkRGBA colour, double thickness)
{
  int period = 2 * bw_band_layout_around (paint->layout);
  for (int image = paint->range.first_image; image <= paint->range.last_image; image++) {
    graphene_rect_t rect = bw_band_paint_brick (paint, bead.row + image * period, bead.column);
    float radius = MIN (rect.size.width, rect.size.height) * 0.2f;
    paint_ring (paint, rect, thickness + 1, 1, (GdkRGBA){ 0, 0, 0, 0.75f }, radius);
    paint_ring (paint, rect, thickness, thickness, colour, radius);
    paint_ring (paint, rect, 0, 1, (GdkRGBA){ 1, 1, 1, 0.9f }, radius);
  }
}

/* What a press would lay on the bead the pointer is over; −1 when it would change nothing or there
 * is no pointer. */
static int
colour_to_lay (BwBandCanvas *self, BwBeadAt bead)
{
  int colour = bw_session_get_colour (self->session), row = 0, column = 0;
  if (!self->pointer_inside || bw_hand_busy (self->hand)
      || bw_session_get_tool (self->session) == BW_TOOL_PICK
      || !bw_band_canvas_bead_at (self, self->pointer_x, self->pointer_y, &row, &column)
      || row != bead.row || column != bead.column
      || bw_drawing_get (bw_project_shown_drawing (self->project), row, column) == colour)
    return -1;
  return colour;
}

/* A drop of the colour in hand on the bead under the pointer. */
static void
paint_drop (BwBandCanvas *self, const BwBandPaint *paint, BwBeadAt bead)
{
  int index = colour_to_lay (self, bead);
  BwBandPoint at = bw_band_layout_point (paint->layout, self->pointer_x, self->pointer_y);
  graphene_rect_t rect = bw_band_paint_brick (paint, bw_band_brick (at).row, bead.column);
  float size = MIN (rect.size.width, rect.size.height) * 0.45f;
  if (index < 0 || size < 5)
    return;

  guint32 srgb = bw_project_shown_tray (self->project)->colour[index].srgb;
  GdkRGBA colour = { (float)(srgb >> 16 & 0xff) / 255, (float)(srgb >> 8 & 0xff) / 255,
                     (float)(srgb & 0xff) / 255, 1 };
  GskRoundedRect drop;
  graphene_rect_inset (&rect, (rect.size.width - size) / 2, (rect.size.height - size) / 2);
  gsk_rounded_rect_init_from_rect (&drop, &rect, size / 2);
  gtk_snapshot_push_rounded_clip (paint->snapshot, &drop);
  gtk_snapshot_append_color (paint->snapshot, &colour, &rect);
  gtk_snapshot_pop (paint->snapshot);
  paint_ring (paint, rect, 0, 1, (GdkRGBA){ 1, 1, 1, 0.8f }, size / 2);
}

static gboolean
hovered (BwBandCanvas *self, BwBeadAt *bead)
{
  gboolean in_bail;
  bw_session_get_hover (self->session, &in_bail, &bead->row, &bead->column);
  return !in_bail && bead->row >= 1 && bead->row <= self->layout.rows && bead->column >= 1
         && bead->column <= self->layout.columns;
}

static void
paint_content (BwBandCanvas *self, const BwBandPaint *paint, const BwBeadAt *hover,
               const BwBeadAt *cursor)
{
  const BwBandLayout *layout = paint->layout;
  double line = paint->style->line;

  gtk_snapshot_push_clip (paint->snapshot,
                          &GRAPHENE_RECT_INIT ((float)layout->x, (float)layout->y,
                                               (float)layout->width, (float)layout->height));
  bw_band_paint_rect (paint, layout->x, layout->y, layout->width, layout->height,
                      paint->style->ground);
  bw_band_paint_stone (paint);
  paint_beads (self, paint);
  paint_woven (self, paint);
  bw_band_paint_edges (paint);
  bw_band_paint_join (paint);
  bw_band_paint_bail (paint);
  bw_band_paint_face_names (paint);
  bw_band_paint_symmetry (paint, self->session);
  bw_band_paint_broken (paint, self->session);
  if (bw_session_get_selection (self->session) != NULL)
    bw_band_paint_selection (paint, bw_session_get_selection (self->session));
  if (hover != NULL) {
    bw_band_paint_marked (paint, *hover, paint->style->mark, line);
    paint_drop (self, paint, *hover);
  }
  if (cursor != NULL)
    bw_band_paint_marked (paint, *cursor, paint->style->mark, 2 + line);
  gtk_snapshot_pop (paint->snapshot);
}

void
bw_band_canvas_draw (BwBandCanvas *self, GtkSnapshot *snapshot)
{
  BwBeadAt hover = { 0, 0 };
  gboolean has_hover = hovered (self, &hover);
  gboolean has_cursor = self->cursor_shown && gtk_widget_has_focus (GTK_WIDGET (self));
  BwBandPaint paint = {
    .snapshot = snapshot,
    .layout = &self->layout,
    .style = &self->style,
    .faces = bw_band_canvas_faces (self),
    .text = self->text,
    .range = bw_band_layout_range (&self->layout),
    .scale = gtk_widget_get_scale_factor (GTK_WIDGET (self)),
    .widget_height = gtk_widget_get_height (GTK_WIDGET (self)),
    .marked = has_cursor  ? &self->cursor
              : has_hover ? &hover
                          : NULL,
  };

  if (self->layout.width <= 0 || self->layout.height <= 0)
    return;
  paint_content (self, &paint, has_hover ? &hover : NULL, has_cursor ? &self->cursor : NULL);
  bw_band_paint_rulers (&paint);
}
