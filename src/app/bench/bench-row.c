/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads of one colour that follow each other are one thing to count: they are drawn together, with
 * their number and their letter below. A row too long for the widget is drawn smaller, and on more
 * lines where it would become too small to tell from across a table. */
#include "config.h"

#include "app/bench/bench-row.h"
#include "app/kit/palette.h"
#include "editor/cloth/bead-picture.h"

#include <math.h>

#define SMALLEST_PX 22
#define STEP_PX 2
#define SLENDER 0.8 /* a bead's width by its height: side by side, with their holes upright */
#define FILL 0.94   /* of its width; dark beads side by side are told apart by what is left */
#define GAP 0.35    /* between runs, in widths of a bead */
#define LETTERS 0.5 /* height of the letters by that of a bead */
#define LETTERS_LEAST_PX 15
#define TALLEST 2.6 /* all lines together, in heights of the largest bead */

struct _BwBenchRow {
  GtkWidget parent_instance;
  BwTray tray;
  guint8 *colours;
  int n;
  int bead_px;
  GArray *pieces; /* of Piece, as last laid out */
  int laid_out;   /* the width they were laid out for; 0: none */
  double height;  /* of a bead, as laid out */
  int lines;
};

G_DEFINE_FINAL_TYPE (BwBenchRow, bw_bench_row, GTK_TYPE_WIDGET)

/* Beads of one colour on one line. */
typedef struct {
  int first, n;
  int line;
  double x;
} Piece;

static double
letters_px (double bead_px)
{
  return MAX (bead_px * LETTERS, LETTERS_LEAST_PX);
}

static double
line_px (double bead_px)
{
  return bead_px + 1.35 * letters_px (bead_px);
}

static int
run_length (BwBenchRow *self, int first)
{
  int n = 1;
  while (first + n < self->n && self->colours[first + n] == self->colours[first])
    n++;
  return n;
}

/* Puts the run on the line; what does not fit goes on in the next. A run is broken only when not
 * even a line of its own holds it. */
static void
put_run (GArray *pieces, Piece piece, int width, double bead_width, int *line, double *x)
{
  int per_line = MAX (1, (int)(width / bead_width));
  while (piece.n > 0) {
    int room = (int)((width - *x) / bead_width + 1e-6);
    if (room < MIN (piece.n, per_line) && *x > 0) {
      (*line)++;
      *x = 0;
      continue;
    }
    Piece part = { piece.first, MIN (piece.n, per_line), *line, *x };
    g_array_append_val (pieces, part);
    *x += part.n * bead_width;
    piece.first += part.n;
    piece.n -= part.n;
  }
}

/* Lays the row out in beads of this height; how many lines that takes. */
static int
lay_pieces (BwBenchRow *self, int width, double bead_px)
{
  int line = 0;
  double x = 0, bead_width = bead_px * SLENDER;
  g_array_set_size (self->pieces, 0);
  for (int i = 0; i < self->n;) {
    int n = run_length (self, i);
    put_run (self->pieces, (Piece){ .first = i, .n = n }, width, bead_width, &line, &x);
    x += GAP * bead_width;
    i += n;
  }
  return self->n > 0 ? line + 1 : 0;
}

/* The largest beads with which all lines together stay low enough. */
static void
lay_out (BwBenchRow *self, int width)
{
  double most = MAX (self->bead_px, SMALLEST_PX);
  if (self->laid_out == width)
    return;
  for (self->height = most;; self->height -= STEP_PX) {
    self->lines = lay_pieces (self, width, self->height);
    if (self->height - STEP_PX < SMALLEST_PX
        || self->lines * line_px (self->height) <= most * TALLEST)
      break;
  }
  self->laid_out = width;
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
draw_words (BwBenchRow *self, GtkSnapshot *snapshot, const char *words, double middle, double y)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  g_autoptr (PangoLayout) text = gtk_widget_create_pango_layout (GTK_WIDGET (self), words);
  PangoFontDescription *font = pango_font_description_new ();
  int width;
  pango_font_description_set_absolute_size (font, letters_px (self->height) * PANGO_SCALE);
  pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (text, font);
  pango_font_description_free (font);
  pango_layout_get_pixel_size (text, &width, NULL);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)(middle - width / 2.0), (float)y));
  gtk_snapshot_append_layout (snapshot, text, &palette.ink);
  gtk_snapshot_restore (snapshot);
}

/* "3 a"; "a" for one, where there is nothing to count. */
static void
draw_count (BwBenchRow *self, GtkSnapshot *snapshot, const Piece *piece, gunichar id)
{
  char letter[7] = { 0 };
  double bead_width = self->height * SLENDER;
  double top = piece->line * line_px (self->height);
  g_unichar_to_utf8 (id, letter);
  g_autofree char *words
      = piece->n > 1 ? g_strdup_printf ("%d %s", piece->n, letter) : g_strdup (letter);
  draw_words (self, snapshot, words, piece->x + piece->n * bead_width / 2, top + self->height);
}

static void
draw_piece (BwBenchRow *self, GtkSnapshot *snapshot, const Piece *piece, GdkTexture *texture)
{
  double bead_width = self->height * SLENDER;
  double top = piece->line * line_px (self->height);
  for (int i = 0; i < piece->n; i++)
    gtk_snapshot_append_texture (snapshot, texture,
                                 &GRAPHENE_RECT_INIT ((float)(piece->x + i * bead_width),
                                                      (float)top, (float)bead_width,
                                                      (float)self->height));
}

static void
bw_bench_row_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBenchRow *self = BW_BENCH_ROW (widget);
  int scale = gtk_widget_get_scale_factor (widget);
  GdkTexture *textures[BW_TRAY_MAX] = { NULL };
  lay_out (self, gtk_widget_get_width (widget));
  for (guint i = 0; i < self->pieces->len; i++) {
    const Piece *piece = &g_array_index (self->pieces, Piece, i);
    int index = self->colours[piece->first];
    const BwColour *colour = &self->tray.colour[index];
    if (!textures[index])
      textures[index] = texture_of (colour, (int)ceil (self->height * SLENDER * FILL * scale),
                                    (int)ceil (self->height * scale));
    draw_piece (self, snapshot, piece, textures[index]);
    draw_count (self, snapshot, piece, colour->id);
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
    *natural = MAX (*minimum, (int)(self->n * (1 + GAP) * self->bead_px * SLENDER));
    return;
  }
  lay_out (self, for_size > 0 ? for_size : 400);
  *minimum = *natural = (int)ceil (self->lines * line_px (self->height));
}

static void
changed (BwBenchRow *self)
{
  self->laid_out = 0;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
bw_bench_row_set_size (BwBenchRow *self, int bead_px)
{
  g_return_if_fail (BW_IS_BENCH_ROW (self));
  if (self->bead_px == bead_px)
    return;
  self->bead_px = bead_px;
  changed (self);
}

void
bw_bench_row_set_beads (BwBenchRow *self, const BwTray *tray, const guint8 *colours, int n)
{
  g_return_if_fail (BW_IS_BENCH_ROW (self));
  g_free (self->colours);
  self->colours = g_memdup2 (colours, (gsize)n);
  self->n = n;
  self->tray = *tray;
  changed (self);
}

static void
bw_bench_row_finalize (GObject *object)
{
  g_free (BW_BENCH_ROW (object)->colours);
  g_array_unref (BW_BENCH_ROW (object)->pieces);
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
  bw_palette_follow (GTK_WIDGET (self));
  self->bead_px = 48;
  self->pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
}
