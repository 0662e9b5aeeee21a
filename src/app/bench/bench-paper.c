/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper is white by day and by lamp, for the drawings are those that are printed. */
#include "config.h"

#include "app/bench/bench-paper.h"

#include "app/bench/bench-words.h"
#include "app/kit/palette.h"
#include "core/base/lattice.h"
#include "output/chart/chart.h"
#include "output/sheet/step-figure.h"

#include <math.h>

#define MARGIN 10.0
#define FIGURE_HIGH 170.0 /* points a figure is laid out in, as in print */
#define FIGURE_MOST 2.4   /* pixels a point at most */
#define PITCH_MOST 44.0   /* of the bail's chart, pixels */
#define PITCH_LEAST 18.0  /* with less only rows near the one in hand are drawn */
#define VEIL 0.72         /* of the paper over what is woven */
#define FRAME_PX 2.5

struct _BwBenchPaper {
  GtkWidget parent_instance;
  BwProject *project;
  BwBenchStep step;
};

G_DEFINE_FINAL_TYPE (BwBenchPaper, bw_bench_paper, GTK_TYPE_WIDGET)

/* Moves on so that a drawing of this size comes to lie in the middle. */
static void
centre (cairo_t *cr, double width, double height, double drawn_width, double drawn_height)
{
  cairo_translate (cr, MAX ((width - drawn_width) / 2, 0), MAX ((height - drawn_height) / 2, 0));
}

static void
draw_join (BwBenchPaper *self, cairo_t *cr, double width, double height)
{
  BwStep step;
  BwStepState state;
  BwStepLayout layout;
  double scale = MIN (height / FIGURE_HIGH, FIGURE_MOST);
  if (!bw_bench_join_pass (self->project, self->step.join, &step))
    return;
  bw_step_state_init (&state, self->project);
  bw_step_state_take (&state, self->project, 0, step.first);
  bw_step_layout_init (&layout, self->project, &step, &state, width / scale, height / scale);
  centre (cr, width, height, layout.width * scale, layout.height * scale);
  cairo_scale (cr, scale, scale);
  bw_step_draw (cr, &layout);
  bw_step_layout_clear (&layout);
  bw_step_state_clear (&state);
}

/* As large as goes on the paper; a bail too long for it has the row in hand in the middle. */
static void
lay_chart (const BwBenchPaper *self, double width, double height, BwChart *chart, BwChartPart *part)
{
  const BwDesign *design = bw_project_get_design (self->project);
  const BwGauge *gauge = &design->gauge;
  double flat = gauge->column_mm / gauge->pitch_mm, wide, high;
  int rows = design->bail.rows;
  *chart = (BwChart){ .project = self->project, .pitch = 1, .column = flat, .in_bail = TRUE };
  *part = (BwChartPart){ 1, rows, 1, design->bail.columns, 0, 0 };
  bw_chart_part_size (chart, part, &wide, &high);
  double by_width = MAX (width / wide, PITCH_LEAST);
  chart->pitch = MIN (MIN (height / high, by_width), PITCH_MOST);
  chart->column = chart->pitch * flat;
  int shown = CLAMP (rows - (int)ceil (2 * (wide - width / chart->pitch)), 1, rows);
  part->first_row = CLAMP (self->step.row - shown / 2, 1, rows - shown + 1);
  part->last_row = part->first_row + shown - 1;
}

/* The last of the rows that are strung together with the one in hand. */
static int
last_in_hand (const BwBenchPaper *self)
{
  BwBenchStep next = bw_bench_step_after (self->project, self->step);
  return next.in_bail ? next.row - 1 : bw_project_get_design (self->project)->bail.rows;
}

static void
trace_row (const BwChart *chart, const BwChartPart *part, cairo_t *cr, int row)
{
  for (int column = part->first_column; column <= part->last_column; column++) {
    double x, y;
    bw_chart_bead_at (chart, part, row, column, &x, &y);
    if (bw_lattice_has (row, column))
      cairo_rectangle (cr, x, y, chart->pitch, chart->column);
  }
}

static void
draw_bail (BwBenchPaper *self, cairo_t *cr, double width, double height)
{
  BwChart chart;
  BwChartPart part;
  double wide, high;
  GdkRGBA paper = bw_palette_tint (BW_TINT_SHEET, FALSE);
  GdkRGBA frame = bw_palette_tint (BW_TINT_RUST, FALSE);
  lay_chart (self, width, height, &chart, &part);
  bw_chart_part_size (&chart, &part, &wide, &high);
  centre (cr, width, height, wide, high);
  bw_chart_draw (&chart, &part, cr);
  for (int row = part.first_row; row < self->step.row; row++)
    trace_row (&chart, &part, cr, row);
  paper.alpha = (float)VEIL;
  gdk_cairo_set_source_rgba (cr, &paper);
  cairo_fill (cr);
  for (int row = self->step.row; row <= last_in_hand (self); row++)
    trace_row (&chart, &part, cr, row);
  gdk_cairo_set_source_rgba (cr, &frame);
  cairo_set_line_width (cr, FRAME_PX);
  cairo_stroke (cr);
}

static void
bw_bench_paper_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBenchPaper *self = BW_BENCH_PAPER (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  GdkRGBA paper = bw_palette_tint (BW_TINT_SHEET, FALSE);
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  if (!self->project || width <= 2 * MARGIN || height <= 2 * MARGIN)
    return;
  gtk_snapshot_append_color (snapshot, &paper, &all);
  gtk_snapshot_push_clip (snapshot, &all);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  cairo_translate (cr, MARGIN, MARGIN);
  if (self->step.in_bail)
    draw_bail (self, cr, width - 2 * MARGIN, height - 2 * MARGIN);
  else
    draw_join (self, cr, width - 2 * MARGIN, height - 2 * MARGIN);
  cairo_destroy (cr);
  gtk_snapshot_pop (snapshot);
}

gboolean
bw_bench_paper_has (BwProject *project, BwBenchStep step)
{
  BwStep pass;
  return step.in_bail || (step.join > 0 && bw_bench_join_pass (project, step.join, &pass));
}

void
bw_bench_paper_set_step (BwBenchPaper *self, BwProject *project, BwBenchStep step)
{
  g_return_if_fail (BW_IS_BENCH_PAPER (self) && BW_IS_PROJECT (project));
  g_autofree char *name = bw_bench_name (project, step);
  g_clear_object (&self->project);
  if (bw_bench_paper_has (project, step))
    self->project = g_object_ref (project);
  self->step = step;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_bench_paper_dispose (GObject *object)
{
  g_clear_object (&BW_BENCH_PAPER (object)->project);
  G_OBJECT_CLASS (bw_bench_paper_parent_class)->dispose (object);
}

static void
bw_bench_paper_class_init (BwBenchPaperClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_bench_paper_dispose;
  widget_class->snapshot = bw_bench_paper_snapshot;
  gtk_widget_class_set_css_name (widget_class, "benchpaper");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_bench_paper_init (BwBenchPaper *self)
{
}
