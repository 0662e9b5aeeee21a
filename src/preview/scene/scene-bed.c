/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed as a closed sleeve: the curve at the bed's thickness outside the section, from one edge
 * of the cord to the other, and the stone's own section inside it. */
#include "preview/scene/scene-parts.h"

#include "core/band/ring.h"

#define CORNER_STEPS 5 /* pieces of the arc about a corner */
#define LEVELS_MAX 4

/* One level: outer and inner curve, the same number of points at every level. */
typedef struct {
  int n;
  BwSceneVertex outer[BW_FACES_MAX * (CORNER_STEPS + 1)];
  BwSceneVertex inner[BW_FACES_MAX * (CORNER_STEPS + 1)];
} Level;

static void
level_point (Level *level, const BwRing *ring, double u, double z)
{
  BwRingPoint point = bw_ring_point (ring, u);
  BwSceneVertex *outer = &level->outer[level->n], *inner = &level->inner[level->n];
  *outer = (BwSceneVertex){ { (float)point.at.x, (float)point.at.y, (float)z },
                            { (float)point.normal.x, (float)point.normal.y, 0 } };
  *inner = (BwSceneVertex){ { (float)point.foot.x, (float)point.foot.y, (float)z },
                            { (float)-point.normal.x, (float)-point.normal.y, 0 } };
  level->n++;
}

static void
level_init (Level *level, const BwStone *stone, const BwBedding *bedding, double z)
{
  BwSection section;
  BwRing ring;
  double rho = bw_bedding_thickness (bedding, z);
  bw_section_init (&section, stone, z);
  bw_ring_init (&ring, &section, rho);
  level->n = 0;
  for (int i = 0; i < ring.edges; i++) {
    level_point (level, &ring, ring.start[i], z);
    for (int k = 0; k < CORNER_STEPS; k++)
      level_point (level, &ring,
                   ring.start[i] + ring.width[i] + ring.turn[i] * rho * k / CORNER_STEPS, z);
  }
}

static void
add_triangle (GArray *bed, const BwSceneVertex *a, const BwSceneVertex *b, const BwSceneVertex *c)
{
  g_array_append_val (bed, *a);
  g_array_append_val (bed, *b);
  g_array_append_val (bed, *c);
}

/* a, b below, c, d above; a and c before b and d counter-clockwise, seen from outside. */
static void
add_quad (GArray *bed, const BwSceneVertex *a, const BwSceneVertex *b, const BwSceneVertex *c,
          const BwSceneVertex *d)
{
  add_triangle (bed, a, b, d);
  add_triangle (bed, a, d, c);
}

static void
add_wall (GArray *bed, const Level *low, const Level *high)
{
  for (int i = 0; i < low->n; i++) {
    int next = (i + 1) % low->n;
    add_quad (bed, &low->outer[i], &low->outer[next], &high->outer[i], &high->outer[next]);
    add_quad (bed, &low->inner[next], &low->inner[i], &high->inner[next], &high->inner[i]);
  }
}

static BwSceneVertex
facing (BwSceneVertex vertex, float up)
{
  vertex.normal[0] = vertex.normal[1] = 0;
  vertex.normal[2] = up;
  return vertex;
}

/* The rim between inner and outer curve; up: 1 at the top, −1 at the bottom. */
static void
add_rim (GArray *bed, const Level *level, float up)
{
  for (int i = 0; i < level->n; i++) {
    int next = (i + 1) % level->n;
    BwSceneVertex a = facing (level->outer[i], up), b = facing (level->outer[next], up);
    BwSceneVertex c = facing (level->inner[i], up), d = facing (level->inner[next], up);
    if (up > 0)
      add_quad (bed, &a, &b, &c, &d);
    else
      add_quad (bed, &b, &a, &d, &c);
  }
}

/* Heights of the levels: between the edges and the shoulders that the bed runs over, section and
 * thickness change evenly, and so does the sleeve. */
static int
heights (double z[LEVELS_MAX], const BwStone *stone, double low, double high)
{
  const double shoulder[] = { stone->base_shoulder_mm, stone->shoulder_mm };
  int n = 0;
  z[n++] = low;
  for (gsize k = 0; k < G_N_ELEMENTS (shoulder); k++)
    if (shoulder[k] > z[n - 1] && shoulder[k] < high)
      z[n++] = shoulder[k];
  z[n++] = high;
  return n;
}

void
bw_scene_add_bed (BwScene *scene, const BwDesign *design, const BwStone *stone)
{
  BwBandSpan span = bw_design_span (design);
  BwBedding bedding;
  double middle = bw_band_span_mid (span), width = bw_bed_width_mm (&design->bed, span);
  double low = MAX (middle - width / 2, 0), high = MIN (middle + width / 2, stone->length_mm);
  scene->bed_span[0] = scene->bed_span[1] = (float)middle;
  if (!bw_bedding_init (&bedding, &design->bed, stone, span, NULL) || high - low < 1e-3
      || bw_bedding_thickness (&bedding, middle) < 1e-3)
    return;
  double z[LEVELS_MAX] = { 0 };
  int n = heights (z, stone, low, high);
  g_autofree Level *level = g_new (Level, 2);
  level_init (&level[0], stone, &bedding, z[0]);
  add_rim (scene->bed, &level[0], -1);
  for (int i = 1; i < n; i++) {
    level_init (&level[i % 2], stone, &bedding, z[i]);
    add_wall (scene->bed, &level[(i + 1) % 2], &level[i % 2]);
  }
  add_rim (scene->bed, &level[(n + 1) % 2], 1);
  scene->bed_span[0] = (float)low;
  scene->bed_span[1] = (float)high;
}
