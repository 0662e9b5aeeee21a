/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the strip: the bail's beads, those of the band before and after them, row numbers.
 */
#include "config.h"

#include "editor/bail/bail-strip-draw.h"

#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>

/* What belongs to the band recedes: it is there to go on from. */
static void
veil (const BwBandPaint *paint, int first_row, int last_row)
{
  GdkRGBA ground = paint->style->ground;
  ground.alpha = 0.62f;
  for (int column = 1; column <= paint->layout->columns; column++)
    for (int row = first_row; row <= last_row; row++) {
      if (!bw_lattice_has (row, column))
        continue;
      graphene_rect_t rect = bw_band_paint_brick (paint, row, column);
      gtk_snapshot_append_color (paint->snapshot, &ground, &rect);
    }
}

static void
number_rows (const BwBailLaid *laid, const BwBandPaint *paint)
{
  int rows = paint->layout->rows - 2 * laid->lead;
  double row_px = bw_band_layout_pitch_px (paint->layout) / 2;
  double y = bw_band_paint_y (paint, 0) + 3, room = 3.5 * paint->style->digit;
  int step = row_px * 5 >= room ? 5 : row_px * 10 >= room ? 10 : 50;
  for (int row = 1; row <= rows; row += row == 1 && step > 1 ? step - 1 : step) {
    g_autofree char *number = g_strdup_printf ("%d", row);
    double x = bw_band_layout_x (paint->layout, bw_lattice_pitches (laid->lead + row));
    bw_band_paint_text (paint, number, x, y, paint->style->ink);
  }
}

/* What the two ends are, under the band's beads there. */
static void
name_ends (const BwBailLaid *laid, const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const char *words[2] = { _ ("off the band"), _ ("sewn down") };
  double y = bw_band_paint_y (paint, 0) + 3 + paint->style->text;
  if (laid->lead == 0)
    return;
  for (int i = 0; i < 2; i++) {
    double half = bw_band_paint_text_width (paint, words[i]) / 2 + 4;
    int row = i == 0 ? laid->lead / 2 : layout->rows - laid->lead / 2;
    double x = bw_band_layout_x (layout, bw_lattice_pitches (row));
    x = CLAMP (x, half, MAX (half, layout->width - half));
    bw_band_paint_text (paint, words[i], x, y, paint->style->ink);
  }
}

static void
paint_strip (BwBailLaid *laid, const BwBandPaint *paint)
{
  BwBeadAt hover, cursor = laid->cursor;
  gboolean focus = laid->cursor_shown && gtk_widget_has_focus (laid->view->widget);
  double line = paint->style->line;
  bw_band_beads_take_set (paint, laid->view->tiles, laid->view->project, laid->cloth,
                          laid->is_new ? NULL : laid->set);
  laid->is_new = FALSE;
  g_array_set_size (laid->set, 0);
  bw_band_paint_beads (paint, laid->view->tiles, 0, 1);
  bw_band_tiles_trim (laid->view->tiles);
  veil (paint, 1, laid->lead);
  veil (paint, paint->layout->rows - laid->lead + 1, paint->layout->rows);
  number_rows (laid, paint);
  name_ends (laid, paint);
  if (bw_bail_laid_hovered (laid, &hover) && bw_bail_laid_has (laid, hover.row, hover.column)) {
    hover.row += laid->lead;
    bw_band_paint_marked (paint, hover, paint->style->mark, line);
  }
  cursor.row += laid->lead;
  if (focus)
    bw_band_paint_marked (paint, cursor, paint->style->mark, 2 + line);
}

void
bw_bail_strip_draw (BwBailLaid *laid, GtkSnapshot *snapshot)
{
  BwBandView *view = laid->view;
  BwBandPaint paint = {
    .snapshot = snapshot,
    .layout = &view->layout,
    .style = &view->style,
    .text = view->text,
    .range = { 0, 0, 1, view->layout.rows, 1, view->layout.columns },
    .scale = gtk_widget_get_scale_factor (view->widget),
    .widget_height = gtk_widget_get_height (view->widget),
  };
  double width = gtk_widget_get_width (view->widget);
  bw_band_paint_rect (&paint, 0, 0, width, paint.widget_height, view->style.ground);
  if (laid->cloth && width > 0 && view->layout.height > 0)
    paint_strip (laid, &paint);
}
