/* SPDX-License-Identifier: GPL-3.0-or-later */
/* EGL without a surface. Three displays are tried in turn, because no single one is to be had
 * everywhere: Mesa's surfaceless platform, the default display, and the first device. */
#include "preview/gl/offscreen-context.h"

#include "preview/gl/gl-target.h"
#include "preview/gl/renderer.h"
#include <epoxy/egl.h>
#include <epoxy/gl.h>
#include <gio/gio.h>

struct _BwOffscreen {
  EGLDisplay display;
  EGLContext context;
  BwRenderer *renderer;
  BwGlTarget target;
};

static EGLDisplay
surfaceless_display (void)
{
  if (!epoxy_has_egl_extension (EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless"))
    return EGL_NO_DISPLAY;
  return eglGetPlatformDisplayEXT (EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, NULL);
}

static EGLDisplay
default_display (void)
{
  return eglGetDisplay (EGL_DEFAULT_DISPLAY);
}

static EGLDisplay
device_display (void)
{
  EGLDeviceEXT device;
  EGLint n = 0;
  if (!epoxy_has_egl_extension (EGL_NO_DISPLAY, "EGL_EXT_device_enumeration")
      || !epoxy_has_egl_extension (EGL_NO_DISPLAY, "EGL_EXT_platform_device")
      || !eglQueryDevicesEXT (1, &device, &n) || n < 1)
    return EGL_NO_DISPLAY;
  return eglGetPlatformDisplayEXT (EGL_PLATFORM_DEVICE_EXT, device, NULL);
}

static EGLContext
context_of (EGLDisplay display, gboolean es)
{
  const EGLint wanted[] = { EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE,
                            es ? EGL_OPENGL_ES3_BIT : EGL_OPENGL_BIT, EGL_NONE };
  const EGLint core[] = { EGL_CONTEXT_MAJOR_VERSION,
                          3,
                          EGL_CONTEXT_MINOR_VERSION,
                          3,
                          EGL_CONTEXT_OPENGL_PROFILE_MASK,
                          EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                          EGL_NONE };
  const EGLint embedded[] = { EGL_CONTEXT_MAJOR_VERSION, 3, EGL_NONE };
  EGLConfig config;
  EGLint n = 0;
  if (!eglBindAPI (es ? EGL_OPENGL_ES_API : EGL_OPENGL_API)
      || !eglChooseConfig (display, wanted, &config, 1, &n) || n < 1)
    return EGL_NO_CONTEXT;
  return eglCreateContext (display, config, EGL_NO_CONTEXT, es ? embedded : core);
}

static gboolean
open_display (BwOffscreen *self, EGLDisplay display, gboolean es)
{
  if (display == EGL_NO_DISPLAY || !eglInitialize (display, NULL, NULL))
    return FALSE;
  EGLContext context = context_of (display, es);
  if (context != EGL_NO_CONTEXT
      && eglMakeCurrent (display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) {
    self->display = display;
    self->context = context;
    return TRUE;
  }
  if (context != EGL_NO_CONTEXT)
    eglDestroyContext (display, context);
  eglTerminate (display);
  return FALSE;
}

static gboolean
open_any (BwOffscreen *self, gboolean want_es)
{
  EGLDisplay (*const displays[]) (void) = { surfaceless_display, default_display, device_display };
  for (gboolean es = want_es; es <= TRUE; es++)
    for (gsize i = 0; i < G_N_ELEMENTS (displays); i++)
      if (open_display (self, displays[i](), es))
        return TRUE;
  return FALSE;
}

BwOffscreen *
bw_offscreen_new (gboolean want_es, GError **error)
{
  BwOffscreen *self = g_new0 (BwOffscreen, 1);
  self->display = EGL_NO_DISPLAY;
  if (!open_any (self, !!want_es)) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                 "No OpenGL context can be had without a display");
    bw_offscreen_free (self);
    return NULL;
  }
  self->renderer = bw_renderer_new (error);
  if (!self->renderer) {
    bw_offscreen_free (self);
    return NULL;
  }
  return self;
}

/* The display stays open: it is the process's own, EGL hands out the same one every time, and
 * opening it anew loads the whole driver again. */
void
bw_offscreen_free (BwOffscreen *self)
{
  if (!self)
    return;
  if (self->display != EGL_NO_DISPLAY) {
    bw_gl_target_drop (&self->target);
    bw_renderer_free (self->renderer);
    eglMakeCurrent (self->display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    eglDestroyContext (self->display, self->context);
    eglReleaseThread ();
  }
  g_free (self);
}

void
bw_offscreen_set_scene (BwOffscreen *self, const BwScene *scene)
{
  bw_renderer_set_scene (self->renderer, scene);
}

void
bw_offscreen_update_beads (BwOffscreen *self, const BwScene *scene, const int *bead, int n)
{
  bw_renderer_update_beads (self->renderer, scene, bead, n);
}

void
bw_offscreen_draw (BwOffscreen *self, const BwScene *scene, BwCamera camera, guint layers,
                   BwLight light, int hover, int width, int height)
{
  const float nothing[4] = { 0, 0, 0, 0 };
  if (!bw_gl_target_bind (&self->target, width, height))
    return;
  bw_renderer_draw (self->renderer, scene, camera, layers, light, hover, width, height, nothing);
  glFinish ();
}

/* How much larger the picture is drawn before it is averaged. */
static int
oversize (int width, int height)
{
  GLint largest = 0;
  glGetIntegerv (GL_MAX_RENDERBUFFER_SIZE, &largest);
  return MAX (width, height) <= 4096 && 2 * MAX (width, height) <= largest ? 2 : 1;
}

/* Averages times × times pixels, turns the rows over and puts the bytes in cairo's order. */
static void
average (const guint8 *from, int times, cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  int stride = cairo_image_surface_get_stride (surface);
  guint8 *data = cairo_image_surface_get_data (surface);
  guint share = (guint)(times * times);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      guint sum[4] = { share / 2, share / 2, share / 2, share / 2 };
      for (guint k = 0; k < share; k++) {
        gsize row = (gsize)((height - 1 - y) * times) + k / (guint)times;
        gsize column = (gsize)(x * times) + k % (guint)times;
        const guint8 *pixel = from + (row * (gsize)(width * times) + column) * 4;
        for (int c = 0; c < 4; c++)
          sum[c] += pixel[c];
      }
      guint32 *to = (guint32 *)(void *)(data + (gsize)y * (gsize)stride) + x;
      *to = sum[3] / share << 24 | sum[0] / share << 16 | sum[1] / share << 8 | sum[2] / share;
    }
}

cairo_surface_t *
bw_offscreen_picture (BwOffscreen *self, const BwScene *scene, BwCamera camera, guint layers,
                      BwLight light, int hover, int width, int height, GError **error)
{
  int times = oversize (width, height);
  if (!bw_gl_target_bind (&self->target, width * times, height * times)) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                 "The driver cannot draw a picture of %d × %d pixels", width, height);
    return NULL;
  }
  bw_renderer_set_scale (self->renderer, (float)times);
  bw_offscreen_draw (self, scene, camera, layers, light, hover, width * times, height * times);
  bw_renderer_set_scale (self->renderer, 1);
  g_autofree guint8 *pixels = g_malloc ((gsize)width * (gsize)height * (gsize)(times * times) * 4);
  glPixelStorei (GL_PACK_ALIGNMENT, 4);
  glReadPixels (0, 0, width * times, height * times, GL_RGBA, GL_UNSIGNED_BYTE, pixels);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_surface_flush (surface);
  average (pixels, times, surface);
  cairo_surface_mark_dirty (surface);
  return surface;
}
