/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One picture, asked for from anywhere. The context lives in a thread of its own: the caller's
 * thread may hold a window's context of another kind, and two kinds cannot be current in one
 * thread. */
#include "preview/picture/offscreen.h"

#include "project/fault/fault-words.h"
#include "preview/gl/offscreen-context.h"
#include "preview/picture/projection.h"

#define SMALLEST 16
#define LARGEST 8192

typedef struct {
  const BwScene *scene;
  BwCamera camera;
  guint layers;
  BwLight light;
  int width, height;
} Order;

static gpointer
draw_with_gl (gpointer data)
{
  const Order *order = data;
  g_autoptr (BwOffscreen) offscreen = bw_offscreen_new (FALSE, NULL);
  if (!offscreen)
    return NULL;
  bw_offscreen_set_scene (offscreen, order->scene);
  return bw_offscreen_picture (offscreen, order->scene, order->camera, order->layers, order->light,
                               -1, order->width, order->height, NULL);
}

static cairo_surface_t *
draw_by_hand (const Order *order)
{
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, order->width, order->height);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, order->scene, order->camera, order->layers, order->light, -1,
                      order->width, order->height);
  cairo_destroy (cr);
  return surface;
}

cairo_surface_t *
bw_offscreen_render (const BwScene *scene, BwCamera camera, guint layers, BwLight light, int width,
                     int height, gboolean *used_gl, GError **error)
{
  if (!bw_fault_check_range (width, SMALLEST, LARGEST, "", error)
      || !bw_fault_check_range (height, SMALLEST, LARGEST, "", error))
    return NULL;
  Order order = { scene, camera, layers, light, width, height };
  GThread *thread = g_thread_new ("picture", draw_with_gl, &order);
  cairo_surface_t *surface = g_thread_join (thread);
  if (used_gl)
    *used_gl = surface != NULL;
  return surface ? surface : draw_by_hand (&order);
}
