/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture of the fit: read along the strip it is the band's own profile up the stone. */
#include "config.h"

#include "app/fit/fit-strip.h"
#include "app/kit/bead-swatch.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"
#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define BEAD_MOST 18.0 /* no bead is drawn larger, however few there are */
#define GATE 5.0       /* thickness of a gate's bar */
#define OUTSIDE 0.25   /* share of the height beyond each gate */
#define POST 7.0       /* of a gate, beside the strip */
#define LOOKED_AT 1024 /* rows of a column at most */

struct _BwFitStrip {
  GtkWidget parent_instance;
  BwFit fit;
  double slack_mm;
  BwColour colour[BW_COLUMNS_MAX];
};

G_DEFINE_FINAL_TYPE (BwFitStrip, bw_fit_strip, GTK_TYPE_WIDGET)

guint8
bw_fit_strip_main (const BwDrawing *drawing, int column)
{
  int counts[256] = { 0 }, best = 0, rows = bw_drawing_rows (drawing);
  int step = 2 * (1 + rows / (2 * LOOKED_AT));
  for (int row = bw_lattice_has (1, column) ? 1 : 2; row <= rows; row += step)
    counts[bw_drawing_get (drawing, row, column)]++;
  for (int i = 1; i < 256; i++)
    if (counts[i] > counts[best])
      best = i;
  return (guint8)best;
}

double
bw_fit_scale (double gap_mm, double pull_mm, double slack_mm)
{
  /* Half of the way out is reached this far beyond a limit. */
  const double half_mm = 1.5;
  g_return_val_if_fail (pull_mm + slack_mm > 0, 0.5);
  if (gap_mm < -slack_mm)
    return (gap_mm + slack_mm) / (half_mm - gap_mm - slack_mm);
  if (gap_mm > pull_mm)
    return 1 + (gap_mm - pull_mm) / (half_mm + gap_mm - pull_mm);
  return (gap_mm + slack_mm) / (pull_mm + slack_mm);
}

/* --- where everything lies ---------------------------------------------------------------------
 */

typedef struct {
  double left, width;  /* of the strip */
  double top, bottom;  /* middles of the gates' bars */
  double height;       /* of the whole */
  double bead, legend; /* a bead's side; where the words begin, 0: there is no room */
  gboolean mirrored;
} Layout;

static const char *
legend_word (int i)
{
  return i == 0 ? _ ("will not close") : i == 1 ? _ ("snug") : _ ("loose");
}

static int
legend_width (GtkWidget *widget)
{
  int most = 0;
  for (int i = 0; i < 3; i++) {
    g_autoptr (PangoLayout) text = bw_palette_text (widget, legend_word (i), 0.85, FALSE);
    int width;
    pango_layout_get_pixel_size (text, &width, NULL);
    most = MAX (most, width);
  }
  return most;
}

static Layout
lay_out (BwFitStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double words = legend_width (widget) + 10, room = width - 2 * POST;
  Layout at = { .height = height, .top = OUTSIDE * height, .bottom = (1 - OUTSIDE) * height };
  at.mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  gboolean has_legend = room - words >= 120;
  if (has_legend)
    room -= words;
  at.bead = MIN (room / MAX (self->fit.n_columns, 1), MIN (BEAD_MOST, at.top - 1));
  at.width = at.bead * MAX (self->fit.n_columns, 1);
  at.left = POST + (room - at.width) / 2;
  at.legend = has_legend ? at.left + at.width + POST + 10 : 0;
  return at;
}

/* A place across, as it is seen from right to left. */
static double
across (BwFitStrip *self, const Layout *at, double x)
{
  return at->mirrored ? gtk_widget_get_width (GTK_WIDGET (self)) - x : x;
}

/* The middle of a bead. Within the limits it lies wholly between the gates, beyond them wholly
 * outside, so that nobody has to measure by eye. */
static double
bead_y (const Layout *at, double scale)
{
  double half = at->bead / 2, bar = GATE / 2;
  double low = at->bottom - bar - half, high = at->top + bar + half;
  if (scale < 0)
    return at->bottom + bar + half
           + MIN (1, -scale) * MAX (at->height - at->bottom - bar - at->bead, 0);
  if (scale > 1)
    return at->top - bar - half - MIN (1, scale - 1) * MAX (at->top - bar - at->bead, 0);
  return low + scale * (high - low);
}

static double
scale_of (const BwFitStrip *self, int i)
{
  const BwFitColumn *column = &self->fit.column[i];
  return bw_fit_scale (column->gap_mm, column->pull_mm, self->slack_mm);
}

static double
bead_x (BwFitStrip *self, const Layout *at, int i)
{
  return across (self, at, at->left + (i + 0.5) * at->bead);
}

static void
bw_fit_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwFitStrip *self = BW_FIT_STRIP (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 110;
    *natural = (int)(self->fit.n_columns * BEAD_MOST + 2 * POST) + legend_width (widget) + 10;
  } else {
    *minimum = *natural = 84;
  }
}

/* --- drawing ------------------------------------------------------------------------------------
 */

/* A bar of brass with a knob at either end: lit from above. */
static void
draw_gate (BwFitStrip *self, cairo_t *cr, const BwPalette *palette, const Layout *at, double y)
{
  double x0 = across (self, at, at->left - POST + 2),
         x1 = across (self, at, at->left + at->width + POST - 2);
  double left = MIN (x0, x1), right = MAX (x0, x1);
  GdkRGBA brass = palette->blank;
  GdkRGBA gleam = bw_palette_alpha (bw_palette_tint (BW_TINT_GLEAM, FALSE), 0.45);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, GATE);
  gdk_cairo_set_source_rgba (cr, &brass);
  cairo_move_to (cr, left, y);
  cairo_line_to (cr, right, y);
  cairo_stroke (cr);
  for (int end = 0; end < 2; end++) {
    cairo_arc (cr, end ? right : left, y, GATE * 0.85, 0, 2 * G_PI);
    cairo_fill (cr);
  }
  cairo_set_line_width (cr, 1.2);
  gdk_cairo_set_source_rgba (cr, &gleam);
  cairo_move_to (cr, left + 1, y - GATE / 2 + 1.4);
  cairo_line_to (cr, right - 1, y - GATE / 2 + 1.4);
  cairo_stroke (cr);
}

static void
draw_between (BwFitStrip *self, cairo_t *cr, const BwPalette *palette, const Layout *at)
{
  double x0 = across (self, at, at->left - POST + 2),
         x1 = across (self, at, at->left + at->width + POST - 2);
  GdkRGBA wash = bw_palette_alpha (palette->paper, 0.75);
  gdk_cairo_set_source_rgba (cr, &wash);
  cairo_rectangle (cr, MIN (x0, x1), at->top, fabs (x1 - x0), at->bottom - at->top);
  cairo_fill (cr);
}

/* The thread the beads hang on, seen where they part. */
static void
draw_thread (BwFitStrip *self, cairo_t *cr, const BwPalette *palette, const Layout *at)
{
  cairo_new_path (cr);
  for (int i = 0; i < self->fit.n_columns; i++)
    cairo_line_to (cr, bead_x (self, at, i), bead_y (at, scale_of (self, i)));
  gdk_cairo_set_source_rgba (cr, &palette->faint);
  cairo_set_line_width (cr, 1.4);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}

static void
draw_bead (BwFitStrip *self, cairo_t *cr, const BwPalette *palette, const Layout *at, int i)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  const BwFitColumn *column = &self->fit.column[i];
  double x = bead_x (self, at, i) - at->bead / 2,
         y = bead_y (at, scale_of (self, i)) - at->bead / 2;
  cairo_surface_t *bead = bw_bead_surface (&self->colour[i], at->bead, scale);
  cairo_set_source_surface (cr, bead, x, y);
  cairo_paint (cr);
  cairo_surface_destroy (bead);
  if (column->closes && column->grips)
    return;
  gdk_cairo_set_source_rgba (cr, column->closes ? &palette->warn : &palette->bad);
  cairo_set_line_width (cr, 1.6);
  cairo_rectangle (cr, x + 0.8, y + 0.8, at->bead - 1.6, at->bead - 1.6);
  cairo_stroke (cr);
}

static void
write_legend (BwFitStrip *self, cairo_t *cr, const BwPalette *palette, const Layout *at)
{
  const double middles[]
      = { at->top / 2, (at->top + at->bottom) / 2, (at->bottom + at->height) / 2 };
  gdk_cairo_set_source_rgba (cr, &palette->faint);
  for (int i = 0; at->legend > 0 && i < 3; i++) {
    g_autoptr (PangoLayout) text
        = bw_palette_text (GTK_WIDGET (self), legend_word (i), 0.85, FALSE);
    int width, height;
    pango_layout_get_pixel_size (text, &width, &height);
    cairo_move_to (cr, across (self, at, at->legend) - (at->mirrored ? width : 0),
                   middles[i] - height / 2.0);
    pango_cairo_show_layout (cr, text);
  }
}

static void
bw_fit_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwFitStrip *self = BW_FIT_STRIP (widget);
  Layout at = lay_out (self);
  BwPalette palette = bw_palette_get (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget), (float)at.height));
  draw_between (self, cr, &palette, &at);
  draw_gate (self, cr, &palette, &at, at.top);
  draw_gate (self, cr, &palette, &at, at.bottom);
  draw_thread (self, cr, &palette, &at);
  for (int i = 0; i < self->fit.n_columns; i++)
    draw_bead (self, cr, &palette, &at, i);
  write_legend (self, cr, &palette, &at);
  cairo_destroy (cr);
}

static gboolean
show_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  BwFitStrip *self = BW_FIT_STRIP (widget);
  Layout at = lay_out (self);
  int i = (int)floor ((across (self, &at, x) - at.left) / at.bead);
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
bw_fit_strip_class_init (BwFitStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_fit_strip_measure;
  widget_class->snapshot = bw_fit_strip_snapshot;
  widget_class->query_tooltip = show_tooltip;
  gtk_widget_class_set_css_name (widget_class, "fitstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_fit_strip_init (BwFitStrip *self)
{
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  bw_palette_follow (GTK_WIDGET (self));
}

void
bw_fit_strip_set (BwFitStrip *self, const BwFit *fit, double slack_mm, const BwColour *colour)
{
  g_return_if_fail (BW_IS_FIT_STRIP (self));
  if (fit->n_columns != self->fit.n_columns)
    gtk_widget_queue_resize (GTK_WIDGET (self));
  self->fit = *fit;
  self->slack_mm = slack_mm;
  for (int i = 0; i < fit->n_columns; i++)
    self->colour[i] = colour[i];
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
