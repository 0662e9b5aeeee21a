/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Very many beads on a GPU, without a display: a turning piece against a bare draw of the same
 * quads, at 1920 × 1080, the whole of it in view and so near that every bead shows its shape.
 * Medians of milliseconds and of ratios, the two drawn in turn. Says what draws; it runs on the
 * processor too, and means little there. How many beads: the first argument, a million without one.
 */
#include "../preview/pieces.h"
#include "bare-quads.h"
#include "preview/gl/gl-picture.h"
#include "preview/gl/gl-program.h"
#include "preview/gl/offscreen-context.h"
#include "preview/scene/camera.h"
#include "preview/scene/scene-bead.h"
#include <epoxy/gl.h>
#include <stdlib.h>

enum { WIDTH = 1920, HEIGHT = 1080, ROUNDS = 31 };

typedef struct {
  BwScene *scene;
  BwRenderer *renderer;
  BwGlPicture *picture;
  BareQuads *quads;
  double zoom;
  int round;
} Bench;

static BwCamera
camera_of (const Bench *b)
{
  return (BwCamera){ 7 * b->round, 12, b->zoom };
}

static void
bare (Bench *b)
{
  BwEye eye;
  bw_eye_init (&eye, camera_of (b), b->scene, WIDTH, HEIGHT);
  bare_quads_draw (b->quads, b->scene, &eye, WIDTH, HEIGHT);
}

static void
draw (Bench *b, gboolean plain)
{
  const float nothing[4] = { 0, 0, 0, 0 };
  bw_renderer_set_plain (b->renderer, plain);
  bw_renderer_draw (b->renderer, b->scene, camera_of (b), BW_LAYER_ALL, BW_LIGHT_DAY, -1, WIDTH,
                    HEIGHT, nothing);
}

static void
plain (Bench *b)
{
  draw (b, TRUE);
}

static void
fine (Bench *b)
{
  draw (b, FALSE);
}

static void
show (Bench *b, BwGlPace pace)
{
  BwGlShot shot = { camera_of (b), BW_LAYER_ALL, BW_LIGHT_DAY, -1, WIDTH, HEIGHT, 1 };
  bw_gl_picture_spoil (b->picture);
  bw_gl_picture_draw (b->picture, b->renderer, b->scene, &shot, pace);
}

/* What the window shows while the piece turns, copied to where the toolkit wants it. */
static void
moving (Bench *b)
{
  show (b, BW_GL_MOVING);
}

/* And when it has come to rest: oversized for smooth edges. */
static void
at_rest (Bench *b)
{
  show (b, BW_GL_AT_REST);
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
ms_of (Bench *b, void (*work) (Bench *))
{
  glFinish ();
  gint64 start = g_get_monotonic_time ();
  work (b);
  glFinish ();
  return (double)(g_get_monotonic_time () - start) / 1000;
}

static void
take_quads (Bench *b)
{
  BwEye eye;
  bw_eye_init (&eye, camera_of (b), b->scene, WIDTH, HEIGHT);
  bare_quads_take (b->quads, b->scene, &eye);
}

static void
measure (Bench *b, double zoom)
{
  enum { BARE, PLAIN, FINE, MOVING, AT_REST, N };
  void (*const work[N]) (Bench *) = { bare, plain, fine, moving, at_rest };
  double ms[N][ROUNDS], ratio[N][ROUNDS];
  b->zoom = zoom;
  for (b->round = -2; b->round < ROUNDS; b->round++) {
    take_quads (b);
    for (int i = 0; i < N; i++) {
      double one = ms_of (b, work[i]);
      if (b->round < 0)
        continue;
      ms[i][b->round] = one;
      ratio[i][b->round] = one / ms[BARE][b->round];
    }
  }
  g_print ("%8d %6.1f", (int)b->scene->beads->len, zoom);
  for (int i = 0; i < N; i++)
    g_print (" %8.3f", median_of (ms[i]));
  for (int i = PLAIN; i < N; i++)
    g_print (" %8.2f", median_of (ratio[i]));
  g_print ("\n");
}

static void
open_target (void)
{
  GLuint framebuffer, buffer[2];
  glGenFramebuffers (1, &framebuffer);
  glBindFramebuffer (GL_FRAMEBUFFER, framebuffer);
  glGenRenderbuffers (2, buffer);
  glBindRenderbuffer (GL_RENDERBUFFER, buffer[0]);
  glRenderbufferStorage (GL_RENDERBUFFER, GL_RGBA8, WIDTH, HEIGHT);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, buffer[0]);
  glBindRenderbuffer (GL_RENDERBUFFER, buffer[1]);
  glRenderbufferStorage (GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, WIDTH, HEIGHT);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, buffer[1]);
}

/* The format ends before a million beads: each is made a field of `times` × `times` smaller ones.
 */
static void
divide (BwScene *scene, int times)
{
  GArray *fine = g_array_new (FALSE, FALSE, sizeof (BwSceneBead));
  for (guint i = 0; i < scene->beads->len; i++) {
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
    float out[3];
    bw_bead_out (bead, out);
    for (int k = 0; k < times * times; k++) {
      BwSceneBead one = *bead;
      float up = ((float)(k / times) + 0.5f) / (float)times * 2 - 1;
      float aside = ((float)(k % times) + 0.5f) / (float)times * 2 - 1;
      one.at[0] -= aside * scene->bead_radius * out[1];
      one.at[1] += aside * scene->bead_radius * out[0];
      one.at[2] += up * scene->bead_half_length;
      g_array_append_val (fine, one);
    }
  }
  scene->n_band = (int)fine->len;
  scene->bead_radius /= (float)times;
  scene->bead_half_length /= (float)times;
  scene->hole_radius /= (float)times;
  scene->bead_rounding /= (float)times;
  g_array_unref (scene->beads);
  scene->beads = fine;
}

int
main (int argc, char *argv[])
{
  int beads = argc > 1 ? atoi (argv[1]) : 1000000;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwOffscreen) gl = bw_offscreen_new (FALSE, &error);
  if (!gl)
    g_error ("%s", error->message);
  int times = MAX ((int)ceil (sqrt (beads / 63000.0)), 1);
  g_autoptr (BwProject) project = piece_of_size (beads / times / times);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  divide (scene, times);
  open_target ();
  g_print ("%s%s, %d x %d\n", (const char *)glGetString (GL_RENDERER),
           bw_gl_is_software () ? " (the processor)" : "", WIDTH, HEIGHT);
  g_print ("%8s %6s %8s %8s %8s %8s %8s   ratios to bare, in that order\n", "beads", "zoom", "bare",
           "plain", "fine", "moving", "at rest");
  Bench b = { scene, bw_renderer_new (NULL), bw_gl_picture_new (), bare_quads_new (scene), 1, 0 };
  bw_renderer_set_scene (b.renderer, scene);
  const double zooms[] = { 1, 3, 12 };
  for (gsize i = 0; i < G_N_ELEMENTS (zooms); i++)
    measure (&b, zooms[i]);
  bare_quads_free (b.quads);
  bw_gl_picture_free (b.picture);
  bw_renderer_free (b.renderer);
  return EXIT_SUCCESS;
}
