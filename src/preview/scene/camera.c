/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The eye: a long lens on a sphere round the piece, so that nothing is ever cut off while turning.
 *
 * Coming nearer narrows the lens instead of moving the eye: the eye can then never enter the stone.
 */
#include "preview/scene/camera.h"

/* Half the angle that the piece fills: a long lens keeps the stone's edges nearly parallel, as in a
 * product picture. */
#define HALF_VIEW_DEG 11.0
/* Air round the bounding sphere at zoom 1. */
#define MARGIN 1.04f

/* A direction of the room, as the piece has it. */
static void
into_piece (vec3 v, BwPose pose)
{
  BwVec3 turned = bw_pose_turn_back (pose, bw_vec3 ((double)v[0], (double)v[1], (double)v[2]));
  v[0] = (float)turned.x;
  v[1] = (float)turned.y;
  v[2] = (float)turned.z;
}

static void
aim (vec3 target, const BwScene *scene, double zoom)
{
  /* From zoom 1 to 4 the aim glides from the piece to its band. */
  float share = (float)glm_clamp ((float)(log (MAX (zoom, 1.0)) / log (4.0)), 0, 1);
  share = share * share * (3 - 2 * share);
  BwVec3 centre = scene->stance.centre;
  const float from[3] = { (float)centre.x, (float)centre.y, (float)centre.z };
  for (int i = 0; i < 3; i++)
    target[i] = from[i] + share * (scene->focus[i] - from[i]);
}

static void
look (BwEye *eye, BwCamera camera, BwPose pose, vec3 target, float distance)
{
  double turn = bw_radians (camera.turn_deg), tip = bw_radians (camera.tip_deg);
  vec3 back
      = { (float)(cos (tip) * cos (turn)), (float)(cos (tip) * sin (turn)), (float)sin (tip) };
  vec3 right = { (float)-sin (turn), (float)cos (turn), 0 };
  vec3 up;
  /* Built from the angles, not from an up vector: looking straight down the axis is no exception.
   */
  glm_vec3_cross (back, right, up);
  into_piece (back, pose);
  into_piece (right, pose);
  into_piece (up, pose);
  glm_vec3_copy (target, eye->eye);
  glm_vec3_muladds (back, distance, eye->eye);
  glm_mat4_identity (eye->view);
  for (int i = 0; i < 3; i++) {
    eye->view[i][0] = right[i];
    eye->view[i][1] = up[i];
    eye->view[i][2] = back[i];
  }
  eye->view[3][0] = -glm_vec3_dot (right, eye->eye);
  eye->view[3][1] = -glm_vec3_dot (up, eye->eye);
  eye->view[3][2] = -glm_vec3_dot (back, eye->eye);
}

/* Size of a pixel at distance 1 at which the piece just fits: its sphere into the height; into the
 * width only its breadth about the axis, which no tipping makes wider, as near as it can come. */
static float
fitting_pixel (const BwScene *scene, float distance, int width, float height)
{
  float radius = MAX ((float)scene->stance.radius, 1e-3f);
  float upright = MARGIN * radius / sqrtf (distance * distance - radius * radius);
  float across = MARGIN * MIN ((float)scene->stance.breadth, radius) / (distance - radius);
  return 2 * MAX (upright / height, MIN (across, upright) / (float)width);
}

/* How far from the target anything lies that is drawn. */
static float
reach_about (const BwScene *scene, vec3 target)
{
  float reach = scene->radius * 1.05f + glm_vec3_distance ((float *)scene->centre, target);
  const GArray *cord = scene->cord.stations;
  const guint ends[] = { 0, cord->len - 1 };
  for (int i = 0; i < 2 && cord->len; i++) {
    float *end = g_array_index (cord, BwSceneStation, ends[i]).at;
    reach = MAX (reach, 1.05f * glm_vec3_distance (end, target));
  }
  return reach;
}

void
bw_eye_init (BwEye *eye, BwCamera camera, const BwScene *scene, int width, int height)
{
  float radius = MAX ((float)scene->stance.radius, 1e-3f);
  float distance = radius / (float)sin (bw_radians (HALF_VIEW_DEG));
  vec3 target;
  aim (target, scene, camera.zoom);
  float reach = reach_about (scene, target);
  float near = MAX (distance - reach, distance * 0.02f);
  look (eye, camera, scene->stance.pose, target, distance);
  float framed = (float)height * (1 - scene->free_below);
  eye->pixel = fitting_pixel (scene, distance, width, framed) / (float)camera.zoom;
  eye->lift = ((float)height - framed) / 2;
  float right = near * eye->pixel * (float)width / 2, half = (float)height / 2;
  glm_frustum (-right, right, -near * eye->pixel * (half + eye->lift),
               near * eye->pixel * (half - eye->lift), near, distance + reach, eye->projection);
}

void
bw_eye_ray (const BwEye *eye, double x, double y, int width, int height, BwVec3 *from,
            BwVec3 *direction)
{
  double px = (x - width / 2.0) * (double)eye->pixel,
         py = (height / 2.0 - (double)eye->lift - y) * (double)eye->pixel;
  double d[3];
  for (int i = 0; i < 3; i++)
    d[i] = px * (double)eye->view[i][0] + py * (double)eye->view[i][1] - (double)eye->view[i][2];
  BwVec3 along = bw_vec3 (d[0], d[1], d[2]);
  *from = bw_vec3 ((double)eye->eye[0], (double)eye->eye[1], (double)eye->eye[2]);
  *direction = bw_vec3_scale (along, 1 / bw_vec3_length (along));
}

gboolean
bw_eye_project (const BwEye *eye, const float at[3], int width, int height, double *x, double *y)
{
  vec4 point = { at[0], at[1], at[2], 1 };
  vec4 seen;
  glm_mat4_mulv ((vec4 *)eye->view, point, seen);
  if (seen[2] >= 0)
    return FALSE;
  double scale = 1 / ((double)-seen[2] * (double)eye->pixel);
  *x = width / 2.0 + (double)seen[0] * scale;
  *y = height / 2.0 - (double)eye->lift - (double)seen[1] * scale;
  return TRUE;
}
