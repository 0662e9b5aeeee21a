/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of drawing is the whole art here: first cord and ring, which show through the stone,
 * and what of the bed hides it; then the stone as if it were opaque (its shader shows what is seen
 * through it), the rest of the bed and the beads, far to near, so that every soft edge lies on the
 * right ground; the stone's own edges, the cord's fading ends and the bead pointed at come last. */
#include "preview/gl/renderer.h"

#include "preview/gl/gl-beads.h"
#include "preview/gl/gl-body.h"
#include "preview/gl/gl-limits.h"
#include "preview/gl/gl-lines.h"
#include "preview/gl/gl-program.h"
#include "preview/gl/gl-tubes.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-thread.h"
#include <gio/gio.h>

#define LEAST_THREAD_PIXELS 0.4f
#define LEAST_THREAD_PIXELS_PLAIN 1.2f /* while the picture moves */

struct _BwRenderer {
  BwGlBeads *beads;
  BwGlBody *body;
  BwGlLines *edges;
  BwGlLines *holes, *links; /* the thread in the beads, and from bead to bead; each made when it is
                               to be seen */
  BwGlTubes *tubes;
  GLuint frame;
  float scale;
  gboolean plain;
};

static gboolean
check_version (GError **error)
{
  gboolean desktop = epoxy_is_desktop_gl ();
  int version = epoxy_gl_version (), least = desktop ? 33 : 30;
  if (version >= least)
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
               "OpenGL%s %d.%d is too old: %d.%d is the least", desktop ? "" : " ES", version / 10,
               version % 10, least / 10, least % 10);
  return FALSE;
}

BwRenderer *
bw_renderer_new (GError **error)
{
  if (!check_version (error))
    return NULL;
  BwRenderer *self = g_new0 (BwRenderer, 1);
  if (!(self->body = bw_gl_body_new (error)) || !(self->beads = bw_gl_beads_new (error))
      || !(self->edges = bw_gl_lines_new (error))) {
    bw_renderer_free (self);
    return NULL;
  }
  self->tubes = bw_gl_tubes_new ();
  self->scale = 1;
  glGenBuffers (1, &self->frame);
  glBindVertexArray (0);
  return self;
}

void
bw_renderer_free (BwRenderer *self)
{
  if (!self)
    return;
  bw_gl_body_free (self->body);
  bw_gl_beads_free (self->beads);
  bw_gl_lines_free (self->edges);
  bw_gl_lines_free (self->holes);
  bw_gl_lines_free (self->links);
  bw_gl_tubes_free (self->tubes);
  glDeleteBuffers (1, &self->frame);
  g_free (self);
}

void
bw_renderer_set_scene (BwRenderer *self, const BwScene *scene)
{
  bw_gl_body_set_scene (self->body, scene);
  bw_gl_beads_set_scene (self->beads, scene);
  bw_gl_lines_set (self->edges, scene->stone_edges);
  g_clear_pointer (&self->holes, bw_gl_lines_free);
  g_clear_pointer (&self->links, bw_gl_lines_free);
  bw_gl_tubes_set_scene (self->tubes, scene);
}

void
bw_renderer_follow_bail (BwRenderer *self, const BwScene *scene)
{
  bw_gl_beads_set_scene (self->beads, scene);
  bw_gl_tubes_set_scene (self->tubes, scene);
}

void
bw_renderer_update_cord (BwRenderer *self, const BwScene *scene)
{
  bw_gl_tubes_set_scene (self->tubes, scene);
}

void
bw_renderer_lie_loose (BwRenderer *self, gboolean loose)
{
  bw_gl_beads_lie_loose (self->beads, loose);
}

/* A large picture wants its lines to grow with it, a small one no hairlines. */
static float
line_ratio (float scale, int width, int height)
{
  return scale * MAX (1, (float)MIN (width, height) / scale / 900);
}

float
bw_renderer_halo (float scale, int width, int height)
{
  return BW_GL_HALO_PIXELS * line_ratio (scale, width, height);
}

void
bw_renderer_set_scale (BwRenderer *self, float scale)
{
  self->scale = scale;
}

void
bw_renderer_set_plain (BwRenderer *self, gboolean plain)
{
  self->plain = plain;
}

void
bw_renderer_update_beads (BwRenderer *self, const BwScene *scene, const int *bead, int n)
{
  bw_gl_beads_update (self->beads, scene, bead, n);
}

guint64
bw_renderer_uploaded (const BwRenderer *self)
{
  return bw_gl_beads_uploaded (self->beads);
}

static void
start (BwRenderer *self, const BwGlFrame *frame, const float background[4])
{
  glBindBuffer (GL_UNIFORM_BUFFER, self->frame);
  glBufferData (GL_UNIFORM_BUFFER, sizeof *frame, frame, GL_STREAM_DRAW);
  glBindBufferBase (GL_UNIFORM_BUFFER, BW_GL_FRAME_POINT, self->frame);
  glClearColor (background[0], background[1], background[2], background[3]);
  glDepthMask (GL_TRUE);
  glClear (GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  glEnable (GL_DEPTH_TEST);
  glDepthFunc (GL_LEQUAL);
  glEnable (GL_BLEND);
  glBlendFunc (GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
}

/* The thread is uploaded when it is to be seen: it takes twice the room of the beads, and in most
 * pictures of very many it is not. */
static void
upload_thread (const BwScene *scene, BwGlLines **to, gboolean holes)
{
  if (*to || !(*to = bw_gl_lines_new (NULL)))
    return;
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  bw_scene_thread_lines (scene, scene->n_visits, holes ? lines : NULL, holes ? NULL : lines);
  bw_gl_lines_set (*to, lines);
}

/* Thinner than a pixel the thread is drawn a pixel wide and fainter instead. */
static void
draw_thread (BwRenderer *self, const BwScene *scene, const BwEye *eye, guint layers)
{
  const float least = 1.2f;
  float away = glm_vec3_distance ((float *)eye->eye, (float *)scene->focus);
  const float *colour = scene->thread_colour;
  float pixels = 2 * scene->thread_radius / (eye->pixel * away);
  const BwGlPen pen = { .least_pixels = least,
                        .width_mm = 2 * scene->thread_radius,
                        .colour = { colour[0], colour[1], colour[2], MIN (pixels / least, 1) },
                        .round = TRUE };
  /* Between beads that show, a thread far thinner than a pixel is not to be seen. */
  float seen = self->plain ? LEAST_THREAD_PIXELS_PLAIN : LEAST_THREAD_PIXELS;
  gboolean lost = pixels < seen && (layers & BW_LAYER_BAND);
  if (!(layers & BW_LAYER_THREAD) || lost)
    return;
  upload_thread (scene, &self->links, FALSE);
  bw_gl_lines_draw_first (self->links, &pen, bw_played_links (scene));
  if ((layers & BW_LAYER_BAND) && (layers & BW_LAYER_BAIL))
    return;
  upload_thread (scene, &self->holes, TRUE);
  bw_gl_lines_draw_first (self->holes, &pen, bw_played_holes (scene));
}

/* A line of light on each edge, so wide and so strong. */
static void
draw_edge_light (BwRenderer *self, const BwScene *scene, float pixels, float strength,
                 gboolean fades)
{
  float light[3];
  bw_scene_edge_light (scene, light);
  const BwGlPen pen = { .least_pixels = pixels,
                        .colour = { light[0], light[1], light[2], strength },
                        .fades = fades };
  bw_gl_lines_draw (self->edges, &pen);
}

/* Crisp edges, each with a gleam beside it: a crystal's edge is a narrow bevel that catches light.
 * On a pale ground clear stone would melt into it: there a soft dark seam lies under each. */
static void
draw_edges (BwRenderer *self, const BwScene *scene, guint layers, float ratio)
{
  const BwGlPen seam
      = { .least_pixels = 5 * ratio, .colour = { 0.03f, 0.05f, 0.07f, 0.60f }, .fades = TRUE };
  if (!(layers & BW_LAYER_STONE))
    return;
  glDepthMask (GL_FALSE);
  if (!scene->on_dark)
    bw_gl_lines_draw (self->edges, &seam);
  draw_edge_light (self, scene, 7 * ratio, scene->on_dark ? 0.36f : 0.16f, TRUE);
  draw_edge_light (self, scene, 1.1f * ratio, scene->on_dark ? 0.75f : 0.60f, FALSE);
  glDepthMask (GL_TRUE);
}

/* What is drawn, and from where. */
typedef struct {
  const BwScene *scene;
  const BwEye *eye;
  const BwGlFrame *frame;
  int width, height;
} Place;

/* around: layers round the piece, which stay when its beads are not there yet. */
static void
draw_finely (BwRenderer *self, const Place *p, guint layers, guint around)
{
  bw_gl_tubes_draw_solid (self->tubes, layers);
  bw_gl_body_draw_bed_wall (self->body, around);
  bw_gl_body_draw_stone (self->body, p->scene, p->eye, around);
  bw_gl_body_draw_bed_rest (self->body, around);
  draw_thread (self, p->scene, p->eye, layers);
  bw_gl_beads_draw (self->beads, p->scene, p->eye, layers, FALSE);
}

/* Simple beads have hard edges, so that what they hide may be drawn after them and costs nothing.
 */
static void
draw_plainly (BwRenderer *self, const Place *p, guint layers, guint around)
{
  bw_gl_body_prepare_plain (self->body, p->scene, p->eye, p->frame, around, p->width, p->height);
  bw_gl_tubes_draw_solid (self->tubes, layers);
  bw_gl_body_draw_stone_plain (self->body, p->scene, p->eye, around);
  bw_gl_beads_draw (self->beads, p->scene, p->eye, layers, TRUE);
  bw_gl_body_draw_bed_wall (self->body, around);
  bw_gl_body_draw_bed_rest (self->body, around);
  draw_thread (self, p->scene, p->eye, layers);
}

void
bw_renderer_draw (BwRenderer *self, const BwScene *scene, BwCamera camera, guint layers,
                  BwLight light, int hover, int width, int height, const float background[4])
{
  BwEye eye;
  BwGlFrame frame;
  float ratio = line_ratio (self->scale, width, height);
  guint around = bw_played_layers_around (scene, layers);
  layers = bw_played_layers (scene, layers);
  bw_eye_init (&eye, camera, scene, width, height);
  bw_gl_frame_init (&frame, &eye, scene, light, width, height);
  glViewport (0, 0, width, height);
  start (self, &frame, background);
  const Place place = { scene, &eye, &frame, width, height };
  if (self->plain)
    draw_plainly (self, &place, layers, around);
  else
    draw_finely (self, &place, layers, around);
  draw_edges (self, scene, layers, ratio);
  bw_gl_tubes_draw_faded (self->tubes, layers);
  bw_gl_beads_draw_hover (self->beads, scene, hover, bw_renderer_halo (self->scale, width, height));
  glBindVertexArray (0);
  glUseProgram (0);
  glDisable (GL_DEPTH_TEST);
  glDisable (GL_BLEND);
}
