/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two versions differ in how a ray is asked for, and in nothing else that is used here. */
#include "config.h"

#include "preview/fine/rays.h"

#include <dlfcn.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#if BW_EMBREE == 4
#include <embree4/rtcore.h>
#else
#include <embree3/rtcore.h>
#endif

#define LIBRARY "libembree" G_STRINGIFY (BW_EMBREE) ".so." G_STRINGIFY (BW_EMBREE)

#define EACH_FUNCTION(X)                                                                           \
  X (NewDevice)                                                                                    \
  X (ReleaseDevice)                                                                                \
  X (GetDeviceError)                                                                               \
  X (NewScene)                                                                                     \
  X (ReleaseScene)                                                                                 \
  X (CommitScene)                                                                                  \
  X (NewGeometry)                                                                                  \
  X (ReleaseGeometry)                                                                              \
  X (CommitGeometry)                                                                               \
  X (SetNewGeometryBuffer)                                                                         \
  X (AttachGeometryByID)                                                                           \
  X (SetGeometryInstancedScene)                                                                    \
  X (SetGeometryTransform)                                                                         \
  X (Intersect1)                                                                                   \
  X (Occluded1)

/* The library's functions, once it is open. */
static struct {
  RTCDevice device;
#define FUNCTION(name) __typeof__ (rtc##name) *name;
  EACH_FUNCTION (FUNCTION)
#undef FUNCTION
} embree;

struct _BwRays {
  RTCScene scene;
};

static gboolean
find_functions (void *library)
{
  gboolean all = TRUE;
#define FIND(name)                                                                                 \
  *(void **)&embree.name = dlsym (library, "rtc" #name);                                           \
  all = all && embree.name;
  EACH_FUNCTION (FIND)
#undef FIND
  return all;
}

/* BANDWRIGHT_EMBREE names another file than the system's library. */
static RTCDevice
open_library (void)
{
  const char *file = g_getenv ("BANDWRIGHT_EMBREE");
  void *library = dlopen (file ? file : LIBRARY, RTLD_NOW | RTLD_LOCAL);
  return library && find_functions (library) ? embree.NewDevice (NULL) : NULL;
}

static gboolean
is_open (void)
{
  static gsize tried;
  if (g_once_init_enter (&tried)) {
    embree.device = open_library ();
    g_once_init_leave (&tried, 1);
  }
  return embree.device != NULL;
}

BwRays *
bw_rays_new (GError **error)
{
  if (!is_open ()) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                 /* Translators: %s is the file name of a library. */
                 _ ("The fine picture wants the library Embree, and %s is not on this machine."),
                 LIBRARY);
    return NULL;
  }
  BwRays *rays = g_new (BwRays, 1);
  rays->scene = embree.NewScene (embree.device);
  return rays;
}

void
bw_rays_free (BwRays *rays)
{
  if (!rays)
    return;
  embree.ReleaseScene (rays->scene);
  g_free (rays);
}

static void
attach (BwRays *rays, guint shape, RTCGeometry geometry)
{
  embree.CommitGeometry (geometry);
  embree.AttachGeometryByID (rays->scene, geometry, shape);
  embree.ReleaseGeometry (geometry);
}

/* Room for n of so many bytes in a buffer of the library's own; NULL where there is none. */
static void
fill (RTCGeometry geometry, enum RTCBufferType type, enum RTCFormat format, const void *from,
      gsize size, guint n)
{
  void *to = embree.SetNewGeometryBuffer (geometry, type, 0, format, size, n);
  if (to)
    memcpy (to, from, size * n);
}

void
bw_rays_add_mesh (BwRays *rays, guint shape, const float (*corners)[3], guint n_corners,
                  const guint32 (*triangles)[3], guint n_triangles)
{
  RTCGeometry mesh = embree.NewGeometry (embree.device, RTC_GEOMETRY_TYPE_TRIANGLE);
  fill (mesh, RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT3, corners, sizeof *corners, n_corners);
  fill (mesh, RTC_BUFFER_TYPE_INDEX, RTC_FORMAT_UINT3, triangles, sizeof *triangles, n_triangles);
  attach (rays, shape, mesh);
}

void
bw_rays_add_rods (BwRays *rays, guint shape, const float (*ends)[4], guint n_rods)
{
  RTCGeometry rods = embree.NewGeometry (embree.device, RTC_GEOMETRY_TYPE_ROUND_LINEAR_CURVE);
  g_autofree guint32 *first = g_new (guint32, n_rods);
  for (guint i = 0; i < n_rods; i++)
    first[i] = 2 * i;
  fill (rods, RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT4, ends, sizeof *ends, 2 * n_rods);
  fill (rods, RTC_BUFFER_TYPE_INDEX, RTC_FORMAT_UINT, first, sizeof *first, n_rods);
  attach (rays, shape, rods);
}

void
bw_rays_add_copy (BwRays *rays, guint shape, const BwRays *of, const float placed[12])
{
  RTCGeometry copy = embree.NewGeometry (embree.device, RTC_GEOMETRY_TYPE_INSTANCE);
  embree.SetGeometryInstancedScene (copy, of->scene);
  embree.SetGeometryTransform (copy, 0, RTC_FORMAT_FLOAT3X4_COLUMN_MAJOR, placed);
  attach (rays, shape, copy);
}

gboolean
bw_rays_close (BwRays *rays, GError **error)
{
  embree.CommitScene (rays->scene);
  if (embree.GetDeviceError (embree.device) == RTC_ERROR_NONE)
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("There is not enough memory for the fine picture."));
  return FALSE;
}

static struct RTCRay
ray_of (BwVec3 from, BwVec3 direction, double most)
{
  return (struct RTCRay){ .org_x = (float)from.x,
                          .org_y = (float)from.y,
                          .org_z = (float)from.z,
                          .dir_x = (float)direction.x,
                          .dir_y = (float)direction.y,
                          .dir_z = (float)direction.z,
                          .tfar = (float)most,
                          .mask = ~0u };
}

gboolean
bw_rays_nearest (const BwRays *rays, BwVec3 from, BwVec3 direction, double most, BwRayHit *hit)
{
  struct RTCRayHit asked = { .ray = ray_of (from, direction, most) };
  asked.hit.geomID = asked.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
#if BW_EMBREE == 4
  embree.Intersect1 (rays->scene, &asked, NULL);
#else
  struct RTCIntersectContext context;
  rtcInitIntersectContext (&context);
  embree.Intersect1 (rays->scene, &context, &asked);
#endif
  if (asked.hit.geomID == RTC_INVALID_GEOMETRY_ID)
    return FALSE;
  BwVec3 face = bw_vec3 ((double)asked.hit.Ng_x, (double)asked.hit.Ng_y, (double)asked.hit.Ng_z);
  gboolean copy = asked.hit.instID[0] != RTC_INVALID_GEOMETRY_ID;
  hit->way = (double)asked.ray.tfar;
  hit->face = bw_vec3_scale (face, 1 / MAX (bw_vec3_length (face), 1e-30));
  hit->shape = copy ? asked.hit.instID[0] : asked.hit.geomID;
  hit->element = asked.hit.primID;
  hit->u = (double)asked.hit.u;
  hit->v = (double)asked.hit.v;
  return TRUE;
}

gboolean
bw_rays_blocked (const BwRays *rays, BwVec3 from, BwVec3 direction, double most)
{
  struct RTCRay asked = ray_of (from, direction, most);
#if BW_EMBREE == 4
  embree.Occluded1 (rays->scene, &asked, NULL);
#else
  struct RTCIntersectContext context;
  rtcInitIntersectContext (&context);
  embree.Occluded1 (rays->scene, &context, &asked);
#endif
  return asked.tfar < 0;
}
