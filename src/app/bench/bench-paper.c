/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper is white by day and by lamp, for the drawings are those that are printed. */
#include "config.h"

#include "app/bench/bench-paper.h"

#include "app/bench/bench-words.h"
#include "app/kit/palette.h"
#include "output/sheet/step-figure.h"

#define MARGIN 10.0
#define FIGURE_HIGH                                                                                \
  170.0                 /* points a figure is laid out in: it has the proportions of the print     \
                         */
#define FIGURE_MOST 2.4 /* pixels a point at most */

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
  draw_join (self, cr, width - 2 * MARGIN, height - 2 * MARGIN);
  cairo_destroy (cr);
  gtk_snapshot_pop (snapshot);
}

gboolean
bw_bench_paper_has (BwProject *project, BwBenchStep step)
{
  BwStep pass;
  return step.join > 0 && bw_bench_join_pass (project, step.join, &pass);
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
