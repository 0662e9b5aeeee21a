/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads are alike but for their colour, so the file holds one bead and says where it lies: a band
 * of a thousand beads takes some tens of kilobytes. */
#include "config.h"

#include "preview/picture/model.h"

#include "core/pattern/colour.h"
#include "preview/picture/glb.h"
#include "preview/scene/scene.h"
#include "project/piece-name.h"
#include "preview/scene/scene-bead.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define ROUND_STEPS 24 /* round a bead */
#define RIM_STEPS 3    /* along its rounded rim */
#define PROFILE_MAX 24

/* --- One bead ----------------------------------------------------------------------------------
 */

/* A turn of the profile: radius and height, and the way out of the glass in the same plane. */
typedef struct {
  float r, z, out_r, out_z;
} Rim;

/* From the lower end of the outer wall over the upper rim, down the hole, back over the lower rim;
 * a place stands twice where the glass has an edge. */
static int
bead_profile (const BwScene *scene, Rim rim[PROFILE_MAX])
{
  float radius = scene->bead_radius, half = scene->bead_half_length, hole = scene->hole_radius;
  float round = scene->bead_rounding;
  int n = 0;
  for (int end = 1; end >= -1; end -= 2) {
    for (int i = 0; i <= RIM_STEPS; i++) {
      float angle = (float)(G_PI / 2) * (float)(end > 0 ? i : RIM_STEPS - i) / RIM_STEPS;
      float out_r = cosf (angle), out_z = (float)end * sinf (angle);
      rim[n++] = (Rim){ radius - round + round * out_r, (float)end * (half - round) + round * out_z,
                        out_r, out_z };
    }
    if (end > 0) {
      rim[n++] = (Rim){ hole, half, 0, 1 };
      rim[n++] = (Rim){ hole, half, -1, 0 };
      rim[n++] = (Rim){ hole, -half, -1, 0 };
      rim[n++] = (Rim){ hole, -half, 0, -1 };
    }
  }
  return n;
}

typedef struct {
  int points, directions, corners; /* accessors */
} Bead;

static gboolean
is_edge (const Rim *a, const Rim *b)
{
  return a->r == b->r && a->z == b->z;
}

static int
bead_corners (const Rim *rim, int n, guint16 *corner)
{
  int count = 0;
  for (int k = 0; k < n; k++) {
    int after = (k + 1) % n;
    if (is_edge (&rim[k], &rim[after]))
      continue;
    for (int i = 0; i < ROUND_STEPS; i++) {
      int here = i * n, there = (i + 1) % ROUND_STEPS * n;
      const int quad[6]
          = { here + k, there + k, there + after, here + k, there + after, here + after };
      for (int j = 0; j < 6; j++)
        corner[count++] = (guint16)quad[j];
    }
  }
  return count;
}

static Bead
add_bead (BwGlb *glb, const BwScene *scene)
{
  Rim rim[PROFILE_MAX];
  float at[ROUND_STEPS * PROFILE_MAX][3], out[ROUND_STEPS * PROFILE_MAX][3];
  guint16 corner[6 * ROUND_STEPS * PROFILE_MAX];
  int n = bead_profile (scene, rim);
  for (int i = 0; i < ROUND_STEPS; i++)
    for (int k = 0; k < n; k++) {
      float angle = (float)(2 * G_PI) * (float)i / ROUND_STEPS, x = cosf (angle), y = sinf (angle);
      memcpy (at[i * n + k], (float[]){ rim[k].r * x, rim[k].r * y, rim[k].z }, sizeof at[0]);
      memcpy (out[i * n + k], (float[]){ rim[k].out_r * x, rim[k].out_r * y, rim[k].out_z },
              sizeof out[0]);
    }
  int n_corners = bead_corners (rim, n, corner);
  return (Bead){ bw_glb_add_points (glb, at, ROUND_STEPS * n),
                 bw_glb_add_directions (glb, out, ROUND_STEPS * n),
                 bw_glb_add_corners (glb, corner, n_corners) };
}

/* The turn that takes z to the bead's hole and x to its outer side, as a unit quaternion. From a
 * matrix by its greatest component: K. Shoemake, "Quaternions", Department of Computer and
 * Information Science, University of Pennsylvania, 1991. */
static void
bead_turn (const BwSceneBead *bead, float turn[4])
{
  float x[3], z[3];
  bw_bead_out (bead, x);
  bw_bead_axis (bead, z);
  const float y[3]
      = { z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0] };
  const float m[3][3] = { { x[0], y[0], z[0] }, { x[1], y[1], z[1] }, { x[2], y[2], z[2] } };
  float trace = m[0][0] + m[1][1] + m[2][2];
  int i = m[1][1] > m[0][0] ? 1 : 0;
  i = m[2][2] > m[i][i] ? 2 : i;
  int j = (i + 1) % 3, k = (i + 2) % 3;
  if (trace > m[i][i]) {
    float twice = sqrtf (trace + 1);
    turn[3] = twice / 2;
    for (int a = 0; a < 3; a++)
      turn[a] = (m[(a + 2) % 3][(a + 1) % 3] - m[(a + 1) % 3][(a + 2) % 3]) / (2 * twice);
    return;
  }
  float twice = sqrtf (m[i][i] - m[j][j] - m[k][k] + 1);
  turn[i] = twice / 2;
  turn[j] = (m[j][i] + m[i][j]) / (2 * twice);
  turn[k] = (m[k][i] + m[i][k]) / (2 * twice);
  turn[3] = (m[k][j] - m[j][k]) / (2 * twice);
}

/* --- What it is made of ------------------------------------------------------------------------
 */

/* How finishes take the light: common practice, no source. */
static void
set_finish (BwGlbMaterial *material, BwFinish finish)
{
  static const struct {
    float metallic, roughness, opacity;
  } surface[] = {
    [BW_FINISH_OPAQUE] = { 0, 0.35f, 1 },        [BW_FINISH_MATTE] = { 0, 0.9f, 1 },
    [BW_FINISH_CLEAR] = { 0, 0.1f, 0.6f },       [BW_FINISH_FROSTED] = { 0, 0.7f, 0.75f },
    [BW_FINISH_LINED] = { 0.3f, 0.25f, 1 },      [BW_FINISH_LUSTRE] = { 0.4f, 0.2f, 1 },
    [BW_FINISH_METAL] = { 1, 0.3f, 1 },          [BW_FINISH_RAINBOW] = { 0.3f, 0.15f, 1 },
    [BW_FINISH_GALVANISED] = { 0.9f, 0.45f, 1 }, [BW_FINISH_SILVER_LINED] = { 0.5f, 0.12f, 0.9f },
  };
  material->metallic = surface[finish].metallic;
  material->roughness = surface[finish].roughness;
  material->colour[3] = surface[finish].opacity;
}

static int
add_colour (BwGlb *glb, const BwColour *colour, Bead bead)
{
  BwLinear light = bw_colour_linear (colour->srgb);
  char letter[8] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  const char *name = colour->name[0] ? colour->name : letter;
  BwGlbMaterial material = { name, { (float)light.r, (float)light.g, (float)light.b, 1 }, 0, 1 };
  set_finish (&material, colour->finish);
  return bw_glb_add_mesh (glb, name, bead.points, bead.directions, bead.corners,
                          bw_glb_add_material (glb, &material));
}

static int
colour_of (BwProject *project, BwBeadOf bead)
{
  const BwDrawing *drawing
      = bead.in_bail ? bw_project_get_bail_drawing (project) : bw_project_get_drawing (project);
  return MIN (bw_drawing_get (drawing, bead.row, bead.column),
              bw_project_get_tray (project)->n_colours - 1);
}

/* Places beads from..to − 1; gives their group. */
static int
add_beads (BwGlb *glb, BwProject *project, const BwScene *scene, Bead shape, int *mesh,
           const char *name, guint from, guint to)
{
  int first = glb->n_nodes;
  for (guint i = from; i < to; i++) {
    const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, i);
    int colour = colour_of (project, bw_scene_bead_of (scene, (int)i));
    float turn[4];
    if (mesh[colour] < 0)
      mesh[colour] = add_colour (glb, &bw_project_get_tray (project)->colour[colour], shape);
    bead_turn (bead, turn);
    bw_glb_add_moved (glb, mesh[colour], turn, bead->at);
  }
  return bw_glb_add_group (glb, name, first, glb->n_nodes - 1);
}

static int
add_body (BwGlb *glb, const char *name, GArray *vertices, const BwGlbMaterial *material)
{
  int n = (int)vertices->len, first = glb->n_nodes;
  g_autofree float (*at)[3] = g_malloc_n ((gsize)n, sizeof *at);
  g_autofree float (*out)[3] = g_malloc_n ((gsize)n, sizeof *out);
  for (int i = 0; i < n; i++) {
    const BwSceneVertex *vertex = &g_array_index (vertices, BwSceneVertex, i);
    memcpy (at[i], vertex->at, sizeof at[i]);
    memcpy (out[i], vertex->normal, sizeof out[i]);
  }
  int points = bw_glb_add_points (glb, at, n), directions = bw_glb_add_directions (glb, out, n);
  bw_glb_add_node (glb, bw_glb_add_mesh (glb, name, points, directions, -1,
                                         bw_glb_add_material (glb, material)));
  return bw_glb_add_group (glb, name, first, first);
}

/* A tube closed on itself: its last station is its first. */
static int
add_ring (BwGlb *glb, const char *name, const BwSceneTube *tube, const BwGlbMaterial *material)
{
  int n = (int)tube->stations->len - 1, first = glb->n_nodes, n_corners = 0;
  g_autofree float (*at)[3] = g_malloc_n ((gsize)n * ROUND_STEPS, sizeof *at);
  g_autofree float (*out)[3] = g_malloc_n ((gsize)n * ROUND_STEPS, sizeof *out);
  g_autofree guint16 *corner = g_new (guint16, 6 * (gsize)n * ROUND_STEPS);
  const float *b = tube->binormal;
  for (int k = 0; k < n; k++) {
    const BwSceneStation *station = &g_array_index (tube->stations, BwSceneStation, k);
    const float *t = station->tangent;
    const float side[3]
        = { b[1] * t[2] - b[2] * t[1], b[2] * t[0] - b[0] * t[2], b[0] * t[1] - b[1] * t[0] };
    for (int i = 0; i < ROUND_STEPS; i++) {
      float angle = (float)(2 * G_PI) * (float)i / ROUND_STEPS;
      int here = k * ROUND_STEPS, ahead = (k + 1) % n * ROUND_STEPS, j = (i + 1) % ROUND_STEPS;
      const int quad[6] = { here + i, here + j, ahead + j, here + i, ahead + j, ahead + i };
      for (int axis = 0; axis < 3; axis++) {
        out[here + i][axis] = cosf (angle) * side[axis] + sinf (angle) * b[axis];
        at[here + i][axis] = station->at[axis] + tube->radius * out[here + i][axis];
      }
      for (int q = 0; q < 6; q++)
        corner[n_corners++] = (guint16)quad[q];
    }
  }
  int points = bw_glb_add_points (glb, at, n * ROUND_STEPS);
  int directions = bw_glb_add_directions (glb, out, n * ROUND_STEPS);
  int corners = bw_glb_add_corners (glb, corner, n_corners);
  bw_glb_add_node (glb, bw_glb_add_mesh (glb, name, points, directions, corners,
                                         bw_glb_add_material (glb, material)));
  return bw_glb_add_group (glb, name, first, first);
}

/* --- The piece ---------------------------------------------------------------------------------
 */

GBytes *
bw_model_new (BwProject *project)
{
  g_return_val_if_fail (BW_IS_PROJECT (project), NULL);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const float *keeps = scene->stone_keeps;
  const BwGlbMaterial glass = { _ ("Stone"), { keeps[0], keeps[1], keeps[2], 0.45f }, 0, 0.05f };
  /* Waxed linen, undyed: common practice, no source. */
  const BwGlbMaterial cord = { _ ("Bed"), { 0.55f, 0.45f, 0.3f, 1 }, 0, 0.9f };
  const BwGlbMaterial metal = { _ ("Ring"), { 0.8f, 0.8f, 0.8f, 1 }, 1, 0.25f };
  int mesh[BW_TRAY_MAX], groups[5], n_groups = 0;
  guint n_beads = scene->beads->len, n_band = (guint)scene->n_band;
  BwGlb glb;

  memset (mesh, 0xff, sizeof mesh);
  bw_glb_init (&glb);
  Bead bead = add_bead (&glb, scene);
  groups[n_groups++] = add_body (&glb, _ ("Stone"), scene->stone, &glass);
  if (scene->bed->len > 0)
    groups[n_groups++] = add_body (&glb, _ ("Bed"), scene->bed, &cord);
  groups[n_groups++] = add_beads (&glb, project, scene, bead, mesh, _ ("Band"), 0, n_band);
  if (n_beads > n_band)
    groups[n_groups++] = add_beads (&glb, project, scene, bead, mesh, _ ("Bail"), n_band, n_beads);
  if (scene->ring.stations->len > 1)
    groups[n_groups++] = add_ring (&glb, _ ("Ring"), &scene->ring, &metal);
  g_autofree char *name = bw_piece_name (project);
  return bw_glb_finish (&glb, name, groups, n_groups);
}
