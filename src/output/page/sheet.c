/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages are recorded once, when they are laid out, and played back on whatever they are drawn on;
 * only what needs the number of pages is added then. */
#include "config.h"

#include "output/page/page.h"

#include "core/pattern/tint.h"
#include "output/page/whole-file.h"
#include "project/piece-name.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#define LARGE_PRINT 1.5
#define LARGE_ON_SMALL 1.25 /* where half as large again would leave no page to lay out */
#define LARGER_PAPER 1.1    /* times A4 from which on a paper counts as larger */

/* A whole or decimal number of millimetres up to `end`. */
static gboolean
side_from_word (const char *word, char end, double *points, const char **rest)
{
  char *after;
  double mm = g_ascii_strtod (word, &after);
  if (!g_ascii_isdigit (*word) || *after != end || mm < BW_PAPER_LEAST_MM || mm > BW_PAPER_MOST_MM)
    return FALSE;
  *points = mm * BW_POINTS_PER_MM;
  *rest = after + 1;
  return TRUE;
}

gboolean
bw_paper_from_word (const char *word, BwPaper *paper)
{
  BwPaper given = { 0 };
  const char *rest;
  if (g_ascii_strcasecmp (word, "a4") == 0)
    *paper = BW_PAPER_A4;
  else if (g_ascii_strcasecmp (word, "a5") == 0)
    *paper = BW_PAPER_A5;
  else if (g_ascii_strcasecmp (word, "letter") == 0)
    *paper = BW_PAPER_LETTER;
  else if (side_from_word (word, 'x', &given.width, &rest)
           && side_from_word (rest, '\0', &given.height, &rest))
    *paper = given;
  else
    return FALSE;
  return TRUE;
}

BwUnit
bw_paper_unit (BwPaper paper)
{
  return paper.wishes & BW_PRINT_INCHES ? BW_UNIT_INCH : BW_UNIT_MM;
}

gboolean
bw_paper_equal (BwPaper a, BwPaper b)
{
  return fabs (a.width - b.width) < 0.1 && fabs (a.height - b.height) < 0.1;
}

/* The day the sheet is made, or the one that a reproducible build prescribes
 * (https://reproducible-builds.org/specs/source-date-epoch/). */
static GDateTime *
sheet_day (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds;
  if (epoch
      && g_ascii_string_to_signed (epoch, 10, 0, G_GINT64_CONSTANT (253402300799), &seconds, NULL))
    return g_date_time_new_from_unix_utc (seconds);
  return g_date_time_new_now_local ();
}

/* A stretch of a page: drawn by itself, so that a PDF can say what it is. */
typedef struct {
  cairo_surface_t *drawing;
  BwTag tag;
} Stretch;

const cairo_user_data_key_t bw_sheet_page_key;

static void
clear_stretch (gpointer stretch)
{
  cairo_surface_destroy (((Stretch *)stretch)->drawing);
}

static void
destroy_page (gpointer page)
{
  g_array_unref (page);
}

/* Larger than it is laid out: by the maker's wish, and on a paper larger than the usual, so that
 * its lines hold no more words than can be read. What is smaller than A4 is laid out as it is. */
static double
scale_for (BwPaper paper)
{
  double wider = MIN (paper.width / BW_PAPER_A4.width, paper.height / BW_PAPER_A4.height);
  double scale = wider < LARGER_PAPER ? 1 : wider, least = 1;
  double small = MIN (paper.width / BW_PAPER_A5.width, paper.height / BW_PAPER_A5.height);
  if (paper.wishes & BW_PRINT_LARGE) {
    scale *= LARGE_PRINT;
    least = small < 1 ? 1 : LARGE_ON_SMALL;
  }
  /* Large print on small paper: as large as leaves a page to lay out. */
  return CLAMP (small, least, scale);
}

/* On paper smaller than what pages are laid out for, large print leaves the margins as they were.
 */
static double
margin_for (const BwSheet *sheet)
{
  double left = sheet->paper.width / sheet->scale / BW_PAPER_A5.width;
  return BW_SHEET_MARGIN * MIN (1, left);
}

BwSheet *
bw_sheet_alloc (BwProject *project, BwPaper paper, const char *kind, gboolean at_size)
{
  g_autofree char *name = bw_piece_name (project);
  BwSheet *sheet = g_new0 (BwSheet, 1);
  g_autoptr (GDateTime) day = sheet_day ();
  sheet->paper = paper;
  sheet->scale = at_size ? 1 : scale_for (paper);
  sheet->margin = margin_for (sheet);
  sheet->title = bw_sheet_one_line (name);
  sheet->kind = g_strdup (kind);
  /* Translators: day, month by name, year of a printed sheet. */
  sheet->date = g_date_time_format (day, _ ("%-d %B %Y"));
  sheet->stamp = g_date_time_format (day, "%Y-%m-%dT%H:%M:%SZ");
  sheet->parts = g_array_new (FALSE, FALSE, sizeof (int));
  sheet->pages = g_ptr_array_new_with_free_func (destroy_page);
  return sheet;
}

void
bw_sheet_open_page (BwSheet *sheet)
{
  GArray *page = g_array_new (FALSE, FALSE, sizeof (Stretch));
  g_array_set_clear_func (page, clear_stretch);
  g_ptr_array_add (sheet->pages, page);
}

void
bw_sheet_begin_part (BwSheet *sheet)
{
  int page = bw_sheet_n_pages (sheet) - 1;
  g_array_append_val (sheet->parts, page);
}

cairo_t *
bw_sheet_open_stretch (BwSheet *sheet, int page, BwTag tag)
{
  /* A recording without bounds would never be let go by a PDF surface that it is painted on. */
  cairo_rectangle_t paper
      = { 0, 0, sheet->paper.width / sheet->scale, sheet->paper.height / sheet->scale };
  GArray *stretches = g_ptr_array_index (sheet->pages, page);
  Stretch stretch = { cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &paper), tag };
  cairo_surface_set_user_data (stretch.drawing, &bw_sheet_page_key, stretches, NULL);
  g_array_append_val (stretches, stretch);
  return cairo_create (stretch.drawing);
}

static gboolean
is_empty (cairo_surface_t *drawing)
{
  double x, y, width, height;
  cairo_recording_surface_ink_extents (drawing, &x, &y, &width, &height);
  return width <= 0 || height <= 0;
}

gboolean
bw_sheet_ends_with (const BwSheet *sheet, int page, guint first)
{
  const GArray *stretches = g_ptr_array_index (sheet->pages, page);
  for (guint i = first + 1; i < stretches->len; i++)
    if (!is_empty (g_array_index (stretches, Stretch, i).drawing))
      return FALSE;
  return TRUE;
}

void
bw_sheet_drop_from (BwSheet *sheet, int page, guint first)
{
  g_array_set_size (g_ptr_array_index (sheet->pages, page), first);
}

void
bw_sheet_share_page (BwSheet *sheet, int page, guint skip)
{
  const GArray *from = g_ptr_array_index (sheet->pages, page);
  GArray *to = g_ptr_array_index (sheet->pages, sheet->pages->len - 1);
  for (guint i = skip; i < from->len; i++) {
    Stretch shared = g_array_index (from, Stretch, i);
    cairo_surface_reference (shared.drawing);
    g_array_append_val (to, shared);
  }
}

void
bw_sheet_free (BwSheet *sheet)
{
  g_clear_pointer (&sheet->head, cairo_surface_destroy);
  g_ptr_array_unref (sheet->pages);
  g_array_unref (sheet->parts);
  g_free (sheet->title);
  g_free (sheet->kind);
  g_free (sheet->date);
  g_free (sheet->stamp);
  g_free (sheet);
}

BwPaper
bw_sheet_get_paper (const BwSheet *sheet)
{
  return sheet->paper;
}

int
bw_sheet_n_pages (const BwSheet *sheet)
{
  return (int)sheet->pages->len;
}

/* A line of small grey type, cut with an ellipsis where it must not grow. Returns its width. */
static double
draw_small (cairo_t *cr, const char *text, double x, double y, double most, double align)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_SMALL, text, 0);
  int width, most_units = pango_units_from_double (most);
  pango_layout_get_size (layout, &width, NULL);
  if (width > most_units) {
    pango_layout_set_width (layout, most_units);
    pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    width = most_units;
  }
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_move_to (cr, x + align * (most - pango_units_to_double (width)), y);
  pango_cairo_show_layout (cr, layout);
  return pango_units_to_double (width);
}

#define HEAD_TOP 24.0 /* of what stands at the head of a page */

static void
draw_head (const BwSheet *sheet, cairo_t *cr, int page)
{
  if (!sheet->head || page == 0)
    return;
  cairo_set_source_surface (cr, sheet->head, sheet->margin, HEAD_TOP);
  cairo_paint (cr);
}

static void
draw_frame (const BwSheet *sheet, cairo_t *cr, int page)
{
  double left = sheet->margin, width = sheet->paper.width / sheet->scale - 2 * left;
  double foot = sheet->paper.height / sheet->scale - BW_SHEET_FOOT + 12;
  g_autofree char *head = g_strdup_printf (_ ("%s · %s"), sheet->kind, sheet->title);
  g_autofree char *number
      = g_strdup_printf (_ ("page %d of %d"), page + 1, bw_sheet_n_pages (sheet));
  draw_small (cr, head, left, foot, width - 180, 0);
  draw_small (cr, sheet->date, left + width - 170, foot, 90, 0.5);
  draw_small (cr, number, left + width - 75, foot, 75, 1);
}

/* A speck of white on white. */
static void
draw_nothing (cairo_t *cr)
{
  cairo_rectangle (cr, 0, 0, 1, 1);
  cairo_set_source_rgb (cr, BW_ON_PAPER (SHEET));
  cairo_fill (cr);
}

void
bw_sheet_draw_page (const BwSheet *sheet, cairo_t *cr, int page)
{
  g_return_if_fail (page >= 0 && page < bw_sheet_n_pages (sheet));
  static const char *const names[] = { "P", "H1", "H2", "Table", "Figure" };
  const GArray *stretches = g_ptr_array_index (sheet->pages, page);
  cairo_save (cr);
  cairo_scale (cr, sheet->scale, sheet->scale);
  /* The running line first: cairo drops what lies under the first picture of a page, and would
   * drop with it the beginning of a tag. */
  if (sheet->bare)
    draw_nothing (cr);
  else
    draw_frame (sheet, cr, page);
  draw_head (sheet, cr, page);
  for (guint i = 0; i < stretches->len; i++) {
    const Stretch *stretch = &g_array_index (stretches, Stretch, i);
    if (is_empty (stretch->drawing))
      continue;
    cairo_tag_begin (cr, names[stretch->tag], NULL);
    cairo_set_source_surface (cr, stretch->drawing, 0, 0);
    cairo_paint (cr);
    cairo_tag_end (cr, names[stretch->tag]);
  }
  cairo_restore (cr);
}

static void
describe (const BwSheet *sheet, cairo_surface_t *pdf)
{
  g_autofree char *title = g_strdup_printf (_ ("%s · %s"), sheet->title, sheet->kind);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_CREATOR, "Bandwright " BW_VERSION);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_CREATE_DATE, sheet->stamp);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_MOD_DATE, sheet->stamp);
}

gboolean
bw_sheet_write_pdf (const BwSheet *sheet, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream (
      bw_whole_file_append, bytes, sheet->paper.width, sheet->paper.height);
  cairo_t *cr = cairo_create (pdf);
  describe (sheet, pdf);
  int n = bw_sheet_n_pages (sheet);
  cairo_tag_begin (cr, "Document", NULL);
  for (int page = 0; page < n; page++) {
    bw_sheet_draw_page (sheet, cr, page);
    /* With cairo 1.18 a tag that ends after the last page begins another, which stays empty. */
    if (page == n - 1)
      cairo_tag_end (cr, "Document");
    cairo_show_page (cr);
  }
  cairo_destroy (cr);
  cairo_surface_finish (pdf);
  cairo_status_t status = cairo_surface_status (pdf);
  cairo_surface_destroy (pdf);
  return bw_whole_file_write (bytes, status, path, error);
}
