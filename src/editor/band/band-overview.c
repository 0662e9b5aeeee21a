/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads large enough to be drawn on leave most of a band out of view. This strip keeps the whole
 * of it before the maker's eyes and says where the canvas stands. */
#include "config.h"

#include "editor/band/band-overview.h"

#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HEIGHT_PX 30
#define PAD_PX 8
#define TICK_PX 4
#define SAMPLES_MOST 8 /* beads averaged into one pixel of a long band */
#define KEY_TURN 0.05  /* share of a turn that an arrow key rolls */

struct _BwBandOverview {
  BwUnrolled parent;
  BwBandView *view; /* the parent's; how the band lies is told by the canvas */
  BwBandCanvas *canvas;
  guint32 *pixels;  /* of the whole turn; NULL when they must be mixed anew */
  GdkTexture *turn; /* made of them; NULL when some differ */
  int turn_width, turn_height;
  guint64 seen;  /* beads set, see bw_project_touched() */
  guint64 mixed; /* pixels so far */
  double grip;   /* how far from the view's middle the pointer took hold, pitches */
};

G_DEFINE_FINAL_TYPE (BwBandOverview, bw_band_overview, BW_TYPE_UNROLLED)

static const BwBandLayout *
layout_of (BwBandOverview *self)
{
  return bw_band_canvas_get_layout (self->canvas);
}

static int
around (BwBandOverview *self)
{
  return bw_band_layout_around (layout_of (self));
}

static double
strip_width (BwBandOverview *self)
{
  return MAX (1, gtk_widget_get_width (GTK_WIDGET (self)) - 2 * PAD_PX);
}

double
bw_band_overview_place (BwBandOverview *self, double x)
{
  return (x - PAD_PX) / strip_width (self) * around (self) - 0.5;
}

double
bw_band_overview_x (BwBandOverview *self, double pitches)
{
  return PAD_PX + (pitches + 0.5) / around (self) * strip_width (self);
}

static void
forget_turn (BwBandOverview *self)
{
  g_clear_pointer (&self->pixels, g_free);
  g_clear_object (&self->turn);
}

/* --- The turn as a picture ---------------------------------------------------------------------
 */

/* The mean colour of the beads that one pixel covers, opaque; 0 where there is none. */
static guint32
mean_colour (const BwBandLayout *layout, const BwDrawing *drawing, const BwTray *tray, double u,
             double step, double v)
{
  guint red = 0, green = 0, blue = 0, seen = 0;
  int samples = CLAMP ((int)ceil (2 * step), 1, SAMPLES_MOST);
  for (int i = 0; i < samples; i++) {
    BwBeadAt bead;
    BwBandPoint at = { u + step * (i + 0.5) / samples, v };
    if (!bw_band_layout_bead (layout, at, &bead))
      continue;
    guint32 srgb = tray->colour[bw_drawing_get (drawing, bead.row, bead.column)].srgb;
    red += srgb >> 16 & 0xff;
    green += srgb >> 8 & 0xff;
    blue += srgb & 0xff;
    seen++;
  }
  return seen ? 0xff000000 | red / seen << 16 | green / seen << 8 | blue / seen : 0;
}

/* Mixes the pixels of a box; x may lie a turn off. */
static void
mix_box (BwBandOverview *self, int x0, int x1, int y0, int y1)
{
  const BwBandLayout *layout = layout_of (self);
  const BwDrawing *drawing = bw_project_shown_drawing (self->view->project);
  const BwTray *tray = bw_project_shown_tray (self->view->project);
  int width = self->turn_width, height = self->turn_height;
  double step = around (self) / (double)width;
  for (int y = MAX (y0, 0); y < MIN (y1, height); y++) {
    double v = layout->columns * (1 - (y + 0.5) / height);
    for (int i = x0; i < x1; i++) {
      int x = (i % width + width) % width;
      self->pixels[(gsize)y * (gsize)width + (gsize)x]
          = mean_colour (layout, drawing, tray, x * step - 0.5, step, v);
      self->mixed++;
    }
  }
}

/* The pixels that look at a bead, one more on each side for rounding. */
static void
mix_bead (BwBandOverview *self, int row, int column)
{
  double pixels = self->turn_width / (double)around (self);
  double high = self->turn_height / (double)layout_of (self)->columns;
  int left = (int)floor (bw_lattice_pitches (row) * pixels) - 1;
  int right = (int)ceil ((bw_lattice_pitches (row) + 1) * pixels) + 1;
  int top = (int)floor ((layout_of (self)->columns - column) * high) - 1;
  mix_box (self, left, MIN (right, left + self->turn_width), top, top + (int)ceil (high) + 3);
}

/* Brings the pixels in step with what the project says was set. */
static void
mix_touched (BwBandOverview *self)
{
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  if (!bw_project_touched (self->view->project, &self->seen, beads))
    g_clear_pointer (&self->pixels, g_free);
  for (guint i = 0; self->pixels && i < beads->len; i++) {
    const BwBeadOf *bead = &g_array_index (beads, BwBeadOf, i);
    if (!bead->in_bail)
      mix_bead (self, bead->row, bead->column);
  }
}

static GdkTexture *
texture_of (const guint32 *pixels, int width, int height)
{
  g_autoptr (GBytes) bytes = g_bytes_new (pixels, sizeof *pixels * (gsize)width * (gsize)height);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, 4 * (gsize)width);
}

static GdkTexture *
turn (BwBandOverview *self, int width, int height)
{
  if (self->turn_width != width || self->turn_height != height)
    forget_turn (self);
  if (self->turn != NULL)
    return self->turn;
  mix_touched (self);
  self->turn_width = width;
  self->turn_height = height;
  if (self->pixels == NULL) {
    self->pixels = g_new (guint32, (gsize)width * (gsize)height);
    mix_box (self, 0, width, 0, height);
  }
  self->turn = texture_of (self->pixels, width, height);
  return self->turn;
}

guint64
bw_band_overview_mixed (BwBandOverview *self)
{
  return self->mixed;
}

/* --- Drawing -----------------------------------------------------------------------------------
 */

static void
fill (GtkSnapshot *snapshot, double x0, double x1, double y, double height, GdkRGBA colour)
{
  if (x1 > x0)
    gtk_snapshot_append_color (
        snapshot, &colour,
        &GRAPHENE_RECT_INIT ((float)x0, (float)y, (float)(x1 - x0), (float)height));
}

/* Where the stone's edges lie, along the middle of the band. */
static void
draw_edges (BwBandOverview *self, GtkSnapshot *snapshot, double y)
{
  const BwBandFaces *faces = bw_band_canvas_get_faces (self->canvas);
  int n = around (self);
  for (int f = 0; f < faces->faces; f++) {
    double u = bw_band_faces_get (faces, (faces->columns + 1) / 2, f)->left;
    double x = round (bw_band_overview_x (self, u - n * floor ((u + 0.5) / n)));
    fill (snapshot, x, x + 1, y, TICK_PX, self->view->style.ink);
  }
}

/* The ends of what is in view, reduced to one turn: left in −0.5 .. n − 0.5, right after it. */
static gboolean
in_view (BwBandOverview *self, double *left, double *right)
{
  const BwBandLayout *layout = layout_of (self);
  double half = layout->width / 2 / bw_band_layout_pitch_px (layout);
  int n = around (self);
  *left = layout->roll - half;
  *left -= n * floor ((*left + 0.5) / n);
  *right = *left + 2 * half;
  return 2 * half < n;
}

static void
draw_frame (BwBandOverview *self, GtkSnapshot *snapshot, double x0, double x1, double height)
{
  GdkRGBA colour = self->view->style.mark;
  float widths[4] = { 2, 2, 2, 2 };
  GdkRGBA colours[4] = { colour, colour, colour, colour };
  GskRoundedRect frame;
  gsk_rounded_rect_init_from_rect (
      &frame, &GRAPHENE_RECT_INIT ((float)x0, 0, (float)(x1 - x0), (float)height), 3);
  gtk_snapshot_append_border (snapshot, &frame, widths, colours);
}

/* What is out of view recedes; the rest stands in a frame, in two parts when it lies across the
 * join. */
static void
draw_view (BwBandOverview *self, GtkSnapshot *snapshot, double height)
{
  double left, right, n = around (self);
  GdkRGBA veil = bw_band_style_fade (self->view->style.ground, 0.55);
  if (!in_view (self, &left, &right))
    return;
  double x0 = bw_band_overview_x (self, left), x1 = bw_band_overview_x (self, right);
  double begin = PAD_PX, end = PAD_PX + strip_width (self);
  double over = right > n - 0.5 ? bw_band_overview_x (self, right - n) : begin;

  fill (snapshot, over, x0, 0, height, veil);
  fill (snapshot, x1, end, 0, height, veil);
  gtk_snapshot_push_clip (
      snapshot, &GRAPHENE_RECT_INIT ((float)begin - 2, 0, (float)(end - begin) + 4, (float)height));
  draw_frame (self, snapshot, x0, x1, height);
  if (over > begin)
    draw_frame (self, snapshot, over - (x1 - x0), over, height);
  gtk_snapshot_pop (snapshot);
}

static void
bw_band_overview_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBandOverview *self = BW_BAND_OVERVIEW (widget);
  double scale = gtk_widget_get_scale_factor (widget), width = strip_width (self);
  double height = gtk_widget_get_height (widget), beads = height - TICK_PX - 4;
  if (beads < 1)
    return;
  fill (snapshot, 0, gtk_widget_get_width (widget), 0, height, self->view->style.ruler);
  gtk_snapshot_append_texture (snapshot,
                               turn (self, (int)ceil (width * scale), (int)ceil (beads * scale)),
                               &GRAPHENE_RECT_INIT (PAD_PX, 3, (float)width, (float)beads));
  draw_edges (self, snapshot, 3 + beads);
  draw_view (self, snapshot, height);
}

static void
bw_band_overview_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;
  *minimum = across ? 80 : HEIGHT_PX;
  *natural = across ? 640 : HEIGHT_PX;
}

/* --- Moving the canvas -------------------------------------------------------------------------
 */

/* The pointer keeps its hold on the frame; a press outside it brings the middle there. */
static void
on_begin (BwBandOverview *self, double x, double y)
{
  double left, right, n = around (self), at = bw_band_overview_place (self, x);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!in_view (self, &left, &right))
    return;
  gboolean inside = (at >= left && at <= right) || at + n <= right;
  double off = at - layout_of (self)->roll;
  self->grip = inside ? off - n * round (off / n) : 0;
  if (!inside)
    bw_band_canvas_roll_to (self->canvas, at);
}

static void
on_drag (BwBandOverview *self, double dx, double dy, GtkGestureDrag *drag)
{
  double x, y, left, right;
  if ((dx == 0 && dy == 0) || !in_view (self, &left, &right))
    return;
  gtk_gesture_drag_get_start_point (drag, &x, &y);
  bw_band_canvas_roll_by (self->canvas, bw_band_overview_place (self, x + dx) - self->grip
                                            - layout_of (self)->roll);
}

static void
roll_by (BwBandOverview *self, double turns)
{
  bw_band_canvas_roll_by (self->canvas, turns * around (self));
}

static gboolean
on_scroll (BwBandOverview *self, double dx, double dy)
{
  roll_by (self, (dx + dy) * KEY_TURN);
  return GDK_EVENT_STOP;
}

static gboolean
on_key (BwBandOverview *self, guint key)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    roll_by (self, -KEY_TURN);
    return GDK_EVENT_STOP;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    roll_by (self, KEY_TURN);
    return GDK_EVENT_STOP;
  case GDK_KEY_Home:
    bw_band_canvas_roll_to (self->canvas, 0);
    return GDK_EVENT_STOP;
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

static void
add_controllers (BwBandOverview *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (on_begin), self);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (on_drag), self);
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

/* --- Keeping in step ---------------------------------------------------------------------------
 */

static void
take_view (BwBandOverview *self)
{
  int n = around (self);
  double roll = layout_of (self)->roll;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 1.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, (double)n,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  1 + floor (roll + 0.5 - n * floor ((roll + 0.5) / n)), -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_band_overview_changed (BwUnrolled *unrolled, guint what)
{
  BwBandOverview *self = BW_BAND_OVERVIEW (unrolled);
  if ((what & (BW_CHANGED_SHAPE | BW_CHANGED_CELLS | BW_CHANGED_TRAY)) == 0)
    return;
  if (what & (BW_CHANGED_SHAPE | BW_CHANGED_TRAY))
    forget_turn (self);
  g_clear_object (&self->turn);
  gtk_widget_queue_draw (GTK_WIDGET (unrolled));
}

/* Nothing here is ever half done, and nothing is placed: the strip fills its widget. */
static void
bw_band_overview_leave (BwUnrolled *unrolled)
{
}

static void
bw_band_overview_place_view (BwUnrolled *unrolled)
{
  gtk_widget_queue_draw (GTK_WIDGET (unrolled));
}

static void
bw_band_overview_dispose (GObject *object)
{
  BwBandOverview *self = BW_BAND_OVERVIEW (object);
  G_OBJECT_CLASS (bw_band_overview_parent_class)->dispose (object);
  g_clear_object (&self->canvas);
  forget_turn (self);
}

static void
bw_band_overview_class_init (BwBandOverviewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = bw_band_overview_dispose;
  widget_class->snapshot = bw_band_overview_snapshot;
  widget_class->measure = bw_band_overview_measure;
  BW_UNROLLED_CLASS (class)->changed = bw_band_overview_changed;
  BW_UNROLLED_CLASS (class)->leave = bw_band_overview_leave;
  BW_UNROLLED_CLASS (class)->place = bw_band_overview_place_view;
  gtk_widget_class_set_css_name (widget_class, "bandoverview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SCROLLBAR);
}

static void
bw_band_overview_init (BwBandOverview *self)
{
  self->view = bw_unrolled_view (BW_UNROLLED (self));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "pointer");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self),
                               _ ("The whole turn: press or drag to see another part"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The whole turn of the band"), -1);
  add_controllers (self);
}

GtkWidget *
bw_band_overview_new (BwBandCanvas *canvas, BwSession *session)
{
  g_return_val_if_fail (BW_IS_BAND_CANVAS (canvas) && BW_IS_SESSION (session), NULL);
  BwBandOverview *self = g_object_new (BW_TYPE_BAND_OVERVIEW, NULL);
  self->canvas = g_object_ref (canvas);
  g_signal_connect_object (canvas, "view", G_CALLBACK (take_view), self, G_CONNECT_SWAPPED);
  bw_unrolled_show (BW_UNROLLED (self), session);
  take_view (self);
  return GTK_WIDGET (self);
}
