/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The needle's path in drawings, three side by side, each with its sentence: a part of the work at
 * a time, so that they stand beside the words of that part. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/sheet/step-figure.h"
#include "output/words/words-visits.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>

#define A_ROW 3        /* drawings side by side */
#define NARROW_A_ROW 2 /* on a paper less wide than this */
#define NARROW 400.0
#define GAP 18.0
#define MOST_HEIGHT 210.0
#define NARROW_SHARE 0.25 /* of the page, on such a paper */
#define BELOW 12.0        /* room under a line of drawings */
#define LEAST_SCALE 0.6
#define MOST_LETTERS 110 /* of the beads in a caption */
#define MOST_TOLD 4      /* links of a chain in a caption */
#define MOST_ALIKE 12    /* drawings of one kind; what is left out goes like them */

typedef struct {
  cairo_surface_t *drawing;
  double height; /* of the drawing */
  PangoLayout *caption;
} Panel;

typedef struct {
  BwFlow *flow;
  BwProject *project;
  const GArray *visits;
  Panel panel[A_ROW]; /* of the present line */
  int n_panels;
  BwStepState state;
  guint counted; /* visits counted into the state */
} Steps;

static const BwVisit *
visit_at (const Steps *steps, guint i)
{
  return &g_array_index (steps->visits, BwVisit, i);
}

static const BwThreadLength *
length_of (const Steps *steps, const BwVisit *visit)
{
  return &g_array_index (bw_project_path (steps->project)->lengths, BwThreadLength, visit->length);
}

static int
last_row (const Steps *steps, const BwStep *step)
{
  int row = 0;
  for (guint i = step->first; i < step->first + step->n; i++)
    row = visit_at (steps, i)->is_new ? MAX (row, visit_at (steps, i)->row) : row;
  return row;
}

static int
first_row (const Steps *steps, const BwStep *step)
{
  int row = last_row (steps, step);
  for (guint i = step->first; i < step->first + step->n; i++)
    row = visit_at (steps, i)->is_new ? MIN (row, visit_at (steps, i)->row) : row;
  return row;
}

/* What is drawn, in two or three words. */
static char *
step_title (const Steps *steps, const BwStep *step)
{
  switch (step->kind) {
  case BW_STEP_PICK_UP:
    return g_strdup (_ ("The first beads"));
  case BW_STEP_ROW:
    return g_strdup_printf (_ ("Row %d"), last_row (steps, step));
  case BW_STEP_ZIP:
    return g_strdup (_ ("The zip"));
  case BW_STEP_RETURN:
    return g_strdup (_ ("The return"));
  case BW_STEP_ANCHORS:
    return g_strdup (_ ("The anchors"));
  case BW_STEP_BAIL:
    if (first_row (steps, step) < last_row (steps, step))
      return g_strdup (_ ("The bail, rows 1 and 2"));
    return last_row (steps, step) == 0
               ? g_strdup (_ ("To the bail"))
               : g_strdup_printf (_ ("The bail, row %d"), last_row (steps, step));
  case BW_STEP_ATTACHMENT:
    return g_strdup (_ ("Sewing the bail down"));
  case BW_STEP_WEAVING_IN:
    break;
  }
  return g_strdup (_ ("Weaving in"));
}

static char *
row_sentence (int row)
{
  if (row == 3)
    return g_strdup (_ ("Turn. Pick up a bead, skip the last bead of the pick-up and pass through "
                        "the one before it; pick up one, skip one, pass through one, to the end. "
                        "Pull, until the beads sit as drawn."));
  return g_strdup (
      _ ("Turn. Every other bead now stands out: pick up a bead, pass through the next "
         "that stands out. All rows after this one go alike, to and fro."));
}

static char *
bail_sentence (const Steps *steps, const BwStep *step, const char *beads)
{
  const BwBail *bail = &bw_project_get_design (steps->project)->bail;
  gboolean strip = bw_bail_is_strip (bail), over = bail->style == BW_BAIL_OVER;
  int row = last_row (steps, step);
  if (row == 0)
    return g_strdup_printf (_ ("Bring the thread to where the bail begins, through %s."), beads);
  if (strip && row <= 2)
    return g_strdup (over ? _ ("String a strip of its own, as the band began. Here it lies flat.")
                          : _ ("String a strip of its own, as the band began. It is seen from "
                               "above, its beads across the stone."));
  if (row == 1)
    return g_strdup_printf (_ ("It hangs on beads of the band: pick up a bead, pass through %s, in "
                               "turn. The bail lies flat beside the band here."),
                            beads);
  if (row == BW_STEP_BAIL_ROWS)
    return g_strdup_printf (_ ("Turn and fill the gaps. The rows after it go alike, up to row %d."),
                            bw_project_get_design (steps->project)->bail.rows);
  return g_strdup (_ ("Turn; pick up a bead, pass through the next that stands out."));
}

/* "after row 89", "after the zip". Owned. */
static char *
when (const Steps *steps, int step)
{
  int rows = bw_project_get_design (steps->project)->band.rows;
  if (step <= rows)
    return g_strdup_printf (_ ("after row %d"), step);
  if (step == rows + 1)
    return g_strdup (_ ("after the zip"));
  if (step == rows + 2)
    return g_strdup (_ ("after the anchors"));
  return g_strdup_printf (_ ("after pass %d of the bail and its sewing"), step - rows - 2);
}

static char *
weaving_sentence (const Steps *steps, const BwStep *step)
{
  const BwVisit *visit = visit_at (steps, step->first);
  const BwThreadLength *own = length_of (steps, visit);
  if (step->first + step->n == steps->visits->len)
    return g_strdup (_ ("The tail of the beginning, without its stopper bead. Cut it close."));
  gboolean fresh = visit[-1].length != visit->length;
  if (!fresh && (guint)visit->length + 1 == bw_project_path (steps->project)->lengths->len)
    return g_strdup_printf (_ ("Thread %d, its end, when all is sewn. Cut it close."),
                            visit->length + 1);
  g_autofree char *place = when (steps, fresh ? own->from_row - 1 : own->to_row);
  if (fresh)
    return g_strdup_printf (_ ("Thread %d, its new end, %s: lead it in so that it comes out where "
                               "the old one left off."),
                            visit->length + 1, place);
  return g_strdup_printf (_ ("Thread %d, its end, %s. Cut it close."), visit->length + 1, place);
}

static char *
sewing_sentence (const Steps *steps, const char *beads)
{
  BwBailStyle style = bw_project_get_design (steps->project)->bail.style;
  if (style == BW_BAIL_OVER)
    return g_strdup_printf (
        _ ("The strip goes over the tip, each end sewn to the upper edge; here it "
           "lies flat. Down through a bead of the edge, up through the next: "
           "through %s."),
        beads);
  if (style == BW_BAIL_UPRIGHT)
    return g_strdup_printf (_ ("The strip is seen from above, as it lies on the band. Through %s."),
                            beads);
  return g_strdup_printf (_ ("Fold the bail over until its last row meets the band; here it lies "
                             "flat. Through %s."),
                          beads);
}

/* A long way stands in the words, and the numbers of a chain in its drawing: told a third time it
 * would only push the drawing away from them. */
static char *
beads_words (const Steps *steps, BwStretch stretch)
{
  BwRowNames names = bw_row_names (steps->project);
  int links = (int)stretch.n - bw_stretch_count_new (stretch);
  g_autofree char *words = bw_stretch_words (&names, stretch);
  if (links > MOST_TOLD && bw_stretch_is_chain (stretch))
    return g_strdup_printf (_ ("the beads numbered 1 to %d, in their order"), links);
  if (g_utf8_strlen (words, -1) > MOST_LETTERS)
    return g_strdup (_ ("the beads that the words name, in their order"));
  return g_steal_pointer (&words);
}

static char *
step_sentence (const Steps *steps, const BwStep *step)
{
  BwStretch stretch = { visit_at (steps, step->first), step->n };
  g_autofree char *beads = beads_words (steps, stretch);
  switch (step->kind) {
  case BW_STEP_PICK_UP:
    return g_strdup (_ ("Rows 1 and 2 at once: a bead for every column, column 1 first. The ring "
                        "is the stopper bead on the tail."));
  case BW_STEP_ROW:
    return row_sentence (last_row (steps, step));
  case BW_STEP_ZIP:
    return g_strdup_printf (_ ("No new beads. From the last row to the first, through %s."), beads);
  case BW_STEP_BAIL:
    return bail_sentence (steps, step, beads);
  case BW_STEP_ATTACHMENT:
    return sewing_sentence (steps, beads);
  case BW_STEP_WEAVING_IN:
    return weaving_sentence (steps, step);
  default:
    return g_strdup_printf (_ ("Through %s."), beads);
  }
}

static int
panels_a_row (const BwFlow *flow)
{
  return flow->width < NARROW ? NARROW_A_ROW : A_ROW;
}

static double
cell_width (const BwFlow *flow)
{
  int n = panels_a_row (flow);
  return (flow->width - (n - 1) * GAP) / n;
}

static PangoLayout *
caption (const Steps *steps, const BwStep *step)
{
  g_autofree char *title = step_title (steps, step), *sentence = step_sentence (steps, step);
  /* Translators: the number and the name of a drawing. */
  g_autofree char *head = g_strdup_printf (_ ("%d  %s."), ++steps->flow->n_drawings, title);
  /* Translators: a drawing's name, and what it shows. */
  g_autofree char *text = g_strdup_printf (_ ("%s %s"), head, sentence);
  PangoLayout *layout
      = bw_type_layout (steps->flow->cr, BW_TYPE_SMALL, text, cell_width (steps->flow));
  PangoAttrList *attributes = pango_attr_list_copy (pango_layout_get_attributes (layout));
  PangoAttribute *bold = pango_attr_weight_new (PANGO_WEIGHT_BOLD);
  bold->end_index = (guint)strlen (head);
  pango_attr_list_insert (attributes, bold);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

static double
most_height (const BwFlow *flow)
{
  return flow->width < NARROW ? NARROW_SHARE * (flow->bottom - flow->top) : MOST_HEIGHT;
}

/* Drawn aside, so that a line can be as high as its highest drawing. */
static void
record (Steps *steps, const BwStep *step, Panel *panel)
{
  double width = cell_width (steps->flow), most = most_height (steps->flow);
  cairo_rectangle_t box = { -8, -4, width + 16, most + 12 };
  panel->drawing = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &box);
  panel->caption = caption (steps, step);
  bw_step_state_take (&steps->state, steps->project, steps->counted, step->first);
  steps->counted = step->first;
  BwStepLayout layout;
  bw_step_layout_init (&layout, steps->project, step, &steps->state, width, most);
  cairo_t *cr = cairo_create (panel->drawing);
  bw_step_draw (cr, &layout);
  cairo_destroy (cr);
  panel->height = layout.height;
  bw_step_layout_clear (&layout);
}

static double
caption_height (const Panel *panel)
{
  int height;
  pango_layout_get_size (panel->caption, NULL, &height);
  return pango_units_to_double (height);
}

static void
draw_panel (BwFlow *flow, const Panel *panel, double x, double caption_room, double scale)
{
  cairo_save (flow->cr);
  cairo_translate (flow->cr, flow->left + x, flow->y);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
  cairo_move_to (flow->cr, 0, 0);
  pango_cairo_update_layout (flow->cr, panel->caption);
  pango_cairo_show_layout (flow->cr, panel->caption);
  cairo_new_path (flow->cr);
  cairo_translate (flow->cr, 0, caption_room + 4);
  cairo_scale (flow->cr, scale, scale);
  cairo_set_source_surface (flow->cr, panel->drawing, 0, 0);
  cairo_paint (flow->cr);
  cairo_restore (flow->cr);
}

/* Somewhat smaller drawings are better than a page left half empty. */
static double
fitting (const BwFlow *flow, double captions, double drawings)
{
  double scale = (bw_flow_left_over (flow) - captions - 4) / drawings;
  return scale < 1 && scale >= LEAST_SCALE ? scale : 1;
}

/* Puts the panels collected on the page, on one line. */
static void
flush (Steps *steps)
{
  BwFlow *flow = steps->flow;
  double captions = 0, drawings = 0;
  if (steps->n_panels == 0)
    return;
  for (int i = 0; i < steps->n_panels; i++) {
    captions = MAX (captions, caption_height (&steps->panel[i]));
    drawings = MAX (drawings, steps->panel[i].height);
  }
  double scale = fitting (flow, captions, drawings);
  drawings *= scale;
  bw_flow_room (flow, captions + drawings + 4);
  for (int i = 0; i < steps->n_panels; i++) {
    draw_panel (flow, &steps->panel[i], i * (cell_width (flow) + GAP), captions, scale);
    cairo_surface_destroy (steps->panel[i].drawing);
    g_object_unref (steps->panel[i].caption);
  }
  flow->y += captions + drawings + 4 + BELOW;
  steps->n_panels = 0;
}

static BwSheetWork
work_of (BwStepKind kind)
{
  switch (kind) {
  case BW_STEP_PICK_UP:
  case BW_STEP_ROW:
    return BW_WORK_BAND;
  case BW_STEP_ZIP:
  case BW_STEP_RETURN:
  case BW_STEP_ANCHORS:
    return BW_WORK_JOIN;
  case BW_STEP_BAIL:
  case BW_STEP_ATTACHMENT:
    return BW_WORK_BAIL;
  case BW_STEP_WEAVING_IN:
    break;
  }
  return BW_WORK_ENDS;
}

static void
tell_left_out (BwFlow *flow, int left_out)
{
  if (left_out == 0)
    return;
  g_autofree char *text
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d more drawing would look like these.",
                                      "%d more drawings would look like these.", (gulong)left_out),
                         left_out);
  bw_flow_text (flow, BW_TYPE_TEXT, text);
}

void
bw_sheet_add_steps (BwFlow *flow, BwProject *project, BwSheetWork work)
{
  const BwPath *path = bw_project_path (project);
  g_autoptr (GArray) all = bw_steps_new (path);
  Steps steps = { .flow = flow, .project = project, .visits = path->visits };
  int shown = 0, left_out = 0;
  bw_step_state_init (&steps.state, project);
  bw_flow_space (flow, 6);
  for (guint i = 0; i < all->len; i++) {
    const BwStep *step = &g_array_index (all, BwStep, i);
    if (work_of (step->kind) != work)
      continue;
    /* The last is the tail of the beginning, which is like no other. */
    if (++shown > MOST_ALIKE && i + 1 < all->len) {
      left_out++;
      continue;
    }
    record (&steps, step, &steps.panel[steps.n_panels++]);
    if (steps.n_panels == panels_a_row (flow))
      flush (&steps);
  }
  flush (&steps);
  bw_step_state_clear (&steps.state);
  tell_left_out (flow, left_out);
}

void
bw_sheet_add_legend (BwFlow *flow)
{
  bw_flow_text (
      flow, BW_TYPE_SMALL,
      _ ("The drawings follow the very path of the needle; the red line is the thread, the dot the "
         "bead it comes from, a small ring the end of a fresh thread. Dark beads are picked up, "
         "grey ones passed again; small numbers in the beads are those of a chain. Two strokes "
         "across the thread: the pass goes on alike. The numbers below are those of rows, at the "
         "side those of columns; a bail counts its own. L is the last row of the band. A bead "
         "crossed out is full: never force the needle through it, glass breaks. How ends are woven "
         "in where the thread changes is drawn under “The ends of the thread”."));
}
