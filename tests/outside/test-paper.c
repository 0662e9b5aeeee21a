/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The printed files read back by the poppler tools (poppler-utils 22.12): what a maker gets on
 * paper is what the project says. */
#define _GNU_SOURCE
#include "../fewer.h"
#include "core/base/lattice.h"
#include "output/page/sheet.h"
#include "output/sheet/strip.h"
#include "output/sheet/tags.h"
#include "sample.h"

#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  char *folder, *pdf, *image;
} Desk;

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);
  desk->folder = g_dir_make_tmp ("bandwright-paper-XXXXXX", NULL);
  desk->pdf = g_build_filename (desk->folder, "out.pdf", NULL);
  desk->image = g_build_filename (desk->folder, "out.pgm", NULL);
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;
  g_remove (desk->pdf);
  g_remove (desk->image);
  g_assert_no_errno (g_rmdir (desk->folder));
  g_free (desk->folder);
  g_free (desk->pdf);
  g_free (desk->image);
  g_free (desk);
  return 0;
}

static BwProject *
project_of (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  BwProject *project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  return project;
}

static void
print (const Desk *desk, BwSheet *taken)
{
  g_autoptr (BwSheet) sheet = taken;
  assert_true (bw_sheet_write_pdf (sheet, desk->pdf, NULL));
}

/* Runs a tool of poppler; its standard output, owned. */
static char *
run (const char *const *argv)
{
  char *out = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, NULL, NULL));
  assert_true (g_subprocess_get_successful (process));
  return out;
}

static char *
text_of (const Desk *desk, const char *option)
{
  const char *argv[] = { "pdftotext", option, desk->pdf, "-", NULL };
  return run (argv);
}

/* A word of one character, and how large it is set. */
typedef struct {
  int page;
  double x, y, height;
  char letter;
} Mark;

static double
attribute (const char *word, const char *name)
{
  const char *at = strstr (word, name);
  assert_non_null (at);
  return g_ascii_strtod (at + strlen (name), NULL);
}

static GArray *
single_letters (const char *boxes)
{
  GArray *marks = g_array_new (FALSE, FALSE, sizeof (Mark));
  g_auto (GStrv) lines = g_strsplit (boxes, "\n", -1);
  int page = 0;
  for (char **line = lines; *line; line++) {
    page += strstr (*line, "<page ") != NULL;
    const char *end = strstr (*line, "</word>");
    if (!end || end[-2] != '>')
      continue;
    double top = attribute (*line, "yMin=\""), bottom = attribute (*line, "yMax=\"");
    double x = (attribute (*line, "xMin=\"") + attribute (*line, "xMax=\"")) / 2;
    Mark mark = { page, x, (top + bottom) / 2, bottom - top, end[-1] };
    g_array_append_val (marks, mark);
  }
  return marks;
}

/* The chart's letters are all of one size, and by far the most of their size. */
static void
keep_the_chart (GArray *marks)
{
  double height = 0;
  guint most = 0;
  for (guint i = 0; i < marks->len; i++) {
    guint n = 0;
    double own = g_array_index (marks, Mark, i).height;
    for (guint k = 0; k < marks->len; k++)
      n += fabs (g_array_index (marks, Mark, k).height - own) < 0.01;
    if (n > most && g_ascii_isalpha (g_array_index (marks, Mark, i).letter)) {
      most = n;
      height = own;
    }
  }
  for (guint i = marks->len; i > 0; i--)
    if (fabs (g_array_index (marks, Mark, i - 1).height - height) >= 0.01)
      g_array_remove_index (marks, i - 1);
}

static int
by_page_and_y (const void *a, const void *b)
{
  const Mark *m = a, *n = b;
  return m->page != n->page ? m->page - n->page : (m->y > n->y) - (m->y < n->y);
}

static int
by_x (const void *a, const void *b)
{
  return (((const Mark *)a)->x > ((const Mark *)b)->x)
         - (((const Mark *)a)->x < ((const Mark *)b)->x);
}

/* The end of the heights from mark i on that belong to one line of the chart: `columns` of them. */
static guint
line_end (GArray *marks, guint i, int columns)
{
  Mark last = g_array_index (marks, Mark, i);
  for (int heights = 1; i < marks->len; i++) {
    Mark mark = g_array_index (marks, Mark, i);
    if (mark.page != last.page)
      break;
    if (mark.y - last.y > 4 && ++heights > columns)
      break;
    last = mark;
  }
  return i;
}

/* One line of the chart, its marks by height: numbers the columns from below, then the rows from
 * the left, and takes the letters into the grid. Returns the last row. */
static int
read_line (Mark *mark, guint n, int columns, int row, char *grid)
{
  g_autofree int *column = g_new (int, n);
  g_autofree Mark *copy = g_memdup2 (mark, n * sizeof *mark);
  int at = columns;
  for (guint i = 0; i < n; i++) {
    at -= i > 0 && mark[i].y - mark[i - 1].y > 4;
    copy[i].page = column[i] = at;
  }
  assert_int_equal (at, 1);
  qsort (copy, n, sizeof *copy, by_x);
  for (guint i = 0; i < n; i++) {
    row += i == 0 || copy[i].x - copy[i - 1].x > 3;
    char *cell = &grid[(row - 1) * columns + copy[i].page - 1];
    assert_int_equal (*cell, 0);
    *cell = copy[i].letter;
  }
  return row;
}

static void
assert_grid_is_the_drawing (const char *grid, const Sample *sample)
{
  for (int row = 1; row <= sample->rows; row++)
    for (int column = 1; column <= sample->columns; column++)
      assert_int_equal (grid[(row - 1) * sample->columns + column - 1],
                        bw_lattice_has (row, column)
                            ? g_ascii_toupper (sample_bead (sample->cells, row, column))
                            : 0);
}

static void
the_chart_on_the_sheet_has_exactly_the_beads_of_the_project (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  for (int i = 0; i < 4; i++) {
    g_autoptr (Sample) sample = sample_new (rand, i < 3 ? 2 * g_rand_int_range (rand, 4, 10) : 14,
                                            i < 3 ? 0 : 400, SAMPLE_NO_BAIL);
    g_autoptr (BwProject) project = project_of (sample);
    print (desk, bw_sheet_new (project, i % 2 ? BW_PAPER_LETTER : BW_PAPER_A4, NULL, NULL));
    g_autofree char *boxes = text_of (desk, "-bbox");
    g_autoptr (GArray) marks = single_letters (boxes);
    keep_the_chart (marks);
    assert_int_equal (marks->len, sample->columns * sample->rows / 2);
    g_array_sort (marks, by_page_and_y);
    g_autofree char *grid = g_new0 (char, sample->columns * sample->rows);
    int row = 0;
    for (guint k = 0, end; k < marks->len; k = end) {
      end = line_end (marks, k, sample->columns);
      row = read_line (&g_array_index (marks, Mark, k), end - k, sample->columns, row, grid);
    }
    assert_int_equal (row, sample->rows);
    assert_grid_is_the_drawing (grid, sample);
  }
}

static void
every_page_has_its_number_and_the_title (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = project_of (sample);
  bw_project_set_title (project, "", "Tern and Tide");
  print (desk, bw_sheet_new (project, BW_PAPER_A4, NULL, NULL));
  g_autofree char *text = text_of (desk, "-layout");
  g_auto (GStrv) pages = g_strsplit (text, "\f", -1);
  int n = (int)g_strv_length (pages) - 1;
  assert_true (n > 4);
  for (int i = 0; i < n; i++) {
    g_autofree char *number = g_strdup_printf ("page %d of %d", i + 1, n);
    assert_non_null (strstr (pages[i], number));
    assert_non_null (strstr (pages[i], "Tern and Tide"));
  }
}

/* The page on which a heading stands in a line of its own, counted from 0. */
static int
page_headed (char **pages, const char *heading)
{
  for (int i = 1; pages[i]; i++) {
    g_auto (GStrv) lines = g_strsplit (pages[i], "\n", -1);
    if (g_strv_contains ((const char *const *)lines, heading))
      return i;
  }
  fail_msg ("“%s” is on no page", heading);
  return -1;
}

/* The last of them too, and a bail has more of them than any other sheet. Where much is to be
 * warned of the list has the page after the cover. */
static void
the_cover_or_the_page_after_it_lists_every_heading_with_its_page (void **state)
{
  static const char *const headings[] = { "What you need for 1 piece",
                                          "The thread, and where to change it",
                                          "The stone",
                                          "Winding the bed",
                                          "The fit and the try-on",
                                          "First a swatch",
                                          "Row ruler",
                                          "Your stone is not this stone",
                                          "Chart of the band",
                                          "Chart of the bail",
                                          "Row by row",
                                          "Before the first row",
                                          "The band",
                                          "Further rows",
                                          "The join",
                                          "The bail",
                                          "The ends of the thread",
                                          "Tools and thread",
                                          "Take Care",
                                          "Order list" };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = project_of (sample);
  print (desk, bw_sheet_new (project, BW_PAPER_A4, NULL, NULL));
  g_autofree char *text = text_of (desk, "-layout");
  g_auto (GStrv) pages = g_strsplit (text, "\f", -1);
  const char *list = pages[strstr (pages[0], "The way through these pages") ? 0 : 1];
  for (gsize i = 0; i < G_N_ELEMENTS (headings); i++) {
    g_autofree char *words = g_regex_escape_string (headings[i], -1);
    g_autofree char *entry
        = g_strdup_printf ("%s +%d\\b", words, page_headed (pages, headings[i]) + 1);
    if (!g_regex_match_simple (entry, list, 0, 0))
      fail_msg ("the list does not say that “%s” is on page %d", headings[i],
                page_headed (pages, headings[i]) + 1);
  }
}

#define FOOT 46.0 /* the running line */

/* Below every heading (set in 15 points, 18 high; the rows of the bench in 14) something follows on
 * the same page. */
static void
assert_no_heading_alone (const char *boxes)
{
  g_auto (GStrv) lines = g_strsplit (boxes, "\n", -1);
  double heading = 0, lowest = 0, bottom = 0;
  int headings = 0;
  for (char **line = lines; *line; line++) {
    if (strstr (*line, "<page ")) {
      heading = lowest = 0;
      bottom = attribute (*line, "height=\"") - FOOT;
    } else if (strstr (*line, "</page>")) {
      if (heading > 0 && lowest <= heading)
        fail_msg ("a heading at %g with nothing below it but what ends at %g", heading, lowest);
    } else if (strstr (*line, "</word>")) {
      double top = attribute (*line, "yMin=\""), end = attribute (*line, "yMax=\"");
      gboolean is_heading = end - top > 17.4 && end - top < 19;
      headings += is_heading;
      if (is_heading)
        heading = MAX (heading, end);
      else if (end < bottom)
        lowest = MAX (lowest, top);
    }
  }
  assert_true (headings > 10);
}

static void
no_heading_stands_alone_at_the_foot_of_a_page (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (75);
  for (int i = 0; i < few (12); i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 3, 16), 0, (SampleBail)(i % 4));
    sample->prices = i % 2;
    sample->taper = i % 3 == 0;
    g_autoptr (BwProject) project = project_of (sample);
    print (desk, bw_sheet_new (project, i % 2 ? BW_PAPER_LETTER : BW_PAPER_A4, NULL, NULL));
    g_autofree char *boxes = text_of (desk, "-bbox");
    assert_no_heading_alone (boxes);
  }
}

/* A word's letters in the order of reading or in that of the page: the tools differ there. */
/* Soft wraps are no part of a sentence. */
static char *
one_line (char *text)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n\f", -1);
  GString *line = g_string_new (NULL);
  for (char **word = words; *word; word++)
    if (**word)
      g_string_append_printf (line, "%s ", *word);
  g_free (text);
  return g_string_free (line, FALSE);
}

/* Flame, needle and glass, children, the mineral of the piece and the metal ring: on the work sheet
 * and on every maker's page of the kit. */
static void
every_sheet_cautions_about_the_piece_and_its_mineral (void **state)
{
  static const char *const words[]
      = { "Waxed cord burns",         "glass splinters",  "not for children under three",
          "splits along flat planes", "Mohs hardness 3)", "A metal ring rubs beading thread",
          "rules where you live" };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_RING);
  g_autoptr (BwProject) project = project_of (sample);
  bw_project_set_mineral (project, "", "calcite");
  for (int kit = 0; kit < 2; kit++) {
    print (desk, kit ? bw_kit_new (project, BW_PAPER_A4, 1, NULL)
                     : bw_sheet_new (project, BW_PAPER_A4, NULL, NULL));
    g_autofree char *text = one_line (text_of (desk, "-raw"));
    for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
      if (!strstr (text, words[i]))
        fail_msg ("“%s” is not on the %s", words[i], kit ? "kit" : "sheet");
  }
}

static gboolean
has_word (const char *text, const char *word)
{
  g_autofree char *turned = g_utf8_strreverse (word, -1);
  return strstr (text, word) || strstr (text, turned);
}

static void
a_title_in_arabic_can_be_read_back (void **state)
{
  const Desk *desk = *state;
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "", "خاتم البحر");
  print (desk, bw_sheet_new (project, BW_PAPER_A4, NULL, NULL));
  g_autofree char *text = text_of (desk, "-layout");
  assert_true (has_word (text, "البحر"));
  assert_true (has_word (text, "خاتم"));
}

static void
assert_page_size (const Desk *desk, const char *size)
{
  const char *argv[] = { "pdfinfo", desk->pdf, NULL };
  g_autofree char *info = run (argv);
  if (!strstr (info, size))
    fail_msg ("not %s: %s", size, info);
}

#define DPI 600

/* The dark lines across the page between two lengths, from the top down, in millimetres. */
static GArray *
long_lines (const Desk *desk, int page, double least_mm)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (double));
  g_autofree char *number = g_strdup_printf ("%d", page),
                  *root = g_strndup (desk->image, strlen (desk->image) - 4);
  const char *argv[] = { "pdftoppm", "-gray", "-singlefile", "-r", G_STRINGIFY (DPI),
                         "-f",       number,  desk->pdf,     root, NULL };
  g_free (run (argv));
  g_autofree char *data = NULL;
  int width, height, most, used;
  assert_true (g_file_get_contents (desk->image, &data, NULL, NULL));
  assert_int_equal (sscanf (data, "P5 %d %d %d%n", &width, &height, &most, &used), 3);
  const guint8 *pixel = (const guint8 *)data + used + 1;
  for (int y = 0, last = -10; y < height; y++, pixel += width) {
    int longest = 0;
    for (int x = 0, length = 0; x < width; x++) {
      length = pixel[x] < 128 ? length + 1 : 0;
      longest = MAX (longest, length);
    }
    double mm = longest * 25.4 / DPI;
    if (mm < least_mm)
      continue;
    if (y > last + 1)
      g_array_append_val (lines, mm);
    g_array_index (lines, double, lines->len - 1)
        = MAX (mm, g_array_index (lines, double, lines->len - 1));
    last = y;
  }
  return lines;
}

static void
assert_mm (GArray *lines, guint i, double expected)
{
  assert_true (i < lines->len);
  double found = g_array_index (lines, double, i);
  if (fabs (found - expected) > 0.1)
    fail_msg ("line %u measures %.3f mm, not %.3f mm", i, found, expected);
}

static void
the_strip_is_as_long_on_every_paper_as_the_stone_is_round (void **state)
{
  static const char *const sizes[]
      = { "595.276 x 841.89 pts (A4)", "612 x 792 pts (letter)", "419.528 x 595.276 pts" };
  const BwPaper papers[] = { BW_PAPER_A4, BW_PAPER_LETTER, BW_PAPER_A5 };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  for (int i = 0; i < 6; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
    sample->taper = i / 3;
    g_autoptr (BwProject) project = project_of (sample);
    BwStripMarks marks;
    bw_strip_marks_init (&marks, project);
    print (desk, bw_strip_new (project, papers[i % 3]));
    assert_page_size (desk, sizes[i % 3]);
    g_autoptr (GArray) lines = long_lines (desk, 1, 45);
    guint inches
        = i % 3 == 1; /* where paper is sold by the inch a second ruler shows two of them */
    assert_int_equal (lines->len, 3 + inches);
    assert_mm (lines, 0, 50);
    if (inches)
      assert_mm (lines, 1, 2 * 25.4);
    assert_mm (lines, 1 + inches, marks.girth_mm);
    assert_mm (lines, 2 + inches, marks.over_mm);
  }
}

/* Wider than any printer's usual paper, and all in one piece. */
static void
the_strip_keeps_its_length_on_a_paper_of_any_size (void **state)
{
  static const char *const words[] = { "420x297", "200.5x310", "180x180" };
  static const char *const sizes[]
      = { "1190.55 x 841.89 pts", "568.346 x 878.74 pts", "510.236 x 510.236 pts" };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
    g_autoptr (BwProject) project = project_of (sample);
    BwStripMarks marks;
    BwPaper paper;
    assert_true (bw_paper_from_word (words[i], &paper));
    bw_strip_marks_init (&marks, project);
    print (desk, bw_strip_new (project, paper));
    assert_page_size (desk, sizes[i]);
    g_autoptr (GArray) lines = long_lines (desk, 1, 45);
    assert_int_equal (lines->len, 3);
    assert_mm (lines, 0, 50);
    assert_mm (lines, 1, marks.girth_mm);
    assert_mm (lines, 2, marks.over_mm);
  }
}

/* Headings give way before what stands under them does. */
static void
a_narrow_table_wraps_its_headings_first (void **state)
{
  const Desk *desk = *state;
  g_autofree char *path
      = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", "twin-scud.bandwright", NULL);
  g_autofree char *json = NULL;
  gsize length;
  assert_true (g_file_get_contents (path, &json, &length, NULL));
  g_autoptr (BwProject) project = bw_project_load_data (json, length, NULL);
  assert_non_null (project);
  print (desk, bw_sheet_new (project, BW_PAPER_A5, NULL, NULL));
  g_autofree char *text = text_of (desk, "-raw");
  assert_non_null (strstr (text, "breaks at the join:"));
  assert_null (strstr (text, "breaks at the\njoin"));
}

/* Where the first word that is this one stands, points from the top of its page. */
static double
height_of (const Desk *desk, const char *word)
{
  g_autofree char *boxes = text_of (desk, "-bbox");
  g_autofree char *ending = g_strdup_printf (">%s</word>", word);
  const char *at = strstr (boxes, ending);
  assert_non_null (at);
  while (strncmp (at, "<word ", 6) != 0)
    at--;
  return attribute (at, "yMin=\"");
}

/* White on white shows nothing: no room is kept for it. */
static void
where_ink_is_spared_there_is_no_ribbon (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = project_of (sample);
  BwPaper paper = BW_PAPER_A4;
  print (desk, bw_sheet_new (project, paper, NULL, NULL));
  double below = height_of (desk, "even-count");
  paper.wishes = BW_PRINT_SPARING;
  print (desk, bw_sheet_new (project, paper, NULL, NULL));
  assert_true (height_of (desk, "even-count") < below - 40);
}

/* How high the first word of the file is set. */
static double
title_height (const Desk *desk)
{
  g_autofree char *boxes = text_of (desk, "-bbox");
  const char *word = strstr (boxes, "<word ");
  assert_non_null (word);
  return attribute (word, "yMax=\"") - attribute (word, "yMin=\"");
}

/* Letters of 26, 15 and 10.5 points are 31.2, 18 and 12.6 high. */
static void
a_long_title_is_set_smaller_by_steps (void **state)
{
  static const double heights[] = { 31.2, 31.2, 18, 18 };
  const Desk *desk = *state;
  g_autoptr (BwProject) project = bw_project_new ();
  for (int i = 0; i < 4; i++) {
    g_autoptr (GString) title = g_string_new ("Lamps");
    for (int more = 0; more < 8 * i; more++)
      g_string_append (title, " ashore");
    bw_project_set_title (project, "", title->str);
    print (desk, bw_order_sheet_new (project, BW_PAPER_A4));
    assert_float_equal (title_height (desk), heights[i], 0.2);
  }
}

/* A column of nothing takes room from names. */
static void
article_numbers_have_a_column_where_there_are_any (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  for (int some = 0; some < 2; some++) {
    BwTray tray = *bw_project_get_tray (project);
    if (some)
      g_strlcpy (tray.colour[0].article, "TW-4711", sizeof tray.colour[0].article);
    assert_true (bw_project_set_tray (project, "", &tray, NULL));
    print (desk, bw_order_sheet_new (project, BW_PAPER_A4));
    g_autofree char *text = text_of (desk, "-raw");
    assert_int_equal (strstr (text, "Article no.") != NULL, some);
    assert_int_equal (strstr (text, "TW-4711") != NULL, some);
  }
}

/* Sheets of every kind for who measures in inches. */
static BwSheet *
in_inches (BwProject *project, BwPaper paper, int kind)
{
  paper.wishes = BW_PRINT_INCHES;
  switch (kind) {
  case 0:
    return bw_sheet_new (project, paper, NULL, NULL);
  case 1:
    return bw_kit_new (project, paper, 3, NULL);
  case 2:
    return bw_strip_new (project, paper);
  case 3:
    return bw_order_sheet_new (project, paper);
  case 4:
    return bw_tags_new (project, paper, NULL);
  default:
    return bw_chart_sheet_new (project, paper);
  }
}

/* But for the finished size, which a buyer reads, and the ruler that shows what the printer did. */
static void
pages_in_inches_tell_no_millimetre (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (78);
  g_autoptr (GRegex) other = g_regex_new ("\\bmm\\b|millimet|[0-9] m\\b", 0, 0, NULL);
  g_autoptr (GRegex) usual
      = g_regex_new ("\\([0-9]+ × [0-9]+ mm\\)|measure 50 mm|50 mm$", G_REGEX_MULTILINE, 0, NULL);
  for (int i = 0; i < few (30); i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 2, 12), 0, (SampleBail)(i % 5));
    sample->taper = i % 3 == 0;
    g_autoptr (BwProject) project = project_of (sample);
    print (desk, in_inches (project, i % 2 ? BW_PAPER_LETTER : BW_PAPER_A4, i % 6));
    g_autofree char *raw = text_of (desk, "-raw");
    g_autoptr (GString) spaced = g_string_new (raw);
    g_string_replace (spaced, "\302\240", " ", 0);
    g_autofree char *text = g_regex_replace_literal (usual, spaced->str, -1, 0, "", 0, NULL);
    g_autoptr (GMatchInfo) found = NULL;
    if (g_regex_match (other, text, 0, &found)) {
      int at;
      g_match_info_fetch_pos (found, 0, &at, NULL);
      fail_msg ("sheet %d: “…%.60s…”", i % 6, text + MAX (0, at - 30));
    }
  }
}

/* What is at true size is so in any unit: the strip, and a ruler for either. */
static void
the_strip_is_as_long_in_inches (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  for (int i = 0; i < 3; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
    g_autoptr (BwProject) project = project_of (sample);
    BwStripMarks marks;
    bw_strip_marks_init (&marks, project);
    print (desk, in_inches (project, BW_PAPER_A4, 2));
    g_autoptr (GArray) lines = long_lines (desk, 1, 45);
    assert_int_equal (lines->len, 4);
    assert_mm (lines, 0, 50);
    assert_mm (lines, 1, 2 * 25.4);
    assert_mm (lines, 2, marks.girth_mm);
    assert_mm (lines, 3, marks.over_mm);
  }
}

/* A stone of 500 mm round: the pieces together are as long as it is round. */
static void
a_strip_in_pieces_loses_nothing (void **state)
{
  const Desk *desk = *state;
  g_autoptr (BwProject) project = bw_project_new ();
  BwDesign design = *bw_project_get_design (project);
  design.stone = (BwStoneMeasures){ .faces = 6,
                                    .measured = BW_MEASURED_GIRTH,
                                    .values_mm = { 500 },
                                    .at_mm = 20,
                                    .length_mm = 120,
                                    .has_shoulder = TRUE,
                                    .shoulder_mm = 80,
                                    .girth_sd_mm = 0.4,
                                    .density_g_cm3 = 2.65 };
  design.band.bottom_mm = 20;
  design.bed.layers = 0;
  design.bed.top_extra_mm = 0;
  assert_true (bw_project_set_design (project, "", &design, NULL));
  print (desk, bw_strip_new (project, BW_PAPER_LETTER));
  g_autoptr (GArray) lines = long_lines (desk, 1, 45);
  double sum = 0;
  for (guint i = 2; /* after the rulers */ i < lines->len; i++)
    sum += g_array_index (lines, double, i);
  if (fabs (sum - 500) > 0.3)
    fail_msg ("%u pieces, %.3f mm", lines->len - 2, sum);
}

/* How high the running line's type is on each page: what it is at A4 in the usual print is 1. */
static double
type_of (const Desk *desk)
{
  g_autofree char *boxes = text_of (desk, "-bbox");
  const char *at = strstr (boxes, ">page</word>");
  assert_non_null (at);
  while (*at != '\n')
    at--;
  return (attribute (at, "yMax=\"") - attribute (at, "yMin=\"")) / (8.5 * 1.2);
}

static void
print_is_larger_by_wish_and_on_larger_paper_and_a_strip_never_is (void **state)
{
  static const struct {
    const char *word;
    guint wishes;
    double type;
  } cases[] = { { "a4", 0, 1 },
                { "letter", 0, 1 },
                { "a5", 0, 1 },
                { "a4", BW_PRINT_LARGE, 210.0 / 148 },
                { "297x420", 0, 297.0 / 210 },
                { "297x420", BW_PRINT_LARGE, 420.0 / 210 },
                { "a5", BW_PRINT_LARGE, 1.25 },
                { "180x200", BW_PRINT_LARGE, 1 } };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (76);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_FLAP);
  g_autoptr (BwProject) project = project_of (sample);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwPaper paper;
    assert_true (bw_paper_from_word (cases[i].word, &paper));
    paper.wishes = cases[i].wishes;
    print (desk, bw_sheet_new (project, paper, NULL, NULL));
    assert_float_equal (type_of (desk), cases[i].type, 0.01);
    if (!g_str_equal (cases[i].word, "a5")) {
      print (desk, bw_strip_new (project, paper));
      assert_float_equal (type_of (desk), 1, 0.01);
    }
  }
}

static void
files_are_tagged_with_headings_tables_and_figures (void **state)
{
  static const char *const tags[] = { "H1", "H2", "Table", "Figure", "P" };
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (77);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_UPRIGHT);
  g_autoptr (BwProject) project = project_of (sample);
  BwSheet *sheets[]
      = { bw_sheet_new (project, BW_PAPER_A4, NULL, NULL),
          bw_kit_new (project, BW_PAPER_A4, 2, NULL), bw_strip_new (project, BW_PAPER_A4) };
  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++) {
    print (desk, sheets[i]);
    const char *info[] = { "pdfinfo", desk->pdf, NULL };
    const char *structure[] = { "pdfinfo", "-struct", desk->pdf, NULL };
    g_autofree char *facts = run (info), *tree = run (structure);
    const char *tagged = strstr (facts, "Tagged:");
    assert_true (tagged && g_str_has_prefix (tagged + strcspn (tagged, " ") + 10, "yes"));
    assert_true (g_str_has_prefix (tree, "Document"));
    for (gsize k = 0; k < G_N_ELEMENTS (tags); k++) {
      g_autofree char *tag = g_strconcat ("  ", tags[k], NULL);
      assert_true (i == 2 || strstr (tree, tag) != NULL);
    }
  }
}

/* A picture that nothing makes smaller. */
static cairo_surface_t *
noise (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 300, 300);
  guint32 *dots = (guint32 *)(gpointer)cairo_image_surface_get_data (picture);
  for (int i = 0; i < 300 * 300; i++)
    dots[i] = g_rand_int (rand);
  cairo_surface_mark_dirty (picture);
  return picture;
}

/* Drawings that a file holds to show more than once. */
static int
count_shared (const Desk *desk)
{
  g_autofree char *bytes = NULL;
  gsize size;
  int n = 0;
  assert_true (g_file_get_contents (desk->pdf, &bytes, &size, NULL));
  for (const char *at = bytes; (at = memmem (at, size - (gsize)(at - bytes), "/Subtype /Form", 14));
       at++)
    n++;
  return n;
}

static gsize
file_size (const Desk *desk)
{
  GStatBuf facts;
  assert_int_equal (g_stat (desk->pdf, &facts), 0);
  return (gsize)facts.st_size;
}

/* The kit of a class and a page of tags hold the picture, and whatever else is alike, once. */
static void
what_is_alike_on_many_pages_is_in_the_file_once (void **state)
{
  const Desk *desk = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  g_autoptr (Sample) sample = sample_new (rand, 8, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = project_of (sample);
  cairo_surface_t *picture = noise (80);
  print (desk, bw_kit_new (project, BW_PAPER_A4, 1, picture));
  gsize one = file_size (desk);
  assert_true (one > 250 * 1000); /* the picture is in it */
  print (desk, bw_kit_new (project, BW_PAPER_A4, 12, picture));
  assert_true (file_size (desk) < 1000 * 1000);
  assert_true (file_size (desk) - one < 11 * 4000);
  g_autofree char *text = text_of (desk, "-layout");
  for (int maker = 1; maker <= 12; maker++) {
    g_autofree char *who = g_strdup_printf ("Maker %d of 12", maker);
    assert_non_null (strstr (text, who));
  }
  print (desk, bw_tags_new (project, BW_PAPER_A4, picture));
  assert_true (file_size (desk) < 2 * one);
  /* The page's own, and the card that is on it ten times. */
  assert_int_equal (count_shared (desk), 2);
  cairo_surface_destroy (picture);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_chart_on_the_sheet_has_exactly_the_beads_of_the_project),
    cmocka_unit_test (every_page_has_its_number_and_the_title),
    cmocka_unit_test (the_cover_or_the_page_after_it_lists_every_heading_with_its_page),
    cmocka_unit_test (no_heading_stands_alone_at_the_foot_of_a_page),
    cmocka_unit_test (every_sheet_cautions_about_the_piece_and_its_mineral),
    cmocka_unit_test (a_title_in_arabic_can_be_read_back),
    cmocka_unit_test (the_strip_is_as_long_on_every_paper_as_the_stone_is_round),
    cmocka_unit_test (the_strip_keeps_its_length_on_a_paper_of_any_size),
    cmocka_unit_test (a_narrow_table_wraps_its_headings_first),
    cmocka_unit_test (where_ink_is_spared_there_is_no_ribbon),
    cmocka_unit_test (a_long_title_is_set_smaller_by_steps),
    cmocka_unit_test (article_numbers_have_a_column_where_there_are_any),
    cmocka_unit_test (pages_in_inches_tell_no_millimetre),
    cmocka_unit_test (the_strip_is_as_long_in_inches),
    cmocka_unit_test (a_strip_in_pieces_loses_nothing),
    cmocka_unit_test (print_is_larger_by_wish_and_on_larger_paper_and_a_strip_never_is),
    cmocka_unit_test (what_is_alike_on_many_pages_is_in_the_file_once),
    cmocka_unit_test (files_are_tagged_with_headings_tables_and_figures),
  };
  return cmocka_run_group_tests_name ("paper", tests, set_up, tear_down);
}
