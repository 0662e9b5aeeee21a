/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything follows from the placement and the canvas's layout at the moment it is asked for:
 * nothing is kept but what a drag began with. */
#include "config.h"

#include "app/kit/palette.h"
#include "app/draw/picture-frame.h"
#include "editor/cloth/band-layout.h"

#include <math.h>

#define REACH 14.0 /* pixels round a grip that still take hold of it */
#define KNOB 30.0  /* pixels from the upper edge to the knob */
#define GRIP 9.0

typedef enum { NOTHING, BODY, CORNER, TURN } Grip;

/* The picture on the canvas, in pixels. */
typedef struct {
  double x, y; /* its middle */
  double half_w, half_h;
  double turn; /* radians, counter-clockwise */
  double px_per_mm, pitch_px, column_px;
} Outline;

struct _BwPictureFrame {
  GtkWidget parent_instance;
  BwBandCanvas *canvas;
  BwPicturePanel *panel;
  Grip grip;
  BwPlacement held;      /* when the drag began */
  double from_x, from_y; /* where, from the middle */
};

G_DEFINE_FINAL_TYPE (BwPictureFrame, bw_picture_frame, GTK_TYPE_WIDGET)

static gboolean
outline_of (BwPictureFrame *self, Outline *outline)
{
  const BwBandLayout *layout = bw_band_canvas_get_layout (self->canvas);
  int around = bw_band_layout_around (layout);
  BwPlacement at;
  double aspect;
  if (!bw_picture_panel_get_placement (self->panel, &at, &aspect))
    return FALSE;
  outline->pitch_px = bw_band_layout_pitch_px (layout);
  outline->column_px = bw_band_layout_column_px (layout);
  outline->px_per_mm = outline->pitch_px / layout->pitch_mm;
  outline->x = bw_band_layout_x (layout, at.u + around * round ((layout->roll - at.u) / around));
  outline->y = bw_band_layout_y (layout, at.v);
  outline->half_w = at.width_mm * outline->px_per_mm / 2;
  outline->half_h = outline->half_w * aspect;
  outline->turn = at.turn_deg * G_PI / 180;
  return TRUE;
}

static Grip
grip_at (BwPictureFrame *self, double x, double y)
{
  Outline o;
  if (!outline_of (self, &o))
    return NOTHING;
  double dx = x - o.x, dy = o.y - y;
  double right = dx * cos (o.turn) + dy * sin (o.turn);
  double up = dy * cos (o.turn) - dx * sin (o.turn);
  if (hypot (right, up - o.half_h - KNOB) <= REACH)
    return TURN;
  if (hypot (fabs (right) - o.half_w, fabs (up) - o.half_h) <= REACH)
    return CORNER;
  return fabs (right) <= o.half_w && fabs (up) <= o.half_h ? BODY : NOTHING;
}

static gboolean
bw_picture_frame_contains (GtkWidget *widget, double x, double y)
{
  BwPictureFrame *self = BW_PICTURE_FRAME (widget);
  return self->grip != NOTHING || grip_at (self, x, y) != NOTHING;
}

/* --- drawing -------------------------------------------------------------------------------- */

static void
draw_grip (GtkSnapshot *snapshot, double x, double y, const GdkRGBA *inside, const GdkRGBA *line)
{
  graphene_rect_t box
      = GRAPHENE_RECT_INIT ((float)(x - GRIP / 2), (float)(y - GRIP / 2), (float)GRIP, (float)GRIP);
  GskRoundedRect round;
  gsk_rounded_rect_init_from_rect (&round, &box, (float)GRIP / 2);
  gtk_snapshot_push_rounded_clip (snapshot, &round);
  gtk_snapshot_append_color (snapshot, inside, &box);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &round, (float[4]){ 2, 2, 2, 2 },
                              (GdkRGBA[4]){ *line, *line, *line, *line });
}

static void
draw_edge (GtkSnapshot *snapshot, const Outline *o, double inset, const GdkRGBA *colour)
{
  GskRoundedRect edge;
  gsk_rounded_rect_init_from_rect (
      &edge,
      &GRAPHENE_RECT_INIT ((float)(inset - o->half_w), (float)(inset - o->half_h),
                           (float)(2 * (o->half_w - inset)), (float)(2 * (o->half_h - inset))),
      0);
  gtk_snapshot_append_border (snapshot, &edge, (float[4]){ 2, 2, 2, 2 },
                              (GdkRGBA[4]){ *colour, *colour, *colour, *colour });
}

static void
bw_picture_frame_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA line = bw_palette_tint (BW_TINT_TIDE, FALSE);
  GdkRGBA ground = bw_palette_tint (BW_TINT_CARD, FALSE);
  Outline o;
  if (!outline_of (BW_PICTURE_FRAME (widget), &o))
    return;
  gtk_style_context_lookup_color (style, "theme_selected_bg_color", &line);
  gtk_style_context_lookup_color (style, "theme_base_color", &ground);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)o.x, (float)o.y));
  gtk_snapshot_rotate (snapshot, (float)(-o.turn * 180 / G_PI));
  /* Two lines, light and dark, so that it is seen on beads of any colour. */
  draw_edge (snapshot, &o, -2, &ground);
  draw_edge (snapshot, &o, 0, &line);
  gtk_snapshot_append_color (snapshot, &line,
                             &GRAPHENE_RECT_INIT (-1, (float)(-o.half_h - KNOB), 2, (float)KNOB));
  for (int i = 0; i < 4; i++)
    draw_grip (snapshot, i % 2 ? o.half_w : -o.half_w, i / 2 ? o.half_h : -o.half_h, &ground,
               &line);
  draw_grip (snapshot, 0, -o.half_h - KNOB, &line, &ground);
  gtk_snapshot_restore (snapshot);
}

/* --- hands ---------------------------------------------------------------------------------- */

static void
drag_begin (BwPictureFrame *self, double x, double y)
{
  Outline o;
  double aspect;
  self->grip = grip_at (self, x, y);
  if (!outline_of (self, &o))
    return;
  bw_picture_panel_get_placement (self->panel, &self->held, &aspect);
  self->from_x = x - o.x;
  self->from_y = o.y - y;
}

static void
drag_update (BwPictureFrame *self, double dx, double dy)
{
  BwPlacement at = self->held;
  double x = self->from_x + dx, y = self->from_y - dy;
  Outline o;
  if (self->grip == NOTHING || !outline_of (self, &o))
    return;
  if (self->grip == BODY) {
    at.u += dx / o.pitch_px;
    at.v -= dy / o.column_px;
  } else if (self->grip == CORNER) {
    at.width_mm *= hypot (x, y) / MAX (1, hypot (self->from_x, self->from_y));
  } else {
    at.turn_deg += (atan2 (y, x) - atan2 (self->from_y, self->from_x)) * 180 / G_PI;
  }
  bw_picture_panel_set_placement (self->panel, &at);
}

static void
drag_end (BwPictureFrame *self)
{
  self->grip = NOTHING;
}

static gboolean
scrolled (BwPictureFrame *self, double dx, double dy, GtkEventController *controller)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  BwPlacement at;
  double aspect;
  if (!bw_picture_panel_get_placement (self->panel, &at, &aspect))
    return FALSE;
  if (state & GDK_SHIFT_MASK)
    at.turn_deg += 5 * (dx != 0 ? dx : dy);
  else
    at.width_mm *= pow (1.08, -dy);
  bw_picture_panel_set_placement (self->panel, &at);
  return TRUE;
}

static void
pointed (BwPictureFrame *self, double x, double y)
{
  static const char *const cursors[] = { NULL, "move", "nwse-resize", "grab" };
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursors[grip_at (self, x, y)]);
}

static void
add_controllers (BwPictureFrame *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin), self);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (drag_update), self);
  g_signal_connect_swapped (drag, "drag-end", G_CALLBACK (drag_end), self);
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (scrolled), self);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (pointed), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, motion);
}

static void
bw_picture_frame_dispose (GObject *object)
{
  BwPictureFrame *self = BW_PICTURE_FRAME (object);
  g_clear_object (&self->canvas);
  g_clear_object (&self->panel);
  G_OBJECT_CLASS (bw_picture_frame_parent_class)->dispose (object);
}

static void
bw_picture_frame_class_init (BwPictureFrameClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_picture_frame_dispose;
  widget_class->contains = bw_picture_frame_contains;
  widget_class->snapshot = bw_picture_frame_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
bw_picture_frame_init (BwPictureFrame *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  add_controllers (self);
}

GtkWidget *
bw_picture_frame_new (BwBandCanvas *canvas, BwPicturePanel *panel)
{
  BwPictureFrame *self = g_object_new (BW_TYPE_PICTURE_FRAME, NULL);
  self->canvas = g_object_ref (canvas);
  self->panel = g_object_ref (panel);
  g_signal_connect_object (canvas, "view", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (panel, "placed", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
