/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every widget that unrolls a band does alike: sizes, style, faces, what is under a point. */
#include "editor/cloth/band-view.h"

void
bw_band_view_init (BwBandView *view, GtkWidget *widget)
{
  *view = (BwBandView){ .widget = widget, .tiles = bw_band_tiles_new () };
  view->layout.zoom = 1;
}

void
bw_band_view_clear (BwBandView *view)
{
  g_clear_object (&view->project);
  g_clear_object (&view->session);
  g_clear_object (&view->text);
  g_clear_pointer (&view->tiles, bw_band_tiles_free);
  bw_band_view_spoil_faces (view);
  bw_band_faces_clear (&view->faces);
}

void
bw_band_view_take_style (BwBandView *view)
{
  bw_band_style_init (&view->style, view->widget);
  g_clear_object (&view->text);
  view->text = bw_band_style_layout (view->widget);
}

gboolean
bw_band_view_take_band (BwBandView *view)
{
  const BwDesign *design = bw_project_get_design (view->project);
  BwBandLayout *layout = &view->layout, was = *layout;

  layout->columns = design->band.columns;
  layout->rows = design->band.rows;
  layout->pitch_mm = design->gauge.pitch_mm;
  layout->column_mm = design->gauge.column_mm;
  return was.columns != layout->columns || was.rows != layout->rows
         || was.pitch_mm != layout->pitch_mm || was.column_mm != layout->column_mm;
}

void
bw_band_view_place_in_rulers (BwBandView *view)
{
  BwBandLayout *layout = &view->layout;
  layout->x = bw_band_ruler_width (&view->style);
  layout->y = 0;
  layout->width = MAX (0, gtk_widget_get_width (view->widget) - layout->x);
  layout->height
      = MAX (0, gtk_widget_get_height (view->widget) - bw_band_ruler_height (&view->style));
}

const BwBandFaces *
bw_band_view_faces (BwBandView *view)
{
  if (!view->faces_hold) {
    bw_band_faces_clear (&view->faces);
    bw_band_faces_init (&view->faces, bw_project_get_design (view->project),
                        bw_project_stone (view->project), bw_project_bail_base (view->project));
    view->faces_hold = TRUE;
  }
  return &view->faces;
}

void
bw_band_view_spoil_faces (BwBandView *view)
{
  view->faces_hold = FALSE;
}

gboolean
bw_band_view_has (const BwBandView *view, double x, double y)
{
  const BwBandLayout *layout = &view->layout;
  return x >= layout->x && x < layout->x + layout->width && y >= layout->y
         && y < layout->y + layout->height;
}

gboolean
bw_band_view_bead (const BwBandView *view, double x, double y, BwBeadAt *bead)
{
  return bw_band_view_has (view, x, y)
         && bw_band_layout_bead (&view->layout, bw_band_layout_point (&view->layout, x, y), bead);
}

gboolean
bw_band_view_paint (BwBandView *view, GtkSnapshot *snapshot, BwBandPaint *paint)
{
  if (view->layout.width <= 0 || view->layout.height <= 0)
    return FALSE;
  *paint = (BwBandPaint){
    .snapshot = snapshot,
    .session = view->session,
    .layout = &view->layout,
    .style = &view->style,
    .faces = bw_band_view_faces (view),
    .text = view->text,
    .range = bw_band_layout_range (&view->layout),
    .scale = gtk_widget_get_scale_factor (view->widget),
    .widget_height = gtk_widget_get_height (view->widget),
  };
  bw_band_stone_tints (paint, bw_project_get_mineral (view->project));
  return TRUE;
}
