/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things lie is the layout's; here they are drawn, in the tints of the face. A bead on a
 * needle lies on its side: its hole runs along the thread. */
#include "config.h"

#include "app/bench/bench-needle.h"
#include "app/kit/palette.h"
#include "editor/cloth/bead-picture.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SMALLEST_PX 22 /* a letter can still be read, and a colour told */
#define FILL 0.9       /* of a bead's place along the thread: what is left shows the thread */
#define LETTER 0.46    /* height of a letter by a bead's diameter */
#define LETTER_PX 9.0  /* smaller ones are left out: the names are there */
#define ROUND 0.24f    /* radius of a bead's corners by its shorter side */
#define TIERS 4
#define NAME_GAP 10.0
#define BRACE_PX 7.0
#define LINE_GAP 1.25 /* between a line's names and the next line, in line heights of a name */
#define NAME_SCALE 1.15

struct _BwBenchNeedle {
  GtkWidget parent_instance;
  GArray *beads; /* of BwNeedleBead */
  gboolean upward;
  BwTray tray;
  char **labels;
  double flat;
  gboolean first; /* the stopper bead holds this pass */
  int bead_px;
  int laid_out; /* the width the layout is for; 0: none */
  BwNeedleLayout layout;
  double *middles;
  int *tiers, n_tiers;
  double name_px; /* height of a line of names */
};

G_DEFINE_FINAL_TYPE (BwBenchNeedle, bw_bench_needle, GTK_TYPE_WIDGET)

static const BwNeedleBead *
bead_at (BwBenchNeedle *self, guint i)
{
  return &g_array_index (self->beads, BwNeedleBead, i);
}

static const BwNeedlePlace *
place_at (BwBenchNeedle *self, guint i)
{
  return &g_array_index (self->layout.places, BwNeedlePlace, i);
}

static const BwNeedleRun *
run_at (BwBenchNeedle *self, guint i)
{
  return &g_array_index (self->layout.runs, BwNeedleRun, i);
}

/* "3 Undertow"; where names have no room, "3 b". Owned. */
static char *
run_words (BwBenchNeedle *self, guint i, gboolean in_short)
{
  const BwNeedleRun *run = run_at (self, i);
  int colour = bead_at (self, (guint)run->first)->colour;
  char letter[7] = { 0 };
  g_unichar_to_utf8 (self->tray.colour[colour].id, letter);
  /* Translators: how many beads of which colour, one after the other. */
  return g_strdup_printf (_ ("%d %s"), run->n, in_short ? letter : self->labels[colour]);
}

static PangoLayout *
run_text (BwBenchNeedle *self, guint i, gboolean in_short)
{
  g_autofree char *words = run_words (self, i, in_short);
  return bw_palette_text (GTK_WIDGET (self), words, NAME_SCALE, TRUE);
}

static int
place_names (BwBenchNeedle *self, gboolean in_short)
{
  guint n = self->layout.runs->len;
  g_autofree double *widths = g_new (double, n + 1);
  for (guint i = 0; i < n; i++) {
    int width, height;
    g_autoptr (PangoLayout) text = run_text (self, i, in_short);
    pango_layout_get_pixel_size (text, &width, &height);
    widths[i] = width;
    self->name_px = height;
  }
  return bw_needle_layout_names (&self->layout, widths, NAME_GAP, TIERS, self->middles,
                                 self->tiers);
}

static void
lay_out (BwBenchNeedle *self, int width)
{
  if (self->laid_out == width)
    return;
  bw_needle_layout_clear (&self->layout);
  bw_needle_layout_init (&self->layout, self->beads, self->upward, width, self->flat, SMALLEST_PX,
                         MAX (self->bead_px, SMALLEST_PX));
  guint n = self->layout.runs->len;
  self->middles = g_renew (double, self->middles, n + 1);
  self->tiers = g_renew (int, self->tiers, n + 1);
  self->laid_out = width;
  self->n_tiers = place_names (self, FALSE);
}

/* Where even several tiers have no room for names, letters stand for them. */
static gboolean
is_in_short (BwBenchNeedle *self)
{
  return self->n_tiers == 0 && self->layout.runs->len > 0;
}

static double
names_height (BwBenchNeedle *self)
{
  return BRACE_PX + (is_in_short (self) ? TIERS : self->n_tiers) * self->name_px;
}

static double
pitch_of_lines (BwBenchNeedle *self)
{
  return self->layout.line_height + names_height (self) + LINE_GAP * self->name_px;
}

static double
top_of_line (BwBenchNeedle *self, int line)
{
  return line * pitch_of_lines (self);
}

static double
y_of (BwBenchNeedle *self, guint i)
{
  return top_of_line (self, place_at (self, i)->line) + place_at (self, i)->y;
}

/* --- Thread and needle -------------------------------------------------------------------------
 */

/* +1 where the needle runs to the right. */
static double
way_of (BwBenchNeedle *self)
{
  return self->layout.upward ? 1 : -1;
}

/* Off the end of a line, round under its names, and back to where lines begin. */
static void
trace_run_on (BwBenchNeedle *self, cairo_t *cr, guint last)
{
  const BwNeedleLayout *layout = &self->layout;
  double way = way_of (self), r = layout->bead_height * 0.45;
  double out = place_at (self, last)->x + way * (layout->bead_width / 2 + r);
  double back = layout->enters + way * r;
  double from = y_of (self, last), to = y_of (self, last + 1);
  double between = top_of_line (self, place_at (self, last)->line + 1) - 0.5 * self->name_px;
  cairo_line_to (cr, out, from);
  cairo_curve_to (cr, out + way * r, from, out + way * r, between, out - way * r, between);
  cairo_line_to (cr, back + way * r, between);
  cairo_curve_to (cr, back - way * r, between, back - way * r, to, back + way * r, to);
}

/* The thread goes straight through each bead and bends between two. */
static void
trace_thread (BwBenchNeedle *self, cairo_t *cr)
{
  const BwNeedleLayout *layout = &self->layout;
  double half = way_of (self) * layout->bead_width * FILL / 2;
  cairo_move_to (cr, layout->enters, y_of (self, 0));
  for (guint i = 0; i < self->beads->len; i++) {
    const BwNeedlePlace *place = place_at (self, i);
    if (i > 0 && place->line != place_at (self, i - 1)->line)
      trace_run_on (self, cr, i - 1);
    cairo_line_to (cr, place->x - half, y_of (self, i));
    cairo_line_to (cr, place->x + half, y_of (self, i));
  }
}

static void
add_stop (cairo_pattern_t *pattern, double at, GdkRGBA colour)
{
  cairo_pattern_add_color_stop_rgba (pattern, at, (double)colour.red, (double)colour.green,
                                     (double)colour.blue, (double)colour.alpha);
}

/* The eye nearest to the beads, the point ahead. Steel is grey by day and by lamp. */
static void
draw_needle (BwBenchNeedle *self, cairo_t *cr, const GdkRGBA *ink)
{
  const BwNeedleLayout *layout = &self->layout;
  guint last = self->beads->len - 1;
  double way = way_of (self), h = layout->bead_height, thick = MAX (h * 0.11, 3.5);
  double tip = layout->leaves, y = y_of (self, last);
  double eye = place_at (self, last)->x + way * (layout->bead_width / 2 + 0.5 * h);
  cairo_move_to (cr, eye, y - thick / 2);
  cairo_line_to (cr, eye + 0.55 * (tip - eye), y - thick / 2);
  cairo_line_to (cr, tip, y);
  cairo_line_to (cr, eye + 0.55 * (tip - eye), y + thick / 2);
  cairo_line_to (cr, eye, y + thick / 2);
  cairo_curve_to (cr, eye - way * thick, y + thick / 2, eye - way * thick, y - thick / 2, eye,
                  y - thick / 2);
  cairo_close_path (cr);
  cairo_pattern_t *steel = cairo_pattern_create_linear (0, y - thick / 2, 0, y + thick / 2);
  add_stop (steel, 0, bw_palette_tint (BW_TINT_HAIR, FALSE));
  add_stop (steel, 0.4, bw_palette_tint (BW_TINT_GLEAM, FALSE));
  add_stop (steel, 1, bw_palette_tint (BW_TINT_NOTE, FALSE));
  cairo_set_source (cr, steel);
  cairo_fill_preserve (cr);
  cairo_pattern_destroy (steel);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 0.8);
  cairo_stroke (cr);
  cairo_set_line_width (cr, MAX (thick * 0.32, 1.4));
  cairo_move_to (cr, eye, y);
  cairo_line_to (cr, eye + way * 0.3 * h, y);
  cairo_stroke (cr);
}

static void
trace_round (cairo_t *cr, double x, double y, double width, double height)
{
  double r = MIN (width, height) * (double)ROUND;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - r, y + r, r, -G_PI_2, 0);
  cairo_arc (cr, x + width - r, y + height - r, r, 0, G_PI_2);
  cairo_arc (cr, x + r, y + height - r, r, G_PI_2, G_PI);
  cairo_arc (cr, x + r, y + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

/* A bead that is there already: its outline, with a breath of its colour. */
static void
draw_outline (BwBenchNeedle *self, cairo_t *cr, guint i, const GdkRGBA *ink)
{
  double width = self->layout.bead_width * FILL, height = self->layout.bead_height * 0.94;
  guint32 srgb = self->tray.colour[bead_at (self, i)->colour].srgb;
  trace_round (cr, place_at (self, i)->x - width / 2, y_of (self, i) - height / 2, width, height);
  cairo_set_source_rgba (cr, (srgb >> 16 & 0xff) / 255.0, (srgb >> 8 & 0xff) / 255.0,
                         (srgb & 0xff) / 255.0, 0.16);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 1.3);
  cairo_stroke (cr);
}

/* The stopper bead, round and passed twice, at the very beginning. */
static void
draw_stopper (BwBenchNeedle *self, cairo_t *cr, const GdkRGBA *ink, const GdkRGBA *ground)
{
  double h = self->layout.bead_height, y = y_of (self, 0);
  double x = self->layout.enters + way_of (self) * 0.42 * h;
  cairo_arc (cr, x, y, 0.26 * h, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, ground);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 1.3);
  cairo_stroke (cr);
  cairo_arc (cr, x, y, 0.14 * h, -0.9, 1.9);
  cairo_stroke (cr);
}

static void
draw_lines (BwBenchNeedle *self, GtkSnapshot *snapshot, const BwPalette *palette)
{
  GtkWidget *widget = GTK_WIDGET (self);
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                     (float)gtk_widget_get_height (widget)));
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < self->beads->len; i++)
    if (!bead_at (self, i)->is_new)
      draw_outline (self, cr, i, &palette->faint);
  trace_thread (self, cr);
  guint last = self->beads->len - 1;
  cairo_line_to (cr,
                 place_at (self, last)->x
                     + way_of (self)
                           * (self->layout.bead_width / 2 + 0.6 * self->layout.bead_height),
                 y_of (self, last));
  gdk_cairo_set_source_rgba (cr, &palette->accent);
  cairo_set_line_width (cr, CLAMP (self->layout.bead_height * 0.05, 1.6, 3));
  cairo_stroke (cr);
  draw_needle (self, cr, &palette->ink);
  if (self->first)
    draw_stopper (self, cr, &palette->ink, &palette->paper);
  cairo_destroy (cr);
}

/* --- Beads and names ---------------------------------------------------------------------------
 */

/* Painted upright and laid on its side when drawn. */
static GdkTexture *
texture_of (const BwColour *colour, int across, int along)
{
  gsize stride = (gsize)across * 4;
  BwBeadFrame frame = { .width = across, .height = along, .fill_x = 0.97, .fill_y = 0.97 };
  guint32 *pixels = g_new (guint32, (gsize)across * (gsize)along);
  bw_bead_picture_paint (pixels, across, along, &frame, colour->srgb, colour->finish);
  g_autoptr (GBytes) bytes = g_bytes_new_take (pixels, stride * (gsize)along);
  return gdk_memory_texture_new (across, along, GDK_MEMORY_DEFAULT, bytes, stride);
}

static double
letter_px (BwBenchNeedle *self)
{
  return self->layout.bead_height * LETTER;
}

/* A breath of the other shade round the letter, so that the shine of the glass may stay. */
static void
append_haloed (GtkSnapshot *snapshot, PangoLayout *text, GdkRGBA shade, GdkRGBA halo)
{
  for (int i = 0; i < 8; i++) {
    double angle = i * G_PI / 4;
    gtk_snapshot_save (snapshot);
    gtk_snapshot_translate (snapshot,
                            &GRAPHENE_POINT_INIT ((float)cos (angle), (float)sin (angle)));
    gtk_snapshot_append_layout (snapshot, text, &halo);
    gtk_snapshot_restore (snapshot);
  }
  gtk_snapshot_append_layout (snapshot, text, &shade);
}

static void
draw_letter (BwBenchNeedle *self, GtkSnapshot *snapshot, const BwColour *colour)
{
  char letter[7] = { 0 };
  gboolean black = bw_bead_letter_is_black (colour->srgb);
  GdkRGBA shade = bw_palette_tint (black ? BW_TINT_SHADOW : BW_TINT_GLEAM, FALSE);
  GdkRGBA halo = bw_palette_tint (black ? BW_TINT_GLEAM : BW_TINT_SHADOW, FALSE);
  PangoRectangle ink;
  g_unichar_to_utf8 (colour->id, letter);
  g_autoptr (PangoLayout) text = gtk_widget_create_pango_layout (GTK_WIDGET (self), letter);
  PangoFontDescription *font = pango_font_description_new ();
  pango_font_description_set_absolute_size (font, letter_px (self) * PANGO_SCALE);
  pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (text, font);
  pango_font_description_free (font);
  pango_layout_get_pixel_extents (text, NULL, &ink);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot,
                          &GRAPHENE_POINT_INIT ((float)-ink.width / 2, (float)-ink.height / 2));
  append_haloed (snapshot, text, shade, bw_palette_alpha (halo, 0.28));
  gtk_snapshot_restore (snapshot);
}

static void
draw_bead (BwBenchNeedle *self, GtkSnapshot *snapshot, guint i, GdkTexture *texture)
{
  float along = (float)(self->layout.bead_width * FILL), across = (float)self->layout.bead_height;
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (
      snapshot, &GRAPHENE_POINT_INIT ((float)place_at (self, i)->x, (float)y_of (self, i)));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_rotate (snapshot, 90);
  graphene_rect_t place = GRAPHENE_RECT_INIT (-across / 2, -along / 2, across, along);
  GskRoundedRect round;
  gsk_rounded_rect_init_from_rect (&round, &place, MIN (across, along) * ROUND);
  gtk_snapshot_push_rounded_clip (snapshot, &round);
  gtk_snapshot_append_texture (snapshot, texture, &place);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_restore (snapshot);
  if (letter_px (self) >= LETTER_PX)
    draw_letter (self, snapshot, &self->tray.colour[bead_at (self, i)->colour]);
  gtk_snapshot_restore (snapshot);
}

static void
draw_beads (BwBenchNeedle *self, GtkSnapshot *snapshot)
{
  GdkTexture *textures[BW_TRAY_MAX] = { NULL };
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  int across = (int)ceil (self->layout.bead_height * scale);
  int along = (int)ceil (self->layout.bead_width * FILL * scale);
  for (guint i = 0; i < self->beads->len; i++) {
    int colour = bead_at (self, i)->colour;
    if (!bead_at (self, i)->is_new)
      continue;
    if (!textures[colour])
      textures[colour] = texture_of (&self->tray.colour[colour], across, along);
    draw_bead (self, snapshot, i, textures[colour]);
  }
  for (int i = 0; i < BW_TRAY_MAX; i++)
    g_clear_object (&textures[i]);
}

/* A brace under the run, and a stem from its middle down to the name. */
static void
draw_brace (BwBenchNeedle *self, GtkSnapshot *snapshot, guint i, double top, double name_top,
            const GdkRGBA *ink)
{
  const BwNeedleRun *run = run_at (self, i);
  float left = (float)run->left + 2, right = (float)run->right - 2, y = (float)top + 3;
  gtk_snapshot_append_color (snapshot, ink, &GRAPHENE_RECT_INIT (left, y, right - left, 1.5f));
  gtk_snapshot_append_color (
      snapshot, ink,
      &GRAPHENE_RECT_INIT ((float)(run->left + run->right) / 2, y, 1, (float)name_top - y));
}

static double
top_of_names (BwBenchNeedle *self, guint i)
{
  double top = top_of_line (self, run_at (self, i)->line) + self->layout.line_height;
  return top + BRACE_PX + MIN (self->tiers[i], TIERS - 1) * self->name_px;
}

static void
draw_name (BwBenchNeedle *self, GtkSnapshot *snapshot, guint i, gboolean in_short,
           const BwPalette *palette)
{
  int width;
  g_autoptr (PangoLayout) text = run_text (self, i, in_short);
  pango_layout_get_pixel_size (text, &width, NULL);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)(self->middles[i] - width / 2.0),
                                                          (float)top_of_names (self, i)));
  gtk_snapshot_append_color (snapshot, &palette->paper,
                             &GRAPHENE_RECT_INIT (-2, 0, (float)width + 4, (float)self->name_px));
  gtk_snapshot_append_layout (snapshot, text, &palette->ink);
  gtk_snapshot_restore (snapshot);
}

/* All braces before any name: the stem of one run goes behind the names of others. */
static void
draw_names (BwBenchNeedle *self, GtkSnapshot *snapshot, const BwPalette *palette)
{
  gboolean in_short = is_in_short (self);
  if (in_short)
    place_names (self, TRUE);
  for (guint i = 0; i < self->layout.runs->len; i++)
    draw_brace (self, snapshot, i,
                top_of_line (self, run_at (self, i)->line) + self->layout.line_height,
                top_of_names (self, i), &palette->faint);
  for (guint i = 0; i < self->layout.runs->len; i++)
    draw_name (self, snapshot, i, in_short, palette);
}

static void
bw_bench_needle_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBenchNeedle *self = BW_BENCH_NEEDLE (widget);
  BwPalette palette = bw_palette_get (widget);
  lay_out (self, gtk_widget_get_width (widget));
  if (self->beads->len == 0)
    return;
  draw_lines (self, snapshot, &palette);
  draw_beads (self, snapshot);
  draw_names (self, snapshot, &palette);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static GtkSizeRequestMode
bw_bench_needle_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bench_needle_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                         int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwBenchNeedle *self = BW_BENCH_NEEDLE (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = SMALLEST_PX * 6;
    *natural = MAX (*minimum, (int)((self->beads->len + 4) * self->bead_px));
    return;
  }
  lay_out (self, for_size > 0 ? for_size : 400);
  int lines = self->layout.lines;
  *minimum = *natural = lines == 0
                            ? 0
                            : (int)ceil (top_of_line (self, lines - 1) + self->layout.line_height
                                         + names_height (self) + 2);
}

static void
changed (BwBenchNeedle *self)
{
  self->laid_out = 0;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
bw_bench_needle_set_size (BwBenchNeedle *self, int bead_px)
{
  g_return_if_fail (BW_IS_BENCH_NEEDLE (self));
  if (self->bead_px == bead_px)
    return;
  self->bead_px = bead_px;
  changed (self);
}

void
bw_bench_needle_set_row (BwBenchNeedle *self, BwProject *project, gboolean in_bail, int row)
{
  g_return_if_fail (BW_IS_BENCH_NEEDLE (self));
  const BwDesign *design = bw_project_get_design (project);
  g_array_unref (self->beads);
  g_strfreev (self->labels);
  self->beads = bw_needle_beads (project, in_bail, row, &self->upward);
  self->tray = *bw_project_get_tray (project);
  self->labels = bw_words_labels (&self->tray);
  self->flat = design->gauge.column_mm / design->gauge.pitch_mm;
  self->first = !in_bail && row <= 2;
  changed (self);
}

const BwNeedleLayout *
bw_bench_needle_get_layout (BwBenchNeedle *self)
{
  g_return_val_if_fail (BW_IS_BENCH_NEEDLE (self), NULL);
  lay_out (self, gtk_widget_get_width (GTK_WIDGET (self)));
  return &self->layout;
}

const GArray *
bw_bench_needle_get_beads (BwBenchNeedle *self)
{
  g_return_val_if_fail (BW_IS_BENCH_NEEDLE (self), NULL);
  return self->beads;
}

static void
bw_bench_needle_finalize (GObject *object)
{
  BwBenchNeedle *self = BW_BENCH_NEEDLE (object);
  g_array_unref (self->beads);
  g_strfreev (self->labels);
  bw_needle_layout_clear (&self->layout);
  g_free (self->middles);
  g_free (self->tiers);
  G_OBJECT_CLASS (bw_bench_needle_parent_class)->finalize (object);
}

/* Another size of text, another size of names. */
static void
bw_bench_needle_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bw_bench_needle_parent_class)->css_changed (widget, change);
  changed (BW_BENCH_NEEDLE (widget));
}

static void
bw_bench_needle_class_init (BwBenchNeedleClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_bench_needle_finalize;
  widget_class->snapshot = bw_bench_needle_snapshot;
  widget_class->measure = bw_bench_needle_measure;
  widget_class->get_request_mode = bw_bench_needle_get_request_mode;
  widget_class->css_changed = bw_bench_needle_css_changed;
  gtk_widget_class_set_css_name (widget_class, "benchneedle");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_bench_needle_init (BwBenchNeedle *self)
{
  bw_palette_follow (GTK_WIDGET (self));
  self->beads = g_array_new (FALSE, FALSE, sizeof (BwNeedleBead));
  self->flat = 1;
  self->bead_px = 48;
  bw_needle_layout_init (&self->layout, self->beads, TRUE, 0, 1, SMALLEST_PX, SMALLEST_PX);
}
