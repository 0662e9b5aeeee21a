/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are sorted far to near on the CPU whenever the eye has moved; those the stone surely hides
 * are left out. A change of colour alone writes one record where the sorted order has put it.
 *
 * A GPU draws very many beads in less time than it takes to sort them: there they lie loose, in the
 * order that keeps neighbours together, with hard edges that need no other, and are left out by
 * whole stretches.
 */
#include "preview/gl/gl-beads.h"

#include "preview/gl/gl-limits.h"
#include "preview/gl/gl-program.h"
#include "preview/scene/hidden.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-bead.h"
#include "preview/scene/stretches.h"
#include <string.h>

/* What one instance carries: directions and light in shares of the greatest number. */
typedef struct {
  float at[3];
  gint16 axis[3], out[3];
  guint16 light[3], finish;
} Record;

/* The ways beads are drawn; each has its program, made when first wanted. */
typedef enum { FINE, PLAIN, DOTS, LOOSE, LOOSE_PLAIN, LOOSE_DOTS, N_WAYS } Way;

#define LIES_LOOSE "#define LOOSE\n"

static const struct {
  const char *name, *defines;
  GLuint divisor; /* 1: a quad for each record, 0: a vertex */
} ways[N_WAYS] = {
  [FINE] = { "bead", "", 1 },
  [PLAIN] = { "bead-plain", "", 1 },
  [DOTS] = { "dot", "", 0 },
  [LOOSE] = { "bead", LIES_LOOSE, 1 },
  [LOOSE_PLAIN] = { "bead-plain", LIES_LOOSE, 1 },
  [LOOSE_DOTS] = { "dot", "", 0 },
};

struct _BwGlBeads {
  GLuint buffer;
  GLuint program[N_WAYS], array[N_WAYS];
  gboolean software;
  GLuint hover_program, hover_array, hover_buffer; /* made when first wanted */
  GLint halo, ghost;
  int n_beads, n_drawn;
  gint32 *order;     /* bead in each slot of the buffer */
  GArray *stretches; /* of the slots, while they lie loose */
  float seen_from[3];
  guint layers;
  int played;
  gboolean sorted, loose;
  guint64 uploaded;
};

/* One call a bead is dearer than one for all when more than one bead in so many has changed. */
#define MANY 16

/* What is drawn begins at the record `first` of the buffer. */
static void
declare_record (GLuint program, GLuint array, GLuint buffer, GLuint divisor, int first)
{
  const struct {
    const char *name;
    int size;
    BwGlNumbers numbers;
    gsize offset;
  } parts[] = { { "a_at", 3, BW_GL_FLOATS, offsetof (Record, at) },
                { "a_axis", 3, BW_GL_SIGNED_SHARES, offsetof (Record, axis) },
                { "a_out", 3, BW_GL_SIGNED_SHARES, offsetof (Record, out) },
                { "a_colour", 3, BW_GL_SHARES, offsetof (Record, light) },
                { "a_finish", 1, BW_GL_WHOLE, offsetof (Record, finish) } };
  glBindVertexArray (array);
  glBindBuffer (GL_ARRAY_BUFFER, buffer);
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    bw_gl_attribute_of (program, parts[i].name, parts[i].numbers, parts[i].size, sizeof (Record),
                        (gsize)first * sizeof (Record) + parts[i].offset, divisor);
}

static gboolean
ensure (BwGlBeads *self, Way way, GError **error)
{
  if (self->program[way])
    return TRUE;
  GLuint program = bw_gl_program_new (ways[way].name, ways[way].defines, error);
  if (!program)
    return FALSE;
  self->program[way] = program;
  glGenVertexArrays (1, &self->array[way]);
  declare_record (program, self->array[way], self->buffer, ways[way].divisor, 0);
  return TRUE;
}

/* The way that is drawn first tells whether the driver understands the shaders at all. */
BwGlBeads *
bw_gl_beads_new (GError **error)
{
  BwGlBeads *self = g_new0 (BwGlBeads, 1);
  self->software = bw_gl_is_software ();
  glGenBuffers (1, &self->buffer);
  if (ensure (self, self->software ? PLAIN : FINE, error))
    return self;
  bw_gl_beads_free (self);
  return NULL;
}

void
bw_gl_beads_free (BwGlBeads *self)
{
  if (!self)
    return;
  for (int way = 0; way < N_WAYS; way++)
    glDeleteProgram (self->program[way]);
  glDeleteVertexArrays (N_WAYS, self->array);
  glDeleteProgram (self->hover_program);
  glDeleteVertexArrays (1, &self->hover_array);
  glDeleteBuffers (1, &self->buffer);
  glDeleteBuffers (1, &self->hover_buffer);
  g_free (self->order);
  g_clear_pointer (&self->stretches, g_array_unref);
  g_free (self);
}

void
bw_gl_beads_lie_loose (BwGlBeads *self, gboolean loose)
{
  self->loose = loose;
  self->sorted = FALSE;
}

void
bw_gl_beads_set_scene (BwGlBeads *self, const BwScene *scene)
{
  int n = (int)scene->beads->len;
  bw_gl_beads_lie_loose (self, !self->software && n > BW_GL_LOOSE_BEADS);
  self->n_beads = n;
}

static const BwSceneBead *
bead_at (const BwScene *scene, int i)
{
  return &g_array_index (scene->beads, BwSceneBead, i);
}

static void
write_record (Record *record, const BwSceneBead *bead)
{
  memcpy (record->at, bead->at, sizeof record->at);
  memcpy (record->axis, bead->axis, sizeof record->axis);
  memcpy (record->out, bead->out, sizeof record->out);
  float light[3];
  bw_bead_light (bead, light);
  for (int i = 0; i < 3; i++)
    record->light[i] = (guint16)lroundf (light[i] * G_MAXUINT16);
  record->finish = bead->finish;
}

#define NEARNESS_STEPS 4096

/* Nearness 0 (far) to NEARNESS_STEPS − 1, or NEARNESS_STEPS for a bead that is not drawn. */
static guint16
nearness (const BwGlBeads *self, const BwScene *scene, const BwEye *eye, guint layers, float reach,
          int i)
{
  const BwSceneBead *bead = bead_at (scene, i);
  if (!bw_played_has (scene, i) || !(layers & (i >= scene->n_band ? BW_LAYER_BAIL : BW_LAYER_BAND)))
    return NEARNESS_STEPS;
  if (self->loose)
    return 0;
  if ((layers & BW_LAYER_STONE) && bw_hidden_by_stone (scene, eye->eye, bead->at, reach))
    return NEARNESS_STEPS;
  float depth = 0;
  for (int k = 0; k < 3; k++)
    depth += (bead->at[k] - scene->centre[k]) * eye->view[k][2];
  float share = 0.5f + 0.5f * depth / MAX (scene->radius, 1e-3f);
  return (guint16)(CLAMP (share, 0, 1) * (NEARNESS_STEPS - 1));
}

/* A counting sort: linear, and stable, so that equal depths keep the weaving's order. */
static void
sort (BwGlBeads *self, const BwScene *scene, const BwEye *eye, guint layers)
{
  int start[NEARNESS_STEPS + 2] = { 0 };
  float reach = hypotf (scene->bead_radius, scene->bead_half_length);
  g_autofree guint16 *key = g_new (guint16, MAX (self->n_beads, 1));
  for (int i = 0; i < self->n_beads; i++) {
    key[i] = nearness (self, scene, eye, layers, reach, i);
    start[key[i] + 1]++;
  }
  for (int k = 0; k <= NEARNESS_STEPS; k++)
    start[k + 1] += start[k];
  self->n_drawn = start[NEARNESS_STEPS];
  self->order = g_renew (gint32, self->order, MAX (self->n_drawn, 1));
  for (int i = 0; i < self->n_beads; i++)
    if (key[i] < NEARNESS_STEPS)
      self->order[start[key[i]]++] = i;
}

/* Written where the driver wants them, so that no copy of them is kept. */
static void
upload (BwGlBeads *self, const BwScene *scene)
{
  GLsizeiptr size = (GLsizeiptr)(sizeof (Record) * (gsize)self->n_drawn);
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  glBufferData (GL_ARRAY_BUFFER, size, NULL, GL_DYNAMIC_DRAW);
  Record *record = size > 0 ? glMapBufferRange (GL_ARRAY_BUFFER, 0, size,
                                                GL_MAP_WRITE_BIT | GL_MAP_INVALIDATE_BUFFER_BIT)
                            : NULL;
  for (int slot = 0; record && slot < self->n_drawn; slot++)
    write_record (&record[slot], bead_at (scene, self->order[slot]));
  if (record)
    glUnmapBuffer (GL_ARRAY_BUFFER);
  self->uploaded += (guint64)self->n_drawn;
}

static void
ensure_sorted (BwGlBeads *self, const BwScene *scene, const BwEye *eye, guint layers)
{
  if (self->sorted && self->layers == layers && self->played == scene->played
      && (self->loose || !memcmp (self->seen_from, eye->eye, sizeof self->seen_from)))
    return;
  sort (self, scene, eye, layers);
  if (self->loose)
    bw_stretches_sort (scene, self->order, self->n_drawn);
  upload (self, scene);
  g_clear_pointer (&self->stretches, g_array_unref);
  if (self->loose)
    self->stretches = bw_stretches_new (scene, self->order, self->n_drawn);
  self->sorted = TRUE;
  self->layers = layers;
  self->played = scene->played;
  memcpy (self->seen_from, eye->eye, sizeof self->seen_from);
}

/* Where each bead lies in the buffer, −1: nowhere. */
static gint32 *
slots_of (const BwGlBeads *self)
{
  gint32 *slot = g_new (gint32, MAX (self->n_beads, 1));
  for (int i = 0; i < self->n_beads; i++)
    slot[i] = -1;
  for (int i = 0; i < self->n_drawn; i++)
    slot[self->order[i]] = i;
  return slot;
}

void
bw_gl_beads_update (BwGlBeads *self, const BwScene *scene, const int *bead, int n)
{
  if (!self->sorted)
    return;
  if (n > self->n_drawn / MANY) {
    upload (self, scene);
    return;
  }
  g_autofree gint32 *slots = slots_of (self);
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  for (int i = 0; i < n; i++) {
    gint32 slot = slots[bead[i]];
    if (slot < 0)
      continue;
    Record record;
    write_record (&record, bead_at (scene, bead[i]));
    glBufferSubData (GL_ARRAY_BUFFER, (GLintptr)((gsize)slot * sizeof record), sizeof record,
                     &record);
    self->uploaded++;
  }
}

guint64
bw_gl_beads_uploaded (const BwGlBeads *self)
{
  return self->uploaded;
}

static float
bead_pixels (const BwScene *scene, const BwEye *eye)
{
  float away = glm_vec3_distance ((float *)eye->eye, (float *)scene->focus);
  return 2 * scene->bead_radius / (eye->pixel * away);
}

/* OpenGL ES always lets the shader say how large a point is. */
static void
draw_dots (int first, int n)
{
  if (epoxy_is_desktop_gl ())
    glEnable (GL_PROGRAM_POINT_SIZE);
  glDrawArrays (GL_POINTS, first, n);
  if (epoxy_is_desktop_gl ())
    glDisable (GL_PROGRAM_POINT_SIZE);
}

/* An instance other than the first is begun with by telling where the buffer begins: the oldest
 * OpenGL that is wanted knows no other way. */
static void
draw_run (const BwGlBeads *self, Way way, int first, int n)
{
  if (!ways[way].divisor) {
    draw_dots (first, n);
    return;
  }
  declare_record (self->program[way], self->array[way], self->buffer, 1, first);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, n);
}

static void
draw_loose (const BwGlBeads *self, Way way, const BwScene *scene, const BwEye *eye, guint layers)
{
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (BwStretchRun));
  bw_stretches_seen (self->stretches, self->n_drawn, scene, eye, (layers & BW_LAYER_STONE) != 0,
                     runs);
  for (guint i = 0; i < runs->len; i++) {
    const BwStretchRun *run = &g_array_index (runs, BwStretchRun, i);
    draw_run (self, way, run->first, run->n);
  }
}

/* A way whose shader fails is replaced by the one that was made first. */
static Way
way_for (BwGlBeads *self, gboolean as_dots, gboolean plain)
{
  g_autoptr (GError) error = NULL;
  Way wanted = as_dots ? DOTS : plain ? PLAIN : FINE;
  if (self->loose)
    wanted = as_dots ? LOOSE_DOTS : plain ? LOOSE_PLAIN : LOOSE;
  if (ensure (self, wanted, &error))
    return wanted;
  g_warning ("%s", error->message);
  return self->software ? PLAIN : FINE;
}

void
bw_gl_beads_draw (BwGlBeads *self, const BwScene *scene, const BwEye *eye, guint layers,
                  gboolean plain)
{
  ensure_sorted (self, scene, eye, layers);
  if (!self->n_drawn)
    return;
  Way way = way_for (self, bead_pixels (scene, eye) < BW_GL_DOT_PIXELS, plain);
  glUseProgram (self->program[way]);
  glBindVertexArray (self->array[way]);
  if (self->loose)
    draw_loose (self, way, scene, eye, layers);
  else
    draw_run (self, way, 0, self->n_drawn);
}

static gboolean
ensure_hover (BwGlBeads *self)
{
  if (self->hover_program)
    return TRUE;
  self->hover_program = bw_gl_program_new ("bead", "#define HALO\n", NULL);
  if (!self->hover_program)
    return FALSE;
  self->halo = glGetUniformLocation (self->hover_program, "u_halo");
  self->ghost = glGetUniformLocation (self->hover_program, "u_ghost");
  glGenVertexArrays (1, &self->hover_array);
  glGenBuffers (1, &self->hover_buffer);
  declare_record (self->hover_program, self->hover_array, self->hover_buffer, 1, 0);
  return TRUE;
}

void
bw_gl_beads_draw_hover (BwGlBeads *self, const BwScene *scene, int hover, float halo)
{
  if (hover < 0 || hover >= self->n_beads || !ensure_hover (self))
    return;
  Record record;
  write_record (&record, bead_at (scene, hover));
  glBindBuffer (GL_ARRAY_BUFFER, self->hover_buffer);
  glBufferData (GL_ARRAY_BUFFER, sizeof record, &record, GL_STREAM_DRAW);
  glUseProgram (self->hover_program);
  glUniform1f (self->halo, halo);
  glBindVertexArray (self->hover_array);
  glDepthMask (GL_FALSE);
  glDepthFunc (GL_GREATER);
  glUniform1f (self->ghost, 0.4f);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, 1);
  glDepthFunc (GL_LEQUAL);
  glUniform1f (self->ghost, 1);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, 1);
  glDepthMask (GL_TRUE);
}
