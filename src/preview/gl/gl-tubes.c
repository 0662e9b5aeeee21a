/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tube is a fine mesh: there are only two, so a ray for every pixel of them would be the dearer
 * way. Its skin is written down whenever the piece takes another stance. */
#include "preview/gl/gl-tubes.h"

#include "preview/gl/gl-program.h"

#define SIDES 20

typedef struct {
  float at[3], normal[3];
  float place[3]; /* way along, turn round (0..1), how much it shows */
} Vertex;

typedef struct {
  GLuint array, buffer, index;
  int first_solid, n_solid, n_all; /* of the indices */
} Tube;

struct _BwGlTubes {
  GLuint program;
  GLint radius, metal;
  Tube cord, ring;
  float cord_radius, ring_radius;
};

static void
tube_init (Tube *tube, GLuint program)
{
  glGenVertexArrays (1, &tube->array);
  glGenBuffers (1, &tube->buffer);
  glGenBuffers (1, &tube->index);
  glBindVertexArray (tube->array);
  glBindBuffer (GL_ARRAY_BUFFER, tube->buffer);
  glBindBuffer (GL_ELEMENT_ARRAY_BUFFER, tube->index);
  bw_gl_attribute (program, "a_at", 3, sizeof (Vertex), offsetof (Vertex, at), 0);
  bw_gl_attribute (program, "a_normal", 3, sizeof (Vertex), offsetof (Vertex, normal), 0);
  bw_gl_attribute (program, "a_place", 3, sizeof (Vertex), offsetof (Vertex, place), 0);
}

static void
tube_clear (Tube *tube)
{
  glDeleteVertexArrays (1, &tube->array);
  glDeleteBuffers (1, &tube->buffer);
  glDeleteBuffers (1, &tube->index);
}

BwGlTubes *
bw_gl_tubes_new (void)
{
  return g_new0 (BwGlTubes, 1);
}

/* Most pieces have neither cord nor ring until they hang. */
static gboolean
ensure (BwGlTubes *self)
{
  g_autoptr (GError) error = NULL;
  if (self->program)
    return TRUE;
  self->program = bw_gl_program_new ("tube", "", &error);
  if (!self->program) {
    g_warning ("%s", error->message);
    return FALSE;
  }
  self->radius = glGetUniformLocation (self->program, "u_radius");
  self->metal = glGetUniformLocation (self->program, "u_metal");
  tube_init (&self->cord, self->program);
  tube_init (&self->ring, self->program);
  glBindVertexArray (0);
  return TRUE;
}

void
bw_gl_tubes_free (BwGlTubes *self)
{
  if (!self)
    return;
  glDeleteProgram (self->program);
  tube_clear (&self->cord);
  tube_clear (&self->ring);
  g_free (self);
}

/* The vertices round one station; the last is the first again, since the pattern has a seam. */
static void
add_hoop (GArray *vertices, const BwSceneTube *tube, const BwSceneStation *station)
{
  vec3 across, binormal = { tube->binormal[0], tube->binormal[1], tube->binormal[2] };
  glm_vec3_cross (binormal, (float *)station->tangent, across);
  for (int i = 0; i <= SIDES; i++) {
    float turn = (float)i / SIDES, angle = turn * 2 * (float)G_PI;
    Vertex vertex = { .place = { station->along, turn, station->shown } };
    for (int k = 0; k < 3; k++) {
      vertex.normal[k] = across[k] * cosf (angle) + binormal[k] * sinf (angle);
      vertex.at[k] = station->at[k] + tube->radius * vertex.normal[k];
    }
    g_array_append_val (vertices, vertex);
  }
}

/* The skin between station i and the next, counter-clockwise seen from outside. */
static void
add_sleeve (GArray *indices, guint i)
{
  guint16 here = (guint16)(i * (SIDES + 1)), next = (guint16)(here + SIDES + 1);
  for (guint16 k = 0; k < SIDES; k++) {
    const guint16 two[6]
        = { (guint16)(here + k),     (guint16)(here + k + 1), (guint16)(next + k),
            (guint16)(here + k + 1), (guint16)(next + k + 1), (guint16)(next + k) };
    g_array_append_vals (indices, two, 6);
  }
}

static void
tube_set (Tube *tube, const BwSceneTube *from)
{
  g_autoptr (GArray) vertices = g_array_new (FALSE, FALSE, sizeof (Vertex));
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint16));
  int first = -1, last = 0;
  for (guint i = 0; i < from->stations->len; i++) {
    const BwSceneStation *station = &g_array_index (from->stations, BwSceneStation, i);
    add_hoop (vertices, from, station);
    if (i + 1 == from->stations->len)
      break;
    gboolean solid = station[0].shown >= 1 && station[1].shown >= 1;
    first = solid && first < 0 ? (int)indices->len : first;
    add_sleeve (indices, i);
    last = solid ? (int)indices->len : last;
  }
  tube->first_solid = MAX (first, 0);
  tube->n_solid = last - tube->first_solid;
  tube->n_all = (int)indices->len;
  glBindVertexArray (tube->array);
  glBindBuffer (GL_ARRAY_BUFFER, tube->buffer);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(sizeof (Vertex) * vertices->len), vertices->data,
                GL_DYNAMIC_DRAW);
  glBufferData (GL_ELEMENT_ARRAY_BUFFER, (GLsizeiptr)(sizeof (guint16) * indices->len),
                indices->data, GL_DYNAMIC_DRAW);
  glBindVertexArray (0);
}

void
bw_gl_tubes_set_scene (BwGlTubes *self, const BwScene *scene)
{
  gboolean any = scene->cord.stations->len > 0 || scene->ring.stations->len > 0;
  if (!self->program && (!any || !ensure (self)))
    return;
  tube_set (&self->cord, &scene->cord);
  tube_set (&self->ring, &scene->ring);
  self->cord_radius = scene->cord.radius;
  self->ring_radius = scene->ring.radius;
}

static void
draw_range (const Tube *tube, int first, int n)
{
  if (n <= 0)
    return;
  glBindVertexArray (tube->array);
  glDrawElements (GL_TRIANGLES, n, GL_UNSIGNED_SHORT,
                  GSIZE_TO_POINTER ((gsize)first * sizeof (guint16)));
}

static void
begin (BwGlTubes *self)
{
  glUseProgram (self->program);
  glUniform1f (self->radius, self->cord_radius);
  glUniform1f (self->metal, 0);
  glEnable (GL_CULL_FACE);
}

void
bw_gl_tubes_draw_solid (BwGlTubes *self, guint layers)
{
  if (!self->program || !(layers & BW_LAYER_CORD))
    return;
  begin (self);
  draw_range (&self->cord, self->cord.first_solid, self->cord.n_solid);
  glUniform1f (self->radius, self->ring_radius);
  glUniform1f (self->metal, 1);
  draw_range (&self->ring, 0, self->ring.n_all);
  glDisable (GL_CULL_FACE);
}

void
bw_gl_tubes_draw_faded (BwGlTubes *self, guint layers)
{
  const Tube *cord = &self->cord;
  int after = cord->first_solid + cord->n_solid;
  if (!self->program || !(layers & BW_LAYER_CORD))
    return;
  begin (self);
  glDepthMask (GL_FALSE);
  draw_range (cord, 0, cord->first_solid);
  draw_range (cord, after, cord->n_all - after);
  glDepthMask (GL_TRUE);
  glDisable (GL_CULL_FACE);
}
