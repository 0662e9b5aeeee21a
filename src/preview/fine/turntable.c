/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/turntable.h"

#include "preview/picture/picture-bytes.h"

#include <math.h>

#define ROUND_MS 6000 /* time in which an animated piece goes round once */

typedef gboolean (*FrameMade) (cairo_surface_t *frame, gpointer data, GError **error);

/* How far all the frames are, while one is made. */
typedef struct {
  int i, n;
  BwFineTold told;
  gpointer data;
} Progress;

double
bw_turntable_turn (double first_deg, int i, int n)
{
  double turn = fmod (first_deg + 360.0 * (i % n) / n, 360);
  return turn < 0 ? turn + 360 : turn;
}

static void
tell (double done, cairo_surface_t *so_far, gpointer data)
{
  const Progress *progress = data;
  if (progress->told)
    progress->told ((progress->i + done) / progress->n, so_far, progress->data);
}

static gboolean
make_frames (BwScene *scene, const BwStill *first, const BwFineOptions *fine, GCancellable *stop,
             Progress *progress, FrameMade made, gpointer data, GError **error)
{
  gboolean all = TRUE;
  for (progress->i = 0; all && progress->i < progress->n; progress->i++) {
    BwStill still = *first;
    if (g_cancellable_set_error_if_cancelled (stop, error))
      return FALSE;
    still.camera.turn_deg = bw_turntable_turn (first->camera.turn_deg, progress->i, progress->n);
    cairo_surface_t *frame = fine ? bw_fine_new (scene, &still, fine, stop, tell, progress, error)
                                  : bw_still_new (scene, &still, error);
    if (!frame)
      return FALSE;
    all = made (frame, data, error);
    tell (1, frame, progress);
    cairo_surface_destroy (frame);
  }
  return all;
}

static gboolean
keep_png (cairo_surface_t *frame, gpointer frames, GError **error)
{
  GBytes *png = bw_picture_png (frame, error);
  if (png)
    g_ptr_array_add (frames, png);
  return png != NULL;
}

GPtrArray *
bw_turntable_pngs (BwScene *scene, const BwStill *first, int n, const BwFineOptions *fine,
                   GCancellable *stop, BwFineTold told, gpointer data, GError **error)
{
  g_autoptr (GPtrArray) frames = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  Progress progress = { 0, n, told, data };
  if (!make_frames (scene, first, fine, stop, &progress, keep_png, frames, error))
    return NULL;
  return g_steal_pointer (&frames);
}

static gboolean
add_frame (cairo_surface_t *frame, gpointer moving, GError **error)
{
  return bw_moving_picture_add (moving, frame, error);
}

GBytes *
bw_turntable_webp (BwScene *scene, const BwStill *first, int n, const BwFineOptions *fine,
                   GCancellable *stop, BwFineTold told, gpointer data, GError **error)
{
  g_autoptr (BwMovingPicture) moving
      = bw_moving_picture_new (first->width, first->height, MAX (ROUND_MS / n, 1), error);
  Progress progress = { 0, n, told, data };
  if (!moving || !make_frames (scene, first, fine, stop, &progress, add_frame, moving, error))
    return NULL;
  return bw_moving_picture_end (moving, error);
}

char *
bw_turntable_name (const char *path, int i)
{
  gsize length = strlen (path) - (g_str_has_suffix (path, ".png") ? 4 : 0);
  return g_strdup_printf ("%.*s-%03d.png", (int)length, path, i + 1);
}
