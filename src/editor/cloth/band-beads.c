/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The beads of one frame, laid as tiles: for every widget that shows a piece of weaving. */
#include "editor/cloth/band-paint.h"

#include <math.h>

/* The glass fills the brick as far as the maker's gauge lets it; a sliver of shadow is always left,
 * so that beads stay beads. */
static BwBeadSize
bead_size (const BwBandPaint *paint, const BwDesign *design, gboolean letters)
{
  return (BwBeadSize){
    .pitch_px = bw_band_layout_pitch_px (paint->layout) * paint->scale,
    .column_px = bw_band_layout_column_px (paint->layout) * paint->scale,
    .fill_x = CLAMP (design->bead.diameter_mm / design->gauge.pitch_mm, 0.4, 1) * 0.97,
    .fill_y = CLAMP (design->bead.length_mm / design->gauge.column_mm, 0.4, 1) * 0.96,
    .letters = letters,
  };
}

void
bw_band_beads_take (const BwBandPaint *paint, BwBandTiles *tiles, BwProject *project,
                    const BwDrawing *drawing, gboolean letters)
{
  BwBeadSize size = bead_size (paint, bw_project_get_design (project), letters);
  PangoContext *font = pango_layout_get_context (paint->text);
  if (drawing == bw_project_shown_drawing (project))
    bw_band_tiles_set_band (tiles, project, &size, font);
  else
    bw_band_tiles_set (tiles, drawing, bw_project_shown_tray (project), &size, font);
}

void
bw_band_beads_take_set (const BwBandPaint *paint, BwBandTiles *tiles, BwProject *project,
                        const BwDrawing *drawing, const GArray *beads)
{
  BwBeadSize size = bead_size (paint, bw_project_get_design (project), FALSE);
  bw_band_tiles_set_beads (tiles, drawing, bw_project_shown_tray (project), &size,
                           pango_layout_get_context (paint->text), beads);
}

/* Tiles lie on whole pixels of the screen, so that they are copied and never resampled. */
static void
paint_tiles (const BwBandPaint *paint, BwBandTiles *tiles, int image)
{
  const BwBandLayout *layout = paint->layout;
  double side = BW_TILE_PX / paint->scale;
  double left = bw_band_paint_x (paint, image * (double)bw_band_layout_around (layout) - 0.5);
  double top = bw_band_paint_y (paint, layout->columns);
  int width, height;
  bw_band_tiles_extent (tiles, &width, &height);

  int first_i = MAX (0, (int)floor ((layout->x - left) / side));
  int first_j = MAX (0, (int)floor ((layout->y - top) / side));
  int last_i
      = MIN ((width - 1) / BW_TILE_PX, (int)floor ((layout->x + layout->width - left) / side));
  int last_j
      = MIN ((height - 1) / BW_TILE_PX, (int)floor ((layout->y + layout->height - top) / side));
  for (int j = first_j; j <= last_j; j++)
    for (int i = first_i; i <= last_i; i++)
      gtk_snapshot_append_texture (paint->snapshot, bw_band_tiles_get (tiles, i, j),
                                   &GRAPHENE_RECT_INIT ((float)(left + i * side),
                                                        (float)(top + j * side), (float)side,
                                                        (float)side));
}

void
bw_band_paint_beads (const BwBandPaint *paint, BwBandTiles *tiles, int image, double ghost_opacity)
{
  double ghost = bw_band_layout_ghost (paint->layout, image);
  if (ghost > 0)
    gtk_snapshot_push_opacity (paint->snapshot, 1 - (1 - ghost_opacity) * ghost);
  paint_tiles (paint, tiles, image);
  if (ghost > 0)
    gtk_snapshot_pop (paint->snapshot);
}
