/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a picture of the piece costs: frames while turning, a painted bead, a motion of the pointer,
 * and building the scene, for small, usual and very large bands. Medians, in milliseconds. */
#include "../preview/pieces.h"
#include "preview/camera.h"
#include "preview/offscreen-context.h"
#include "preview/projection.h"
#include <malloc.h>
#include <stdlib.h>
#include <sys/resource.h>

enum { SIZE = 800, ROUNDS = 15 };

typedef struct {
  BwProject *project;
  BwScene *scene;
  BwOffscreen *gl;
  int round;
} Bench;

static void
turn (Bench *b)
{
  bw_offscreen_draw (b->gl, b->scene, (BwCamera){ 7 * b->round, 12, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY,
                     -1, SIZE, SIZE);
}

/* One bead is painted and the same view drawn again. */
static void
paint (Bench *b)
{
  int first, row = 1 + b->round * 2;
  bw_project_set_bead (b->project, "", FALSE, row, 2, (guint8)(b->round % 7));
  int n = bw_scene_recolour (b->scene, b->project, FALSE, &first);
  bw_offscreen_update_beads (b->gl, b->scene, first, n);
  bw_offscreen_draw (b->gl, b->scene, (BwCamera){ 0, 12, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY, -1, SIZE,
                     SIZE);
}

static void
pick (Bench *b)
{
  BwEye eye;
  bw_eye_init (&eye, (BwCamera){ 0, 12, 1 }, b->scene, SIZE, SIZE);
  bw_eye_pick (&eye, b->scene, BW_LAYER_ALL, SIZE / 2 + b->round, SIZE / 2, SIZE, SIZE);
}

static void
build (Bench *b)
{
  bw_scene_free (bw_scene_new (b->project, FALSE));
}

static void
draw_by_hand (Bench *b)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, b->scene, (BwCamera){ 7 * b->round, 12, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY,
                      -1, SIZE, SIZE);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static int
ascending (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double
median_ms (Bench *b, void (*work) (Bench *b))
{
  double ms[ROUNDS];
  work (b);
  for (b->round = 0; b->round < ROUNDS; b->round++) {
    gint64 start = g_get_monotonic_time ();
    work (b);
    ms[b->round] = (double)(g_get_monotonic_time () - start) / 1000;
  }
  qsort (ms, ROUNDS, sizeof *ms, ascending);
  return ms[ROUNDS / 2];
}

int
main (void)
{
  const int sizes[] = { 500, 2000, 60000 };
  /* As the application does: the driver's large buffers are kept instead of returned. */
  mallopt (M_TOP_PAD, 64 << 20);
  g_autoptr (BwOffscreen) gl = bw_offscreen_new (FALSE, NULL);
  if (!gl)
    return EXIT_FAILURE;
  g_print ("%8s %8s %8s %8s %8s %8s\n", "beads", "turn", "paint", "pick", "build", "drawn");
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autoptr (BwProject) project = piece_of_size (sizes[i]);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    Bench b = { project, scene, gl, 0 };
    bw_offscreen_set_scene (gl, scene);
    g_print ("%8d", (int)scene->beads->len);
    g_print (" %8.2f", median_ms (&b, turn));
    g_print (" %8.2f", median_ms (&b, paint));
    g_print (" %8.3f", median_ms (&b, pick));
    g_print (" %8.2f", median_ms (&b, build));
    g_print (" %8.1f\n", median_ms (&b, draw_by_hand));
  }
  return EXIT_SUCCESS;
}
