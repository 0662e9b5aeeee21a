/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/hands-plot.h"

#include "app/kit/line-height.h"
#include "app/kit/palette.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LINES_HIGH 11
#define BARS_MOST 400 /* pieces; of more, dots alone are drawn, and small ones */
#define DOT 3.5

struct _BwHandsPlot {
  GtkWidget parent_instance;
  GArray *points; /* of BwHandsPoint */
  BwHandsNext next;
  BwUnit unit;
  int chosen;
};

G_DEFINE_FINAL_TYPE (BwHandsPlot, bw_hands_plot, GTK_TYPE_WIDGET)

/* Where a pitch and a piece lie. */
typedef struct {
  GtkWidget *widget;
  cairo_t *cr;
  BwPalette palette;
  double left, top, width, height;
  double low, high; /* pitch at the lower and the upper edge */
  guint places;     /* one for each piece, and one for the next */
} Frame;

static double
height_of (const Frame *frame, double mm)
{
  return frame->top + frame->height * (frame->high - mm) / (frame->high - frame->low);
}

static double
place_of (const Frame *frame, guint i)
{
  return frame->left + frame->width * (i + 0.5) / frame->places;
}

static void
set_range (const BwHandsPlot *self, Frame *frame)
{
  double low = MIN (self->next.mm - self->next.sd_mm, self->next.size_mm);
  double high = MAX (self->next.mm + self->next.sd_mm, self->next.size_mm);
  for (guint i = 0; i < self->points->len; i++) {
    const BwHandsPoint *point = &g_array_index (self->points, BwHandsPoint, i);
    if (!(point->mm > 0))
      continue;
    low = MIN (low, point->mm - point->sd_mm);
    high = MAX (high, point->mm + point->sd_mm);
  }
  double room = MAX (0.08 * (high - low), 0.002 * high);
  frame->low = low - room;
  frame->high = high + room;
}

static void
write_length (const BwHandsPlot *self, const Frame *frame, double mm)
{
  g_autofree char *words = bw_length_format (mm, self->unit, 2);
  g_autoptr (PangoLayout) text = bw_palette_text (frame->widget, words, 0.85, FALSE);
  int width, height;
  pango_layout_get_pixel_size (text, &width, &height);
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.faint);
  cairo_move_to (frame->cr, frame->left - width - 8, height_of (frame, mm) - height / 2.0);
  pango_cairo_show_layout (frame->cr, text);
}

static void
level_line (const Frame *frame, double mm, GdkRGBA colour, gboolean dashed)
{
  const double dashes[] = { 5, 4 };
  double y = round (height_of (frame, mm)) + 0.5;
  gdk_cairo_set_source_rgba (frame->cr, &colour);
  cairo_set_line_width (frame->cr, 1);
  cairo_set_dash (frame->cr, dashes, dashed ? 2 : 0, 0);
  cairo_move_to (frame->cr, frame->left, y);
  cairo_line_to (frame->cr, frame->left + frame->width, y);
  cairo_stroke (frame->cr);
  cairo_set_dash (frame->cr, NULL, 0, 0);
}

/* What the next piece is believed to be, across the whole: so each piece is seen in or beside it.
 */
static void
draw_band (const BwHandsPlot *self, const Frame *frame)
{
  double top = height_of (frame, self->next.mm + self->next.sd_mm);
  double bottom = height_of (frame, self->next.mm - self->next.sd_mm);
  GdkRGBA fill = bw_palette_alpha (frame->palette.accent, 0.16);
  gdk_cairo_set_source_rgba (frame->cr, &fill);
  cairo_rectangle (frame->cr, frame->left, top, frame->width, bottom - top);
  cairo_fill (frame->cr);
  level_line (frame, self->next.size_mm, frame->palette.faint, TRUE);
  level_line (frame, self->next.mm, frame->palette.accent, FALSE);
  write_length (self, frame, self->next.mm);
  if (fabs (height_of (frame, self->next.size_mm) - height_of (frame, self->next.mm))
      > bw_line_height (frame->widget))
    write_length (self, frame, self->next.size_mm);
}

static void
draw_bar (const Frame *frame, double x, double mm, double sd_mm)
{
  cairo_set_line_width (frame->cr, 1.2);
  cairo_move_to (frame->cr, x, height_of (frame, mm + sd_mm));
  cairo_line_to (frame->cr, x, height_of (frame, mm - sd_mm));
  cairo_stroke (frame->cr);
}

static void
draw_point (const BwHandsPlot *self, const Frame *frame, guint i)
{
  const BwHandsPoint *point = &g_array_index (self->points, BwHandsPoint, i);
  gboolean chosen = (int)i == self->chosen;
  if (!(point->mm > 0))
    return;
  double x = place_of (frame, i), y = height_of (frame, point->mm);
  GdkRGBA ink = chosen ? frame->palette.blank : frame->palette.ink;
  GdkRGBA bar = bw_palette_alpha (ink, chosen ? 1 : 0.5);
  gdk_cairo_set_source_rgba (frame->cr, &bar);
  if (chosen || (!point->left_out && self->points->len <= BARS_MOST))
    draw_bar (frame, x, point->mm, point->sd_mm);
  gboolean many = self->points->len > BARS_MOST && !chosen;
  ink = bw_palette_alpha (ink, many ? 0.3 : 1);
  gdk_cairo_set_source_rgba (frame->cr, &ink);
  cairo_new_path (frame->cr);
  cairo_arc (frame->cr, x, y, chosen ? 1.6 * DOT : many ? 0.4 * DOT : DOT, 0, 2 * G_PI);
  if (point->left_out)
    cairo_stroke (frame->cr);
  else
    cairo_fill (frame->cr);
}

static void
draw_next (const BwHandsPlot *self, const Frame *frame)
{
  double x = place_of (frame, self->points->len);
  g_autoptr (PangoLayout) text = bw_palette_text (frame->widget, _ ("next"), 0.85, TRUE);
  int width, height;
  pango_layout_get_pixel_size (text, &width, &height);
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.accent);
  draw_bar (frame, x, self->next.mm, self->next.sd_mm);
  cairo_arc (frame->cr, x, height_of (frame, self->next.mm), 1.3 * DOT, 0, 2 * G_PI);
  cairo_fill (frame->cr);
  cairo_move_to (frame->cr, MIN (x - width / 2.0, frame->left + frame->width - width),
                 frame->top + frame->height + 2);
  pango_cairo_show_layout (frame->cr, text);
}

static void
bw_hands_plot_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwHandsPlot *self = BW_HANDS_PLOT (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  int line = bw_line_height (widget);
  if (!(self->next.mm > 0) || width < 8 * line)
    return;
  Frame frame = { .widget = widget,
                  .cr = gtk_snapshot_append_cairo (
                      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height)),
                  .palette = bw_palette_get (widget),
                  .left = 4.2 * line,
                  .top = 4,
                  .width = width - 4.2 * line - 4,
                  .height = height - 1.4 * line - 4,
                  .places = self->points->len + 1 };
  set_range (self, &frame);
  draw_band (self, &frame);
  for (guint i = 0; i < self->points->len; i++)
    if ((int)i != self->chosen)
      draw_point (self, &frame, i);
  draw_next (self, &frame);
  if (self->chosen >= 0 && (guint)self->chosen < self->points->len)
    draw_point (self, &frame, (guint)self->chosen);
  cairo_destroy (frame.cr);
}

static void
bw_hands_plot_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  int line = bw_line_height (widget);
  *minimum = *natural = orientation == GTK_ORIENTATION_VERTICAL ? LINES_HIGH * line : 12 * line;
}

void
bw_hands_plot_set (BwHandsPlot *self, GArray *points, BwHandsNext next, BwUnit unit,
                   const char *words)
{
  g_return_if_fail (BW_IS_HANDS_PLOT (self));
  g_array_unref (self->points);
  self->points = points;
  self->next = next;
  self->unit = unit;
  self->chosen = -1;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
bw_hands_plot_choose (BwHandsPlot *self, int at)
{
  g_return_if_fail (BW_IS_HANDS_PLOT (self));
  self->chosen = at;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_hands_plot_finalize (GObject *object)
{
  g_array_unref (BW_HANDS_PLOT (object)->points);
  G_OBJECT_CLASS (bw_hands_plot_parent_class)->finalize (object);
}

static void
bw_hands_plot_class_init (BwHandsPlotClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_hands_plot_finalize;
  widget_class->measure = bw_hands_plot_measure;
  widget_class->snapshot = bw_hands_plot_snapshot;
  gtk_widget_class_set_css_name (widget_class, "handsplot");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_hands_plot_init (BwHandsPlot *self)
{
  self->points = g_array_new (FALSE, FALSE, sizeof (BwHandsPoint));
  self->chosen = -1;
  bw_palette_follow (GTK_WIDGET (self));
}
