/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece as it stands on a board: upright, without cord, seen as on paper. */
#include "config.h"

#include "app/shelf/shelf-look.h"
#include "preview/picture/offscreen.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <string.h>

#define ASIDE_DEG 35.0 /* off the bail, or off the join without one */
#define ABOVE_DEG 6.0  /* the eye of somebody before the shelf */
#define CLEAR 8        /* less opaque than that is nothing, 0..255 */

static GMutex painting;
static gboolean ended; /* under painting */

void
bw_shelf_look_free (BwShelfLook *look)
{
  g_free (look->reason);
  g_free (look->title);
  g_clear_pointer (&look->picture, cairo_surface_destroy);
  g_free (look);
}

void
bw_shelf_look_end (void)
{
  g_mutex_lock (&painting);
  ended = TRUE;
  g_mutex_unlock (&painting);
}

static gboolean
line_is_clear (const guint32 *pixel, int n, int step)
{
  for (int i = 0; i < n; i++)
    if (pixel[i * step] >> 24 > CLEAR)
      return FALSE;
  return TRUE;
}

/* The part of it that holds the piece. Takes the surface; NULL when all of it is clear. */
static cairo_surface_t *
cut_out (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  cairo_surface_flush (surface);
  const guint32 *pixels = (const guint32 *)(const void *)cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface) / 4;
  int left = 0, right = width, top = 0, end = height;
  while (top < end && line_is_clear (pixels + top * stride, width, 1))
    top++;
  while (end > top && line_is_clear (pixels + (end - 1) * stride, width, 1))
    end--;
  while (left < right && line_is_clear (pixels + left, height, stride))
    left++;
  while (right > left && line_is_clear (pixels + right - 1, height, stride))
    right--;
  cairo_surface_t *cut = NULL;
  if (right > left && end > top) {
    cut = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, right - left, end - top);
    cairo_t *cr = cairo_create (cut);
    cairo_set_source_surface (cr, surface, -left, -top);
    cairo_paint (cr);
    cairo_destroy (cr);
  }
  cairo_surface_destroy (surface);
  return cut;
}

static cairo_surface_t *
paint (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  gboolean bail = design->bail.style != BW_BAIL_NONE;
  BwCamera camera = { .turn_deg = (bail ? design->bail.at_deg : design->band.seam_deg) + ASIDE_DEG,
                      .tip_deg = ABOVE_DEG,
                      .zoom = 1 };
  guint layers = BW_LAYER_ALL & ~(guint)(BW_LAYER_THREAD | BW_LAYER_CORD | BW_LAYER_BALANCE);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *surface = bw_offscreen_render (scene, camera, layers, BW_LIGHT_DAY,
                                                  BW_SHELF_SIDE, BW_SHELF_SIDE, NULL, NULL);
  return surface ? cut_out (surface) : NULL;
}

static gboolean
is_worth_painting (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  gint64 band = (gint64)design->band.rows * design->band.columns / 2;
  gint64 bail = design->bail.style == BW_BAIL_NONE
                    ? 0
                    : (gint64)design->bail.rows * design->bail.columns / 2;
  return band + bail <= BW_SHELF_BEADS_MOST;
}

static void
describe (BwShelfLook *look, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  look->state = BW_SHELF_SOUND;
  look->title = g_strdup (bw_project_get_title (project));
  look->rows = design->band.rows;
  look->woven = MIN (bw_project_get_rows_done (project), look->rows);
  look->length_mm = design->stone.length_mm;
}

static void
describe_fault (BwShelfLook *look, const GError *error)
{
  gboolean gone = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  look->state = gone ? BW_SHELF_GONE : BW_SHELF_BROKEN;
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  look->reason = g_strdup (pointer ? bw_fault_sentence (error) : bw_io_words (error, BW_IO_READ));
}

cairo_surface_t *
bw_shelf_look_paint (BwProject *project, GCancellable *stop)
{
  cairo_surface_t *picture = NULL;
  g_mutex_lock (&painting);
  if (!ended && !g_cancellable_is_cancelled (stop) && is_worth_painting (project))
    picture = paint (project);
  g_mutex_unlock (&painting);
  return picture;
}

BwShelfLook *
bw_shelf_look_make (GFile *file, GCancellable *stop)
{
  BwShelfLook *look = g_new0 (BwShelfLook, 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load_stoppable (file, stop, NULL, &error);
  if (!project) {
    describe_fault (look, error);
    return look;
  }
  describe (look, project);
  look->picture = bw_shelf_look_paint (project, stop);
  return look;
}
