/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone's shader follows rays through the crystal, so it wants the planes of all faces, and a
 * little block of noise for the veils; the bed's shader wants nothing but its sleeve. */
#include "preview/gl/gl-body.h"

#include "preview/gl/gl-limits.h"
#include "preview/gl/gl-pane.h"
#include "preview/gl/gl-program.h"

typedef struct {
  GLuint program, array, buffer;
  int n_vertices;
} Mesh;

struct _BwGlBody {
  Mesh stone, bed;
  BwGlPane pane;
  GLuint pane_program, pane_array; /* on the stone's buffer, made when first wanted */
  GLint pane_over, swell;
  guint pane_layers; /* it was drawn for */
  int n_bed_wall;    /* vertices of the bed's outer wall, which come first */
  GLuint planes, veil;
  int n_planes; /* that the stone's shader was made for */
  gboolean software;
  int bounces;         /* faces a ray is followed to inside */
  gboolean has_nature; /* the stone's shader shows needles, chips and the like */
  GLint cloud, worn, striae, shaded;
  GLint needle, chip, nature, veil_shift;
};

#define VEIL_SIZE 32
enum { COARSE = 4, FINE = 16 }; /* points of the two lattices of noise, a side */

/* Gives the mesh a program; its arrays are declared anew, since another program may number its
 * attributes otherwise. On failure the mesh keeps the one it has. */
static gboolean
mesh_program (Mesh *mesh, const char *name, const char *defines, GError **error)
{
  GLuint program = bw_gl_program_new (name, defines, error);
  gsize stride = sizeof (BwSceneVertex);
  if (!program)
    return FALSE;
  glDeleteProgram (mesh->program);
  mesh->program = program;
  if (!mesh->array) {
    glGenVertexArrays (1, &mesh->array);
    glGenBuffers (1, &mesh->buffer);
  }
  glBindVertexArray (mesh->array);
  glBindBuffer (GL_ARRAY_BUFFER, mesh->buffer);
  bw_gl_attribute (program, "a_at", 3, stride, offsetof (BwSceneVertex, at), 0);
  bw_gl_attribute (program, "a_normal", 3, stride, offsetof (BwSceneVertex, normal), 0);
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
mesh_draw (const Mesh *mesh, int first, int n)
{
  glBindVertexArray (mesh->array);
  glEnable (GL_CULL_FACE);
  glDrawArrays (GL_TRIANGLES, first, n);
  glDisable (GL_CULL_FACE);
}

/* Where a texel lies between two points of a lattice of `cells` a side, smoothed. */
static float
share_of_next (int texel, int cells)
{
  int step = VEIL_SIZE / cells;
  float part = (float)(texel % step) / (float)step;
  return part * part * (3 - 2 * part);
}

/* A row of a wrapping lattice of `cells` random values a side, between its four rows about (y, z);
 * its first value again at its end. */
static void
row_between (const float *random, int cells, int y, int z, float row[FINE + 1])
{
  int step = VEIL_SIZE / cells;
  float up = share_of_next (y, cells), deep = share_of_next (z, cells);
  const float *near = random + z / step * cells * cells;
  const float *far = random + (z / step + 1) % cells * cells * cells;
  int low = y / step * cells, high = (y / step + 1) % cells * cells;
  for (int i = 0; i < cells; i++)
    row[i] = (1 - deep) * ((1 - up) * near[low + i] + up * near[high + i])
             + deep * ((1 - up) * far[low + i] + up * far[high + i]);
  row[cells] = row[0];
}

/* Smooth noise is added to a row of texels. */
static void
add_noise (float *values, const float *random, int cells, int y, int z, float share)
{
  int step = VEIL_SIZE / cells;
  float row[FINE + 1];
  row_between (random, cells, y, z, row);
  for (int x = 0; x < VEIL_SIZE; x++) {
    float next = share_of_next (x, cells);
    values[x] += share * ((1 - next) * row[x / step] + next * row[x / step + 1]);
  }
}

/* Veils: coarse noise with a finer one in it, thinned so that most of the stone is clear. The same
 * on every machine. */
static guint8 *
veil_texels (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  g_autofree float *random = g_new (float, FINE *FINE *FINE);
  guint8 *texels = g_new (guint8, VEIL_SIZE * VEIL_SIZE * VEIL_SIZE), *texel = texels;
  for (int i = 0; i < FINE * FINE * FINE; i++)
    random[i] = (float)g_rand_double (rand);
  for (int z = 0; z < VEIL_SIZE; z++)
    for (int y = 0; y < VEIL_SIZE; y++) {
      float values[VEIL_SIZE] = { 0 };
      add_noise (values, random, COARSE, y, z, 0.68f);
      add_noise (values, random, FINE, y, z, 0.32f);
      for (int x = 0; x < VEIL_SIZE; x++) {
        float veil = CLAMP ((values[x] - 0.45f) / 0.4f, 0, 1);
        *texel++ = (guint8)(veil * veil * (3 - 2 * veil) * 255);
      }
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

/* The shader that knows how many faces there are: its loops lie open to the compiler. Where they
 * are many, rays are followed less far. */
static gboolean
ensure_stone_program (BwGlBody *self, int n_planes, gboolean has_nature, GError **error)
{
  if (n_planes == self->n_planes && has_nature == self->has_nature)
    return TRUE;
  g_autofree char *defines = g_strdup_printf (
      "#define STONE_PLANES %d\n#define STONE_BOUNCES %d\n#define STONE_NATURE %d\n"
      "#define NEEDLES_MAX %d\n#define CHIPS_MAX %d\n",
      n_planes, self->bounces, has_nature, BW_NEEDLES_MAX, BW_CHIPS_MAX);
  if (!mesh_program (&self->stone, "stone", defines, error))
    return FALSE;
  self->n_planes = n_planes;
  self->has_nature = has_nature;
  self->needle = glGetUniformLocation (self->stone.program, "u_needle");
  self->chip = glGetUniformLocation (self->stone.program, "u_chip");
  self->nature = glGetUniformLocation (self->stone.program, "u_nature");
  self->veil_shift = glGetUniformLocation (self->stone.program, "u_veil_shift");
  self->cloud = glGetUniformLocation (self->stone.program, "u_cloud");
  self->worn = glGetUniformLocation (self->stone.program, "u_worn");
  self->striae = glGetUniformLocation (self->stone.program, "u_striae");
  self->swell = glGetUniformLocation (self->stone.program, "u_swell");
  return TRUE;
}

BwGlBody *
bw_gl_body_new (GError **error)
{
  BwGlBody *self = g_new0 (BwGlBody, 1);
  self->software = bw_gl_is_software ();
  self->bounces = self->software ? BW_GL_BOUNCES_SOFTWARE : BW_GL_BOUNCES;
  /* Thirteen faces: six sides, a point of six, a flat base. */
  if (!ensure_stone_program (self, 13, FALSE, error)
      || !mesh_program (&self->bed, "bed", "", error)) {
    bw_gl_body_free (self);
    return NULL;
  }
  self->shaded = glGetUniformLocation (self->bed.program, "u_shaded");
  glGenBuffers (1, &self->planes);
  glBindBuffer (GL_UNIFORM_BUFFER, self->planes);
  glBufferData (GL_UNIFORM_BUFFER, sizeof (BwScenePlane) * BW_STONE_MAX_FACES, NULL,
                GL_STREAM_DRAW);
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
  bw_gl_pane_drop (&self->pane);
  glDeleteProgram (self->pane_program);
  glDeleteVertexArrays (1, &self->pane_array);
  glDeleteBuffers (1, &self->planes);
  glDeleteTextures (1, &self->veil);
  g_free (self);
}

static gboolean
is_outer_wall (const BwSceneVertex *corner)
{
  const float *n = corner->normal;
  return n[0] * corner->at[0] + n[1] * corner->at[1] > 0;
}

/* The outer wall first, then the inner one and the rims. */
static void
set_bed (BwGlBody *self, const GArray *bed)
{
  g_autoptr (GArray) sorted = g_array_sized_new (FALSE, FALSE, sizeof (BwSceneVertex), bed->len);
  for (int wall = 1; wall >= 0; wall--) {
    for (guint i = 0; i + 2 < bed->len; i += 3) {
      const BwSceneVertex *corner = &g_array_index (bed, BwSceneVertex, i);
      if (is_outer_wall (corner) == wall)
        g_array_append_vals (sorted, corner, 3);
    }
    if (wall)
      self->n_bed_wall = (int)sorted->len;
  }
  mesh_set (&self->bed, sorted);
}

void
bw_gl_body_set_scene (BwGlBody *self, const BwScene *scene)
{
  g_autoptr (GError) error = NULL;
  mesh_set (&self->stone, scene->stone);
  bw_gl_pane_spoil (&self->pane);
  set_bed (self, scene->bed);
  if (!ensure_stone_program (self, (int)scene->stone_planes->len,
                             !bw_stone_look_is_quiet (&scene->look), &error))
    g_warning ("%s", error->message);
}

/* The planes as the eye sees them. */
static void
upload_planes (BwGlBody *self, const BwScene *scene, const BwEye *eye)
{
  BwScenePlane seen[BW_STONE_MAX_FACES] = { 0 };
  int n = MIN (self->n_planes, (int)scene->stone_planes->len);
  for (int i = 0; i < n; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    seen[i].distance = plane->distance;
    for (int row = 0; row < 3; row++) {
      for (int k = 0; k < 3; k++)
        seen[i].normal[row] += eye->view[k][row] * plane->normal[k];
      seen[i].distance += seen[i].normal[row] * eye->view[3][row];
    }
  }
  glBindBuffer (GL_UNIFORM_BUFFER, self->planes);
  glBufferData (GL_UNIFORM_BUFFER, sizeof seen, seen, GL_STREAM_DRAW);
  glBindBufferBase (GL_UNIFORM_BUFFER, BW_GL_STONE_POINT, self->planes);
}

/* A point of the piece in the eye's space, or a direction there, and one number more. */
static void
seen_as (const BwEye *eye, BwVec3 v, gboolean is_point, double more, float seen[4])
{
  for (int row = 0; row < 3; row++)
    seen[row] = eye->view[0][row] * (float)v.x + eye->view[1][row] * (float)v.y
                + eye->view[2][row] * (float)v.z + (is_point ? eye->view[3][row] : 0);
  seen[3] = (float)more;
}

static void
upload_nature (BwGlBody *self, const BwScene *scene, const BwEye *eye)
{
  const BwNature *nature = &scene->nature;
  float needle[BW_NEEDLES_MAX][2][4] = { 0 }, chip[BW_CHIPS_MAX][2][4] = { 0 }, shift[3];
  for (int i = 0; i < nature->n_needles; i++) {
    seen_as (eye, nature->needle[i].from, TRUE, nature->needle[i].radius, needle[i][0]);
    seen_as (eye, nature->needle[i].to, TRUE, 0, needle[i][1]);
  }
  for (int i = 0; i < nature->n_chips; i++) {
    seen_as (eye, nature->chip[i].at, TRUE, nature->chip[i].radius, chip[i][0]);
    seen_as (eye, nature->chip[i].out, FALSE, 0, chip[i][1]);
  }
  bw_scene_veil_shift (scene, shift);
  glUniform4fv (self->needle, 2 * BW_NEEDLES_MAX, needle[0][0]);
  glUniform4fv (self->chip, 2 * BW_CHIPS_MAX, chip[0][0]);
  glUniform3fv (self->veil_shift, 1, shift);
  glUniform4f (self->nature, (float)scene->look.growth_lines, (float)scene->look.base,
               (float)nature->n_needles, (float)nature->n_chips);
}

/* swell: how far its outline is pushed out, in half widths and heights of the picture. */
static void
draw_stone (BwGlBody *self, const BwScene *scene, const BwEye *eye, guint layers,
            const float swell[2])
{
  gboolean bed = (layers & BW_LAYER_BED) && scene->bed_span[1] > scene->bed_span[0];
  glUseProgram (self->stone.program);
  upload_planes (self, scene, eye);
  glActiveTexture (GL_TEXTURE0);
  glBindTexture (GL_TEXTURE_3D, self->veil);
  glUniform4f (self->cloud, scene->centre[0], scene->centre[1], scene->centre[2],
               1 / MAX (scene->radius, 1e-3f));
  glUniform2f (self->worn, bed ? 1.f : 0.f, layers & BW_LAYER_BAND ? 1.f : 0.f);
  glUniform1f (self->striae, (float)scene->stone_striae);
  if (self->has_nature)
    upload_nature (self, scene, eye);
  glUniform2fv (self->swell, 1, swell);
  mesh_draw (&self->stone, 0, self->stone.n_vertices);
}

void
bw_gl_body_draw_stone (BwGlBody *self, const BwScene *scene, const BwEye *eye, guint layers)
{
  const float none[2] = { 0, 0 };
  if (layers & BW_LAYER_STONE)
    draw_stone (self, scene, eye, layers, none);
}

/* A pixel of the pane is as large as many, so what is drawn there reaches beyond the outline. */
void
bw_gl_body_prepare_plain (BwGlBody *self, const BwScene *scene, const BwEye *eye,
                          const BwGlFrame *frame, guint layers, int width, int height)
{
  if (self->pane_layers != layers)
    bw_gl_pane_spoil (&self->pane);
  self->pane_layers = layers;
  if (!(layers & BW_LAYER_STONE) || !bw_gl_pane_begin (&self->pane, frame, width, height))
    return;
  const float swell[2]
      = { 4.f / (float)self->pane.target.width, 4.f / (float)self->pane.target.height };
  glDisable (GL_DEPTH_TEST);
  glDisable (GL_BLEND);
  draw_stone (self, scene, eye, layers, swell);
  glEnable (GL_BLEND);
  glEnable (GL_DEPTH_TEST);
  bw_gl_pane_end (&self->pane, width, height);
  /* The processor's driver keeps what each picture on its way took: so there is one at a time. */
  if (self->software)
    glFinish ();
}

static gboolean
ensure_pane (BwGlBody *self)
{
  if (self->pane_program)
    return TRUE;
  self->pane_program = bw_gl_program_new ("pane", "", NULL);
  if (!self->pane_program)
    return FALSE;
  self->pane_over = glGetUniformLocation (self->pane_program, "u_over");
  glGenVertexArrays (1, &self->pane_array);
  glBindVertexArray (self->pane_array);
  glBindBuffer (GL_ARRAY_BUFFER, self->stone.buffer);
  bw_gl_attribute (self->pane_program, "a_at", 3, sizeof (BwSceneVertex),
                   offsetof (BwSceneVertex, at), 0);
  return TRUE;
}

void
bw_gl_body_draw_stone_plain (BwGlBody *self, const BwScene *scene, const BwEye *eye, guint layers)
{
  if (!(layers & BW_LAYER_STONE))
    return;
  if (!self->pane.is_fresh || !ensure_pane (self)) {
    bw_gl_body_draw_stone (self, scene, eye, layers);
    return;
  }
  glUseProgram (self->pane_program);
  glUniform2f (self->pane_over, 1.f / (float)(BW_GL_PANE_TIMES * self->pane.target.width),
               1.f / (float)(BW_GL_PANE_TIMES * self->pane.target.height));
  glActiveTexture (GL_TEXTURE0);
  glBindTexture (GL_TEXTURE_2D, self->pane.target.colour);
  glBindVertexArray (self->pane_array);
  glEnable (GL_CULL_FACE);
  glDrawArrays (GL_TRIANGLES, 0, self->stone.n_vertices);
  glDisable (GL_CULL_FACE);
}

static void
draw_bed (BwGlBody *self, guint layers, int first, int n)
{
  if (!(layers & BW_LAYER_BED) || !n)
    return;
  glUseProgram (self->bed.program);
  glUniform1f (self->shaded, layers & BW_LAYER_BAND ? 1.f : 0.f);
  mesh_draw (&self->bed, first, n);
}

void
bw_gl_body_draw_bed_wall (BwGlBody *self, guint layers)
{
  draw_bed (self, layers, 0, self->n_bed_wall);
}

void
bw_gl_body_draw_bed_rest (BwGlBody *self, guint layers)
{
  draw_bed (self, layers, self->n_bed_wall, self->bed.n_vertices - self->n_bed_wall);
}
