/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are drawn as they are on the canvas, with their letters below; a row too long for the
 * widget is drawn smaller, and on more lines where it would become too small to tell from across a
 * table.
 */
#include "config.h"

#include "app/bench-row.h"
#include "app/palette.h"
#include "editor/bead-picture.h"

#define SMALLEST_PX 18
#define SLENDER                                                                                    \
  0.8 /* a bead's width by its height: they lie side by side with their holes upright */

struct _BwBenchRow {
  GtkWidget parent_instance;
  BwTray tray;
  guint8 *colours;
  int n;
  int bead_px;
};

G_DEFINE_FINAL_TYPE (BwBenchRow, bw_bench_row, GTK_TYPE_WIDGET)

typedef struct {
  double width, height, letters;
  int per_line, lines;
} Grid;

static Grid
grid_of (BwBenchRow *self, int width)
{
  double most = self->bead_px * SLENDER, least = SMALLEST_PX * SLENDER;
  Grid grid = { .per_line = MAX (self->n, 1), .lines = 1 };
  grid.width = CLAMP ((double)width / grid.per_line, least, most);
  grid.per_line = MAX (1, (int)(width / grid.width));
  grid.lines = MAX (1, (self->n + grid.per_line - 1) / grid.per_line);
  /* Lines of one length, not a full one and a stray bead. */
  grid.per_line = (MAX (self->n, 1) + grid.lines - 1) / grid.lines;
  grid.height = grid.width / SLENDER;
  grid.letters = MAX (grid.height * 0.6, 14);
  return grid;
}

static GdkTexture *
texture_of (const BwColour *colour, int width, int height)
{
  gsize stride = (gsize)width * 4;
  BwBeadFrame frame = { .width = width, .height = height, .fill_x = 0.95, .fill_y = 0.96 };
  guint32 *pixels = g_new (guint32, (gsize)width * (gsize)height);
  bw_bead_picture_paint (pixels, width, height, &frame, colour->srgb, colour->finish);
  g_autoptr (GBytes) bytes = g_bytes_new_take (pixels, stride * (gsize)height);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}

static void
draw_letter (BwBenchRow *self, GtkSnapshot *snapshot, gunichar id, const Grid *grid, double x,
             double y)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (id, letter);
  double scale = CLAMP (grid->letters / 22, 0.7, 2.2);
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  g_autoptr (PangoLayout) text = bw_palette_text (GTK_WIDGET (self), letter, scale, FALSE);
  int width;
  pango_layout_get_pixel_size (text, &width, NULL);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot,
                          &GRAPHENE_POINT_INIT ((float)(x + (grid->width - width) / 2), (float)y));
  gtk_snapshot_append_layout (snapshot, text, &palette.ink);
  gtk_snapshot_restore (snapshot);
}

static void
bw_bench_row_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBenchRow *self = BW_BENCH_ROW (widget);
  Grid grid = grid_of (self, gtk_widget_get_width (widget));
  int scale = gtk_widget_get_scale_factor (widget);
  GdkTexture *textures[BW_TRAY_MAX] = { NULL };
  for (int i = 0; i < self->n; i++) {
    const BwColour *colour = &self->tray.colour[self->colours[i]];
    GdkTexture **texture = &textures[self->colours[i]];
    double x = i % grid.per_line * grid.width;
    double y = i / grid.per_line * (grid.height + grid.letters);
    if (!*texture)
      *texture = texture_of (colour, (int)(grid.width * scale), (int)(grid.height * scale));
    gtk_snapshot_append_texture (
        snapshot, *texture,
        &GRAPHENE_RECT_INIT ((float)x, (float)y, (float)grid.width, (float)grid.height));
    draw_letter (self, snapshot, colour->id, &grid, x, y + grid.height);
  }
  for (int i = 0; i < BW_TRAY_MAX; i++)
    g_clear_object (&textures[i]);
}

static GtkSizeRequestMode
bw_bench_row_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bench_row_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwBenchRow *self = BW_BENCH_ROW (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = SMALLEST_PX * 4;
    *natural = MAX (*minimum, (int)(self->n * self->bead_px * SLENDER));
    return;
  }
  Grid grid = grid_of (self, for_size > 0 ? for_size : 400);
  *minimum = *natural = (int)(grid.lines * (grid.height + grid.letters)) + 1;
}

void
bw_bench_row_set_size (BwBenchRow *self, int bead_px)
{
  g_return_if_fail (BW_IS_BENCH_ROW (self));
  self->bead_px = MAX (bead_px, SMALLEST_PX);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
bw_bench_row_set_beads (BwBenchRow *self, const BwTray *tray, const guint8 *colours, int n)
{
  g_return_if_fail (BW_IS_BENCH_ROW (self));
  g_free (self->colours);
  self->colours = g_memdup2 (colours, (gsize)n);
  self->n = n;
  self->tray = *tray;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
bw_bench_row_finalize (GObject *object)
{
  g_free (BW_BENCH_ROW (object)->colours);
  G_OBJECT_CLASS (bw_bench_row_parent_class)->finalize (object);
}

static void
bw_bench_row_class_init (BwBenchRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_bench_row_finalize;
  widget_class->snapshot = bw_bench_row_snapshot;
  widget_class->measure = bw_bench_row_measure;
  widget_class->get_request_mode = bw_bench_row_get_request_mode;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_bench_row_init (BwBenchRow *self)
{
  self->bead_px = 48;
}
