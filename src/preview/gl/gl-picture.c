/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A toolkit hands out another framebuffer for every frame, so nothing drawn stays. This one stays:
 * when only beads have changed, the rectangle round them is drawn again and the rest is copied.
 *
 * There are pictures of several kinds, each better and dearer than the one before. One is shown;
 * the next is drawn beside it, strip by strip, and shown when it is whole. A GPU begins with a fine
 * one, unless there are very many beads. */
#include "preview/gl/gl-picture.h"

#include "preview/scene/camera.h"
#include "preview/gl/gl-limits.h"
#include "preview/gl/gl-program.h"
#include "preview/gl/gl-target.h"
#include <string.h>

/* More beads than this and a whole picture is the shorter way. */
#define BEADS_MAX 48
typedef struct {
  int x0, y0, x1, y1; /* pixels, origin below left, x1 and y1 excluded */
} Rect;

/* How a picture is drawn, from the worst to the best. */
typedef enum {
  COARSE, /* plainly and half as large */
  PLAIN,  /* as the renderer draws plainly */
  FINE,
  SMOOTH, /* twice as large, averaged while it is copied: smooth edges, inside the crystal too */
} Kind;

/* A picture that is kept, or was begun. */
typedef struct {
  BwGlTarget target;
  BwGlShot shot; /* as it was asked for */
  Kind kind;
} Kept;

struct _BwGlPicture {
  Kept shown, next;
  gboolean whole_spoilt;
  int spoilt[BEADS_MAX];
  int n_spoilt;
  gboolean software;
  gboolean plainly; /* while they move: the processor draws, or there are very many beads */
  int rows_done;    /* of next, from below; 0: not begun */
  int rows;         /* of its next strip */
  gint64 last_pixels;
};

BwGlPicture *
bw_gl_picture_new (void)
{
  BwGlPicture *self = g_new0 (BwGlPicture, 1);
  self->whole_spoilt = TRUE;
  self->software = bw_gl_is_software ();
  self->rows = BW_GL_STRIP_ROWS;
  return self;
}

void
bw_gl_picture_free (BwGlPicture *self)
{
  if (!self)
    return;
  bw_gl_target_drop (&self->shown.target);
  bw_gl_target_drop (&self->next.target);
  g_free (self);
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
  const BwGlTarget *target = &self->shown.target;
  return (double)self->last_pixels / ((double)target->width * target->height);
}

gboolean
bw_gl_picture_is_plain (const BwGlPicture *self)
{
  return self->shown.kind <= PLAIN;
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

static double
times_of (Kind kind)
{
  return kind == COARSE ? 0.5 : kind == SMOOTH ? 2 : 1;
}

/* The shot as a picture of that kind is drawn. */
static BwGlShot
shot_of_kind (const BwGlShot *shot, Kind kind)
{
  BwGlShot drawn = *shot;
  double times = times_of (kind);
  drawn.width = MAX ((int)(shot->width * times), 1);
  drawn.height = MAX ((int)(shot->height * times), 1);
  drawn.scale = shot->scale * (float)times;
  return drawn;
}

/* The same but for the bead that is pointed at. */
static gboolean
shows (const Kept *kept, const BwGlShot *shot)
{
  BwGlShot same = kept->shot;
  same.hover = shot->hover;
  return kept->target.framebuffer && !memcmp (&same, shot, sizeof same);
}

/* The part that must be drawn again where beads alone have changed. */
static Rect
changed_part (const BwGlPicture *self, const BwScene *scene, const BwGlShot *drawn,
              int hover_before)
{
  BwEye eye;
  Rect part = { 0, 0, 0, 0 };
  bw_eye_init (&eye, drawn->camera, scene, drawn->width, drawn->height);
  for (int i = 0; i < self->n_spoilt; i++)
    part = join (part, rect_of_bead (scene, &eye, drawn, self->spoilt[i]));
  int hovers[] = { hover_before, drawn->hover };
  for (int i = 0; i < 2 && hovers[0] != hovers[1]; i++)
    if (hovers[i] >= 0 && hovers[i] < (int)scene->beads->len)
      part = join (part, rect_of_bead (scene, &eye, drawn, hovers[i]));
  return part;
}

/* Draws a part of a picture; FALSE when the driver gives no framebuffer. */
static gboolean
draw_part (Kept *kept, BwRenderer *renderer, const BwScene *scene, Rect part)
{
  const float nothing[4] = { 0, 0, 0, 0 };
  BwGlShot drawn = shot_of_kind (&kept->shot, kept->kind);
  if (!bw_gl_target_bind (&kept->target, drawn.width, drawn.height))
    return FALSE;
  glEnable (GL_SCISSOR_TEST);
  glScissor (part.x0, part.y0, part.x1 - part.x0, part.y1 - part.y0);
  bw_renderer_set_scale (renderer, drawn.scale);
  bw_renderer_set_plain (renderer, kept->kind <= PLAIN);
  bw_renderer_draw (renderer, scene, drawn.camera, drawn.layers, drawn.light, drawn.hover,
                    drawn.width, drawn.height, nothing);
  glDisable (GL_SCISSOR_TEST);
  return TRUE;
}

/* Brings what is shown up to date. */
static void
draw_shown (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene, const BwGlShot *shot,
            Kind kind)
{
  gboolean whole = self->whole_spoilt || !shows (&self->shown, shot) || kind != self->shown.kind;
  BwGlShot drawn = shot_of_kind (shot, kind);
  Rect part = { 0, 0, drawn.width, drawn.height };
  if (!whole)
    part = changed_part (self, scene, &drawn, self->shown.shot.hover);
  self->last_pixels = (gint64)MAX (part.x1 - part.x0, 0) * MAX (part.y1 - part.y0, 0);
  self->shown.shot = *shot;
  self->shown.kind = kind;
  if (self->last_pixels) {
    self->rows_done = 0; /* what was begun is given up */
    draw_part (&self->shown, renderer, scene, part);
  }
  self->whole_spoilt = FALSE;
  self->n_spoilt = 0;
}

static gboolean
may_be_smooth (const BwGlShot *shot)
{
  GLint largest = 0;
  glGetIntegerv (GL_MAX_RENDERBUFFER_SIZE, &largest);
  return 2 * MAX (shot->width, shot->height) <= largest && shot->scale < 1.5f;
}

/* The best that is to be had at a pace. */
static Kind
kind_for (const BwGlPicture *self, const BwGlShot *shot, BwGlPace pace)
{
  gint64 pixels = (gint64)shot->width * shot->height;
  gboolean smooth = may_be_smooth (shot) && (!self->software || pixels <= BW_GL_SMOOTH_MOST);
  if (pace == BW_GL_AT_REST)
    return smooth ? SMOOTH : FINE;
  if (pace == BW_GL_STILL || !self->plainly)
    return FINE;
  return self->software && pixels > BW_GL_PLAIN_MOST ? COARSE : PLAIN;
}

static void
copy_to (const BwGlTarget *from, GLuint target, const BwGlShot *shot)
{
  glBindFramebuffer (GL_READ_FRAMEBUFFER, from->framebuffer);
  glBindFramebuffer (GL_DRAW_FRAMEBUFFER, target);
  glBlitFramebuffer (0, 0, from->width, from->height, 0, 0, shot->width, shot->height,
                     GL_COLOR_BUFFER_BIT, from->width == shot->width ? GL_NEAREST : GL_LINEAR);
  glBindFramebuffer (GL_FRAMEBUFFER, target);
}

gboolean
bw_gl_picture_draw (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene,
                    const BwGlShot *shot, BwGlPace pace)
{
  GLint target = 0;
  self->plainly = self->software || scene->beads->len > BW_GL_LOOSE_BEADS;
  Kind kind = kind_for (self, shot, pace);
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &target);
  /* A bead or two in a better picture keep it so. */
  if (!self->whole_spoilt && shows (&self->shown, shot))
    kind = MAX (kind, self->shown.kind);
  draw_shown (self, renderer, scene, shot, kind);
  copy_to (&self->shown.target, (GLuint)target, shot);
  return kind >= kind_for (self, shot, BW_GL_AT_REST);
}

/* The strip that took so long was so high; the next one takes its due. */
static void
measure_strip (BwGlPicture *self, int rows, gint64 us)
{
  double due = rows * BW_GL_STRIP_MS * 1000 / (double)MAX (us, 1);
  self->rows = (int)CLAMP (due, MAX (rows / 2, 4), 2 * rows);
}

/* What was drawn beside it is shown from now on. */
static void
show_next (BwGlPicture *self)
{
  Kept before = self->shown;
  self->shown = self->next;
  self->next = before;
  self->rows_done = 0;
}

static gboolean
is_begun (const BwGlPicture *self, const BwGlShot *shot, Kind kind)
{
  return self->rows_done > 0 && self->next.kind == kind
         && !memcmp (&self->next.shot, shot, sizeof *shot);
}

BwGlRefined
bw_gl_picture_refine (BwGlPicture *self, BwRenderer *renderer, const BwScene *scene, BwGlPace pace)
{
  const BwGlShot *shot = &self->shown.shot;
  Kind kind = kind_for (self, shot, pace);
  if (self->whole_spoilt || self->n_spoilt || kind <= self->shown.kind)
    return BW_GL_REFINED_NOTHING;
  if (!is_begun (self, shot, kind))
    self->rows_done = 0;
  self->next.shot = *shot;
  self->next.kind = kind;
  BwGlShot drawn = shot_of_kind (shot, kind);
  int rows = MIN (self->rows, drawn.height - self->rows_done);
  Rect strip = { 0, self->rows_done, drawn.width, self->rows_done + rows };
  gint64 start = g_get_monotonic_time ();
  if (!draw_part (&self->next, renderer, scene, strip))
    return BW_GL_REFINED_NOTHING;
  glFinish ();
  measure_strip (self, rows, g_get_monotonic_time () - start);
  self->rows_done += rows;
  if (self->rows_done < drawn.height)
    return BW_GL_REFINED_STRIP;
  show_next (self);
  return BW_GL_REFINED_PICTURE;
}
