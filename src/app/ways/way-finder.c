/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread owns its question; what is shared with the window is a word to stop and how far it has
 * come. A search that made way for another is left to end by itself, and its answer is dropped. */
#include "config.h"

#include "app/ways/way-finder.h"

#define WIDE 60 /* ways kept for filters and weights to choose from */

typedef struct {
  BwWaysQuestion *question;
  gboolean coarse;
  int stop, done; /* atomic */
} Job;

struct _BwWayFinder {
  GObject parent_instance;
  GTask *task; /* the one whose answer counts; NULL: none goes on */
  GArray *ways;
};

G_DEFINE_FINAL_TYPE (BwWayFinder, bw_way_finder, G_TYPE_OBJECT)

static void begin (BwWayFinder *self, BwWaysQuestion *question, gboolean coarse);

static void
job_free (gpointer data)
{
  Job *job = data;
  g_clear_pointer (&job->question, bw_ways_question_free);
  g_free (job);
}

static void
ways_unref (gpointer ways)
{
  g_array_unref (ways);
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_task_return_pointer (
      task, bw_ways_question_answer (job->question, job->coarse, WIDE, 0, &job->stop, &job->done),
      ways_unref);
}

static void
answered (GObject *source, GAsyncResult *result, gpointer data)
{
  BwWayFinder *self = BW_WAY_FINDER (source);
  Job *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (GArray) ways = g_task_propagate_pointer (G_TASK (result), NULL);
  if (self->task != G_TASK (result))
    return;
  gboolean goes_on = job->coarse && !g_atomic_int_get (&job->stop);
  g_clear_object (&self->task);
  if (ways->len > 0 || !g_atomic_int_get (&job->stop)) {
    g_array_unref (self->ways);
    self->ways = g_steal_pointer (&ways);
  }
  if (goes_on)
    begin (self, g_steal_pointer (&job->question), FALSE);
  g_signal_emit_by_name (self, "changed");
}

/* Takes question. */
static void
begin (BwWayFinder *self, BwWaysQuestion *question, gboolean coarse)
{
  Job *job = g_new0 (Job, 1);
  *job = (Job){ .question = question, .coarse = coarse };
  self->task = g_task_new (self, NULL, answered, NULL);
  g_task_set_task_data (self->task, job, job_free);
  g_task_run_in_thread (self->task, run);
}

BwWayFinder *
bw_way_finder_new (void)
{
  return g_object_new (BW_TYPE_WAY_FINDER, NULL);
}

void
bw_way_finder_begin (BwWayFinder *self, BwProject *project, const BwBookHands *hands,
                     const BwWant *want)
{
  g_return_if_fail (BW_IS_WAY_FINDER (self));
  BwWaysQuestion *question = bw_ways_question_new (project, hands);
  BwWaysWish *wish = bw_ways_question_wish (question);
  wish->has_stance = want != NULL;
  wish->stance = want ? *want : BW_WANT_LEVEL;
  if (want)
    bw_ways_question_hang (question);
  bw_way_finder_stop (self);
  g_clear_object (&self->task);
  g_array_set_size (self->ways, 0);
  begin (self, question, TRUE);
  g_signal_emit_by_name (self, "changed");
}

void
bw_way_finder_stop (BwWayFinder *self)
{
  g_return_if_fail (BW_IS_WAY_FINDER (self));
  if (self->task)
    g_atomic_int_set (&((Job *)g_task_get_task_data (self->task))->stop, TRUE);
}

gboolean
bw_way_finder_is_busy (BwWayFinder *self)
{
  g_return_val_if_fail (BW_IS_WAY_FINDER (self), FALSE);
  return self->task != NULL;
}

double
bw_way_finder_get_share (BwWayFinder *self)
{
  g_return_val_if_fail (BW_IS_WAY_FINDER (self), 0);
  Job *job = self->task ? g_task_get_task_data (self->task) : NULL;
  return job ? g_atomic_int_get (&job->done) / 1000.0 : 1;
}

const GArray *
bw_way_finder_get_ways (BwWayFinder *self)
{
  g_return_val_if_fail (BW_IS_WAY_FINDER (self), NULL);
  return self->ways;
}

static void
bw_way_finder_finalize (GObject *object)
{
  BwWayFinder *self = BW_WAY_FINDER (object);
  g_clear_object (&self->task);
  g_array_unref (self->ways);
  G_OBJECT_CLASS (bw_way_finder_parent_class)->finalize (object);
}

static void
bw_way_finder_class_init (BwWayFinderClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_way_finder_finalize;
  g_signal_new ("changed", BW_TYPE_WAY_FINDER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                0);
}

static void
bw_way_finder_init (BwWayFinder *self)
{
  self->ways = g_array_new (FALSE, FALSE, sizeof (BwWay));
}
