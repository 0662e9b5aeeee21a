/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the first stitch to the last end of thread in drawings, three side by side, each with its
 * sentence. */
#include "config.h"

#include "output/sheet-private.h"

#include "output/step-figure.h"
#include "output/words-visits.h"
#include "output/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define A_ROW 3
#define GAP 16.0
#define MOST_HEIGHT 190.0
#define MOST_ALIKE 12 /* drawings of one kind; what is left out goes like them */

typedef struct {
  BwFlow *flow;
  BwProject *project;
  const GArray *steps;
  guint shown[A_ROW]; /* steps of the present line */
  int n_shown, number;
  int of_kind[BW_STEP_WEAVING_IN + 1];
  BwStepState state;
  guint counted; /* visits counted into the state */
} Steps;

static const char *
step_title (BwStepKind kind)
{
  switch (kind) {
  case BW_STEP_BEGINNING:
    return _ ("The beginning");
  case BW_STEP_ZIP:
    return _ ("The zip");
  case BW_STEP_RETURN:
    return _ ("The return");
  case BW_STEP_ANCHORS:
    return _ ("The anchors");
  case BW_STEP_BAIL:
    return _ ("The bail");
  case BW_STEP_ATTACHMENT:
    return _ ("Sewing the bail down");
  case BW_STEP_WEAVING_IN:
    break;
  }
  return _ ("Weaving in an end");
}

static const BwVisit *
first_visit (const Steps *steps, const BwStep *step)
{
  return &g_array_index (bw_project_path (steps->project)->visits, BwVisit, step->first);
}

static char *
bail_sentence (const BwVisit *visit, guint n)
{
  int low = G_MAXINT, high = 0;
  for (guint i = 0; i < n; i++)
    if (visit[i].is_new) {
      low = MIN (low, visit[i].row);
      high = MAX (high, visit[i].row);
    }
  if (high == 0)
    return g_strdup (_ ("Bring the thread to where the bail begins."));
  if (low == 1)
    return g_strdup_printf (_ ("Rows %d to %d of the bail, which is laid flat beside the band."),
                            low, high);
  return low == high ? g_strdup_printf (_ ("Row %d of the bail."), low)
                     : g_strdup_printf (_ ("Rows %d to %d of the bail."), low, high);
}

static char *
weaving_sentence (const Steps *steps, const BwStep *step)
{
  const BwVisit *visit = first_visit (steps, step);
  const GArray *visits = bw_project_path (steps->project)->visits;
  guint end = step->first + step->n;
  if (end == visits->len)
    return g_strdup (_ ("The tail of the very beginning. Cut it close."));
  if (visit[-1].length != visit->length)
    return g_strdup_printf (_ ("The new end of thread %d, which comes out where you left off."),
                            visit->length + 1);
  return g_strdup_printf (_ ("The end of thread %d that is in the needle. Cut it close."),
                          visit->length + 1);
}

static char *
sewing_sentence (const Steps *steps, const char *beads)
{
  if (bw_project_get_design (steps->project)->bail.style == BW_BAIL_UPRIGHT)
    return g_strdup_printf (_ ("The bail stands on the band, both its ends sewn down; here it lies "
                               "flat. Through %s."),
                            beads);
  return g_strdup_printf (_ ("The bail folds over until its last row meets the band; here it lies "
                             "flat. Through %s."),
                          beads);
}

static char *
step_sentence (const Steps *steps, const BwStep *step)
{
  const BwVisit *visit = first_visit (steps, step);
  g_autofree char *beads = bw_stretch_words ((BwStretch){ visit, step->n });
  switch (step->kind) {
  case BW_STEP_BEGINNING:
    return g_strdup (
        _ ("Pick up a bead for every column, lowest first. Row 3 turns back: one new "
           "bead, skip one, through the next. Row 4 fills the gaps. All further rows go "
           "like these two."));
  case BW_STEP_ZIP:
    return g_strdup_printf (_ ("No new beads. From the last row to the first, in turn: %s."),
                            beads);
  case BW_STEP_BAIL:
    return bail_sentence (visit, step->n);
  case BW_STEP_ATTACHMENT:
    return sewing_sentence (steps, beads);
  case BW_STEP_WEAVING_IN:
    return weaving_sentence (steps, step);
  default:
    return g_strdup_printf (_ ("Through %s."), beads);
  }
}

static double
cell_width (const Steps *steps)
{
  return (steps->flow->width - (A_ROW - 1) * GAP) / A_ROW;
}

static double
figure_height (const Steps *steps)
{
  const BwDesign *design = bw_project_get_design (steps->project);
  double ratio = CLAMP (design->gauge.column_mm / design->gauge.pitch_mm, 0.6, 1.4);
  return MIN (MOST_HEIGHT, 12 * ratio * design->band.columns + 22);
}

static PangoLayout *
caption (const Steps *steps, const BwStep *step, int number)
{
  g_autofree char *sentence = step_sentence (steps, step);
  g_autofree char *text
      = g_strdup_printf (_ ("%d · %s. %s"), number, step_title (step->kind), sentence);
  return bw_type_layout (steps->flow->cr, BW_TYPE_SMALL, text, cell_width (steps));
}

static void
draw_step (Steps *steps, const BwStep *step, double x, double caption_height)
{
  BwFlow *flow = steps->flow;
  bw_step_state_take (&steps->state, steps->project, steps->counted, step->first);
  steps->counted = step->first;
  g_autoptr (PangoLayout) layout = caption (steps, step, ++steps->number);
  cairo_save (flow->cr);
  cairo_translate (flow->cr, flow->left + x, flow->y);
  cairo_set_source_rgb (flow->cr, 0, 0, 0);
  cairo_move_to (flow->cr, 0, 0);
  pango_cairo_show_layout (flow->cr, layout);
  cairo_translate (flow->cr, 0, caption_height + 4);
  cairo_new_path (flow->cr);
  bw_step_draw (flow->cr, steps->project, step, &steps->state, cell_width (steps),
                figure_height (steps));
  cairo_restore (flow->cr);
}

/* Draws the steps collected, on one line. */
static void
flush (Steps *steps)
{
  double caption_height = 0, figure = figure_height (steps);
  for (int i = 0; i < steps->n_shown; i++) {
    int height;
    g_autoptr (PangoLayout) layout
        = caption (steps, &g_array_index (steps->steps, BwStep, steps->shown[i]), 99);
    pango_layout_get_size (layout, NULL, &height);
    caption_height = MAX (caption_height, pango_units_to_double (height));
  }
  if (steps->n_shown == 0)
    return;
  bw_flow_room (steps->flow, caption_height + figure + 14);
  for (int i = 0; i < steps->n_shown; i++)
    draw_step (steps, &g_array_index (steps->steps, BwStep, steps->shown[i]),
               i * (cell_width (steps) + GAP), caption_height);
  steps->flow->y += caption_height + figure + 14;
  steps->n_shown = 0;
}

static void
add_legend (BwFlow *flow)
{
  bw_flow_text (
      flow, BW_TYPE_TEXT,
      _ ("Made from the very path the needle takes. The dot is where the thread comes from; dark "
         "beads are picked up, grey ones passed again, the numbers are those of rows and columns. "
         "A bead crossed "
         "out is full: never force the needle through it, glass breaks."));
}

void
bw_sheet_add_steps (BwFlow *flow, BwProject *project)
{
  g_autoptr (GArray) all = bw_steps_new (bw_project_path (project));
  Steps steps = { .flow = flow, .project = project, .steps = all };
  int left_out = 0;
  bw_step_state_init (&steps.state, project);
  bw_flow_heading (flow, _ ("Step by step"), 60 + figure_height (&steps));
  add_legend (flow);
  for (guint i = 0; i < all->len; i++) {
    BwStepKind kind = g_array_index (all, BwStep, i).kind;
    if (steps.of_kind[kind]++ >= MOST_ALIKE && i + 1 < all->len) {
      left_out++;
      continue;
    }
    steps.shown[steps.n_shown++] = i;
    if (steps.n_shown == A_ROW)
      flush (&steps);
  }
  flush (&steps);
  bw_step_state_clear (&steps.state);
  if (left_out == 0)
    return;
  g_autofree char *text = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d more step goes like those drawn; the words tell it.",
                   "%d more steps go like those drawn; the words tell them.", (gulong)left_out),
      left_out);
  bw_flow_text (flow, BW_TYPE_TEXT, text);
}
