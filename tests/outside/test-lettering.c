/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words set in beads are read back by a reader that never learnt to read beads.
 *
 * Why it is a fair reader: all that it knows of letters is what the fonts of DejaVu look like
 * (sans, bold, mono and serif, drawn by pango), shapes that everybody who reads has seen. It is
 * given a picture: each bead of the word as it lies in the half-drop lattice, at its true shape, a
 * gap between bead and bead. It looks at that as an eye does from where beads run together, a
 * little blurred, parts the picture where an upright line of ground goes through, and calls each
 * part by the printed letter that is most like it when both are as large. It is told neither the
 * word, nor the height of the letters, nor which letters to expect: all it can read is weighed for
 * each, and it has no list of words to guess by. */
#include "../fewer.h"
#include "core/base/lattice.h"
#include "core/pattern/lettering.h"
#include "core/pattern/motif.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define ROWS 400
#define PX_PER_MM 10.0
#define PITCH_MM 1.6 /* the bead of the usual size: as long round the ring, and as wide */
#define COLUMN_MM 1.3
#define BLUR_MM 0.75 /* of the eye, about half a bead either way */

/* What a letter is compared by: so many dots across and up. */
#define WIDE 20
#define HIGH 28

typedef struct {
  int width, height;
  float *ink; /* 0..1, the lowest line last */
} Picture;

typedef struct {
  double dot[WIDE * HIGH]; /* mean 0, length 1 */
  double slender;          /* log of width by height */
} Look;

static const char *const can_read = "ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÜẞÉÈÊÑ0123456789";
static const char *const fonts[] = { "DejaVu Sans", "DejaVu Sans Bold", "DejaVu Serif",
                                     "DejaVu Sans Mono", "DejaVu Sans Mono Bold" };
#define FIRST_MONO 3 /* of the fonts */

typedef struct {
  gunichar letter;
  int fonts; /* that it was learnt from */
  Look look[G_N_ELEMENTS (fonts)];
} Known;

/* --- pictures ------------------------------------------------------------------------------- */

static Picture
picture_of (cairo_surface_t *surface)
{
  Picture p
      = { cairo_image_surface_get_width (surface), cairo_image_surface_get_height (surface), NULL };
  const guchar *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  p.ink = g_new (float, p.width *p.height);
  for (int y = 0; y < p.height; y++)
    for (int x = 0; x < p.width; x++)
      p.ink[y * p.width + x] = data[y * stride + x] / 255.0f;
  cairo_surface_destroy (surface);
  return p;
}

/* Means of the neighbourhood along one way, twice: near enough to the bell curve. */
static void
smear (float *line, int n, int step, int reach)
{
  g_autofree float *copy = g_new (float, n);
  for (int i = 0; i < n; i++)
    copy[i] = line[i * step];
  for (int i = 0; i < n; i++) {
    float sum = 0;
    for (int k = -reach; k <= reach; k++)
      sum += i + k >= 0 && i + k < n ? copy[i + k] : 0;
    line[i * step] = sum / (float)(2 * reach + 1);
  }
}

static void
blur (Picture *p, int reach)
{
  for (int twice = 0; twice < 2; twice++) {
    for (int y = 0; y < p->height; y++)
      smear (p->ink + y * p->width, p->width, 1, reach);
    for (int x = 0; x < p->width; x++)
      smear (p->ink + x, p->height, p->width, reach);
  }
}

static gboolean
inked (const Picture *p, int x, int y)
{
  return p->ink[y * p->width + x] > 0.45f;
}

static gboolean
column_inked (const Picture *p, int x)
{
  for (int y = 0; y < p->height; y++)
    if (inked (p, x, y))
      return TRUE;
  return FALSE;
}

static gboolean
line_inked (const Picture *p, int y, int from, int to)
{
  for (int x = from; x < to; x++)
    if (inked (p, x, y))
      return TRUE;
  return FALSE;
}

/* Mean ink of a box of the picture, in its pixels; outside there is none. */
static double
mean_of (const Picture *p, double x0, double y0, double x1, double y1)
{
  double sum = 0;
  int n = 0;
  for (int y = (int)floor (y0); y < (int)ceil (y1); y++)
    for (int x = (int)floor (x0); x < (int)ceil (x1); x++, n++)
      sum += x >= 0 && y >= 0 && x < p->width && y < p->height ? (double)p->ink[y * p->width + x]
                                                               : 0;
  return n ? sum / n : 0;
}

/* What lies between two upright lines, as large as every other letter. */
static Look
look_at (const Picture *sharp, int from, int to)
{
  Look look = { 0 };
  int top = 0, foot = sharp->height;
  double mean = 0, length = 0;
  while (top < foot && !line_inked (sharp, top, from, to))
    top++;
  while (foot > top && !line_inked (sharp, foot - 1, from, to))
    foot--;
  /* A narrow letter keeps its shape, in the middle: it is not drawn out to the width of the others.
   */
  double width = MAX (to - from, 0.45 * (foot - top)), left = (from + to - width) / 2;
  double dx = width / WIDE, dy = (double)(foot - top) / HIGH;
  for (int i = 0; i < WIDE * HIGH; i++) {
    double x = left + (i % WIDE) * dx, y = top + (i / WIDE) * dy;
    look.dot[i] = mean_of (sharp, x - dx, y - dy, x + 2 * dx, y + 2 * dy);
    mean += look.dot[i] / (WIDE * HIGH);
  }
  for (int i = 0; i < WIDE * HIGH; i++) {
    look.dot[i] -= mean;
    length += look.dot[i] * look.dot[i];
  }
  for (int i = 0; i < WIDE * HIGH; i++)
    look.dot[i] /= sqrt (length) + 1e-12;
  look.slender = log ((double)(to - from) / (foot - top));
  return look;
}

/* --- what the reader has learnt ------------------------------------------------------------- */

static Look
printed (gunichar letter, const char *font)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 300, 300);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (PangoLayout) layout = pango_cairo_create_layout (cr);
  g_autofree char *description = g_strconcat (font, " 100px", NULL);
  PangoFontDescription *wanted = pango_font_description_from_string (description);
  char text[8] = { 0 };
  g_unichar_to_utf8 (letter, text);
  pango_layout_set_font_description (layout, wanted);
  pango_font_description_free (wanted);
  pango_layout_set_text (layout, text, -1);
  assert_int_equal (pango_layout_get_unknown_glyphs_count (layout), 0);
  cairo_move_to (cr, 90, 90);
  pango_cairo_show_layout (cr, layout);
  cairo_destroy (cr);
  Picture p = picture_of (surface);
  int from = 0, to = p.width;
  while (!column_inked (&p, from))
    from++;
  while (!column_inked (&p, to - 1))
    to--;
  Look look = look_at (&p, from, to);
  g_free (p.ink);
  return look;
}

static GArray *
learn (void)
{
  GArray *known = g_array_new (FALSE, FALSE, sizeof (Known));
  for (const char *c = can_read; *c; c = g_utf8_next_char (c)) {
    Known k = { .letter = g_utf8_get_char (c) };
    /* Letters of one width: O and 0 are alike there but for a mark inside, so neither is learnt. */
    k.fonts = k.letter == 'O' || k.letter == '0' ? FIRST_MONO : (int)G_N_ELEMENTS (fonts);
    for (int f = 0; f < k.fonts; f++)
      k.look[f] = printed (k.letter, fonts[f]);
    g_array_append_val (known, k);
  }
  return known;
}

static double
likeness (const Look *a, const Look *b)
{
  double sum = 0, slender = a->slender - b->slender;
  for (int i = 0; i < WIDE * HIGH; i++)
    sum += a->dot[i] * b->dot[i];
  return sum - 0.3 * slender * slender;
}

static gunichar
call (const GArray *known, const Look *look)
{
  gunichar best = 0;
  double most = -10;
  for (guint i = 0; i < known->len; i++) {
    const Known *k = &g_array_index (known, Known, i);
    for (int f = 0; f < k->fonts; f++) {
      double like = likeness (look, &k->look[f]);
      if (like > most) {
        most = like;
        best = k->letter;
      }
    }
  }
  return best;
}

/* --- what it is given ----------------------------------------------------------------------- */

static cairo_surface_t *
beads (const BwDrawing *drawing, guint8 colour)
{
  int columns = bw_drawing_columns (drawing);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_A8, (int)(PX_PER_MM * PITCH_MM * (ROWS / 2 + 1)),
                                    (int)(PX_PER_MM * COLUMN_MM * (columns + 2)));
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  for (int row = 1; row <= ROWS; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (bw_drawing_get (drawing, row, column) != colour)
        continue;
      cairo_rectangle (cr, bw_lattice_pitches (row) * PITCH_MM + 0.05,
                       (columns - column + 1) * COLUMN_MM + 0.05, PITCH_MM - 0.1, COLUMN_MM - 0.1);
      cairo_fill (cr);
    }
  cairo_destroy (cr);
  return surface;
}

/* A word in `given` columns of a band of 24. */
static BwDrawing *
woven (const char *word, int first, int given)
{
  BwDrawing *drawing = bw_drawing_new (24, ROWS, 7);
  BwMotif motif;
  BwFault fault;
  bw_motif_init (&motif, BW_MOTIF_LETTERS, 24, ROWS);
  motif.n_colours = 1;
  motif.first_column = first;
  motif.last_column = first + given - 1;
  motif.centre = ROWS / 4.0;
  g_strlcpy (motif.text, word, sizeof motif.text);
  if (!bw_motif_validate (&motif, 24, ROWS, &fault))
    fail_msg ("%s cannot be set in %d columns: fault %d", word, given, fault.kind);
  bw_motif_draw (&motif, drawing);
  return drawing;
}

static char *
read_back (const GArray *known, const BwDrawing *drawing)
{
  Picture p = picture_of (beads (drawing, 0));
  GString *read = g_string_new (NULL);
  blur (&p, (int)(BLUR_MM * PX_PER_MM / 2));
  for (int x = 0; x < p.width;) {
    int from = x;
    while (x < p.width && column_inked (&p, x))
      x++;
    if (x > from) {
      Look look = look_at (&p, from, x);
      g_string_append_unichar (read, call (known, &look));
    } else
      x++;
  }
  g_free (p.ink);
  return g_string_free (read, FALSE);
}

/* Names, places, dates and makers' words; every letter of both languages, and every numeral. */
static const char *const words[]
    = { "TIDE",   "HARBOUR", "QUARTZ", "2026",    "JUNI",   "WOLKE", "GRÜN",  "FJORD",
        "MAX",    "ZOE",     "LYDIA",  "KELP",    "BRIGHT", "VIXEN", "1948",  "37",
        "MÖWE",   "ÄPFEL",   "STRAẞE", "SPINDLE", "FOX",    "JAZZ",  "QUEEN", "BEAD",
        "PEYOTE", "CRYSTAL", "DRIFT",  "50",      "GLÜCK",  "KÄTHE", "WAXED", "HUGO",
        "NINA",   "MIMI",    "OSKAR",  "VULKAN",  "YARROW", "CAFÉ",  "ROCK",  "SHELL" };

/* Columns that the marks above a word's letters take. */
static int
above (const char *word)
{
  return strstr (word, "É")                                               ? 3
         : strstr (word, "Ä") || strstr (word, "Ö") || strstr (word, "Ü") ? 2
                                                                          : 0;
}

static void
read_all (const GArray *known, int first, int high)
{
  int wrong = 0;
  for (int i = 0; i < few (G_N_ELEMENTS (words)); i++) {
    int given = high + above (words[i]);
    if (given < bw_lettering_needs (words[i]))
      continue;
    g_autoptr (BwDrawing) drawing = woven (words[i], first, given);
    g_autofree char *read = read_back (known, drawing);
    if (g_str_equal (read, words[i]))
      continue;
    print_message ("%s is read as %s in %d columns from %d\n", words[i], read, given, first);
    wrong++;
  }
  assert_int_equal (wrong, 0);
}

static void
forty_words_are_read_back_where_letters_are_seven_columns_high (void **state)
{
  assert_int_equal (G_N_ELEMENTS (words), 40);
  read_all (*state, 3, 7);
}

static void
from_an_odd_column_they_read_the_same (void **state)
{
  read_all (*state, 4, 7);
}

static void
they_are_read_back_where_letters_are_five_columns_high (void **state)
{
  read_all (*state, 3, 5);
}

static void
large_letters_are_read_back (void **state)
{
  static const int heights[] = { 9, 10, 12, 14, 17, 20 };
  for (int i = 0; i < few (G_N_ELEMENTS (heights)); i++)
    read_all (*state, 2, heights[i]);
}

static int
set_up (void **state)
{
  *state = learn ();
  return 0;
}

static int
tear_down (void **state)
{
  g_array_unref (*state);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (forty_words_are_read_back_where_letters_are_seven_columns_high),
    cmocka_unit_test (from_an_odd_column_they_read_the_same),
    cmocka_unit_test (they_are_read_back_where_letters_are_five_columns_high),
    cmocka_unit_test (large_letters_are_read_back),
  };
  return cmocka_run_group_tests_name ("lettering", tests, set_up, tear_down);
}
