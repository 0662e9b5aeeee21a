/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas itself: it owns the parts and wires them. What it looks like is in band-draw.c, what
 * the maker does to it in band-input.c and band-keys.c. */
#include "config.h"

#include "editor/band/band-canvas.h"

#include "core/base/lattice.h"
#include "editor/band/band-draw.h"
#include "editor/band/band-input.h"

#include <glib/gi18n-lib.h>
#include <math.h>

struct _BwBandCanvas {
  BwUnrolled parent;
  BwBandView *view; /* the parent's */
  BwBandWork work;
  BwBandInput input;
  gboolean letters;
};

G_DEFINE_FINAL_TYPE (BwBandCanvas, bw_band_canvas, BW_TYPE_UNROLLED)

/* --- Keeping in step ---------------------------------------------------------------------------
 */

static void
take_design (BwBandCanvas *self)
{
  BwBandLayout *layout = &self->view->layout;
  bw_band_view_take_band (self->view);
  bw_band_view_spoil_faces (self->view);
  layout->zoom = CLAMP (layout->zoom, BW_ZOOM_MIN, bw_band_layout_zoom_max (layout));
  bw_band_roll_follow (&self->work.roll);
  bw_band_cursor_keep_on (&self->work.cursor, layout);
  bw_unrolled_seen (BW_UNROLLED (self));
}

static void
bw_band_canvas_changed (BwUnrolled *unrolled, guint what)
{
  BwBandCanvas *self = BW_BAND_CANVAS (unrolled);
  if (self->work.laid) /* another step is the last one now */
    bw_band_work_say (&self->work, NULL);
  self->work.laid = FALSE;
  if (what & BW_CHANGED_SHAPE) {
    bw_band_air_lay_down (&self->work.air);
    take_design (self);
  }
  /* The mineral, which colours the stone, and the rows that are woven. */
  if (what & (BW_CHANGED_TITLE | BW_CHANGED_PROGRESS))
    gtk_widget_queue_draw (GTK_WIDGET (self));
  if (what & (BW_CHANGED_SHAPE | BW_CHANGED_CELLS | BW_CHANGED_TRAY)) {
    bw_band_work_tell (&self->work);
    gtk_widget_queue_draw (GTK_WIDGET (self));
  }
}

static void
bw_band_canvas_leave (BwUnrolled *unrolled)
{
  bw_band_work_drop (&BW_BAND_CANVAS (unrolled)->work);
}

static void
bw_band_canvas_taken (BwUnrolled *unrolled)
{
  BW_BAND_CANVAS (unrolled)->work.roll.fitted = BW_FIT_TO_DRAW;
}

static void
bw_band_canvas_place (BwUnrolled *unrolled)
{
  BwBandCanvas *self = BW_BAND_CANVAS (unrolled);
  bw_band_view_place_in_rulers (self->view);
  if (self->work.roll.fitted != BW_FIT_NOT)
    bw_band_roll_follow (&self->work.roll);
  bw_unrolled_seen (unrolled);
}

static void
take_hand (BwBandCanvas *self)
{
  const BwTool *tool = bw_tool_get (bw_session_get_tool (self->view->session));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), tool->cursor);
  /* Another tool in hand: what a key began with the last one is not half done, it is off. */
  if (self->work.by_keyboard && bw_hand_get_tool (self->work.hand) != tool)
    bw_hand_revert (self->work.hand);
}

/* Pointed at from elsewhere, on the stone: the maker went on. */
static gboolean
is_pointed_at_elsewhere (BwBandCanvas *self)
{
  BwBeadAt bead, cursor = self->work.cursor.at;
  gboolean in_bail;
  bw_session_get_hover (self->view->session, &in_bail, &bead.row, &bead.column);
  return !self->work.pointer_inside && bead.row > 0
         && (in_bail || bead.row != cursor.row || bead.column != cursor.column);
}

static void
take_hover (BwBandCanvas *self)
{
  if (is_pointed_at_elsewhere (self))
    bw_band_work_say (&self->work, NULL);
  bw_band_work_tell (&self->work);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
settle (BwBandCanvas *self)
{
  bw_band_work_settle (&self->work);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static gboolean
hovered (BwBandCanvas *self, BwBeadAt *bead)
{
  const BwBandLayout *layout = &self->view->layout;
  gboolean in_bail;
  bw_session_get_hover (self->view->session, &in_bail, &bead->row, &bead->column);
  return !in_bail && bead->row >= 1 && bead->row <= layout->rows && bead->column >= 1
         && bead->column <= layout->columns;
}

/* What a press would lay on the bead the pointer is over; −1 when it would change nothing or there
 * is no pointer. */
static int
colour_to_lay (BwBandCanvas *self, BwBeadAt bead)
{
  const BwBandWork *work = &self->work;
  int colour = bw_session_get_colour (self->view->session);
  BwBeadAt at = { 0, 0 };
  if (!work->pointer_inside || bw_hand_busy (work->hand)
      || bw_session_get_tool (self->view->session) == BW_TOOL_PICK
      || !bw_band_view_bead (self->view, work->pointer_x, work->pointer_y, &at)
      || at.row != bead.row || at.column != bead.column
      || bw_drawing_get (bw_project_shown_drawing (self->view->project), at.row, at.column)
             == colour)
    return -1;
  return colour;
}

static void
bw_band_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBandCanvas *self = BW_BAND_CANVAS (widget);
  BwBandWork *work = &self->work;
  BwBeadAt hover = { 0, 0 };
  BwBandPoint at = bw_band_layout_point (&self->view->layout, work->pointer_x, work->pointer_y);
  gboolean has_hover = hovered (self, &hover);
  BwBandShown shown = {
    .view = self->view,
    .letters = self->letters,
    .hover = has_hover ? &hover : NULL,
    .cursor = work->cursor.shown && gtk_widget_has_focus (widget) ? &work->cursor.at : NULL,
    .drop = has_hover ? colour_to_lay (self, hover) : -1,
    .drop_row = bw_band_brick (at).row,
  };
  bw_band_draw (&shown, snapshot);
}

static void
bw_band_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;
  *minimum = across ? 160 : 140;
  *natural = across ? 640 : 360;
}

static void
bw_band_canvas_dispose (GObject *object)
{
  bw_band_roll_stop (&BW_BAND_CANVAS (object)->work.roll);
  G_OBJECT_CLASS (bw_band_canvas_parent_class)->dispose (object);
}

static void
bw_band_canvas_finalize (GObject *object)
{
  bw_band_work_clear (&BW_BAND_CANVAS (object)->work);
  G_OBJECT_CLASS (bw_band_canvas_parent_class)->finalize (object);
}

static void
bw_band_canvas_class_init (BwBandCanvasClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  BwUnrolledClass *unrolled_class = BW_UNROLLED_CLASS (class);

  object_class->dispose = bw_band_canvas_dispose;
  object_class->finalize = bw_band_canvas_finalize;
  widget_class->measure = bw_band_canvas_measure;
  widget_class->snapshot = bw_band_canvas_snapshot;
  unrolled_class->place = bw_band_canvas_place;
  unrolled_class->changed = bw_band_canvas_changed;
  unrolled_class->leave = bw_band_canvas_leave;
  unrolled_class->taken = bw_band_canvas_taken;
  g_signal_new ("menu", BW_TYPE_BAND_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 4,
                G_TYPE_DOUBLE, G_TYPE_DOUBLE, G_TYPE_INT, G_TYPE_INT);
  gtk_widget_class_set_css_name (widget_class, "bandcanvas");
  /* GTK 4.8 offers no virtual children for a drawn grid; a group's name and description are read.
   */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bw_band_canvas_init (BwBandCanvas *self)
{
  self->view = bw_unrolled_view (BW_UNROLLED (self));
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The band unrolled"), -1);
}

GtkWidget *
bw_band_canvas_new (BwSession *session)
{
  BwBandCanvas *self = g_object_new (BW_TYPE_BAND_CANVAS, NULL);
  bw_band_work_init (&self->work, self->view, session);
  bw_band_input_init (&self->input, &self->work);
  bw_unrolled_show (BW_UNROLLED (self), session);
  g_signal_connect_swapped (session, "hover-changed", G_CALLBACK (take_hover), self);
  g_signal_connect_swapped (session, "hand-changed", G_CALLBACK (take_hand), self);
  g_signal_connect_swapped (session, "symmetry-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (session, "selection-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (session, "locks-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (settle), self);
  take_hand (self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

const BwBandLayout *
bw_band_canvas_get_layout (BwBandCanvas *self)
{
  return &self->view->layout;
}

const BwBandFaces *
bw_band_canvas_get_faces (BwBandCanvas *self)
{
  return bw_band_view_faces (self->view);
}

double
bw_band_canvas_get_zoom (BwBandCanvas *self)
{
  return self->view->layout.zoom;
}

void
bw_band_canvas_set_zoom (BwBandCanvas *self, double zoom)
{
  bw_band_work_zoom (&self->work, zoom);
}

void
bw_band_canvas_fit (BwBandCanvas *self)
{
  bw_band_roll_fit (&self->work.roll, BW_FIT_WHOLE);
}

void
bw_band_canvas_roll_to (BwBandCanvas *self, double pitches)
{
  const BwBandLayout *layout = &self->view->layout;
  int n = bw_band_layout_around (layout);
  double turns = round ((layout->roll - pitches) / n);
  bw_band_roll_glide_to (&self->work.roll, pitches + turns * n);
}

void
bw_band_canvas_roll_by (BwBandCanvas *self, double pitches)
{
  BwBandLayout *layout = &self->view->layout;
  bw_band_layout_pan (layout, -pitches * bw_band_layout_pitch_px (layout), 0);
  bw_band_work_moved (&self->work);
}

void
bw_band_canvas_set_letters (BwBandCanvas *self, gboolean letters)
{
  self->letters = letters;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
bw_band_canvas_bead_at (BwBandCanvas *self, double x, double y, int *row, int *column)
{
  BwBeadAt bead;
  if (!bw_band_view_bead (self->view, x, y, &bead))
    return FALSE;
  *row = bead.row;
  *column = bead.column;
  return TRUE;
}

gboolean
bw_band_canvas_bead_point (BwBandCanvas *self, int row, int column, double *x, double *y)
{
  const BwBandLayout *layout = &self->view->layout;
  if (row < 1 || row > layout->rows || column < 1 || column > layout->columns
      || !bw_lattice_has (row, column))
    return FALSE;
  BwBandPoint middle = bw_band_middle (bw_band_layout_nearest (layout, row), column);
  *x = bw_band_layout_x (layout, middle.u);
  *y = bw_band_layout_y (layout, middle.v);
  return TRUE;
}

void
bw_band_canvas_do (BwBandCanvas *self, BwBandDeed deed)
{
  bw_band_deeds_do (&self->work, deed);
}

void
bw_band_canvas_paste_text (BwBandCanvas *self, const char *text)
{
  bw_band_deeds_paste_text (&self->work, text);
}

gboolean
bw_band_canvas_take_up (BwBandCanvas *self)
{
  return bw_band_work_take_up (&self->work);
}

void
bw_band_canvas_fill (BwBandCanvas *self, const BwRegion *region)
{
  bw_band_deeds_fill (&self->work, region);
}

gboolean
bw_band_canvas_has_piece (BwBandCanvas *self)
{
  return self->work.air.piece != NULL;
}

void
bw_band_canvas_pick_up (BwBandCanvas *self, int row, int column)
{
  bw_band_work_pick_up (&self->work, (BwBeadAt){ row, column });
}

void
bw_band_canvas_lock (BwBandCanvas *self, int column)
{
  bw_band_deeds_lock (&self->work, column);
}

void
bw_band_canvas_say (BwBandCanvas *self, const char *sentence)
{
  bw_band_work_say (&self->work, sentence);
}
