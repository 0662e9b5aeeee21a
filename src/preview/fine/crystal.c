/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/crystal.h"

#include "preview/gl/gl-frame.h"

#define GROOVE                                                                                     \
  0.28               /* how much darker the cord is between its turns (common practice, no source) \
                      */
#define FROSTED 0.55 /* how rough a frosted end is, 0: polished */
#define BROKEN 0.12  /* and a broken one between its hills */
#define FORWARD 0.5  /* how much veils scatter forward, 0: evenly */
#define ENOUGH 0.25  /* beams that keep less end by lot */

void
bw_crystal_init (BwCrystal *crystal, const BwScene *scene, gboolean worn)
{
  const BwMineralOptics *optics = &scene->stone_optics;
  *crystal = (BwCrystal){ .n = MIN ((int)scene->stone_planes->len, BW_STONE_MAX_FACES),
                          .bending = bw_cauchy_through (&optics->index),
                          .index = optics->index.n_d,
                          .low = INFINITY,
                          .high = -INFINITY,
                          .zoning = optics->zoning,
                          .milk = optics->milk,
                          .veils = optics->veils,
                          .turn = MAX ((double)scene->cord_width, 0.05),
                          .groove = GROOVE,
                          .striae = scene->stone_striae,
                          .swell = 1,
                          .look = scene->look,
                          .nature = scene->nature,
                          .needles = { 0.62, 0.40, 0.13 } };
  for (int i = 0; i < crystal->n; i++) {
    const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, i);
    crystal->distance[i] = (double)plane->distance;
    for (int k = 0; k < 3; k++)
      crystal->normal[i][k] = (double)plane->normal[k];
  }
  for (guint i = 0; i < scene->stone->len; i++) {
    double z = (double)g_array_index (scene->stone, BwSceneVertex, i).at[2];
    crystal->low = MIN (crystal->low, z);
    crystal->high = MAX (crystal->high, z);
  }
  for (int k = 0; k < 3; k++) {
    crystal->takes[k] = -log (CLAMP ((double)scene->stone_keeps[k], 1e-3, 1)) / 10;
    crystal->cord[k] = (double)bw_cord_colour[k];
  }
  float shift[3];
  bw_scene_veil_shift (scene, shift);
  for (int k = 0; k < 3; k++)
    crystal->veil_shift[k] = 64 * (double)shift[k];
  crystal->bed_low = (double)scene->bed_span[0];
  crystal->bed_high = worn ? (double)scene->bed_span[1] : crystal->bed_low;
}

int
bw_crystal_ahead (const BwCrystal *crystal, BwVec3 from, BwVec3 way, double *there)
{
  int met = 0;
  double nearest = INFINITY;
  for (int i = 0; i < crystal->n; i++) {
    const double *n = crystal->normal[i];
    double speed = n[0] * way.x + n[1] * way.y + n[2] * way.z;
    double off = crystal->distance[i] - (n[0] * from.x + n[1] * from.y + n[2] * from.z);
    /* Without a division for faces that lie farther away. */
    if (speed > 1e-9 && off < nearest * speed) {
      nearest = off / speed;
      met = i;
    }
  }
  *there = MAX (nearest, 0);
  return met;
}

static double
lattice (int x, int y, int z)
{
  guint64 place = (guint64)(guint32)x * 73856093u ^ (guint64)(guint32)y * 19349663u
                  ^ (guint64)(guint32)z * 83492791u;
  return (double)(bw_stir (place) >> 40) / 16777216;
}

/* Smooth noise, 0..1. */
static double
noise (double x, double y, double z)
{
  double floor_x = floor (x), floor_y = floor (y), floor_z = floor (z), sum = 0;
  double part[3] = { x - floor_x, y - floor_y, z - floor_z };
  for (int k = 0; k < 8; k++) {
    double weight = 1;
    for (int axis = 0; axis < 3; axis++) {
      double smooth = part[axis] * part[axis] * (3 - 2 * part[axis]);
      weight *= k >> axis & 1 ? smooth : 1 - smooth;
    }
    sum += weight
           * lattice ((int)floor_x + (k & 1), (int)floor_y + (k >> 1 & 1), (int)floor_z + (k >> 2));
  }
  return sum;
}

/* --- Its skin ----------------------------------------------------------------------------------
 */

/* The slopes of faint lines and of deep ones, both common practice, no source; what the shader of
 * the stone view draws. `across` and `along` them, mm. */
static double
slope_of_lines (const BwCrystal *crystal, double face, double across, double along)
{
  double faint = sin (across * 2.9 + 0.7 * sin (across * 0.83 + 3 * face))
                 + 0.6 * sin (across * 7.3 + face * 9);
  double swell = 0.35 * sin (0.45 * across + 5 * face) * sin (0.8 * along);
  double wander = across + 0.35 * sin (across * 0.7 + 5 * face);
  double deep = 0.18 * sin (wander * 4.1 + face * 3) + 0.22 * sin (wander * 9.7 + face * 7)
                + 0.17 * sin (wander * 17.3 + face * 11);
  double here = 0.55 + 0.45 * sin (across * 0.9 + 4 * face);
  return 0.010 * (faint + swell) + crystal->look.growth_lines * here * deep;
}

/* What has no lines is cut and polished, and swells a little (common practice, no source). */
static BwVec3
swollen (const BwCrystal *crystal, BwVec3 aside, BwVec3 at)
{
  double height = (at.z - crystal->low) / MAX (crystal->high - crystal->low, 1e-6);
  BwVec3 lean = bw_vec3_scale (aside, 0.016 * bw_vec3_dot (at, aside));
  lean.z += 0.24 * (height - 0.5);
  return bw_vec3_scale (lean, crystal->swell);
}

/* How a face of the prism leans at a point: between the lines that growth left on it, round the
 * prism or along it, or as it was cut. */
static BwVec3
lined (const BwCrystal *crystal, BwVec3 face, BwVec3 at)
{
  double steep = 1 - CLAMP ((fabs (face.z) - 0.15) / 0.2, 0, 1);
  BwVec3 up = bw_vec3 (0, 0, 1), aside = bw_vec3 (face.y, -face.x, 0);
  gboolean is_along = crystal->striae == BW_STRIAE_ALONG;
  BwVec3 way = is_along ? aside : up, rest = is_along ? up : aside;
  double slope = slope_of_lines (crystal, face.x, bw_vec3_dot (at, way), bw_vec3_dot (at, rest));
  BwVec3 lean = crystal->striae == BW_STRIAE_NONE ? swollen (crystal, aside, at)
                                                  : bw_vec3_scale (way, slope);
  return bw_vec3_add (face, bw_vec3_scale (lean, steep));
}

static gboolean
is_natural_base (const BwCrystal *crystal, BwVec3 face)
{
  return crystal->look.base != BW_BASE_PLAIN && face.z < -0.95;
}

/* A hollow shell whose ripples run round where the blow fell. */
static BwVec3
chipped (const BwCrystal *crystal, BwVec3 normal, BwVec3 at)
{
  for (int i = 0; i < crystal->nature.n_chips; i++) {
    const BwChip *chip = &crystal->nature.chip[i];
    BwVec3 off = bw_vec3_sub (at, chip->at);
    double away = bw_vec3_length (off), radius = chip->radius;
    radius *= 0.88 + 0.12 * sin (7 * (0.7 * off.x + 0.5 * off.y + 0.3 * off.z) / radius + i);
    if (away < radius)
      normal
          = bw_glass_unit (bw_vec3_sub (bw_vec3_scale (chip->out, 0.8 * radius),
                                        bw_vec3_scale (off, 1 + 0.25 * sin (16 * away / radius))));
  }
  return normal;
}

/* A broken end is a hilly ground. */
static BwVec3
broken (const BwCrystal *crystal, BwVec3 normal, BwVec3 at)
{
  const double step = 0.05;
  for (double size = 0.35, height = 0.9; size < 2; size *= 2.1, height *= 0.5) {
    double x = at.x * size + crystal->veil_shift[0], y = at.y * size + crystal->veil_shift[1];
    double here = noise (x, y, 0.5);
    normal.x += height * size * (here - noise (x + step, y, 0.5)) / step;
    normal.y += height * size * (here - noise (x, y + step, 0.5)) / step;
  }
  return bw_glass_unit (normal);
}

BwVec3
bw_crystal_grain (const BwCrystal *crystal, BwVec3 face, BwVec3 at)
{
  BwVec3 normal = lined (crystal, face, at);
  if (crystal->look.base == BW_BASE_BROKEN && is_natural_base (crystal, face))
    normal = broken (crystal, normal, at);
  return chipped (crystal, bw_glass_unit (normal), at);
}

BwVec3
bw_crystal_facet (const BwCrystal *crystal, BwVec3 face, BwVec3 at, BwVec3 way, BwLot *lot)
{
  BwVec3 normal = bw_crystal_grain (crystal, face, at);
  if (is_natural_base (crystal, face))
    normal = bw_glass_facet (normal, crystal->look.base == BW_BASE_FROSTED ? FROSTED : BROKEN, lot);
  return bw_vec3_dot (normal, way) < -1e-6 ? normal : face;
}

double
bw_crystal_index (const BwCrystal *crystal, const BwBeam *beam)
{
  return beam->nm > 0 ? bw_cauchy_index (&crystal->bending, beam->nm) : crystal->index;
}

/* --- Colour and veils --------------------------------------------------------------------------
 */

/* Over the whole height the mean is 1. */
static double
depth_of_colour (const BwCrystal *crystal, double z)
{
  double height = (z - crystal->low) / MAX (crystal->high - crystal->low, 1e-6);
  return 1 + crystal->zoning * (2 * CLAMP (height, 0, 1) - 1);
}

static void
dim (const BwCrystal *crystal, BwBeam *beam, double way)
{
  double depth = way * depth_of_colour (crystal, beam->from.z + beam->way.z * way / 2);
  for (int i = 0; i < 3; i++)
    if (crystal->takes[i] > 0)
      beam->keeps[i] *= exp (-crystal->takes[i] * depth);
}

/* Veils are sheets: where a slow noise passes through its middle. */
static double
veil (const BwCrystal *crystal, BwVec3 at)
{
  double size = 5 / MAX (crystal->high - crystal->low, 1e-6);
  double height = (at.z - crystal->low) / MAX (crystal->high - crystal->low, 1e-6);
  const double *shift = crystal->veil_shift;
  double slow = noise (at.x * size * 1.6 + shift[0], at.y * size * 1.6 + shift[1],
                       at.z * size * 0.9 + shift[2]);
  double fine = noise (at.x * size * 7, at.y * size * 7, at.z * size * 5);
  double sheet = CLAMP (1 - fabs (slow - 0.5) * 7, 0, 1);
  return sheet * (0.35 + 0.65 * fine) * CLAMP (1.15 - 1.3 * height, 0, 1);
}

/* A new direction, leaning forward (L.G. Henyey and J.L. Greenstein, 1941). */
static BwVec3
scattered (BwVec3 way, BwLot *lot)
{
  double u = bw_lot_next (lot), v = bw_lot_next (lot);
  double part = (1 - FORWARD * FORWARD) / (1 - FORWARD + 2 * FORWARD * u);
  double cosine = (1 + FORWARD * FORWARD - part * part) / (2 * FORWARD);
  return bw_glass_about (way, CLAMP (cosine, -1, 1), 2 * G_PI * v);
}

/* Whether it is scattered before it has gone `way`, and where: free paths by the greatest density,
 * taken by the true one (E. Woodcock's tracking). */
static gboolean
meets_veil (const BwCrystal *crystal, BwBeam *beam, double way, double *there)
{
  double most = crystal->milk + crystal->veils, t = 0;
  if (most <= 0)
    return FALSE;
  for (;;) {
    t -= log (1 - bw_lot_next (&beam->lot)) / most;
    if (t >= way)
      return FALSE;
    BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, t));
    double here = crystal->milk + crystal->veils * veil (crystal, at);
    if (bw_lot_next (&beam->lot) * most < here)
      break;
  }
  *there = t;
  return TRUE;
}

/* --- Needles -----------------------------------------------------------------------------------
 */

/* Where a ray meets a round rod, if within `most`; its ends are open. */
static gboolean
meets_rod (const BwNeedle *rod, BwVec3 from, BwVec3 way, double most, double *there)
{
  BwVec3 along = bw_vec3_sub (rod->to, rod->from), off = bw_vec3_sub (from, rod->from);
  double size = bw_vec3_dot (along, along), lean = bw_vec3_dot (way, along);
  double ahead = bw_vec3_dot (off, along);
  double a = size - lean * lean, b = size * bw_vec3_dot (off, way) - ahead * lean;
  double c = size * (bw_vec3_dot (off, off) - rod->radius * rod->radius) - ahead * ahead;
  double inner = b * b - a * c;
  if (inner <= 0 || a < 1e-9)
    return FALSE;
  *there = (-b - sqrt (inner)) / a;
  double height = ahead + *there * lean;
  return *there > BW_BEAM_CLEAR && *there < most && height > 0 && height < size;
}

/* The needle met first within *there, and the way to it; NULL where none is. */
static const BwNeedle *
needle_ahead (const BwCrystal *crystal, const BwBeam *beam, double *there)
{
  const BwNeedle *met = NULL;
  double way;
  for (int i = 0; i < crystal->nature.n_needles; i++) {
    const BwNeedle *needle = &crystal->nature.needle[i];
    if (meets_rod (needle, beam->from, beam->way, *there, &way)) {
      *there = way;
      met = needle;
    }
  }
  return met;
}

/* It scatters as a dull rod does. */
static void
bounce_off_needle (const BwCrystal *crystal, BwBeam *beam, const BwNeedle *needle)
{
  BwVec3 along = bw_glass_unit (bw_vec3_sub (needle->to, needle->from));
  BwVec3 off = bw_vec3_sub (beam->from, needle->from);
  BwVec3 out = bw_glass_unit (bw_vec3_sub (off, bw_vec3_scale (along, bw_vec3_dot (off, along))));
  bw_beam_dim (beam, crystal->needles);
  bw_beam_leave (beam, beam->from, out, bw_glass_scatter (out, &beam->lot));
}

/* --- From face to face -------------------------------------------------------------------------
 */

static void
go (const BwCrystal *crystal, BwBeam *beam, double way)
{
  dim (crystal, beam, way);
  beam->from = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, way));
}

static gboolean
is_worn (const BwCrystal *crystal, BwVec3 face, double z)
{
  return z > crystal->bed_low && z < crystal->bed_high && fabs (face.z) < 0.9;
}

/* The cord behind the face scatters it back in. */
static void
bounce_off_cord (const BwCrystal *crystal, BwBeam *beam, BwVec3 face)
{
  double turn = beam->from.z / crystal->turn, groove = fabs (turn - floor (turn) - 0.5);
  for (int i = 0; i < 3; i++)
    beam->keeps[i] *= crystal->cord[i] * (1 - 2 * crystal->groove * groove);
  beam->way = bw_glass_scatter (bw_vec3_scale (face, -1), &beam->lot);
}

/* TRUE when it leaves. */
static gboolean
meet_face (const BwCrystal *crystal, BwBeam *beam, BwVec3 face)
{
  double index = bw_crystal_index (crystal, beam);
  BwVec3 facet
      = bw_crystal_facet (crystal, face, beam->from, bw_vec3_scale (beam->way, -1), &beam->lot);
  BwVec3 inward = bw_vec3_scale (facet, -1), out;
  double cosine = MAX (-bw_vec3_dot (beam->way, inward), 1e-6);
  double mirrored = bw_glass_fresnel (cosine, index);
  if (bw_lot_next (&beam->lot) >= mirrored && bw_glass_bend (beam->way, inward, index, &out)
      && bw_vec3_dot (out, face) > 1e-6) {
    bw_beam_leave (beam, beam->from, face, out);
    return TRUE;
  }
  BwVec3 back = bw_glass_mirror (beam->way, inward);
  if (bw_vec3_dot (back, face) > -1e-6) /* the grain would let it slip through the true face */
    back = bw_glass_mirror (beam->way, face);
  beam->way = back;
  return FALSE;
}

gboolean
bw_crystal_follow (const BwCrystal *crystal, BwBeam *beam)
{
  do {
    double there, scatter;
    const double *n = crystal->normal[bw_crystal_ahead (crystal, beam->from, beam->way, &there)];
    const BwNeedle *needle = needle_ahead (crystal, beam, &there);
    BwVec3 face = bw_vec3 (n[0], n[1], n[2]);
    if (meets_veil (crystal, beam, there, &scatter)) {
      go (crystal, beam, scatter);
      beam->way = scattered (beam->way, &beam->lot);
      continue;
    }
    go (crystal, beam, there);
    if (needle)
      bounce_off_needle (crystal, beam, needle);
    else if (is_worn (crystal, face, beam->from.z))
      bounce_off_cord (crystal, beam, face);
    else if (meet_face (crystal, beam, face))
      return TRUE;
  } while (bw_beam_goes_on (beam, ENOUGH));
  return FALSE;
}
