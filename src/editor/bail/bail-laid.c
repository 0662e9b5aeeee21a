/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip as large as the view allows, the keyboard's bead on it, and what is under a point. */
#include "config.h"

#include "editor/bail/bail-laid.h"

#include "core/base/lattice.h"
#include "editor/bail/bail-cloth.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PITCH_LEAST_PX 9.0
#define PITCH_MOST_PX 26.0
#define HEIGHT_MOST_PX 380
#define PAD_PX 8.0

const BwDrawing *
bw_bail_laid_drawing (const BwBailLaid *laid)
{
  return bw_project_get_bail_drawing (laid->view->project);
}

void
bw_bail_laid_init (BwBailLaid *laid, BwBandView *view)
{
  *laid = (BwBailLaid){ .view = view,
                        .cursor = { 1, 2 },
                        .set = g_array_new (FALSE, FALSE, sizeof (BwBeadOf)) };
}

void
bw_bail_laid_clear (BwBailLaid *laid)
{
  g_clear_pointer (&laid->cloth, bw_drawing_free);
  g_clear_pointer (&laid->set, g_array_unref);
}

/* Room below the beads for row numbers and what the ends are. */
static double
foot_px (const BwBailLaid *laid)
{
  return ceil (2 * laid->view->style.text) + PAD_PX;
}

static double
zoom_for (const BwBailLaid *laid, double width, double height)
{
  const BwBandLayout *layout = &laid->view->layout;
  double across = (layout->rows + 1) / 2.0 + 0.5;
  double pitch_px = CLAMP ((width - 2 * PAD_PX) / across, PITCH_LEAST_PX, PITCH_MOST_PX);
  double zoom = pitch_px / (BW_ZOOM_PX_PER_MM * layout->pitch_mm);
  double room = height - foot_px (laid) - PAD_PX;
  double most = room / (layout->columns * layout->column_mm * BW_ZOOM_PX_PER_MM);
  return CLAMP (MIN (zoom, most), BW_ZOOM_MIN, BW_ZOOM_MAX);
}

/* The whole strip in the middle; where it is too long for the view, the cursor's part of it. */
void
bw_bail_laid_place (BwBailLaid *laid)
{
  GtkWidget *widget = laid->view->widget;
  BwBandLayout *layout = &laid->view->layout;
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  layout->x = 0;
  layout->y = PAD_PX;
  layout->width = width;
  layout->height = MAX (0, height - foot_px (laid) - PAD_PX);
  if (layout->rows < 1 || width <= 0)
    return;
  layout->zoom = zoom_for (laid, width, height);
  layout->rise = layout->columns / 2.0;
  layout->roll = (layout->rows - 1) / 4.0;
  double half = width / 2 / bw_band_layout_pitch_px (layout) - 0.75;
  double reach = (layout->rows - 1) / 2.0;
  if (2 * half < reach)
    layout->roll = CLAMP (bw_lattice_pitches (laid->lead + laid->cursor.row), half, reach - half);
}

void
bw_bail_laid_take (BwBailLaid *laid)
{
  const BwDesign *design = bw_project_get_design (laid->view->project);
  const BwDrawing *bail = bw_bail_laid_drawing (laid);
  BwBandLayout *layout = &laid->view->layout;
  int columns = layout->columns, rows = layout->rows;
  g_autoptr (GArray) past = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  bw_project_touched (laid->view->project, &laid->seen, past);
  g_clear_pointer (&laid->cloth, bw_drawing_free);
  layout->columns = layout->rows = 0;
  if (bail) {
    laid->lead = bw_bail_lead (&design->bail);
    laid->cloth = bw_bail_cloth (design, bw_project_bail_base (laid->view->project),
                                 bw_project_shown_drawing (laid->view->project), bail);
    layout->columns = bw_drawing_columns (laid->cloth);
    layout->rows = bw_drawing_rows (laid->cloth);
    laid->is_new = TRUE;
    laid->laid += (guint64)(layout->rows * layout->columns / 2);
    layout->pitch_mm = design->gauge.pitch_mm;
    layout->column_mm = design->gauge.column_mm;
    laid->cursor.row = CLAMP (laid->cursor.row, 1, bw_drawing_rows (bail));
    laid->cursor.column = CLAMP (laid->cursor.column, 1, layout->columns);
    if (!bw_lattice_has (laid->cursor.row, laid->cursor.column))
      laid->cursor.column += laid->cursor.column < layout->columns ? 1 : -1;
  }
  if (columns != layout->columns || rows != layout->rows)
    gtk_widget_queue_resize (laid->view->widget);
  bw_bail_laid_place (laid);
}

void
bw_bail_laid_follow (BwBailLaid *laid)
{
  BwProject *project = laid->view->project;
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  guint before = laid->set->len;
  if (!laid->cloth || !bw_project_touched (project, &laid->seen, beads)) {
    bw_bail_laid_take (laid);
    return;
  }
  bw_bail_cloth_follow (laid->cloth, bw_project_get_design (project),
                        bw_project_bail_base (project), bw_project_shown_drawing (project),
                        bw_bail_laid_drawing (laid), beads, laid->set);
  laid->laid += laid->set->len - before;
}

/* --- Words and pointing ------------------------------------------------------------------------
 */

gboolean
bw_bail_laid_has (BwBailLaid *laid, int row, int column)
{
  const BwDrawing *drawing = bw_bail_laid_drawing (laid);
  return drawing && row >= 1 && row <= bw_drawing_rows (drawing) && column >= 1
         && column <= bw_drawing_columns (drawing) && bw_lattice_has (row, column);
}

/* Owned; NULL where the bail has no such bead. */
static char *
bead_words (BwBailLaid *laid, int row, int column)
{
  const BwDrawing *drawing = bw_bail_laid_drawing (laid);
  const BwTray *tray = bw_project_shown_tray (laid->view->project);
  if (!bw_bail_laid_has (laid, row, column))
    return NULL;
  const BwColour *colour = &tray->colour[bw_drawing_get (drawing, row, column)];
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  if (colour->name[0] != '\0')
    return g_strdup_printf (_ ("Bail, row %d, column %d, %s"), row, column, colour->name);
  return g_strdup_printf (_ ("Bail, row %d, column %d, colour %s"), row, column, letter);
}

gboolean
bw_bail_laid_hovered (BwBailLaid *laid, BwBeadAt *bead)
{
  gboolean in_bail;
  bw_session_get_hover (laid->view->session, &in_bail, &bead->row, &bead->column);
  return in_bail && bead->row > 0;
}

void
bw_bail_laid_tell (BwBailLaid *laid, const char *note)
{
  GtkWidget *widget = laid->view->widget;
  BwBeadAt hover;
  g_autofree char *at_hover
      = bw_bail_laid_hovered (laid, &hover) ? bead_words (laid, hover.row, hover.column) : NULL;
  g_autofree char *at_cursor = bead_words (laid, laid->cursor.row, laid->cursor.column);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  at_cursor ? at_cursor : "", -1);
  bw_unrolled_tell (BW_UNROLLED (widget), note ? note : at_hover ? at_hover : "");
}

void
bw_bail_laid_set_cursor (BwBailLaid *laid, BwBeadAt bead, gboolean shown)
{
  laid->cursor = bead;
  laid->cursor_shown = shown;
  if (shown) {
    bw_bail_laid_place (laid);
    bw_session_set_hover (laid->view->session, TRUE, bead.row, bead.column);
  }
  bw_bail_laid_tell (laid, NULL);
  gtk_widget_queue_draw (laid->view->widget);
}

gboolean
bw_bail_laid_bead_at (BwBailLaid *laid, double x, double y, int *row, int *column)
{
  const BwDrawing *drawing = bw_bail_laid_drawing (laid);
  if (!drawing || !laid->cloth)
    return FALSE;
  BwBeadAt brick = bw_band_brick (bw_band_layout_point (&laid->view->layout, x, y));
  *row = brick.row - laid->lead;
  *column = brick.column;
  return *row >= 1 && *row <= bw_drawing_rows (drawing) && *column >= 1
         && *column <= bw_drawing_columns (drawing);
}

gboolean
bw_bail_laid_bead_point (BwBailLaid *laid, int row, int column, double *x, double *y)
{
  if (!bw_bail_laid_has (laid, row, column))
    return FALSE;
  BwBandPoint middle = bw_band_middle (laid->lead + row, column);
  *x = bw_band_layout_x (&laid->view->layout, middle.u);
  *y = bw_band_layout_y (&laid->view->layout, middle.v);
  return TRUE;
}

int
bw_bail_laid_height (const BwBailLaid *laid, int width)
{
  const BwBandLayout *layout = &laid->view->layout;
  double rest = foot_px (laid) + PAD_PX, beads = 0;
  if (laid->cloth)
    beads = layout->columns * layout->column_mm * BW_ZOOM_PX_PER_MM
            * zoom_for (laid, width, HEIGHT_MOST_PX);
  return (int)ceil (MIN (beads + rest, HEIGHT_MOST_PX));
}

const char *
bw_bail_laid_missed (BwBailLaid *laid, double x, double y)
{
  BwBeadAt brick = bw_band_brick (bw_band_layout_point (&laid->view->layout, x, y));
  gboolean on_cloth = laid->cloth && brick.row >= 1 && brick.row <= laid->view->layout.rows
                      && brick.column >= 1 && brick.column <= laid->view->layout.columns;
  return on_cloth ? _ ("These beads are the band’s: draw on them at the Draw stage.")
                  : _ ("There is no bead of the bail here.");
}
