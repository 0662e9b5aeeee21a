/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks which OpenGL driver there is before GTK starts, and nothing more. The question is only asked
 * where a graphics device exists at all: without one the answer is known and the driver need not be
 * loaded. */
#include "config.h"

#include "app/kit/gsk-choice.h"

#include <epoxy/egl.h>
#include <epoxy/gl.h>
#include <glib.h>
#include <string.h>

static gboolean
has_graphics_device (void)
{
  if (g_file_test ("/dev/nvidiactl", G_FILE_TEST_EXISTS)
      || g_file_test ("/dev/dxg", G_FILE_TEST_EXISTS))
    return TRUE;
  g_autoptr (GDir) dir = g_dir_open ("/dev/dri", 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));)
    if (g_str_has_prefix (name, "renderD"))
      return TRUE;
  return FALSE;
}

static gboolean
is_software (const char *renderer)
{
  static const char *const names[]
      = { "llvmpipe", "softpipe", "swrast", "SwiftShader", "Software" };
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    if (strstr (renderer, names[i]))
      return TRUE;
  return FALSE;
}

/* The driver's own name, from a context without a surface; no driver at all counts as software. */
static gboolean
driver_is_software (EGLDisplay display)
{
  static const EGLint wanted[]
      = { EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE };
  EGLConfig config;
  EGLint n = 0;
  gboolean software = TRUE;
  if (!eglBindAPI (EGL_OPENGL_API) || !eglChooseConfig (display, wanted, &config, 1, &n) || n < 1)
    return TRUE;
  EGLContext context = eglCreateContext (display, config, EGL_NO_CONTEXT, NULL);
  if (context == EGL_NO_CONTEXT)
    return TRUE;
  if (eglMakeCurrent (display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) {
    const char *renderer = (const char *)glGetString (GL_RENDERER);
    software = !renderer || is_software (renderer);
    eglMakeCurrent (display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  }
  eglDestroyContext (display, context);
  return software;
}

static gboolean
machine_draws_in_software (void)
{
  const char *always = g_getenv ("LIBGL_ALWAYS_SOFTWARE");
  if ((always && !g_str_equal (always, "0")) || !has_graphics_device ())
    return TRUE;
  EGLDisplay display = eglGetDisplay (EGL_DEFAULT_DISPLAY);
  if (display == EGL_NO_DISPLAY || !eglInitialize (display, NULL, NULL))
    return TRUE;
  gboolean software = driver_is_software (display);
  eglTerminate (display);
  return software;
}

void
bw_gsk_choose (void)
{
  if (!g_getenv ("GSK_RENDERER") && machine_draws_in_software ())
    g_setenv ("GSK_RENDERER", "cairo", FALSE);
}
