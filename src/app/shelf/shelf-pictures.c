/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/shelf/shelf-pictures.h"
#include "app/shelf/shelf-cache.h"

#define THREADS 3

static void
look_free (gpointer look)
{
  bw_shelf_look_free (look);
}

static BwShelfLook *
find_or_make (GFile *file, GCancellable *stop)
{
  g_autofree char *key = bw_shelf_cache_key (file, stop, NULL);
  BwShelfLook *look = key ? bw_shelf_cache_find (key) : NULL;
  if (look)
    return look;
  look = bw_shelf_look_make (file, stop);
  if (key && !g_cancellable_is_cancelled (stop))
    bw_shelf_cache_keep (key, look);
  return look;
}

static void
work (gpointer data, gpointer pool)
{
  g_autoptr (GTask) task = data;
  GCancellable *stop = g_task_get_cancellable (task);
  if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, find_or_make (g_task_get_task_data (task), stop), look_free);
}

void
bw_shelf_pictures_ask (GFile *file, GCancellable *stop, GAsyncReadyCallback done, gpointer data)
{
  static GThreadPool *pool;
  if (!pool)
    pool = g_thread_pool_new (work, NULL, THREADS, FALSE, NULL);
  GTask *task = g_task_new (NULL, stop, done, data);
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_thread_pool_push (pool, task, NULL);
}

BwShelfLook *
bw_shelf_pictures_finish (GAsyncResult *result)
{
  return g_task_propagate_pointer (G_TASK (result), NULL);
}
