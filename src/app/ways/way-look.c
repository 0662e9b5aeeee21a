/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ways/way-look.h"

#include "app/shelf/shelf-look.h"
#include "output/report/order.h"
#include "output/report/what-if.h"

typedef struct {
  GBytes *project;
  BwWay way;
} Ask;

void
bw_way_look_free (BwWayLook *look)
{
  g_clear_pointer (&look->picture, cairo_surface_destroy);
  g_free (look);
}

static void
look_free (gpointer look)
{
  bw_way_look_free (look);
}

static void
ask_free (gpointer data)
{
  Ask *ask = data;
  g_bytes_unref (ask->project);
  g_free (ask);
}

static BwProject *
project_as_it_would_be (const Ask *ask, GError **error)
{
  gsize length;
  const char *text = g_bytes_get_data (ask->project, &length);
  g_autoptr (BwProject) now = bw_project_load_data (text, length, error);
  return now ? bw_what_if_design (now, &ask->way.design, error) : NULL;
}

static double
held_by_stash (const BwOrder *order)
{
  double grams = 0;
  for (int i = 0; i < order->n; i++)
    if (order->bead[i].in_stash)
      grams += MIN (order->bead[i].in_hand_g, order->bead[i].grams);
  return grams;
}

static BwWayLook *
look_at (const Ask *ask, GCancellable *stop, GError **error)
{
  g_autoptr (BwProject) then = project_as_it_would_be (ask, error);
  if (!then)
    return NULL;
  const BwMaterials *needs = bw_project_materials (then);
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  bw_order_init (order, then, 0);
  BwWayLook *look = g_new0 (BwWayLook, 1);
  *look = (BwWayLook){ .verdict = bw_project_fit (then)->verdict,
                       .beads = order->total.order_beads,
                       .stash_g = held_by_stash (order),
                       .covered = order->has_stash && order->total.order_beads == 0,
                       .hours = needs->has_cost ? needs->hours : ask->way.worth.hours,
                       .has_cost = needs->has_cost,
                       .cost = needs->cost.total,
                       .picture = bw_shelf_look_paint (then, stop) };
  return look;
}

static void
work (gpointer data, gpointer pool)
{
  g_autoptr (GTask) task = data;
  GCancellable *stop = g_task_get_cancellable (task);
  GError *error = NULL;
  if (g_task_return_error_if_cancelled (task))
    return;
  BwWayLook *look = look_at (g_task_get_task_data (task), stop, &error);
  if (look)
    g_task_return_pointer (task, look, look_free);
  else
    g_task_return_error (task, error);
}

void
bw_way_look_ask (GBytes *project, const BwWay *way, GCancellable *stop, GAsyncReadyCallback done,
                 gpointer data)
{
  static GThreadPool *pool;
  if (!pool)
    pool = g_thread_pool_new (work, NULL, 1, FALSE, NULL);
  GTask *task = g_task_new (NULL, stop, done, data);
  Ask *ask = g_new0 (Ask, 1);
  *ask = (Ask){ g_bytes_ref (project), *way };
  g_task_set_task_data (task, ask, ask_free);
  g_thread_pool_push (pool, task, NULL);
}

BwWayLook *
bw_way_look_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
