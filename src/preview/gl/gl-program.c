/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One set of shader bodies serves both families of OpenGL: version line, precision and the
 * constants that C knows are put in front here, so that nothing has to be kept in step by hand. */
#include "preview/gl/gl-program.h"

#include "bw-shaders.h"
#include "preview/gl/gl-limits.h"
#include "project/document/tray.h"
#include <gio/gio.h>
#include <string.h>

#define SHADERS "/io/github/bandwright/Bandwright/shaders/"

static char *
preamble (void)
{
  const char *head = epoxy_is_desktop_gl ()
                         ? "#version 330 core\n"
                         : "#version 300 es\nprecision highp float;\nprecision highp int;\n"
                           "precision mediump sampler3D;\n";
  return g_strdup_printf ("%s"
                          "#define BEAD_STEPS %d\n"
                          "#define FINISH_OPAQUE %d\n#define FINISH_MATTE %d\n"
                          "#define FINISH_CLEAR %d\n#define FINISH_FROSTED %d\n"
                          "#define FINISH_LINED %d\n#define FINISH_LUSTRE %d\n"
                          "#define FINISH_METAL %d\n#define FINISH_RAINBOW %d\n"
                          "#define FINISH_GALVANISED %d\n#define FINISH_SILVER_LINED %d\n",
                          head, bw_gl_is_software () ? BW_GL_BEAD_STEPS_SOFTWARE : BW_GL_BEAD_STEPS,
                          BW_FINISH_OPAQUE, BW_FINISH_MATTE, BW_FINISH_CLEAR, BW_FINISH_FROSTED,
                          BW_FINISH_LINED, BW_FINISH_LUSTRE, BW_FINISH_METAL, BW_FINISH_RAINBOW,
                          BW_FINISH_GALVANISED, BW_FINISH_SILVER_LINED);
}

static char *
part (const char *name, GError **error)
{
  g_autofree char *path = g_strconcat (SHADERS, name, NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (bw_shaders_get_resource (), path,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  if (!bytes)
    return NULL;
  gsize size;
  const char *text = g_bytes_get_data (bytes, &size);
  return g_strndup (text, size);
}

/* All parts of one shader in order; NULL with an error when one is missing. */
static char *
source_of (const char *name, const char *defines, gboolean fragment, GError **error)
{
  g_autofree char *own = g_strconcat (name, fragment ? ".frag" : ".vert", NULL);
  const char *parts[]
      = { "frame.glsl", "studio.glsl", fragment && g_str_equal (name, "bead") ? "bead.glsl" : NULL,
          !fragment && g_str_has_prefix (name, "bead") ? "finish.glsl" : NULL, own };
  g_autofree char *head = preamble ();
  g_autoptr (GString) source = g_string_new (head);
  g_string_append (source, defines);
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++) {
    if (!parts[i])
      continue;
    g_autofree char *text = part (parts[i], error);
    if (!text)
      return NULL;
    g_string_append (source, text);
  }
  return g_string_free (g_steal_pointer (&source), FALSE);
}

static GLuint
compile (GLenum kind, const char *name, const char *defines, GError **error)
{
  g_autofree char *source = source_of (name, defines, kind == GL_FRAGMENT_SHADER, error);
  if (!source)
    return 0;
  GLuint shader = glCreateShader (kind);
  glShaderSource (shader, 1, (const char *const *)&source, NULL);
  glCompileShader (shader);
  GLint fine = 0;
  glGetShaderiv (shader, GL_COMPILE_STATUS, &fine);
  if (fine)
    return shader;
  char words[1024] = "";
  glGetShaderInfoLog (shader, sizeof words, NULL, words);
  glDeleteShader (shader);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "The %s shader of “%s” does not compile: %s",
               kind == GL_VERTEX_SHADER ? "vertex" : "fragment", name, words);
  return 0;
}

static void
bind_block (GLuint program, const char *name, GLuint point)
{
  GLuint block = glGetUniformBlockIndex (program, name);
  if (block != GL_INVALID_INDEX)
    glUniformBlockBinding (program, block, point);
}

static GLuint
link_program (const char *name, GLuint vertex, GLuint fragment, GError **error)
{
  GLuint program = glCreateProgram ();
  glAttachShader (program, vertex);
  glAttachShader (program, fragment);
  glLinkProgram (program);
  GLint fine = 0;
  glGetProgramiv (program, GL_LINK_STATUS, &fine);
  if (fine) {
    bind_block (program, "Frame", BW_GL_FRAME_POINT);
    bind_block (program, "Stone", BW_GL_STONE_POINT);
    return program;
  }
  char words[1024] = "";
  glGetProgramInfoLog (program, sizeof words, NULL, words);
  glDeleteProgram (program);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "The shaders of “%s” do not link: %s", name,
               words);
  return 0;
}

GLuint
bw_gl_program_new (const char *name, const char *defines, GError **error)
{
  GLuint vertex = compile (GL_VERTEX_SHADER, name, defines, error);
  if (!vertex)
    return 0;
  GLuint fragment = compile (GL_FRAGMENT_SHADER, name, defines, error);
  GLuint program = fragment ? link_program (name, vertex, fragment, error) : 0;
  glDeleteShader (vertex);
  glDeleteShader (fragment);
  return program;
}

void
bw_gl_attribute_of (GLuint program, const char *name, BwGlNumbers numbers, int size, gsize stride,
                    gsize offset, GLuint divisor)
{
  static const struct {
    GLenum type;
    GLboolean shares;
  } kinds[] = { [BW_GL_FLOATS] = { GL_FLOAT, GL_FALSE },
                [BW_GL_SIGNED_SHARES] = { GL_SHORT, GL_TRUE },
                [BW_GL_SHARES] = { GL_UNSIGNED_SHORT, GL_TRUE },
                [BW_GL_WHOLE] = { GL_UNSIGNED_SHORT, GL_FALSE } };
  GLint where = glGetAttribLocation (program, name);
  if (where < 0)
    return;
  glEnableVertexAttribArray ((GLuint)where);
  glVertexAttribPointer ((GLuint)where, size, kinds[numbers].type, kinds[numbers].shares,
                         (GLsizei)stride, GSIZE_TO_POINTER (offset));
  glVertexAttribDivisor ((GLuint)where, divisor);
}

void
bw_gl_attribute (GLuint program, const char *name, int size, gsize stride, gsize offset,
                 GLuint divisor)
{
  bw_gl_attribute_of (program, name, BW_GL_FLOATS, size, stride, offset, divisor);
}

gboolean
bw_gl_is_software (void)
{
  static const char *const names[] = { "llvmpipe", "softpipe", "swrast", "SwiftShader" };
  const char *renderer = (const char *)glGetString (GL_RENDERER);
  for (gsize i = 0; renderer && i < G_N_ELEMENTS (names); i++)
    if (strstr (renderer, names[i]))
      return TRUE;
  return FALSE;
}
