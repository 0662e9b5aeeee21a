/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cover of the work sheet: the title in full, the piece as it hangs and where it was joined,
 * the band laid out, and the few facts one looks for first. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/band/finished.h"
#include "core/base/lattice.h"
#include "core/pattern/tint.h"
#include "output/chart/ribbon.h"
#include "output/report/material-words.h"
#include "output/report/report-parts.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>

#define PICTURE_SHARE 0.44 /* of the height of a page */
#define LEAST_PICTURE 0.2
#define HANGING_SHARE 0.6 /* of the width: the first picture is the larger */
#define RIBBON_MOST 90.0  /* points high on the cover */
#define RIBBON_HEAD 7.0   /* and at the head of a page */
#define CAPTION 15.0

typedef struct {
  cairo_surface_t *hanging, *join;
  gboolean has_bail;
} Pictures;

static void
draw_view (cairo_t *cr, cairo_surface_t *picture, const char *caption, double x, double y,
           double width, double height)
{
  if (!picture)
    return;
  cairo_save (cr);
  cairo_translate (cr, x, y);
  bw_sheet_draw_picture (cr, picture, width, height - CAPTION);
  cairo_restore (cr);
  bw_type_draw (cr, BW_TYPE_SMALL, caption, x + width / 2, y + height - CAPTION + 3, 0.5);
}

static void
draw_pictures (cairo_t *cr, double width, double height, gpointer data)
{
  const Pictures *pictures = data;
  double large = width * HANGING_SHARE, small = width - large;
  draw_view (cr, pictures->hanging,
             pictures->has_bail ? _ ("as it hangs") : _ ("the finished piece"), 0, 0, large,
             height);
  draw_view (cr, pictures->join, pictures->has_bail ? _ ("the join and the bail") : _ ("the join"),
             large, 0.15 * height, small, 0.7 * height);
}

/* A long title is set smaller, never cut: in the largest of these types that takes few lines. */
static PangoLayout *
title_layout (const BwFlow *flow)
{
  static const struct {
    BwType type;
    int lines;
  } tries[] = { { BW_TYPE_TITLE, 2 }, { BW_TYPE_HEADING, 4 }, { BW_TYPE_BOLD, G_MAXINT } };
  g_autoptr (PangoLayout) layout = NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (tries); i++) {
    g_clear_object (&layout);
    layout = bw_type_layout (flow->cr, tries[i].type, flow->sheet->title, flow->width);
    if (pango_layout_get_line_count (layout) <= tries[i].lines)
      break;
  }
  bw_type_keep_left (layout);
  return g_steal_pointer (&layout);
}

void
bw_sheet_add_title (BwFlow *flow)
{
  int height;
  bw_flow_tag (flow, BW_TAG_TITLE);
  g_autoptr (PangoLayout) layout = title_layout (flow);
  pango_layout_get_size (layout, NULL, &height);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
  cairo_move_to (flow->cr, flow->left, flow->y);
  pango_cairo_show_layout (flow->cr, layout);
  cairo_new_path (flow->cr);
  flow->y += pango_units_to_double (height) + 2;
  bw_flow_tag (flow, BW_TAG_TEXT);
  bw_flow_text (flow, BW_TYPE_SMALL, flow->sheet->date);
}

static char *
band_sentence (BwProject *project, BwUnit unit)
{
  const BwDesign *design = bw_project_get_design (project);
  BwBandSpan span = bw_design_span (design);
  g_autofree char *low = bw_text_length (span.bottom_mm, unit, 1);
  g_autofree char *high = bw_text_length (span.bottom_mm + span.width_mm, unit, 1);
  return g_strdup_printf (
      _ ("A band of even-count peyote stitch, %d columns wide and %d rows long (%d beads round the "
         "stone), of %s beads, from %s to %s above the base of the stone."),
      design->band.columns, design->band.rows, bw_lattice_beads_around (design->band.rows),
      *design->bead.name ? design->bead.name : _ ("cylinder"), low, high);
}

static char *
hang_sentence (BwProject *project, BwUnit unit)
{
  const BwHang *hang = bw_project_hang (project);
  g_autofree char *mass = bw_text_mass (hang->mass_g);
  if (!hang->has_bail)
    return g_strdup_printf (_ ("The finished piece weighs about %s. It has no bail."), mass);
  BwHangRing ring;
  g_autofree char *how = bw_hang_words (hang->level ? BW_UP_LEVEL : hang->up, hang->tilt_deg);
  if (bw_hang_ring_init (&ring, bw_project_get_design (project), &hang->loop)) {
    g_autofree char *size = bw_ring_size_words (&ring, unit);
    /* Translators: the mass; how it hangs; "at least 8.5 mm inside, of 1.2 mm wire; …". */
    return g_strdup_printf (_ ("The finished piece weighs about %s. It hangs %s. Its bail holds "
                               "a ring, %s."),
                            mass, how, size);
  }
  g_autofree char *opening = bw_text_length (hang->loop.opening_mm, unit, 1);
  g_autofree char *cord = bw_text_length (hang->loop.largest_cord_mm, unit, 1);
  /* Translators: the mass; how it hangs ("nearly level, tip 6° low"); the opening; the cord. */
  return g_strdup_printf (
      _ ("The finished piece weighs about %s. It hangs %s. The opening of its bail "
         "is %s, for a cord of up to %s."),
      mass, how, opening, cord);
}

/* What is doubtful is said on top, before any thread is cut. */
static void
add_warnings (BwFlow *flow, BwProject *project)
{
  g_auto (GStrv) warnings = bw_project_warnings (project, flow->unit);
  for (char **warning = warnings; *warning; warning++)
    bw_flow_item (flow, "!", *warning, 12);
}

typedef struct {
  const BwDesign *design;
  const BwDrawing *drawing;
  const BwTray *tray;
} Ribbon;

static void
draw_ribbon (cairo_t *cr, double width, double height, gpointer data)
{
  const Ribbon *ribbon = data;
  double wide = MIN (width, bw_ribbon_width (ribbon->design, height));
  cairo_translate (cr, (width - wide) / 2, 0);
  bw_ribbon_draw (cr, ribbon->design, ribbon->drawing, ribbon->tray, wide);
}

static Ribbon
ribbon_of (const BwFlow *flow, BwProject *project)
{
  return (Ribbon){ bw_project_get_design (project), bw_project_get_drawing (project), &flow->tray };
}

/* Of white beads a ribbon shows nothing. */
static gboolean
is_blank (const BwFlow *flow)
{
  return (flow->sheet->paper.wishes & BW_PRINT_SPARING) != 0;
}

void
bw_sheet_add_ribbon (BwFlow *flow, BwProject *project)
{
  if (is_blank (flow))
    return;
  Ribbon ribbon = ribbon_of (flow, project);
  double height = MIN (RIBBON_MOST, bw_ribbon_height (ribbon.design, flow->width));
  bw_flow_space (flow, 6);
  bw_flow_figure (flow, height, draw_ribbon, &ribbon);
  bw_flow_space (flow, 8);
}

/* One turn, without the half bead by which a strip begins and ends. */
static void
draw_turn (cairo_t *cr, const Ribbon *ribbon, double width)
{
  double step = bw_ribbon_width (ribbon->design, RIBBON_HEAD);
  cairo_rectangle (cr, 0, 0, width, RIBBON_HEAD);
  cairo_clip (cr);
  for (int turn = -1; turn <= 0; turn++) {
    cairo_save (cr);
    cairo_translate (cr, turn * width, 0);
    bw_ribbon_draw (cr, ribbon->design, ribbon->drawing, ribbon->tray, step);
    cairo_restore (cr);
  }
}

/* A drawing side by side with itself, as the band runs on round the stone. */
static cairo_surface_t *
repeated (cairo_surface_t *once, double step, double width)
{
  cairo_rectangle_t box = { 0, 0, width, RIBBON_HEAD };
  cairo_surface_t *all = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &box);
  cairo_t *cr = cairo_create (all);
  cairo_rectangle (cr, 0, 0, width, RIBBON_HEAD);
  cairo_clip (cr);
  for (double x = 0; x < width; x += step) {
    cairo_set_source_surface (cr, once, x, 0);
    cairo_paint (cr);
  }
  cairo_destroy (cr);
  return all;
}

void
bw_sheet_set_head (BwFlow *flow, BwProject *project)
{
  if (is_blank (flow))
    return;
  Ribbon ribbon = ribbon_of (flow, project);
  double turn = bw_ribbon_width (ribbon.design, RIBBON_HEAD) * ribbon.design->band.rows
                / (ribbon.design->band.rows + 1);
  cairo_rectangle_t box = { 0, 0, turn, RIBBON_HEAD };
  cairo_surface_t *once = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &box);
  cairo_t *cr = cairo_create (once);
  draw_turn (cr, &ribbon, turn);
  cairo_destroy (cr);
  flow->sheet->head = repeated (once, turn, flow->width);
  cairo_surface_destroy (once);
}

/* "72 × 31 mm (2.83 × 1.22 in), without the bail": in both, for a buyer may know either. Owned. */
static char *
size_words (BwProject *project, BwUnit unit)
{
  BwFinished size = bw_finished_size (bw_project_get_design (project), bw_project_stone (project),
                                      bw_project_places (project));
  double length = size.length_mm / BW_MM_PER_INCH, breadth = size.breadth_mm / BW_MM_PER_INCH;
  g_autofree char *both
      = unit == BW_UNIT_INCH
            /* Translators: length and breadth of the piece in inches, and in millimetres. */
            ? g_strdup_printf (_ ("%.2f × %.2f in (%.0f × %.0f mm)"), length, breadth,
                               size.length_mm, size.breadth_mm)
            /* Translators: length and breadth of the piece in millimetres, and in inches. */
            : g_strdup_printf (_ ("%.0f × %.0f mm (%.2f × %.2f in)"), size.length_mm,
                               size.breadth_mm, length, breadth);
  if (!bw_project_hang (project)->has_bail)
    return g_steal_pointer (&both);
  /* Translators: "72 × 31 mm (2.83 × 1.22 in)". */
  return g_strdup_printf (_ ("%s, without the bail"), both);
}

static void
add_facts (BwFlow *flow, BwProject *project)
{
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  bw_table_add (&facts, g_strdup (_ ("Finished size")), size_words (project, flow->unit));
  for (BwAbout about = 0; about < BW_N_ABOUT; about++)
    if (*bw_project_get_about (project, about))
      bw_table_add (&facts, g_strdup (bw_about_name (about)),
                    g_strdup (bw_project_get_about (project, about)));
  bw_flow_facts (flow, &facts);
}

static void
add_telling (BwFlow *flow, BwProject *project)
{
  g_autofree char *band = band_sentence (project, flow->unit);
  g_autofree char *hang = hang_sentence (project, flow->unit);
  bw_sheet_add_ribbon (flow, project);
  bw_flow_text (flow, BW_TYPE_TEXT, band);
  bw_flow_text (flow, BW_TYPE_TEXT, hang);
  bw_flow_space (flow, 2);
  add_facts (flow, project);
  add_warnings (flow, project);
}

/* How much of a page the cover takes besides its pictures and the list of headings. */
static double
telling_height (BwFlow *flow, BwProject *project)
{
  BwFlow trial;
  bw_flow_init (&trial, bw_sheet_alloc (project, flow->sheet->paper, "", FALSE), project);
  bw_sheet_add_title (&trial);
  add_telling (&trial, project);
  guint before = trial.sheet->pages->len - 1;
  double height = before * (flow->bottom - flow->top) + trial.y - trial.top;
  bw_sheet_free (bw_flow_finish (&trial));
  return height;
}

/* The pictures give way, so that the cover is a page; where it is two all the same, the second has
 * the list of headings alone. */
void
bw_sheet_add_piece (BwFlow *flow, BwProject *project, cairo_surface_t *hanging,
                    cairo_surface_t *join)
{
  Pictures pictures = { hanging, join, bw_project_hang (project)->has_bail };
  double page = flow->bottom - flow->top, least = LEAST_PICTURE * page;
  double left = page - telling_height (flow, project), list = bw_sheet_contents_height (flow) + 6;
  if (left >= least + list)
    left -= list;
  bw_sheet_add_title (flow);
  if (hanging || join)
    bw_flow_figure (flow, CLAMP (left, least, PICTURE_SHARE * page), draw_pictures, &pictures);
  add_telling (flow, project);
}
