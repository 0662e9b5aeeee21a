/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hang tags for a market stall: cards of 85 × 55 mm, ten to a page, with lines to cut along. They
 * are at true size whatever the maker wants of other prints. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/band/finished.h"
#include "core/pattern/tint.h"
#include "output/chart/ribbon.h"
#include "output/report/report-parts.h"
#include "output/sheet/tags.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WIDE (85 * BW_POINTS_PER_MM)
#define TALL (55 * BW_POINTS_PER_MM)
#define ACROSS 2
#define DOWN 5
#define INSET 12.0 /* from the card's edge */
#define PICTURE 92.0
#define PUNCH (6 * BW_POINTS_PER_MM)          /* of the hole's middle from both edges */
#define PUNCH_RADIUS (1.5 * BW_POINTS_PER_MM) /* of a hole that a small punch makes */
#define PUNCH_CROSS 2.0
#define RIBBON_MOST 34.0 /* height of the band at the foot of its words */

typedef struct {
  BwProject *project;
  cairo_surface_t *picture;
  const char *title;
  gboolean priced;
  BwUnit unit;
} Tag;

static void
draw_cut (cairo_t *cr, double x0, double y0, double x1, double y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
  cairo_set_source_rgb (cr, BW_ON_PAPER (HAIR));
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
}

/* A line of words in the card's right part, at most so many lines; returns where the next begins.
 */
static double
draw_words (cairo_t *cr, BwType type, const char *words, double x, double y, double width,
            int lines)
{
  int height;
  if (!*words)
    return y;
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, type, words, width);
  bw_type_keep_left (layout);
  pango_layout_set_height (layout, -lines);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_get_size (layout, NULL, &height);
  cairo_set_source_rgb (cr, BW_TINT_RGB (bw_type_ink (type), FALSE));
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  return y + pango_units_to_double (height) + 2;
}

char *
bw_tag_price_words (BwProject *project)
{
  const BwSupply *supply = &bw_project_get_design (project)->supply;
  const BwMaterials *materials = bw_project_materials (project);
  if (!materials->has_cost)
    return g_strdup ("");
  return g_strdup_printf ("%.2f %s", bw_asking_price (materials, supply), supply->currency);
}

static char *
size_words (BwProject *project, BwUnit unit)
{
  BwFinished size = bw_finished_size (bw_project_get_design (project), bw_project_stone (project),
                                      bw_project_places (project));
  g_autofree char *mass = bw_text_mass (bw_project_hang (project)->mass_g);
  if (unit == BW_UNIT_INCH)
    return g_strdup_printf (_ ("%.2f × %.2f in, %s"), size.length_mm / BW_MM_PER_INCH,
                            size.breadth_mm / BW_MM_PER_INCH, mass);
  return g_strdup_printf (_ ("%.0f × %.0f mm, %s"), size.length_mm, size.breadth_mm, mass);
}

/* The whole motif laid out at the card's foot, for the picture shows a side of it. Returns how high
 * it is. */
static double
draw_band (cairo_t *cr, const Tag *tag, double x, double room)
{
  const BwDesign *design = bw_project_get_design (tag->project);
  double width = MIN (room, bw_ribbon_width (design, RIBBON_MOST));
  double height = bw_ribbon_height (design, width);
  cairo_save (cr);
  cairo_translate (cr, x, TALL - INSET - height);
  bw_ribbon_draw (cr, design, bw_project_get_drawing (tag->project),
                  bw_project_get_tray (tag->project), width);
  cairo_restore (cr);
  return height;
}

/* Where the hole for the cord is punched: in the corner that the picture leaves free. */
static void
draw_punch (cairo_t *cr)
{
  cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (cr, 0.4);
  cairo_arc (cr, PUNCH, PUNCH, PUNCH_RADIUS, 0, 2 * G_PI);
  cairo_stroke (cr);
  for (int across = 0; across < 2; across++) {
    cairo_move_to (cr, PUNCH - (across ? PUNCH_CROSS : 0), PUNCH - (across ? 0 : PUNCH_CROSS));
    cairo_rel_line_to (cr, across ? 2 * PUNCH_CROSS : 0, across ? 0 : 2 * PUNCH_CROSS);
  }
  cairo_stroke (cr);
}

static void
draw_card (cairo_t *cr, const Tag *tag)
{
  double x = INSET + PICTURE + 10, width = WIDE - x - INSET;
  g_autofree char *size = size_words (tag->project, tag->unit),
                  *price = bw_tag_price_words (tag->project);
  if (tag->picture) {
    cairo_save (cr);
    cairo_translate (cr, INSET, INSET);
    bw_sheet_draw_picture (cr, tag->picture, PICTURE, TALL - 2 * INSET);
    cairo_restore (cr);
  }
  draw_punch (cr);
  double y = draw_words (cr, BW_TYPE_BENCH_BOLD, tag->title, x, INSET, width, 2);
  y = draw_words (cr, BW_TYPE_TEXT, bw_project_get_about (tag->project, BW_ABOUT_MAKER), x, y,
                  width, 2);
  y = draw_words (cr, BW_TYPE_SMALL, bw_project_get_mineral (tag->project), x, y, width, 1);
  draw_words (cr, BW_TYPE_SMALL, size, x, y, width, 1);
  double foot = TALL - INSET - draw_band (cr, tag, x, width);
  if (tag->priced)
    draw_words (cr, BW_TYPE_BENCH_BOLD, price, x, foot - bw_type_height (BW_TYPE_BENCH_BOLD) - 4,
                width, 1);
}

/* Drawn once, so that a file holds it once. */
static cairo_surface_t *
card_of (const Tag *tag)
{
  cairo_rectangle_t box = { 0, 0, WIDE, TALL };
  cairo_surface_t *card = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &box);
  cairo_t *cr = cairo_create (card);
  draw_card (cr, tag);
  cairo_destroy (cr);
  return card;
}

BwSheet *
bw_tags_new (BwProject *project, BwPaper paper, cairo_surface_t *picture)
{
  BwSheet *sheet = bw_sheet_alloc (project, paper, _ ("Hang tags"), TRUE);
  Tag tag = { project, picture, sheet->title, (paper.wishes & BW_PRINT_COSTS) != 0,
              bw_paper_unit (paper) };
  int across = MAX (1, MIN (ACROSS, (int)floor (paper.width / WIDE)));
  int down = MAX (1, MIN (DOWN, (int)floor (paper.height / TALL)));
  double left = (paper.width - across * WIDE) / 2, top = (paper.height - down * TALL) / 2;
  sheet->bare = TRUE;
  bw_sheet_open_page (sheet);
  cairo_t *cr = bw_sheet_open_stretch (sheet, 0, BW_TAG_FIGURE);
  for (int i = 0; i <= across; i++)
    draw_cut (cr, left + i * WIDE, top, left + i * WIDE, top + down * TALL);
  for (int i = 0; i <= down; i++)
    draw_cut (cr, left, top + i * TALL, left + across * WIDE, top + i * TALL);
  cairo_surface_t *card = card_of (&tag);
  for (int i = 0; i < across * down; i++) {
    cairo_set_source_surface (cr, card, left + i % across * WIDE, top + i / across * TALL);
    cairo_paint (cr);
  }
  cairo_surface_destroy (card);
  cairo_destroy (cr);
  return sheet;
}
