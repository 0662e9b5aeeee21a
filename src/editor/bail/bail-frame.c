/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is pulled at must be seen, and beads need be no larger than it takes to count them. */
#include "editor/bail/bail-frame.h"

#include <math.h>

#define SPARE_PITCHES 1.5  /* of the neighbouring ghosts, shown when the whole turn is */
#define PITCH_MOST_PX 44.0 /* beads need be no larger to be counted */
#define HEIGHT_LEAST_PX 150
#define HEIGHT_MOST_PX 420

gboolean
bw_bail_frame_box (const BwBandView *view, BwBailBox *box)
{
  const BwBailBase *base = bw_project_bail_base (view->project);
  if (base == NULL)
    return FALSE;
  *box = bw_bail_box_near (bw_bail_box (base), view->layout.roll,
                           bw_band_layout_around (&view->layout));
  return TRUE;
}

static double
zoom_most (const BwBandLayout *layout)
{
  double least = BW_ZOOM_MIN, most = PITCH_MOST_PX / (BW_ZOOM_PX_PER_MM * layout->pitch_mm);
  return CLAMP (most, least, BW_ZOOM_MAX);
}

void
bw_bail_frame_centre (BwBandView *view)
{
  BwBandLayout *layout = &view->layout;
  BwBailBox box;
  if (layout->width <= 0 || layout->height <= 0)
    return;
  bw_band_layout_fit (layout, SPARE_PITCHES, bw_band_margin_px (&view->style) + 2);
  layout->zoom = MIN (layout->zoom, zoom_most (layout));
  if (bw_bail_frame_box (view, &box))
    layout->roll = (box.left + box.right) / 2;
  bw_band_layout_normalise (layout);
  gtk_widget_queue_draw (view->widget);
}

void
bw_bail_frame_reveal (BwBandView *view)
{
  BwBandLayout *layout = &view->layout;
  BwBailBox box;
  if (layout->width <= 0 || layout->height <= 0 || !bw_bail_frame_box (view, &box))
    return;
  double left = bw_band_layout_x (layout, box.left) - layout->x - 2 * BW_BAIL_REACH_PX;
  double right
      = layout->x + layout->width - bw_band_layout_x (layout, box.right) - 2 * BW_BAIL_REACH_PX;
  if (left >= 0 && right >= 0)
    return;
  bw_band_layout_pan (layout, left < 0 ? -left : right, 0);
  bw_band_layout_normalise (layout);
}

int
bw_bail_frame_height (const BwBandView *view, int width)
{
  const BwBandLayout *layout = &view->layout;
  double across = MAX (1, width - bw_band_ruler_width (&view->style));
  double turn_mm = (bw_band_layout_around (layout) + 0.5 + 2 * SPARE_PITCHES) * layout->pitch_mm;
  double zoom = CLAMP (across / (turn_mm * BW_ZOOM_PX_PER_MM), BW_ZOOM_MIN, zoom_most (layout));
  double band = layout->columns * layout->column_mm * zoom * BW_ZOOM_PX_PER_MM;
  double rest = 2 * bw_band_margin_px (&view->style) + 4 + bw_band_ruler_height (&view->style);
  return (int)ceil (CLAMP (band + rest, HEIGHT_LEAST_PX, HEIGHT_MOST_PX));
}
