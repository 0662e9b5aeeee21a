/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bare-quads.h"

#include "preview/scene/hidden.h"
#include "preview/scene/scene-bead.h"
#include <epoxy/gl.h>

struct _BareQuads {
  GLuint program, array, buffer;
  GLint view, projection, bead, pixel;
  GArray *beads; /* of Record */
};

typedef struct {
  float at[3], axis[3], colour[3];
} Record;

static const char vertex_source[]
    = "#version 330 core\n"
      "layout(location = 0) in vec3 a_at;\n"
      "layout(location = 1) in vec3 a_axis;\n"
      "layout(location = 2) in vec3 a_colour;\n"
      "uniform mat4 u_view, u_projection;\n"
      "uniform vec4 u_bead;\n"   /* radius, half length, of the hole, of its rims */
      "uniform float u_pixel;\n" /* size of one at a distance of 1 */
      "out vec3 v_ray;\n"
      "flat out vec3 v_centre, v_axis, v_colour;\n"
      "void main ()\n"
      "{\n"
      "  vec3 centre = (u_view * vec4 (a_at, 1.0)).xyz, axis = mat3 (u_view) * a_axis;\n"
      "  float away = length (centre), along = dot (axis, centre / away);\n"
      "  vec3 forward = centre / away, side = axis - along * forward;\n"
      "  float seen = length (side);\n"
      "  vec3 u = seen > 1e-3 ? side / seen : vec3 (1.0, 0.0, 0.0), v = cross (forward, u);\n"
      "  float grow = away / max (away - length (u_bead.xy), 1e-3);\n"
      "  vec2 size = vec2 (u_bead.y * seen + u_bead.x * abs (along), u_bead.x) * grow\n"
      "              + u_pixel * away * 0.6;\n"
      "  vec2 corner = vec2 (float (gl_VertexID & 1), float (gl_VertexID >> 1)) * 2.0 - 1.0;\n"
      "  v_ray = centre + u * corner.x * size.x + v * corner.y * size.y;\n"
      "  v_centre = centre;\n"
      "  v_axis = axis;\n"
      "  v_colour = a_colour;\n"
      "  gl_Position = u_projection * vec4 (v_ray, 1.0);\n"
      "}\n";

static const char fragment_source[]
    = "#version 330 core\n"
      "in vec3 v_ray;\n"
      "flat in vec3 v_centre, v_axis, v_colour;\n"
      "uniform mat4 u_projection;\n"
      "uniform vec4 u_bead;\n"
      "out vec4 o_colour;\n"
      "vec2 excess (vec2 q)\n"
      "{\n"
      "  float middle = 0.5 * (u_bead.x + u_bead.z), half_wall = 0.5 * (u_bead.x - u_bead.z);\n"
      "  return vec2 (abs (q.x - middle) - half_wall, abs (q.y) - u_bead.y) + u_bead.w;\n"
      "}\n"
      "void main ()\n"
      "{\n"
      "  vec3 dir = normalize (v_ray), from = v_ray - v_centre;\n"
      "  float h = dot (from, v_axis), slope = dot (dir, v_axis);\n"
      "  vec3 off = from - h * v_axis, way = dir - slope * v_axis;\n"
      "  float a = max (dot (way, way), 1e-7), b = dot (off, way), c = dot (off, off);\n"
      "  float disc = b * b - a * (c - u_bead.x * u_bead.x);\n"
      "  float safe = abs (slope) < 1e-6 ? 1e-6 : slope;\n"
      "  float root = sqrt (max (disc, 0.0));\n"
      "  float e = (-u_bead.y - h) / safe, f = (u_bead.y - h) / safe;\n"
      "  float t = max ((-b - root) / a, min (e, f)), last = min ((-b + root) / a, max (e, f));\n"
      "  vec2 q = vec2 (0.0);\n"
      "  float near = disc < 0.0 ? 1e6 : 0.0;\n"
      "  for (int i = 0; i < 7; i++) {\n"
      "    q = vec2 (sqrt (max (a * t * t + 2.0 * b * t + c, 0.0)), h + slope * t);\n"
      "    vec2 x = excess (q);\n"
      "    near = length (max (x, 0.0)) + min (max (x.x, x.y), 0.0) - u_bead.w;\n"
      "    if (near < 0.002 || t > last)\n"
      "      break;\n"
      "    t += near;\n"
      "  }\n"
      "  if (disc < 0.0 || near > 0.02 || t > last)\n"
      "    discard;\n"
      "  vec3 spot = from + dir * t;\n"
      "  vec2 x = excess (q), m = max (x.x, x.y) > 0.0 ? max (x, 0.0) : step (x.yx, x);\n"
      "  vec2 wall = normalize (m) * sign (vec2 (q.x - 0.5 * (u_bead.x + u_bead.z), q.y));\n"
      "  vec3 n = wall.x * (spot - q.y * v_axis) / max (q.x, 1e-4) + wall.y * v_axis;\n"
      "  vec3 light = v_colour * (0.25 + 0.75 * max (dot (n, vec3 (-0.58, 0.42, 0.70)), 0.0));\n"
      "  o_colour = vec4 (sqrt (light), 1.0);\n"
      "  float seen = v_centre.z + spot.z;\n"
      "  gl_FragDepth = 0.5 - 0.5 * (u_projection[2][2] * seen + u_projection[3][2]) / seen;\n"
      "}\n";

static GLuint
shader (GLenum kind, const char *source)
{
  GLuint made = glCreateShader (kind);
  GLint fine = 0;
  glShaderSource (made, 1, &source, NULL);
  glCompileShader (made);
  glGetShaderiv (made, GL_COMPILE_STATUS, &fine);
  if (!fine)
    g_error ("the bare shader does not compile");
  return made;
}

static void
attribute (GLuint at, int size, gsize offset)
{
  glEnableVertexAttribArray (at);
  glVertexAttribPointer (at, size, GL_FLOAT, GL_FALSE, sizeof (Record), GSIZE_TO_POINTER (offset));
  glVertexAttribDivisor (at, 1);
}

BareQuads *
bare_quads_new (const BwScene *scene)
{
  BareQuads *self = g_new0 (BareQuads, 1);
  GLuint vertex = shader (GL_VERTEX_SHADER, vertex_source);
  GLuint fragment = shader (GL_FRAGMENT_SHADER, fragment_source);
  self->program = glCreateProgram ();
  glAttachShader (self->program, vertex);
  glAttachShader (self->program, fragment);
  glLinkProgram (self->program);
  glDeleteShader (vertex);
  glDeleteShader (fragment);
  self->view = glGetUniformLocation (self->program, "u_view");
  self->projection = glGetUniformLocation (self->program, "u_projection");
  self->bead = glGetUniformLocation (self->program, "u_bead");
  self->pixel = glGetUniformLocation (self->program, "u_pixel");
  self->beads = g_array_new (FALSE, FALSE, sizeof (Record));
  glGenVertexArrays (1, &self->array);
  glGenBuffers (1, &self->buffer);
  glBindVertexArray (self->array);
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  attribute (0, 3, offsetof (Record, at));
  attribute (1, 3, offsetof (Record, axis));
  attribute (2, 3, offsetof (Record, colour));
  return self;
}

void
bare_quads_free (BareQuads *self)
{
  glDeleteProgram (self->program);
  glDeleteVertexArrays (1, &self->array);
  glDeleteBuffers (1, &self->buffer);
  g_array_unref (self->beads);
  g_free (self);
}

void
bare_quads_take (BareQuads *self, const BwScene *scene, const BwEye *eye)
{
  float reach = hypotf (scene->bead_radius, scene->bead_half_length);
  g_array_set_size (self->beads, 0);
  for (guint i = 0; i < scene->beads->len; i++) {
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
    Record record = { { bead->at[0], bead->at[1], bead->at[2] } };
    bw_bead_axis (bead, record.axis);
    bw_bead_light (bead, record.colour);
    if (!bw_hidden_by_stone (scene, eye->eye, bead->at, reach))
      g_array_append_val (self->beads, record);
  }
  glBindBuffer (GL_ARRAY_BUFFER, self->buffer);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(sizeof (Record) * self->beads->len),
                self->beads->data, GL_DYNAMIC_DRAW);
}

void
bare_quads_draw (const BareQuads *self, const BwScene *scene, const BwEye *eye, int width,
                 int height)
{
  glViewport (0, 0, width, height);
  glEnable (GL_DEPTH_TEST);
  glDepthFunc (GL_LEQUAL);
  glClearColor (0, 0, 0, 0);
  glClear (GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  glUseProgram (self->program);
  glUniformMatrix4fv (self->view, 1, GL_FALSE, eye->view[0]);
  glUniformMatrix4fv (self->projection, 1, GL_FALSE, eye->projection[0]);
  glUniform4f (self->bead, scene->bead_radius, scene->bead_half_length, scene->hole_radius,
               scene->bead_rounding);
  glUniform1f (self->pixel, eye->pixel);
  glBindVertexArray (self->array);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, (int)self->beads->len);
  glBindVertexArray (0);
  glUseProgram (0);
  glDisable (GL_DEPTH_TEST);
}
