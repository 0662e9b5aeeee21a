/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For a class: what the teacher buys, and for each maker a page to pack the bag by and to work
 * beside. The work sheet itself is the same for all and printed as often as needed. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/sheet/cautions.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "output/report/shopping.h"

#include <glib/gi18n-lib.h>

#define PICTURE_HEIGHT 150.0
#define PICTURE_WIDTH 130.0
#define BELOW_PICTURE 8.0
#define USUAL_ROOM 260.0
#define NO_PICTURE_HEIGHT 84.0

typedef struct {
  BwProject *project;
  cairo_surface_t *picture; /* NULL: none */
  const char *title;
  int maker, makers;
  int first_page, n_pages; /* of the first maker */
  gboolean large; /* the bag holds so many colours that the page must be set in small type */
} Page;

/* Two lines at most: the whole title stands on the shopping list. */
static PangoLayout *
title_layout (cairo_t *cr, const char *title, double width)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, BW_TYPE_TITLE, title, width);
  if (pango_layout_get_line_count (layout) > 1) {
    g_object_unref (layout);
    layout = bw_type_layout (cr, BW_TYPE_HEADING, title, width);
  }
  bw_type_keep_left (layout);
  pango_layout_set_height (layout, -2);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  return g_steal_pointer (&layout);
}

static gboolean
is_pictured (const Page *page)
{
  return page->picture && !page->large;
}

/* Beside the picture, where there is one. */
static double
head_width (const Page *page, double width)
{
  return is_pictured (page) ? width - PICTURE_WIDTH - 20 : width;
}

static void
draw_head (cairo_t *cr, double width, double height, gpointer data)
{
  const Page *page = data;
  double wide = head_width (page, width);
  g_autoptr (PangoLayout) title = title_layout (cr, page->title, wide);
  cairo_set_source_rgb (cr, BW_ON_PAPER (PRINT));
  cairo_move_to (cr, 0, 0);
  pango_cairo_show_layout (cr, title);
  cairo_new_path (cr);
  double name = bw_type_draw (cr, BW_TYPE_TEXT, _ ("Name"), 0, height - 16, 0);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.5);
  cairo_move_to (cr, name + 8, height - 5);
  cairo_line_to (cr, wide, height - 5);
  cairo_stroke (cr);
  if (!is_pictured (page))
    return;
  cairo_translate (cr, width - PICTURE_WIDTH, 0);
  /* Its edge in line with the rules', and clear of the heading below. */
  bw_sheet_place_picture (cr, page->picture, PICTURE_WIDTH, height - BELOW_PICTURE, 1);
}

/* Sentences of what is known and, unless it stands in the list above, what is cut; NULL-terminated.
 * Owned. */
static char **
facts_of (BwProject *project, BwUnit unit, gboolean listed)
{
  const BwDesign *design = bw_project_get_design (project);
  const GArray *lengths = bw_project_path (project)->lengths;
  double cord = bw_bed_cord_mm (&design->bed, bw_project_stone (project), bw_design_span (design));
  g_autoptr (GStrvBuilder) facts = g_strv_builder_new ();
  g_autofree char *low = bw_text_length (design->band.bottom_mm, unit, 1);
  g_autofree char *band = g_strdup_printf (
      _ ("The band: %d columns, %d rows, from %s above the base. Try on after row %d, "
         "then at every second row."),
      design->band.columns, design->band.rows, low, bw_project_forecast (project)->try_on_row);
  g_strv_builder_add (facts, band);
  if (cord > 0 && !listed) {
    g_autofree char *length = bw_cut_words (cord, unit);
    g_autofree char *text = g_strdup_printf (_ ("The bed: %s of waxed cord."), length);
    g_strv_builder_add (facts, text);
  }
  for (guint i = listed && lengths->len == 1; i < lengths->len && i < 8; i++) {
    g_autofree char *length
        = bw_cut_words (g_array_index (lengths, BwThreadLength, i).length_mm, unit);
    g_autofree char *text
        = g_strdup_printf (_ ("Thread %u of %u: %s."), i + 1, lengths->len, length);
    g_strv_builder_add (facts, text);
  }
  return g_strv_builder_end (facts);
}

static void
list_other (BwTable *table, BwProject *project, BwUnit unit)
{
  BwMaterials materials;
  bw_shopping_init (&materials, project, 1);
  bw_table_init (table, "ll");
  bw_table_add (table, g_strdup (_ ("Also")), g_strdup (""));
  bw_materials_add_other (table, &materials, bw_project_get_design (project), NULL, unit);
}

/* A list run on: "Bead size: 11/0 cylinder · Thread: 3.1 m". Owned. */
static char *
run_on (BwProject *project, BwUnit unit, char **facts)
{
  g_auto (BwTable) table = { 0 };
  GString *text = g_string_new (NULL);
  list_other (&table, project, unit);
  for (guint i = 1; i < table.rows->len; i++) {
    char **cells = g_ptr_array_index (table.rows, i);
    g_string_append_printf (text, "%s: %s · ", cells[0], cells[1]);
  }
  g_autofree char *rest = g_strjoinv (" ", facts);
  g_string_append (text, rest);
  return g_string_free (text, FALSE);
}

static char *
cautions_text (BwProject *project)
{
  g_auto (GStrv) cautions = bw_cautions_new (project, NULL);
  return g_strjoinv (" ", cautions);
}

static double
text_height (const BwFlow *flow, const char *text)
{
  int height;
  g_autoptr (PangoLayout) layout = bw_type_layout (flow->cr, BW_TYPE_SMALL, text, flow->width);
  pango_layout_get_size (layout, NULL, &height);
  return pango_units_to_double (height) + 3;
}

static void
add_cautions (BwFlow *flow, const char *all)
{
  bw_flow_heading (flow, _ ("Take Care"), 40);
  bw_flow_text (flow, BW_TYPE_SMALL, all);
  bw_flow_text (flow, BW_TYPE_SMALL, bw_cautions_deference ());
}

/* The bag takes what the rest, run on in small type, leaves of the page. */
static void
add_large_bag (BwFlow *flow, BwProject *project, char **facts, const char *cautions)
{
  g_autofree char *rest = run_on (project, flow->unit, facts);
  double other = text_height (flow, rest) + text_height (flow, cautions)
                 + text_height (flow, bw_cautions_deference ())
                 + bw_flow_heading_height (flow, _ ("To cut and to know"))
                 + bw_flow_heading_height (flow, _ ("Take Care"));
  bw_sheet_add_bag (flow, project, bw_flow_left_over (flow) - other);
  bw_flow_heading (flow, _ ("To cut and to know"), 40);
  bw_flow_text (flow, BW_TYPE_SMALL, rest);
}

static void
add_usual_bag (BwFlow *flow, BwProject *project, char **facts)
{
  g_auto (BwTable) table = { 0 };
  list_other (&table, project, flow->unit);
  bw_sheet_add_bag (flow, project, USUAL_ROOM);
  bw_flow_space (flow, 4);
  bw_flow_table (flow, &table, NULL, NULL);
  bw_flow_heading (flow, _ ("To cut and to know"), 40);
  for (char **fact = facts; *fact; fact++)
    bw_flow_item (flow, "☐", *fact, 14);
}

/* The one line by which the makers' pages differ, in a stretch of its own. */
static void
add_who (BwFlow *flow, const Page *page)
{
  int height;
  cairo_t *cr
      = bw_sheet_open_stretch (flow->sheet, bw_sheet_n_pages (flow->sheet) - 1, BW_TAG_TEXT);
  g_autoptr (PangoLayout) title = title_layout (cr, page->title, head_width (page, flow->width));
  pango_layout_get_size (title, NULL, &height);
  g_autofree char *who = g_strdup_printf (_ ("Maker %d of %d"), page->maker, page->makers);
  bw_type_draw (cr, BW_TYPE_TEXT, who, flow->left, flow->top + pango_units_to_double (height) + 4,
                0);
  cairo_destroy (cr);
}

/* What lies on a maker's page before what all have: the stretch it is opened with, and the line
 * above. */
#define OWN_STRETCHES 2

/* The page of another maker: drawn once, it is shown again. */
static void
add_again (BwFlow *flow, const Page *page)
{
  for (int i = 0; i < page->n_pages; i++) {
    bw_sheet_open_page (flow->sheet);
    if (i == 0) {
      bw_sheet_begin_part (flow->sheet);
      add_who (flow, page);
    }
    bw_sheet_share_page (flow->sheet, page->first_page + i, i == 0 ? OWN_STRETCHES : 0);
  }
}

static void
add_maker (BwFlow *flow, Page *page)
{
  g_autofree char *cautions = cautions_text (page->project);
  g_auto (GStrv) facts = facts_of (page->project, flow->unit, page->large);
  bw_flow_part (flow);
  page->first_page = bw_sheet_n_pages (flow->sheet) - 1;
  add_who (flow, page);
  bw_flow_figure (flow, is_pictured (page) ? PICTURE_HEIGHT : NO_PICTURE_HEIGHT, draw_head, page);
  if (page->large)
    add_large_bag (flow, page->project, facts, cautions);
  else
    add_usual_bag (flow, page->project, facts);
  add_cautions (flow, cautions);
  page->n_pages = bw_sheet_n_pages (flow->sheet) - page->first_page;
}

/* How many pages a maker's page is. */
static int
count_pages (Page *page, BwPaper paper)
{
  BwFlow trial;
  bw_flow_init (&trial, bw_sheet_alloc (page->project, paper, "", FALSE), page->project);
  add_maker (&trial, page);
  bw_sheet_free (bw_flow_finish (&trial));
  return page->n_pages;
}

BwSheet *
bw_kit_new (BwProject *project, BwPaper paper, int makers, cairo_surface_t *picture)
{
  BwFlow flow;
  bw_flow_init (&flow, bw_sheet_alloc (project, paper, _ ("Kit sheet"), FALSE), project);
  Page page = { .project = project,
                .title = flow.sheet->title,
                .maker = 1,
                .makers = CLAMP (makers, 1, BW_KIT_MAX),
                .picture = picture };
  int usual = count_pages (&page, paper);
  page.large = usual > 1;
  /* Small type is for who keeps to one page by it, or to fewer. */
  page.large = page.large && count_pages (&page, paper) < usual;
  bw_sheet_add_title (&flow);
  bw_sheet_add_materials (&flow, project, page.makers);
  add_maker (&flow, &page);
  while (page.maker++ < page.makers)
    add_again (&flow, &page);
  return bw_flow_finish (&flow);
}
