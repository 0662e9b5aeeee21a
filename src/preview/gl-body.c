/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone's shader follows rays through the crystal, so it wants the planes of all faces, and a
 * little block of noise for the veils; the bed's shader wants nothing but its sleeve. */
#include "preview/gl-body.h"

#include "preview/gl-program.h"

typedef struct {
  GLuint program, array, buffer;
  int n_vertices;
} Mesh;

struct _BwGlBody {
  Mesh stone, bed;
  GLuint planes, veil;
  GLint n_planes, cloud, worn, shaded;
};

#define VEIL_SIZE 32

static gboolean
mesh_init (Mesh *mesh, const char *name, GError **error)
{
  mesh->program = bw_gl_program_new (name, error);
  if (!mesh->program)
    return FALSE;
  glGenVertexArrays (1, &mesh->array);
  glGenBuffers (1, &mesh->buffer);
  glBindVertexArray (mesh->array);
  glBindBuffer (GL_ARRAY_BUFFER, mesh->buffer);
  gsize stride = sizeof (BwSceneVertex);
  bw_gl_attribute (mesh->program, "a_at", 3, stride, offsetof (BwSceneVertex, at), 0);
  bw_gl_attribute (mesh->program, "a_normal", 3, stride, offsetof (BwSceneVertex, normal), 0);
  return TRUE;
}

static void
mesh_clear (Mesh *mesh)
{
  glDeleteProgram (mesh->program);
  glDeleteVertexArrays (1, &mesh->array);
  glDeleteBuffers (1, &mesh->buffer);
}

static void
mesh_set (Mesh *mesh, const GArray *triangles)
{
  mesh->n_vertices = (int)triangles->len;
  glBindBuffer (GL_ARRAY_BUFFER, mesh->buffer);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(sizeof (BwSceneVertex) * triangles->len),
                triangles->data, GL_STATIC_DRAW);
}

static void
mesh_draw (const Mesh *mesh)
{
  glBindVertexArray (mesh->array);
  glDrawArrays (GL_TRIANGLES, 0, mesh->n_vertices);
}

/* Random values drawn through a wrapping blur: smooth, seamless, and the same on every machine. */
static guint8 *
veil_texels (void)
{
  enum { N = VEIL_SIZE, COUNT = N * N * N };
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  g_autofree float *coarse = g_new (float, 512);
  guint8 *texels = g_new (guint8, COUNT);
  for (int i = 0; i < 512; i++)
    coarse[i] = (float)g_rand_double (rand);
  for (int i = 0; i < COUNT; i++) {
    float value = 0;
    int cell[3] = { i % N / 4, i / N % N / 4, i / N / N / 4 };
    float part[3] = { (float)(i % 4) / 4, (float)(i / N % 4) / 4, (float)(i / N / N % 4) / 4 };
    for (int k = 0; k < 8; k++) {
      float weight = 1;
      int index = 0;
      for (int axis = 2; axis >= 0; axis--) {
        int step = k >> axis & 1;
        float smooth = part[axis] * part[axis] * (3 - 2 * part[axis]);
        weight *= step ? smooth : 1 - smooth;
        index = index * 8 + (cell[axis] + step) % 8;
      }
      value += weight * coarse[index];
    }
    texels[i] = (guint8)(value * 255);
  }
  return texels;
}

static GLuint
veil_texture (void)
{
  g_autofree guint8 *texels = veil_texels ();
  GLuint texture;
  glGenTextures (1, &texture);
  glBindTexture (GL_TEXTURE_3D, texture);
  glPixelStorei (GL_UNPACK_ALIGNMENT, 1);
  glTexImage3D (GL_TEXTURE_3D, 0, GL_R8, VEIL_SIZE, VEIL_SIZE, VEIL_SIZE, 0, GL_RED,
                GL_UNSIGNED_BYTE, texels);
  glTexParameteri (GL_TEXTURE_3D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri (GL_TEXTURE_3D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  return texture;
}

BwGlBody *
bw_gl_body_new (GError **error)
{
  BwGlBody *self = g_new0 (BwGlBody, 1);
  if (!mesh_init (&self->stone, "stone", error) || !mesh_init (&self->bed, "bed", error)) {
    bw_gl_body_free (self);
    return NULL;
  }
  self->n_planes = glGetUniformLocation (self->stone.program, "u_planes");
  self->cloud = glGetUniformLocation (self->stone.program, "u_cloud");
  self->worn = glGetUniformLocation (self->stone.program, "u_worn");
  self->shaded = glGetUniformLocation (self->bed.program, "u_shaded");
  glGenBuffers (1, &self->planes);
  glBindBuffer (GL_UNIFORM_BUFFER, self->planes);
  glBufferData (GL_UNIFORM_BUFFER, sizeof (BwScenePlane) * BW_STONE_MAX_FACES, NULL,
                GL_STATIC_DRAW);
  self->veil = veil_texture ();
  return self;
}

void
bw_gl_body_free (BwGlBody *self)
{
  if (!self)
    return;
  mesh_clear (&self->stone);
  mesh_clear (&self->bed);
  glDeleteBuffers (1, &self->planes);
  glDeleteTextures (1, &self->veil);
  g_free (self);
}

void
bw_gl_body_set_scene (BwGlBody *self, const BwScene *scene)
{
  guint n = MIN (scene->stone_planes->len, BW_STONE_MAX_FACES);
  mesh_set (&self->stone, scene->stone);
  mesh_set (&self->bed, scene->bed);
  glBindBuffer (GL_UNIFORM_BUFFER, self->planes);
  glBufferSubData (GL_UNIFORM_BUFFER, 0, (GLsizeiptr)(sizeof (BwScenePlane) * n),
                   scene->stone_planes->data);
}

void
bw_gl_body_draw_stone (BwGlBody *self, const BwScene *scene, guint layers)
{
  if (!(layers & BW_LAYER_STONE))
    return;
  gboolean bed = (layers & BW_LAYER_BED) && scene->bed_span[1] > scene->bed_span[0];
  glUseProgram (self->stone.program);
  glBindBufferBase (GL_UNIFORM_BUFFER, BW_GL_STONE_POINT, self->planes);
  glActiveTexture (GL_TEXTURE0);
  glBindTexture (GL_TEXTURE_3D, self->veil);
  glUniform1i (self->n_planes, (GLint)MIN (scene->stone_planes->len, BW_STONE_MAX_FACES));
  glUniform4f (self->cloud, scene->centre[0], scene->centre[1], scene->centre[2],
               1 / MAX (scene->radius, 1e-3f));
  glUniform2f (self->worn, bed ? 1.f : 0.f, layers & BW_LAYER_BAND ? 1.f : 0.f);
  glEnable (GL_CULL_FACE);
  mesh_draw (&self->stone);
  glDisable (GL_CULL_FACE);
}

void
bw_gl_body_draw_bed (BwGlBody *self, guint layers)
{
  if (!(layers & BW_LAYER_BED) || !self->bed.n_vertices)
    return;
  glUseProgram (self->bed.program);
  glUniform1f (self->shaded, layers & BW_LAYER_BAND ? 1.f : 0.f);
  glEnable (GL_CULL_FACE);
  mesh_draw (&self->bed);
  glDisable (GL_CULL_FACE);
}
