/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a picture of the piece costs: frames while turning, a painted bead, a motion of the pointer,
 * and building the scene, for small, usual and very large bands. Medians, in milliseconds.
 *
 * A moving and a still picture are told as ratios too, to a bare draw of the same quads: the three
 * are drawn in turn at each angle, so that a busy machine slows all of them. The processor's time
 * counts the threads of a software driver as well and is nearly the same on a busy machine. */
#include "../preview/pieces.h"
#include "bare-quads.h"
#include "preview/scene/camera.h"
#include "preview/gl/gl-picture.h"
#include "preview/gl/offscreen-context.h"
#include "preview/picture/projection.h"
#include <epoxy/gl.h>
#include <malloc.h>
#include <stdlib.h>
#include <time.h>

enum { SIZE = 800, ROUNDS = 15 };

typedef struct {
  BwProject *project;
  BwScene *scene;
  BwRenderer *renderer;
  BwGlPicture *picture;
  BareQuads *bare;
  guint64 seen; /* beads set, see bw_project_touched() */
  int round;
} Bench;

static BwGlShot
shot_of (const Bench *b, double turn_deg)
{
  return (BwGlShot){ { turn_deg, 12, 1 }, BW_LAYER_ALL, BW_LIGHT_DAY, -1, SIZE, SIZE, 1 };
}

/* A whole fine picture. */
static void
turn (Bench *b)
{
  BwGlShot shot = shot_of (b, 7 * b->round);
  bw_gl_picture_draw (b->picture, b->renderer, b->scene, &shot, BW_GL_STILL);
  glFinish ();
}

/* What is shown while a drag goes on: coarse where the processor draws and takes long. */
static void
drag (Bench *b)
{
  BwGlShot shot = shot_of (b, 7 * b->round + 1);
  bw_gl_picture_draw (b->picture, b->renderer, b->scene, &shot, BW_GL_MOVING);
  glFinish ();
}

/* One bead is painted in an unmoved picture. */
static void
paint (Bench *b)
{
  BwGlShot shot = shot_of (b, 0);
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  int row = 1 + b->round * 2;
  bw_project_set_bead (b->project, "", FALSE, row, 2, (guint8)(b->round % 7));
  gboolean told = bw_project_touched (b->project, &b->seen, beads);
  if (told)
    bw_scene_recolour_beads (b->scene, b->project, beads, changed);
  else
    bw_scene_recolour (b->scene, b->project, FALSE, changed);
  bw_renderer_update_beads (b->renderer, b->scene, (const int *)changed->data, (int)changed->len);
  bw_gl_picture_spoil_beads (b->picture, (const int *)changed->data, (int)changed->len);
  bw_gl_picture_draw (b->picture, b->renderer, b->scene, &shot, BW_GL_STILL);
  glFinish ();
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
median_of (double values[ROUNDS])
{
  qsort (values, ROUNDS, sizeof *values, ascending);
  return values[ROUNDS / 2];
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
  return median_of (ms);
}

/* Of all threads of this process. */
static double
processor_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec * 1e-6;
}

/* The same quads as a moving picture has at this round. */
static void
bare (Bench *b)
{
  BwEye eye;
  bw_eye_init (&eye, shot_of (b, 7 * b->round + 1).camera, b->scene, SIZE, SIZE);
  bare_quads_draw (b->bare, b->scene, &eye, SIZE, SIZE);
  glFinish ();
}

static void
take_quads (Bench *b)
{
  BwEye eye;
  bw_eye_init (&eye, shot_of (b, 7 * b->round + 1).camera, b->scene, SIZE, SIZE);
  bare_quads_take (b->bare, b->scene, &eye);
  bare (b);
}

static void
compare (Bench *b)
{
  enum { BARE, DRAG, STILL, N };
  void (*const work[N]) (Bench *) = { bare, drag, turn };
  double wall[N][ROUNDS], processor[N][ROUNDS], ratio[2 * N][ROUNDS];
  for (b->round = -1; b->round < ROUNDS; b->round++) {
    take_quads (b);
    for (int i = 0; i < N; i++) {
      double before = processor_ms ();
      gint64 start = g_get_monotonic_time ();
      work[i](b);
      if (b->round < 0)
        continue;
      wall[i][b->round] = (double)(g_get_monotonic_time () - start) / 1000;
      processor[i][b->round] = processor_ms () - before;
      ratio[i][b->round] = wall[i][b->round] / wall[BARE][b->round];
      ratio[N + i][b->round] = processor[i][b->round] / processor[BARE][b->round];
    }
  }
  for (int i = 0; i < N; i++)
    g_print (" %7.2f %7.2f", median_of (wall[i]), median_of (processor[i]));
  for (int i = 0; i < 2 * N; i++)
    if (i % N != BARE)
      g_print (" %6.2f", median_of (ratio[i]));
}

/* The framebuffer a toolkit would hand out. */
static void
open_target (void)
{
  GLuint framebuffer, colour;
  glGenFramebuffers (1, &framebuffer);
  glBindFramebuffer (GL_FRAMEBUFFER, framebuffer);
  glGenRenderbuffers (1, &colour);
  glBindRenderbuffer (GL_RENDERBUFFER, colour);
  glRenderbufferStorage (GL_RENDERBUFFER, GL_RGBA8, SIZE, SIZE);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, colour);
}

static void
measure (int beads)
{
  g_autoptr (BwProject) project = piece_of_size (beads);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  Bench b
      = { project, scene, bw_renderer_new (NULL), bw_gl_picture_new (), bare_quads_new (scene), 0 };
  bw_renderer_set_scene (b.renderer, scene);
  g_print ("%8d", (int)scene->beads->len);
  compare (&b);
  g_print (" %8.2f", median_ms (&b, paint));
  g_print (" %8.3f", median_ms (&b, pick));
  g_print (" %8.2f", median_ms (&b, build));
  g_print (" %8.1f\n", median_ms (&b, draw_by_hand));
  bare_quads_free (b.bare);
  bw_gl_picture_free (b.picture);
  bw_renderer_free (b.renderer);
}

int
main (void)
{
  const int sizes[] = { 500, 2000, 10000, 60000 };
  /* As the application does: the driver's large buffers are kept instead of returned. */
  mallopt (M_TOP_PAD, 64 << 20);
  g_autoptr (BwOffscreen) gl = bw_offscreen_new (FALSE, NULL);
  if (!gl)
    return EXIT_FAILURE;
  open_target ();
  g_print ("%8s %15s %15s %15s %13s %13s\n", "", "bare", "moving", "still", "ratios", "processor");
  g_print ("%8s %7s %7s %7s %7s %7s %7s %6s %6s %6s %6s %8s %8s %8s %8s\n", "beads", "ms", "proc.",
           "ms", "proc.", "ms", "proc.", "moving", "still", "moving", "still", "paint", "pick",
           "build", "drawn");
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    measure (sizes[i]);
  return EXIT_SUCCESS;
}
