/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A toolkit hands out another framebuffer for every frame, so nothing drawn stays. This one stays:
 * when only beads have changed, the rectangle round them is drawn again and the rest is copied. */
#include "preview/gl/gl-picture.h"

#include "preview/scene/camera.h"
#include "preview/gl/gl-limits.h"
#include "preview/gl/gl-program.h"
#include "preview/gl/gl-target.h"
#include <string.h>

/* More beads than this and a whole picture is the shorter way. */
#define BEADS_MAX 48
/* A frame may be slow because the machine was busy with something else: so often a picture at rest
 * is timed again before it is left as it is. */
#define LOOKS_MOST 3

typedef struct {
  int x0, y0, x1, y1; /* pixels, origin below left, x1 and y1 excluded */
} Rect;

struct _BwGlPicture {
  BwGlTarget target;
  BwGlShot shown;
  gboolean whole_spoilt;
  int spoilt[BEADS_MAX];
  int n_spoilt;
  gboolean software;
  double patience_ms;  /* at rest, where the processor draws */
  double us_per_pixel; /* of a whole picture, where the processor draws */
  int looks;           /* how often this picture at rest was timed again */
  gint64 last_pixels;
};

BwGlPicture *
bw_gl_picture_new (void)
{
  BwGlPicture *self = g_new0 (BwGlPicture, 1);
  self->whole_spoilt = TRUE;
  self->software = bw_gl_is_software ();
  self->patience_ms = BW_GL_REST_MS;
  return self;
}

void
bw_gl_picture_free (BwGlPicture *self)
{
  if (!self)
    return;
  bw_gl_target_drop (&self->target);
  g_free (self);
}

void
bw_gl_picture_set_patience (BwGlPicture *self, double ms)
{
  self->patience_ms = ms;
}

void
bw_gl_picture_spoil (BwGlPicture *self)
{
  self->whole_spoilt = TRUE;
}

void
bw_gl_picture_spoil_beads (BwGlPicture *self, const int *bead, int n)
{
  if (n > BEADS_MAX - self->n_spoilt) {
    self->whole_spoilt = TRUE;
    return;
  }
  for (int i = 0; i < n; i++)
    self->spoilt[self->n_spoilt++] = bead[i];
}

double
bw_gl_picture_last_share (const BwGlPicture *self)
{
  return (double)self->last_pixels / ((double)self->target.width * self->target.height);
}

static Rect
join (Rect a, Rect b)
{
  if (a.x0 >= a.x1)
    return b;
  return (Rect){ MIN (a.x0, b.x0), MIN (a.y0, b.y0), MAX (a.x1, b.x1), MAX (a.y1, b.y1) };
}

/* All pixels a bead can touch, with the ring it has when pointed at. */
static Rect
rect_of_bead (const BwScene *scene, const BwEye *eye, const BwGlShot *shot, int bead)
{
  const float *at = g_array_index (scene->beads, BwSceneBead, bead).at;
  double x = 0, y = 0;
  bw_eye_project (eye, at, shot->width, shot->height, &x, &y);
  float away = glm_vec3_distance ((float *)eye->eye, (float *)at);
  float size = hypotf (scene->bead_radius, scene->bead_half_length);
  int reach = (int)(1.05f * size / (eye->pixel * away)
                    + bw_renderer_halo (shot->scale, shot->width, shot->height))
              + 3;
  int left = (int)x - reach, below = shot->height - (int)y - reach;
  return (Rect){ MAX (left, 0), MAX (below, 0), MIN (left + 2 * reach, shot->width),
                 MIN (below + 2 * reach, shot->height) };
}

/* The part of the picture that must be drawn again; all of it unless beads alone have changed. */
static Rect
changed_part (const BwGlPicture *self, const BwScene *scene, const BwGlShot *shot)
{
  const Rect all = { 0, 0, shot->width, shot->height };
  BwGlShot same = self->shown;
  same.hover = shot->hover;
  if (self->whole_spoilt || self->target.width != shot->width || memcmp (&same, shot, sizeof same))
    return all;
  BwEye eye;
  Rect part = { 0, 0, 0, 0 };
  bw_eye_init (&eye, shot->camera, scene, shot->width, shot->height);
  for (int i = 0; i < self->n_spoilt; i++)
    part = join (part, rect_of_bead (scene, &eye, shot, self->spoilt[i]));
  int hovers[] = { self->shown.hover, shot->hover };
  for (int i = 0; i < 2 && hovers[0] != hovers[1]; i++)
    if (hovers[i] >= 0 && hovers[i] < (int)scene->beads->len)
      part = join (part, rect_of_bead (scene, &eye, shot, hovers[i]));
  return part;
}

static void
draw_part (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene, const BwGlShot *shot,
           Rect part)
{
  const float nothing[4] = { 0, 0, 0, 0 };
  self->last_pixels = (gint64)MAX (part.x1 - part.x0, 0) * MAX (part.y1 - part.y0, 0);
  if (!self->last_pixels)
    return;
  glEnable (GL_SCISSOR_TEST);
  glScissor (part.x0, part.y0, part.x1 - part.x0, part.y1 - part.y0);
  bw_renderer_set_scale (renderer, shot->scale);
  bw_renderer_draw (renderer, scene, shot->camera, shot->layers, shot->light, shot->hover,
                    shot->width, shot->height, nothing);
  glDisable (GL_SCISSOR_TEST);
}

/* The same shot, so many times as large. */
static BwGlShot
enlarged (const BwGlShot *shot, double times)
{
  BwGlShot large = *shot;
  large.width = MAX ((int)(shot->width * times), 1);
  large.height = MAX ((int)(shot->height * times), 1);
  large.scale = shot->scale * (float)times;
  return large;
}

static gboolean
is_whole (Rect part, const BwGlShot *shot)
{
  return part.x1 - part.x0 == shot->width && part.y1 - part.y0 == shot->height;
}

static void
draw (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene, const BwGlShot *shot)
{
  Rect part = changed_part (self, scene, shot);
  gint64 start = g_get_monotonic_time ();
  if (!bw_gl_target_bind (&self->target, shot->width, shot->height))
    return;
  draw_part (self, renderer, scene, shot, part);
  self->shown = *shot;
  self->whole_spoilt = FALSE;
  self->n_spoilt = 0;
  if (!self->software || !is_whole (part, shot))
    return;
  glFinish ();
  double us_per_pixel = (double)(g_get_monotonic_time () - start) / (double)self->last_pixels;
  self->us_per_pixel = self->looks > 0 ? MIN (self->us_per_pixel, us_per_pixel) : us_per_pixel;
}

/* Drawn twice as large and averaged while copied: smooth edges, inside the crystal too. */
static gboolean
may_be_oversized (const BwGlPicture *self, const BwGlShot *shot)
{
  GLint largest = 0;
  glGetIntegerv (GL_MAX_RENDERBUFFER_SIZE, &largest);
  return 2 * MAX (shot->width, shot->height) <= largest && shot->scale < 1.5f;
}

/* How large the picture is drawn: half, whole or double. */
static double
times_for (const BwGlPicture *self, const BwScene *scene, const BwGlShot *shot, BwGlPace pace)
{
  gboolean oversized = may_be_oversized (self, shot);
  double ms = self->us_per_pixel * shot->width * shot->height / 1000;
  if (!self->software)
    return oversized ? 2 : 1;
  BwGlShot large = enlarged (shot, 2);
  /* A bead or two in an oversized picture keep it so. */
  if (oversized && !is_whole (changed_part (self, scene, &large), &large))
    return 2;
  if (pace == BW_GL_MOVING && ms > BW_GL_SLOW_MS)
    return 0.5;
  return oversized && pace == BW_GL_AT_REST && 4 * ms < self->patience_ms ? 2 : 1;
}

/* TRUE when time would make it better. */
static gboolean
is_improvable (const BwGlPicture *self, const BwGlShot *shot, double times)
{
  double ms = self->us_per_pixel * shot->width * shot->height / 1000;
  return times < 1
         || (self->software && times < 2 && may_be_oversized (self, shot)
             && (4 * ms < self->patience_ms || self->looks < LOOKS_MOST));
}

/* At rest and still too slow to be drawn oversized: it is drawn once more to be timed. Another
 * picture starts its own count. */
static void
look_again (BwGlPicture *self, const BwScene *scene, const BwGlShot *shot, double times,
            BwGlPace pace)
{
  if (!self->software || times != 1)
    return;
  if (is_whole (changed_part (self, scene, shot), shot))
    self->looks = 0;
  else if (pace == BW_GL_AT_REST && self->looks < LOOKS_MOST) {
    self->looks++;
    self->whole_spoilt = TRUE;
  }
}

static void
copy_to (const BwGlPicture *self, GLuint target, const BwGlShot *shot)
{
  glBindFramebuffer (GL_READ_FRAMEBUFFER, self->target.framebuffer);
  glBindFramebuffer (GL_DRAW_FRAMEBUFFER, target);
  glBlitFramebuffer (0, 0, self->target.width, self->target.height, 0, 0, shot->width, shot->height,
                     GL_COLOR_BUFFER_BIT,
                     self->target.width == shot->width ? GL_NEAREST : GL_LINEAR);
  glBindFramebuffer (GL_FRAMEBUFFER, target);
}

gboolean
bw_gl_picture_draw (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene,
                    const BwGlShot *shot, BwGlPace pace)
{
  GLint target = 0;
  double times = times_for (self, scene, shot, pace);
  BwGlShot drawn = enlarged (shot, times);
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &target);
  look_again (self, scene, &drawn, times, pace);
  draw (self, renderer, scene, &drawn);
  copy_to (self, (GLuint)target, shot);
  return !is_improvable (self, shot, times);
}
