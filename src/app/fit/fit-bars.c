/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of the fit. Read from bottom to top it is the band's own profile along the stone. */
#include "config.h"

#include "app/fit/fit-bars.h"
#include "app/fit/fit-words.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define BAR_WIDTH 18.0
#define SHARE_LOOSE 0.27
#define SHARE_SNUG 0.38

struct _BwFitBars {
  GtkWidget parent_instance;
  BwFit fit;
  double slack_mm;
};

G_DEFINE_FINAL_TYPE (BwFitBars, bw_fit_bars, GTK_TYPE_WIDGET)

/* Height of the line of words under the bars. */
static int
words_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) text = bw_palette_text (widget, _ ("snug"), 0.8, FALSE);
  int height;
  pango_layout_get_pixel_size (text, NULL, &height);
  return height;
}

static void
bw_fit_bars_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                     int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwFitBars *self = BW_FIT_BARS (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 200;
    *natural = 360;
  } else {
    *minimum = *natural = CLAMP (self->fit.n_columns * 5, 44, 76) + words_height (widget) + 2;
  }
}

static double
x_of (double scale, double width)
{
  double loose = SHARE_LOOSE * width, snug = SHARE_SNUG * width;
  if (scale < 0)
    return loose * (1 + scale);
  if (scale > 1)
    return loose + snug + (scale - 1) * (width - loose - snug);
  return loose + scale * snug;
}

/* An arrowhead away from snug, or a plain bar within it. */
static void
bar_path (cairo_t *cr, double x, double y, double height, int way)
{
  double half = BAR_WIDTH / 2, tip = MIN (height, half);
  cairo_new_path (cr);
  cairo_move_to (cr, x - half + (way < 0 ? tip : 0), y - height / 2);
  cairo_line_to (cr, x + half - (way > 0 ? tip : 0), y - height / 2);
  if (way > 0)
    cairo_line_to (cr, x + half, y);
  cairo_line_to (cr, x + half - (way > 0 ? tip : 0), y + height / 2);
  cairo_line_to (cr, x - half + (way < 0 ? tip : 0), y + height / 2);
  if (way < 0)
    cairo_line_to (cr, x - half, y);
  cairo_close_path (cr);
}

static void
draw_bar (BwFitBars *self, cairo_t *cr, const BwPalette *palette, int i, double width,
          double height)
{
  const BwFitColumn *column = &self->fit.column[i];
  double lane = height / self->fit.n_columns;
  double bar = CLAMP (lane - 1, 1, 9);
  int way = !column->closes ? 1 : column->grips ? 0 : -1;
  double x = x_of (bw_fit_scale (column->gap_mm, column->pull_mm, self->slack_mm), width);
  x = CLAMP (x, BAR_WIDTH / 2 + 1, width - BAR_WIDTH / 2 - 1);
  bar_path (cr, x, height - (i + 0.5) * lane, bar, way);
  gdk_cairo_set_source_rgba (cr, way > 0   ? &palette->bad
                                 : way < 0 ? &palette->warn
                                           : &palette->good);
  if (way < 0 && bar >= 4) {
    cairo_set_line_width (cr, 1.2);
    cairo_stroke (cr); /* hollow: nothing holds there */
  } else {
    cairo_fill (cr);
  }
}

static void
draw_zones (cairo_t *cr, const BwPalette *palette, double width, double height)
{
  double x0 = x_of (0, width), x1 = x_of (1, width);
  GdkRGBA wash = bw_palette_alpha (palette->good, 0.12);
  gdk_cairo_set_source_rgba (cr, &wash);
  cairo_rectangle (cr, x0, 0, x1 - x0, height);
  cairo_fill (cr);
  gdk_cairo_set_source_rgba (cr, &palette->hair);
  cairo_set_line_width (cr, 1);
  cairo_move_to (cr, round (x0) + 0.5, 0);
  cairo_line_to (cr, round (x0) + 0.5, height);
  cairo_move_to (cr, round (x1) + 0.5, 0);
  cairo_line_to (cr, round (x1) + 0.5, height);
  cairo_move_to (cr, 0, floor (height) - 0.5);
  cairo_line_to (cr, width, floor (height) - 0.5);
  cairo_stroke (cr);
}

/* How far a bar lies below the loose limit or above the closing limit is told by its place alone.
 */
static void
draw_words (GtkWidget *widget, cairo_t *cr, const BwPalette *palette, double width, double y)
{
  const char *words[] = { _ ("loose"), _ ("snug"), _ ("will not close") };
  const double edges[] = { -1, 0, 1, 2 };
  gdk_cairo_set_source_rgba (cr, &palette->faint);
  for (int i = 0; i < 3; i++) {
    double x0 = x_of (edges[i], width), x1 = x_of (edges[i + 1], width);
    g_autoptr (PangoLayout) text = bw_palette_text (widget, words[i], 0.8, FALSE);
    pango_layout_set_width (text, (int)(PANGO_SCALE * (x1 - x0)));
    pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
    pango_layout_set_alignment (text, PANGO_ALIGN_CENTER);
    cairo_move_to (cr, x0, y);
    pango_cairo_show_layout (cr, text);
  }
}

static void
bw_fit_bars_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwFitBars *self = BW_FIT_BARS (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double bars = height - words_height (widget) - 2;
  BwPalette palette = bw_palette_get (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  draw_zones (cr, &palette, width, bars);
  for (int i = 0; i < self->fit.n_columns; i++)
    draw_bar (self, cr, &palette, i, width, bars);
  draw_words (widget, cr, &palette, width, bars + 2);
  cairo_destroy (cr);
}

static gboolean
show_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  BwFitBars *self = BW_FIT_BARS (widget);
  double bars = gtk_widget_get_height (widget) - words_height (widget) - 2;
  int i = (int)((bars - y) / bars * self->fit.n_columns);
  if (keyboard || i < 0 || i >= self->fit.n_columns)
    return FALSE;
  const BwFitColumn *column = &self->fit.column[i];
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *height = bw_length_format (column->height_mm, unit, 1);
  g_autofree char *girth = bw_length_format (column->girth_mm, unit, 1);
  g_autofree char *gap = bw_length_format (column->gap_mm, unit, 2);
  g_autofree char *pull = bw_length_format (column->pull_mm, unit, 2);
  g_autofree char *text
      = g_strdup_printf (_ ("Column %d at height %s, girth %s: gap %s, pulling gives %s"),
                         column->column, height, girth, gap, pull);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

static void
bw_fit_bars_class_init (BwFitBarsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_fit_bars_measure;
  widget_class->snapshot = bw_fit_bars_snapshot;
  widget_class->query_tooltip = show_tooltip;
  gtk_widget_class_set_css_name (widget_class, "fitbars");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_fit_bars_init (BwFitBars *self)
{
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  bw_palette_follow (GTK_WIDGET (self));
}

void
bw_fit_bars_set_fit (BwFitBars *self, const BwFit *fit, double slack_mm)
{
  g_return_if_fail (BW_IS_FIT_BARS (self));
  if (fit->n_columns != self->fit.n_columns)
    gtk_widget_queue_resize (GTK_WIDGET (self));
  self->fit = *fit;
  self->slack_mm = slack_mm;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
