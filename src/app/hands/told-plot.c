/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/told-plot.h"

#include "app/kit/line-height.h"
#include "app/kit/palette.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LINES 13 /* of text, high and wide */

struct _BwToldPlot {
  GtkWidget parent_instance;
  BwBookDone all;
};

G_DEFINE_FINAL_TYPE (BwToldPlot, bw_told_plot, GTK_TYPE_WIDGET)

typedef struct {
  GtkWidget *widget;
  cairo_t *cr;
  BwPalette palette;
  double left, top, side; /* a square: both run from nothing to all */
} Frame;

static void
write_at (const Frame *frame, double x, double y, double anchor_x, double anchor_y,
          const char *words)
{
  g_autoptr (PangoLayout) text = bw_palette_text (frame->widget, words, 0.85, FALSE);
  int width, height;
  pango_layout_get_pixel_size (text, &width, &height);
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.faint);
  cairo_move_to (frame->cr, x - anchor_x * width, y - anchor_y * height);
  pango_cairo_show_layout (frame->cr, text);
}

static void
draw_frame (const Frame *frame)
{
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.hair);
  cairo_set_line_width (frame->cr, 1);
  cairo_rectangle (frame->cr, frame->left + 0.5, frame->top + 0.5, frame->side, frame->side);
  cairo_stroke (frame->cr);
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.accent);
  cairo_move_to (frame->cr, frame->left, frame->top + frame->side);
  cairo_line_to (frame->cr, frame->left + frame->side, frame->top);
  cairo_stroke (frame->cr);
  for (int i = 0; i <= 2; i++) {
    g_autofree char *words = g_strdup_printf (_ ("%.0f %%"), 50.0 * i);
    write_at (frame, frame->left - 6, frame->top + frame->side * (1 - i / 2.0), 1, 1 - i / 2.0,
              words);
  }
  write_at (frame, frame->left, frame->top + frame->side + 2, 0, 0, _ ("told"));
  write_at (frame, frame->left + 4, frame->top + 2, 0, 0, _ ("came true"));
}

/* As large as there are pieces in it, and as long as chance alone would make it: one standard error
 * of so many throws. */
static void
draw_bin (const Frame *frame, const BwToldBin *bin)
{
  double share = bin->right / (double)bin->pieces;
  double error = sqrt ((share * (1 - share) + 0.25 / bin->pieces) / (bin->pieces + 1));
  double x = frame->left + frame->side * bin->told;
  double y = frame->top + frame->side * (1 - share);
  double low = MIN (y + frame->side * error, frame->top + frame->side);
  GdkRGBA bar = bw_palette_alpha (frame->palette.ink, 0.5);
  gdk_cairo_set_source_rgba (frame->cr, &bar);
  cairo_move_to (frame->cr, x, MAX (y - frame->side * error, frame->top));
  cairo_line_to (frame->cr, x, low);
  cairo_stroke (frame->cr);
  gdk_cairo_set_source_rgba (frame->cr, &frame->palette.ink);
  cairo_arc (frame->cr, x, y, MIN (3 + sqrt (bin->pieces), 9), 0, 2 * G_PI);
  cairo_fill (frame->cr);
}

static void
bw_told_plot_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwToldPlot *self = BW_TOLD_PLOT (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  int line = bw_line_height (widget);
  double left = 3.6 * line, side = MIN (width - left - 8, height - 1.4 * line - 8);
  if (side < 4 * line)
    return;
  Frame frame = { widget,
                  gtk_snapshot_append_cairo (
                      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height)),
                  bw_palette_get (widget),
                  left,
                  6,
                  side };
  draw_frame (&frame);
  for (int i = 0; i < BW_TOLD_BINS; i++)
    if (self->all.bin[i].pieces > 0)
      draw_bin (&frame, &self->all.bin[i]);
  cairo_destroy (frame.cr);
}

static void
bw_told_plot_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = LINES * bw_line_height (widget);
}

void
bw_told_plot_set (BwToldPlot *self, const BwBookDone *all, const char *words)
{
  g_return_if_fail (BW_IS_TOLD_PLOT (self));
  self->all = *all;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_told_plot_class_init (BwToldPlotClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_told_plot_measure;
  widget_class->snapshot = bw_told_plot_snapshot;
  gtk_widget_class_set_css_name (widget_class, "toldplot");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_told_plot_init (BwToldPlot *self)
{
  bw_palette_follow (GTK_WIDGET (self));
}
