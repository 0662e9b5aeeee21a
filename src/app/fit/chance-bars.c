/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A lying bar chart: rows, bar, per cent. With very many counts only the likeliest neighbours of
 * the recommended one are shown. */
#include "config.h"

#include "app/fit/chance-bars.h"
#include "app/kit/palette.h"

#include <glib/gi18n-lib.h>

#define BARS_MOST 9

struct _BwChanceBars {
  GtkWidget parent_instance;
  BwForecast forecast;
  int rows;
};

G_DEFINE_FINAL_TYPE (BwChanceBars, bw_chance_bars, GTK_TYPE_WIDGET)

static int
line_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) text = bw_palette_text (widget, "0", 0.9, FALSE);
  int height;
  pango_layout_get_pixel_size (text, NULL, &height);
  return height + 4;
}

/* The run of counts to show: the likeliest in the middle when there are too many. */
static int
shown_range (const BwForecast *forecast, int *first)
{
  int best = 0, n = forecast->n_chances;
  for (int i = 1; i < n; i++)
    if (forecast->chance[i].p > forecast->chance[best].p)
      best = i;
  int count = MIN (n, BARS_MOST);
  *first = CLAMP (best - count / 2, 0, n - count);
  return count;
}

static void
bw_chance_bars_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  int first, count = shown_range (&BW_CHANCE_BARS (widget)->forecast, &first);
  *minimum = *natural
      = orientation == GTK_ORIENTATION_HORIZONTAL ? 160 : MAX (count, 1) * line_height (widget);
}

static void
write_at (GtkWidget *widget, cairo_t *cr, double x, double y, const char *text, gboolean bold,
          gboolean right)
{
  g_autoptr (PangoLayout) layout = bw_palette_text (widget, text, 0.9, bold);
  int width;
  pango_layout_get_pixel_size (layout, &width, NULL);
  cairo_move_to (cr, right ? x - width : x, y);
  pango_cairo_show_layout (cr, layout);
}

static int
text_width (GtkWidget *widget, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_palette_text (widget, text, 0.9, TRUE);
  int width;
  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

static void
draw_chance (BwChanceBars *self, cairo_t *cr, const BwPalette *palette, const BwChance *chance,
             double y)
{
  GtkWidget *widget = GTK_WIDGET (self);
  gboolean own = 2 * chance->beads_around == self->rows;
  gboolean best = chance->beads_around == self->forecast.recommended;
  double left = text_width (widget, _ ("0000 rows")) + 8, right = text_width (widget, "100 %") + 8;
  double room = MAX (gtk_widget_get_width (widget) - left - right, 1);
  int height = line_height (widget);
  g_autofree char *rows = g_strdup_printf (_ ("%d rows"), 2 * chance->beads_around);
  g_autofree char *share = g_strdup_printf ("%.0f %%", 100 * chance->p);
  GdkRGBA fill = best ? palette->accent : bw_palette_alpha (palette->ink, 0.35);
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  write_at (widget, cr, left - 8, y, rows, own, TRUE);
  write_at (widget, cr, left + room + 8 + text_width (widget, "100 %"), y, share, best, TRUE);
  gdk_cairo_set_source_rgba (cr, &fill);
  cairo_rectangle (cr, left, y + 2, MAX (room * chance->p, 1), height - 8);
  cairo_fill (cr);
  if (!own)
    return;
  gdk_cairo_set_source_rgba (cr, &palette->ink);
  cairo_set_line_width (cr, 1);
  cairo_rectangle (cr, left + 0.5, y + 2.5, MAX (room * chance->p, 1), height - 9);
  cairo_stroke (cr);
}

static void
bw_chance_bars_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwChanceBars *self = BW_CHANCE_BARS (widget);
  BwPalette palette = bw_palette_get (widget);
  int first, count = shown_range (&self->forecast, &first);
  float width = (float)gtk_widget_get_width (widget),
        height = (float)gtk_widget_get_height (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  for (int i = 0; i < count; i++)
    draw_chance (self, cr, &palette, &self->forecast.chance[first + i], i * line_height (widget));
  cairo_destroy (cr);
}

static void
describe (BwChanceBars *self)
{
  g_autoptr (GString) words = g_string_new (NULL);
  int first, count = shown_range (&self->forecast, &first);
  for (int i = 0; i < count; i++)
    g_string_append_printf (words, _ ("%d rows %.0f %%. "),
                            2 * self->forecast.chance[first + i].beads_around,
                            100 * self->forecast.chance[first + i].p);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words->str,
                                  -1);
}

void
bw_chance_bars_set (BwChanceBars *self, const BwForecast *forecast, int rows)
{
  g_return_if_fail (BW_IS_CHANCE_BARS (self));
  if (forecast->n_chances != self->forecast.n_chances)
    gtk_widget_queue_resize (GTK_WIDGET (self));
  self->forecast = *forecast;
  self->rows = rows;
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_chance_bars_class_init (BwChanceBarsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->measure = bw_chance_bars_measure;
  widget_class->snapshot = bw_chance_bars_snapshot;
  gtk_widget_class_set_css_name (widget_class, "chances");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_chance_bars_init (BwChanceBars *self)
{
  bw_palette_follow (GTK_WIDGET (self));
}
