/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window/late-stages.h"

#include "app/bench/bench-page.h"
#include "app/draw/draw-stage.h"
#include "app/hang/hang-stage.h"
#include "app/kit/part-names.h"
#include "app/make/make-stage.h"
#include "app/measure/measure-stage.h"

#define KEY "bw-late-stages"

typedef struct {
  GtkStack *stages; /* not owned: it owns this */
  BwDraft *draft;
  guint next_source;
} Late;

static void
bind_measure (GtkWidget *stage, BwDraft *draft)
{
  bw_measure_stage_bind (BW_MEASURE_STAGE (stage), draft);
}

static void
bind_draw (GtkWidget *stage, BwDraft *draft)
{
  bw_draw_stage_bind (BW_DRAW_STAGE (stage), draft);
}

static void
bind_hang (GtkWidget *stage, BwDraft *draft)
{
  bw_hang_stage_bind (BW_HANG_STAGE (stage), draft);
}

static void
bind_make (GtkWidget *stage, BwDraft *draft)
{
  bw_make_stage_bind (BW_MAKE_STAGE (stage), draft);
}

static void
bind_bench (GtkWidget *page, BwDraft *draft)
{
  bw_bench_page_bind (BW_BENCH_PAGE (page), draft);
}

static const struct {
  const char *name;
  GType (*type) (void);
  void (*bind) (GtkWidget *stage, BwDraft *draft);
} makers[] = {
  { "measure", bw_measure_stage_get_type, bind_measure },
  { "draw", bw_draw_stage_get_type, bind_draw },
  { "hang", bw_hang_stage_get_type, bind_hang },
  { "make", bw_make_stage_get_type, bind_make },
  { "bench", bw_bench_page_get_type, bind_bench },
};

/* A widget that is as large as what it holds, however that is asked for its size. */
static GtkOverlay *
place_of (GtkStack *stages, const char *name)
{
  return GTK_OVERLAY (gtk_stack_get_child_by_name (stages, name));
}

/* FALSE when it was there already. */
static gboolean
ensure (Late *late, gsize i)
{
  GtkOverlay *place = place_of (late->stages, makers[i].name);
  if (gtk_overlay_get_child (place))
    return FALSE;
  GtkWidget *stage = g_object_new (makers[i].type (), NULL);
  gtk_overlay_set_child (place, stage);
  makers[i].bind (stage, late->draft);
  bw_part_names_give (stage);
  return TRUE;
}

static void
ensure_shown (GtkStack *stages, GParamSpec *property, Late *late)
{
  const char *shown = gtk_stack_get_visible_child_name (stages);
  if (gtk_widget_in_destruction (GTK_WIDGET (stages)))
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (makers); i++)
    if (g_strcmp0 (makers[i].name, shown) == 0)
      ensure (late, i);
}

/* One at a time: an event waits for one at most. */
static gboolean
ensure_next (gpointer data)
{
  Late *late = data;
  for (gsize i = 0; i < G_N_ELEMENTS (makers); i++)
    if (ensure (late, i))
      return G_SOURCE_CONTINUE;
  late->next_source = 0;
  return G_SOURCE_REMOVE;
}

static void
first_painted (GtkWidget *stages, GdkFrameClock *clock)
{
  Late *late = g_object_get_data (G_OBJECT (stages), KEY);
  g_signal_handlers_disconnect_by_func (clock, G_CALLBACK (first_painted), stages);
  if (!late->next_source)
    late->next_source = g_idle_add_full (G_PRIORITY_LOW, ensure_next, late, NULL);
}

static void
mapped (GtkWidget *stages)
{
  g_signal_connect_object (gtk_widget_get_frame_clock (stages), "after-paint",
                           G_CALLBACK (first_painted), stages, G_CONNECT_SWAPPED);
}

GtkWidget *
bw_late_stages_get (GtkStack *stages, const char *name)
{
  Late *late = g_object_get_data (G_OBJECT (stages), KEY);
  for (gsize i = 0; i < G_N_ELEMENTS (makers); i++)
    if (g_str_equal (makers[i].name, name))
      ensure (late, i);
  return gtk_overlay_get_child (place_of (stages, name));
}

static void
late_free (gpointer data)
{
  Late *late = data;
  g_clear_handle_id (&late->next_source, g_source_remove);
  g_object_unref (late->draft);
  g_free (late);
}

void
bw_late_stages_take (GtkStack *stages, BwDraft *draft)
{
  Late *late = g_new0 (Late, 1);
  late->stages = stages;
  late->draft = g_object_ref (draft);
  g_object_set_data_full (G_OBJECT (stages), KEY, late, late_free);
  g_signal_connect (stages, "notify::visible-child", G_CALLBACK (ensure_shown), late);
  g_signal_connect (stages, "map", G_CALLBACK (mapped), NULL);
  ensure_shown (stages, NULL, late);
}
