/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every page as it comes out of the printer, on all papers and in all languages: read back by
 * poppler, word for word with its box, and as a picture. */
#define _GNU_SOURCE
#include "../fewer.h"
#include "config.h"

#include "output/page/page.h"
#include "output/sheet/tags.h"
#include "fixture.h"
#include "printed.h"
#include "sample.h"

#include <dlfcn.h>
#include <json-glib/json-glib.h>
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static int missing_glyphs;

/* Stands in for the library's, as a program's own definitions do, and hands on to it. */
void
pango_cairo_show_layout (cairo_t *cr, PangoLayout *layout)
{
  missing_glyphs += pango_layout_get_unknown_glyphs_count (layout);
  ((__typeof__ (pango_cairo_show_layout) *)dlsym (RTLD_NEXT, "pango_cairo_show_layout")) (cr,
                                                                                          layout);
}

/* What of a line's height is air, above and below its ink. */
#define AIR 0.22
#define LARGE_NUMBER                                                                               \
  10.0                   /* points: of a row on the chart, in beads that are large by themselves   \
                          */
#define HAIR 0.5         /* points that boxes may share at their sides */
#define DPI 18           /* fine enough to see where a page ends */
#define MOST_EMPTY 0.334 /* of the height that text may take */
#define LEAST_FULL 0.1   /* of it, and otherwise so many lines at least */
#define LEAST_LINES 4

static const char *const papers[] = { "A4", "A5", "Letter" };

static BwPaper
paper_of (int i)
{
  BwPaper all[] = { BW_PAPER_A4, BW_PAPER_A5, BW_PAPER_LETTER };
  return all[i];
}

typedef struct {
  const Printed *printed;
  char *what; /* owned */
  double scale, margin;
  GArray *words, *pages; /* of PrintedWord, PrintedPage; owned */
  int faults;
} Look;

static void G_GNUC_PRINTF (2, 3) find_fault (Look *look, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  print_message ("%s: %s\n", look->what, text);
  look->faults++;
}

static const PrintedWord *
word_at (const Look *look, guint i)
{
  return &g_array_index (look->words, PrintedWord, i);
}

static gboolean
overlap (const PrintedWord *a, const PrintedWord *b)
{
  double air_a = AIR * (a->y1 - a->y0), air_b = AIR * (b->y1 - b->y0);
  return a->page == b->page && MIN (a->x1, b->x1) - MAX (a->x0, b->x0) > HAIR
         && MIN (a->y1 - air_a, b->y1 - air_b) - MAX (a->y0 + air_a, b->y0 + air_b) > 0;
}

static void
check_boxes (Look *look)
{
  for (guint i = 0; i < look->words->len; i++) {
    const PrintedWord *a = word_at (look, i);
    const PrintedPage *page = &g_array_index (look->pages, PrintedPage, a->page - 1);
    double margin = look->margin / 2;
    if (a->x0 < margin || a->x1 > page->width - margin || a->y0 < 0 || a->y1 > page->height)
      find_fault (look, "page %d: “%s” stands outside", a->page, a->text);
    for (guint k = 0; k < i; k++)
      if (overlap (a, word_at (look, k)))
        find_fault (look, "page %d: “%s” lies on “%s”", a->page, a->text, word_at (look, k)->text);
  }
}

/* Every glyph was in some font, every font is in the file, and every letter can be searched for. */
static void
check_letters (Look *look)
{
  const char *argv[] = { "pdffonts", look->printed->pdf, NULL };
  g_autofree char *fonts = printed_run (argv);
  g_auto (GStrv) lines = g_strsplit (fonts, "\n", -1);
  if (missing_glyphs > 0)
    find_fault (look, "%d glyphs are in no font", missing_glyphs);
  for (guint i = 0; i < look->words->len; i++)
    if (strstr (word_at (look, i)->text, "\357\277\275"))
      find_fault (look, "page %d: “%s”", word_at (look, i)->page, word_at (look, i)->text);
  for (guint i = 2; i < g_strv_length (lines) && *lines[i]; i++)
    if (!strstr (lines[i], " yes yes yes "))
      find_fault (look, "font not embedded: %s", lines[i]);
}

/* Where the ink of a page ends above its foot, points. */
static double
ink_end (const PrintedGrey *grey, double foot)
{
  int last = 0;
  for (int y = 0; y < MIN (grey->height, (int)(foot * DPI / 72)); y++)
    for (int x = 0; x < grey->width; x++)
      if (grey->dots[y * grey->width + x] < 200)
        last = y;
  return last * 72.0 / DPI;
}

/* Lines of text on a page above its foot. */
static int
count_lines (const Look *look, int page, double foot)
{
  double last = 0;
  int n = 0;
  for (guint i = 0; i < look->words->len; i++) {
    const PrintedWord *word = word_at (look, i);
    if (word->page != page || word->y1 > foot || fabs (word->y0 - last) < 4)
      continue;
    last = word->y0;
    n++;
  }
  return n;
}

static gboolean
part_begins (const BwSheet *sheet, int page)
{
  for (guint i = 0; i < sheet->parts->len; i++)
    if (g_array_index (sheet->parts, int, i) == page)
      return TRUE;
  return FALSE;
}

static void
check_ends (Look *look, const BwSheet *sheet)
{
  g_autoptr (GArray) greys = printed_grey (look->printed, DPI);
  assert_int_equal (greys->len, look->pages->len);
  for (guint i = 0; i < look->pages->len; i++) {
    double top = BW_SHEET_HEAD * look->scale;
    double foot = g_array_index (look->pages, PrintedPage, i).height - BW_SHEET_FOOT * look->scale;
    double full = (ink_end (&g_array_index (greys, PrintedGrey, i), foot) - top) / (foot - top);
    if (full < LEAST_FULL && count_lines (look, (int)i + 1, foot) < LEAST_LINES)
      find_fault (look, "page %d is %.0f %% full", i + 1, 100 * full);
    else if (1 - full > MOST_EMPTY && i + 1 < look->pages->len && !part_begins (sheet, (int)i + 1))
      find_fault (look, "page %d ends %.0f %% empty", i + 1, 100 * (1 - full));
  }
}

/* The list of headings and whatever else a cover has is told whole. */
static void
check_cover (Look *look, int last)
{
  for (guint i = 0; i < look->words->len; i++) {
    const PrintedWord *word = word_at (look, i);
    const PrintedPage *page = &g_array_index (look->pages, PrintedPage, word->page - 1);
    if (word->page <= last && strstr (word->text, "\342\200\246")
        && word->y1 < page->height - BW_SHEET_FOOT * look->scale)
      find_fault (look, "page %d: “%s” is cut off", word->page, word->text);
  }
}

/* Headings are set in 15 points, 18 high: something follows on the same page. */
static void
check_headings (Look *look)
{
  for (guint i = 0; i < look->words->len; i++) {
    const PrintedWord *heading = word_at (look, i);
    double high = (heading->y1 - heading->y0) / look->scale, lowest = 0;
    const PrintedPage *page = &g_array_index (look->pages, PrintedPage, heading->page - 1);
    if (high < 17.4 || high > 19)
      continue;
    for (guint k = 0; k < look->words->len; k++)
      if (word_at (look, k)->page == heading->page
          && word_at (look, k)->y1 < page->height - BW_SHEET_FOOT * look->scale)
        lowest = MAX (lowest, word_at (look, k)->y0);
    if (lowest <= heading->y1)
      find_fault (look, "page %d: heading “%s” alone", heading->page, heading->text);
  }
}

static int
look_at (const Printed *printed, BwSheet *taken, char *what)
{
  g_autoptr (BwSheet) sheet = taken;
  Look look = {
    .printed = printed, .what = what, .scale = sheet->scale, .margin = sheet->margin * sheet->scale
  };
  assert_true (bw_sheet_write_pdf (sheet, printed->pdf, NULL));
  look.words = printed_words (printed, &look.pages);
  check_boxes (&look);
  check_letters (&look);
  check_headings (&look);
  check_ends (&look, sheet);
  check_cover (&look, sheet->parts->len > 0 ? g_array_index (sheet->parts, int, 0) : 0);
  missing_glyphs = 0;
  g_array_unref (look.words);
  g_array_unref (look.pages);
  g_free (what);
  return look.faults;
}

/* Stands in for those of the piece. Owned. */
static cairo_surface_t *
dark_picture (void)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 60, 80);
  cairo_t *cr = cairo_create (picture);
  cairo_paint (cr);
  cairo_destroy (cr);
  return picture;
}

static int
look_at_all (const Printed *printed, BwProject *project, int paper, const char *name)
{
  BwPaper size = paper_of (paper);
  cairo_surface_t *picture = dark_picture ();
  int faults = look_at (printed, bw_sheet_new (project, size, picture, picture),
                        g_strdup_printf ("%s on %s", name, papers[paper]));
  faults += look_at (printed, bw_kit_new (project, size, 2, picture),
                     g_strdup_printf ("kit of %s on %s", name, papers[paper]));
  cairo_surface_destroy (picture);
  return faults;
}

/* On every paper, or each on another. */
static int
look_at_demos (const Printed *printed, gboolean on_every_paper)
{
  int faults = 0;
  BwProject *project;
  for (int i = 0; (project = printed_demo (i)); i++) {
    for (int paper = 0; paper < few (G_N_ELEMENTS (papers)); paper++)
      if (on_every_paper || paper == i % few (G_N_ELEMENTS (papers)))
        faults += look_at_all (printed, project, paper, bw_project_get_title (project));
    g_object_unref (project);
  }
  return faults;
}

static BwProject *
random_project (GRand *rand, int i)
{
  g_autoptr (Sample) sample
      = sample_new (rand, 2 * g_rand_int_range (rand, 2, 15), 0, (SampleBail)(i % 5));
  sample->taper = i % 3 == 0;
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static int
look_at_random (const Printed *printed, guint32 seed, int n)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int faults = 0;
  for (int i = 0; i < n; i++) {
    g_autoptr (BwProject) project = random_project (rand, i);
    g_autofree char *name = g_strdup_printf ("random %d", i);
    faults += look_at_all (printed, project, i % (int)G_N_ELEMENTS (papers), name);
  }
  return faults;
}

static void
the_pages_of_the_demos_are_well_set_on_every_paper (void **state)
{
  assert_int_equal (look_at_demos (*state, TRUE), 0);
}

static void
the_pages_of_random_designs_are_well_set (void **state)
{
  assert_int_equal (look_at_random (*state, 901, few (9)), 0);
}

/* All languages that are shipped. */
static void
the_pages_are_well_set_in_every_language (void **state)
{
  bindtextdomain (GETTEXT_PACKAGE, g_getenv ("BW_TEST_PO"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  g_auto (GStrv) languages = g_strsplit (g_getenv ("BW_TEST_LANGUAGES"), " ", -1);
  int faults = 0;
  use_decimal_comma ();
  for (char **language = languages; *language; language++) {
    g_setenv ("LANGUAGE", *language, TRUE);
    assert_string_not_equal (g_dgettext (GETTEXT_PACKAGE, "Work sheet"), "Work sheet");
    faults += look_at_demos (*state, FALSE) + look_at_random (*state, 902, 3);
  }
  setlocale (LC_ALL, "C.UTF-8");
  assert_int_equal (faults, 0);
}

/* Sheets that are neither work sheet nor kit. */
static int
look_at_the_others (const Printed *printed, BwProject *project, int paper, const char *name)
{
  BwPaper size = paper_of (paper);
  BwSheet *sheets[] = { bw_strip_new (project, size), bw_order_sheet_new (project, size),
                        bw_chart_sheet_new (project, size), bw_tags_new (project, size, NULL) };
  int faults = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++) {
    char *what = g_strdup_printf ("%s of %s on %s", sheets[i]->kind, name, papers[paper]);
    faults += look_at (printed, sheets[i], what);
  }
  return faults;
}

static void
assert_well_set (const Printed *printed, BwProject *project, const char *name)
{
  int faults = 0;
  for (int paper = 0; paper < few (G_N_ELEMENTS (papers)); paper++)
    faults += look_at_all (printed, project, paper, name)
              + look_at_the_others (printed, project, paper, name);
  assert_int_equal (faults, 0);
}

#define MOST_LETTERS 200

/* A letter of the file for each of so many colours. Owned. */
static char *
letter_of (int i)
{
  char letter[7] = { 0 };
  g_unichar_to_utf8 (i < 26 ? (gunichar)('a' + i) : (gunichar)(0x100 + i), letter);
  return g_strdup (letter);
}

/* As many colours, each with a long name. */
static void
put_tray (JsonObject *root, int n)
{
  JsonArray *tray = json_array_new ();
  for (int i = 0; i < n; i++) {
    JsonObject *colour = json_object_new ();
    g_autofree char *letter = letter_of (i);
    g_autofree char *name = g_strdup_printf ("Shallows after rain, number %d", i + 1);
    g_autofree char *srgb = g_strdup_printf ("#%06x", (guint)i * 0x10405 % 0x1000000);
    json_object_set_string_member (colour, "id", letter);
    json_object_set_string_member (colour, "name", name);
    json_object_set_string_member (colour, "srgb", srgb);
    json_array_add_object_element (tray, colour);
  }
  json_object_set_array_member (root, "tray", tray);
}

/* Which of n colours a bead has. */
typedef int (*Pattern) (int row, int place, int n);

static void
put_cells (JsonObject *part, int n, Pattern pattern)
{
  int rows = (int)json_object_get_int_member (part, "rows");
  int half = (int)json_object_get_int_member (part, "columns") / 2;
  JsonArray *cells = json_array_new ();
  for (int row = 0; row < rows; row++) {
    g_autoptr (GString) line = g_string_new (NULL);
    for (int place = 0; place < half; place++) {
      g_autofree char *letter = letter_of (pattern (row, place, n));
      g_string_append (line, letter);
    }
    json_array_add_string_element (cells, line->str);
  }
  json_object_set_array_member (part, "cells", cells);
}

/* A sample's stone, band and bail with n colours so laid. */
static BwProject *
laid_out (int columns, SampleBail bail, int n, Pattern pattern)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (95);
  g_autoptr (Sample) sample = sample_new (rand, columns, 0, bail);
  g_autofree char *plain = sample_json (sample);
  g_autoptr (JsonNode) node = json_from_string (plain, NULL);
  JsonObject *root = json_node_get_object (node);
  put_tray (root, n);
  put_cells (json_object_get_object_member (root, "band"), n, pattern);
  if (bail != SAMPLE_NO_BAIL)
    put_cells (json_object_get_object_member (root, "bail"), n, pattern);
  g_autofree char *json = json_to_string (node, FALSE);
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (json, strlen (json), &error);
  if (!project)
    fail_msg ("%s", error->message);
  return project;
}

static int
the_first (int row, int place, int n)
{
  return 0;
}

static int
one_after_the_other (int row, int place, int n)
{
  return (7 * row + place) % n;
}

/* Every 18 rows, which divide none of the usual counts, and a part of a turn besides. */
static int
every_eighteen (int row, int place, int n)
{
  return (row % 18 + place) % n;
}

static void
a_design_of_one_colour_is_well_set (void **state)
{
  g_autoptr (BwProject) project = laid_out (12, SAMPLE_FLAP, 1, the_first);
  assert_well_set (*state, project, "one colour");
}

static void
a_design_of_two_hundred_colours_is_well_set (void **state)
{
  g_autoptr (BwProject) project = laid_out (14, SAMPLE_RING, MOST_LETTERS, one_after_the_other);
  assert_well_set (*state, project, "two hundred colours");
}

/* Its words say so of each count at which it breaks. */
static void
a_motif_that_cannot_run_on_is_well_set (void **state)
{
  g_autoptr (BwProject) project = laid_out (10, SAMPLE_UPRIGHT, 4, every_eighteen);
  int rows = bw_project_get_design (project)->band.rows;
  assert_true (rows % 18 != 0);
  assert_well_set (*state, project, "a motif that cannot run on");
  printed_print (*state, bw_sheet_new (project, BW_PAPER_A4, NULL, NULL));
  g_autofree char *text = printed_text (*state);
  g_autofree char *breaks = g_strdup_printf ("With %d rows the pattern breaks at the join", rows);
  assert_non_null (strstr (text, breaks));
}

/* Whether all letters of a title stand on the first page, in whatever order a tool reads them. */
static gboolean
is_whole_on_cover (const Printed *printed, const char *title)
{
  g_autoptr (GArray) pages = NULL, words = printed_words (printed, &pages);
  g_autoptr (GString) cover = g_string_new (NULL);
  for (guint i = 0; i < words->len; i++)
    if (g_array_index (words, PrintedWord, i).page == 1)
      g_string_append (cover, g_array_index (words, PrintedWord, i).text);
  for (const char *c = title; *c; c = g_utf8_next_char (c))
    if (!g_unichar_isspace (g_utf8_get_char (c))
        && g_unichar_type (g_utf8_get_char (c)) != G_UNICODE_FORMAT
        && !g_utf8_strchr (cover->str, -1, g_utf8_get_char (c)))
      return FALSE;
  return cover->len >= strlen (title);
}

/* Letters of 26 points are 31 high. */
static gboolean
is_title (const PrintedWord *word)
{
  return word->page == 1 && word->y1 - word->y0 > 28;
}

/* Also where it runs from right to left, for all else on the page begins there. */
static void
assert_title_begins_at_the_left (const Printed *printed)
{
  g_autoptr (GArray) pages = NULL, words = printed_words (printed, &pages);
  double left = G_MAXDOUBLE;
  for (guint i = 0; i < words->len; i++)
    if (is_title (&g_array_index (words, PrintedWord, i)))
      left = MIN (left, g_array_index (words, PrintedWord, i).x0);
  assert_true (left == G_MAXDOUBLE || fabs (left - BW_SHEET_MARGIN) < 4);
}

static void
titles_of_any_kind_are_well_set_and_whole (void **state)
{
  g_autofree char *unbroken = g_strnfill (200, 'W');
  g_autoptr (GString) words = g_string_new (NULL);
  while (words->len < 190)
    g_string_append (words, "Lamps upon the wall ");
  const char *titles[] = { words->str, unbroken, "خاتم البحر", "שעת השפל, Low Tide ‏2" };
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++) {
    g_autoptr (BwProject) project = laid_out (8, SAMPLE_FLAP, 3, every_eighteen);
    bw_project_set_title (project, "", titles[i]);
    int paper = (int)(i % G_N_ELEMENTS (papers));
    assert_int_equal (look_at_all (*state, project, paper, titles[i])
                          + look_at_the_others (*state, project, paper, titles[i]),
                      0);
    printed_print (*state, bw_sheet_new (project, BW_PAPER_A5, NULL, NULL));
    assert_true (is_whole_on_cover (*state, titles[i]));
    assert_title_begins_at_the_left (*state);
  }
}

/* How many words are this one; the first and the last of them. */
static int
count_words (const GArray *words, const char *text, const PrintedWord **first,
             const PrintedWord **last)
{
  int n = 0;
  for (guint i = 0; i < words->len; i++) {
    const PrintedWord *word = &g_array_index (words, PrintedWord, i);
    if (!g_str_equal (word->text, text))
      continue;
    if (first && n == 0)
      *first = word;
    if (last)
      *last = word;
    n++;
  }
  return n;
}

/* Ten cards with the title, 85 by 55 mm apart, and a price where it is wished for. */
static void
ten_tags_are_on_a_page_with_a_price_where_it_is_wished_for (void **state)
{
  const BwPaper fed[] = { BW_PAPER_A4, BW_PAPER_LETTER };
  g_autoptr (GRand) rand = g_rand_new_with_seed (93);
  g_autoptr (BwProject) project = random_project (rand, 1);
  BwDesign design = *bw_project_get_design (project);
  design.supply.has_prices = TRUE;
  design.supply.hour = 12;
  design.supply.rows_per_hour = 20;
  design.supply.markup = 0.4;
  design.supply.round_to = 1;
  g_strlcpy (design.supply.currency, "EUR", sizeof design.supply.currency);
  assert_true (bw_project_set_design (project, "", &design, NULL));
  bw_project_set_title (project, "", "Ebb and Flow");
  g_autofree char *price
      = g_strdup_printf ("%.2f", ceil (1.4 * bw_project_materials (project)->cost.piece - 1e-6));
  for (int i = 0; i < 4; i++) {
    BwPaper paper = fed[i % 2];
    paper.wishes = i < 2 ? 0 : BW_PRINT_COSTS | BW_PRINT_LARGE;
    printed_print (*state, bw_tags_new (project, paper, NULL));
    g_autoptr (GArray) pages = NULL, words = printed_words (*state, &pages);
    assert_int_equal (pages->len, 1);
    assert_int_equal (count_words (words, "EUR", NULL, NULL), i < 2 ? 0 : 10);
    assert_int_equal (count_words (words, price, NULL, NULL), i < 2 ? 0 : 10);
    const PrintedWord *first = NULL, *last = NULL;
    assert_int_equal (count_words (words, "Ebb", &first, &last), 10);
    assert_true (fabs (last->x0 - first->x0 - 85 * BW_POINTS_PER_MM) < 0.05);
    assert_true (fabs (last->y0 - first->y0 - 4 * 55 * BW_POINTS_PER_MM) < 0.05);
  }
}

#define FINE 144 /* dots an inch: two a point */

static guint8
dot_at (const PrintedGrey *grey, double x, double y)
{
  return grey->dots[(int)(y * FINE / 72) * grey->width + (int)(x * FINE / 72)];
}

/* A cross in a ring six millimetres from the corner of each card. */
static void
every_tag_tells_where_to_punch_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (94);
  g_autoptr (BwProject) project = random_project (rand, 1);
  const double mm = BW_POINTS_PER_MM;
  printed_print (*state, bw_tags_new (project, BW_PAPER_A4, NULL));
  g_autoptr (GArray) greys = printed_grey (*state, FINE);
  const PrintedGrey *page = &g_array_index (greys, PrintedGrey, 0);
  for (int i = 0; i < 10; i++) {
    double x = (20 + i % 2 * 85 + 6) * mm, y = (11 + i / 2 * 55 + 6) * mm;
    assert_true (dot_at (page, x, y) < 220);
    assert_true (dot_at (page, x + 1, y + 1) > 250);
    assert_true (dot_at (page, x - 1.5 * mm, y) < 220
                 || dot_at (page, x - 1.5 * mm - 0.5, y) < 220);
  }
}

/* Its right edge is that of the rules, and it does not reach the heading below. */
static void
the_picture_of_a_kit_is_in_line (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (94);
  g_autoptr (BwProject) project = random_project (rand, 1);
  cairo_surface_t *picture = dark_picture ();
  printed_print (*state, bw_kit_new (project, BW_PAPER_A4, 1, picture));
  cairo_surface_destroy (picture);
  g_autoptr (GArray) greys = printed_grey (*state, FINE);
  const PrintedGrey *page = &g_array_index (greys, PrintedGrey, 1);
  double right = BW_PAPER_A4.width - BW_SHEET_MARGIN;
  assert_true (dot_at (page, right - 1.5, BW_SHEET_HEAD + 60) < 40);
  assert_true (dot_at (page, right + 1.5, BW_SHEET_HEAD + 60) > 250);
  assert_true (dot_at (page, right - 20, BW_SHEET_HEAD + 147) > 250);
}

static int
set_up (void **state)
{
  *state = printed_new ();
  return 0;
}

static int
tear_down (void **state)
{
  printed_free (*state);
  return 0;
}

/* Whatever the machine has, this process finds one file of type. Before any text is set. */
static void
leave_one_font (const char *family, char **folder)
{
  const char *argv[] = { "fc-match", "-f", "%{file}", family, NULL };
  g_autofree char *from = printed_run (argv), *name = g_path_get_basename (from);
  *folder = g_dir_make_tmp ("bandwright-font-XXXXXX", NULL);
  g_autofree char *type = g_build_filename (*folder, name, NULL);
  g_autofree char *config = g_build_filename (*folder, "fonts.conf", NULL);
  g_autofree char *text = g_strdup_printf (
      "<!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>%s</dir></fontconfig>", *folder);
  g_autoptr (GFile) source = g_file_new_for_path (from), target = g_file_new_for_path (type);
  g_assert_true (g_file_copy (source, target, 0, NULL, NULL, NULL, NULL));
  g_assert_true (g_file_set_contents (config, text, -1, NULL));
  g_setenv ("FONTCONFIG_FILE", config, TRUE);
}

static void
one_font_is_enough (void **state)
{
  assert_int_equal (look_at_demos (*state, FALSE) + look_at_random (*state, 903, 5), 0);
}

static int
run_with_one_font (const char *family)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (one_font_is_enough) };
  g_autofree char *folder = NULL;
  leave_one_font (family, &folder);
  int failed = cmocka_run_group_tests_name ("pages", tests, set_up, tear_down);
  const char *argv[] = { "rm", "-r", folder, NULL };
  g_free (printed_run (argv));
  return failed;
}

/* Any of these on any paper: one in each line, so that the whole takes seconds. */
static const struct {
  int paper;
  guint wishes;
} prints[] = {
  { 1, BW_PRINT_LARGE },
  { 0, BW_PRINT_LARGE },
  { 2, BW_PRINT_LARGE | BW_PRINT_SPARING },
  { 1, BW_PRINT_SPARING },
  { 1, BW_PRINT_LARGE | BW_PRINT_SPARING },
  { 0, BW_PRINT_SPARING },
  { 2, BW_PRINT_LARGE },
  { 0, BW_PRINT_LARGE | BW_PRINT_SPARING },
  { 2, BW_PRINT_SPARING },
  { 0, 0 },
  { 1, 0 },
  { 2, 0 },
};

static int
look_at_prints (const Printed *printed, BwProject *project, const char *name, int first, int n,
                guint besides)
{
  cairo_surface_t *picture = dark_picture ();
  int faults = 0;
  for (int i = 0; i < few (n); i++) {
    int at = (first + i) % (int)G_N_ELEMENTS (prints);
    BwPaper paper = paper_of (prints[at].paper);
    paper.wishes = prints[at].wishes | besides;
    faults
        += look_at (printed, bw_sheet_new (project, paper, picture, picture),
                    g_strdup_printf ("%s on %s%s%s", name, papers[prints[at].paper],
                                     prints[at].wishes & BW_PRINT_LARGE ? ", large" : "",
                                     prints[at].wishes & BW_PRINT_SPARING ? ", sparing ink" : ""));
  }
  cairo_surface_destroy (picture);
  return faults;
}

static void
large_print_and_sparing_print_are_well_set_on_every_paper (void **state)
{
  int faults = 0;
  BwProject *project;
  for (int i = 0; (project = printed_demo (i)); i++) {
    faults += look_at_prints (*state, project, bw_project_get_title (project), 3 * i, 4, 0);
    g_object_unref (project);
  }
  assert_int_equal (faults, 0);
}

/* How high the largest number of a row on the chart is, points. */
static double
number_height (const Printed *printed, BwProject *project, BwPaper paper, guint wishes)
{
  paper.wishes = wishes;
  printed_print (printed, bw_chart_sheet_new (project, paper));
  g_autoptr (GArray) pages = NULL, words = printed_words (printed, &pages);
  double height = 0;
  for (guint i = 0; i < words->len; i++) {
    const PrintedWord *word = &g_array_index (words, PrintedWord, i);
    if (g_str_equal (word->text, "35"))
      height = MAX (height, word->y1 - word->y0);
  }
  assert_true (height > 0);
  return height;
}

static void
the_chart_is_larger_in_large_print (void **state)
{
  BwProject *project;
  for (int i = 0; (project = printed_demo (i)); i++) {
    for (int paper = 0; paper < 2; paper++) {
      double usual = number_height (*state, project, paper_of (paper), 0),
             large = number_height (*state, project, paper_of (paper), BW_PRINT_LARGE);
      if (large < MIN (1.02 * usual, LARGE_NUMBER))
        fail_msg ("%s on %s: %.1f, large %.1f", bw_project_get_title (project), papers[paper],
                  usual, large);
    }
    g_object_unref (project);
  }
}

static void
narrow_and_wide_bands_in_inches_are_well_set_in_every_print (void **state)
{
  g_autoptr (BwProject) narrow = laid_out (4, SAMPLE_FLAP, 3, every_eighteen);
  g_autoptr (BwProject) wide = laid_out (30, SAMPLE_FLAP, 12, every_eighteen);
  int faults = look_at_prints (*state, narrow, "4 columns", 0, 4, BW_PRINT_INCHES)
               + look_at_prints (*state, wide, "30 columns", 0, 4, BW_PRINT_INCHES);
  assert_int_equal (faults, 0);
}

static int
run_with_wishes (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (large_print_and_sparing_print_are_well_set_on_every_paper),
    cmocka_unit_test (the_chart_is_larger_in_large_print),
    cmocka_unit_test (narrow_and_wide_bands_in_inches_are_well_set_in_every_print),
  };
  return cmocka_run_group_tests_name ("pages", tests, set_up, tear_down);
}

static int
run_with_odd_designs (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_design_of_one_colour_is_well_set),
    cmocka_unit_test (a_design_of_two_hundred_colours_is_well_set),
    cmocka_unit_test (a_motif_that_cannot_run_on_is_well_set),
    cmocka_unit_test (titles_of_any_kind_are_well_set_and_whole),
  };
  return cmocka_run_group_tests_name ("pages", tests, set_up, tear_down);
}

/* With a word: "odd" designs, prints by "wish", or the one family of type that the pages are set
 * in. */
int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_tag_tells_where_to_punch_it),
    cmocka_unit_test (the_picture_of_a_kit_is_in_line),
    cmocka_unit_test (ten_tags_are_on_a_page_with_a_price_where_it_is_wished_for),
    cmocka_unit_test (the_pages_of_the_demos_are_well_set_on_every_paper),
    cmocka_unit_test (the_pages_of_random_designs_are_well_set),
    cmocka_unit_test (the_pages_are_well_set_in_every_language),
  };
  if (argc > 1)
    return g_str_equal (argv[1], "odd")    ? run_with_odd_designs ()
           : g_str_equal (argv[1], "wish") ? run_with_wishes ()
                                           : run_with_one_font (argv[1]);
  return cmocka_run_group_tests_name ("pages", tests, set_up, tear_down);
}
