/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A beam is followed backwards from the eye through whatever it meets (J.T. Kajiya's path tracing).
 * At dull surfaces the lamps are asked for at once, and found as well by where the beam goes on;
 * both are weighed by how likely each was to find them (E. Veach's balance heuristic). */
#include "preview/fine/world.h"

#include "preview/fine/world-shapes.h"
#include "preview/scene/scene-bead.h"

#define FAR 1e6     /* mm: beyond everything */
#define ENOUGH 0.35 /* beams that keep less end by lot */
#define BRIGHTEST 9 /* of one glance: what is brighter would be a speck in the picture */

/* The middles of red, green and blue, and how far about them a beam's wavelength may lie, nm: close
 * to where the eye's three kinds of cones answer most (from memory). */
static const double middle_nm[3] = { 610, 545, 460 };
#define ABOUT_NM 40

static BwVec3
wide (const float v[3])
{
  return bw_vec3 ((double)v[0], (double)v[1], (double)v[2]);
}

static BwVec3
against (BwVec3 normal, BwVec3 way)
{
  return bw_vec3_dot (normal, way) > 0 ? bw_vec3_scale (normal, -1) : normal;
}

/* --- Lamps -------------------------------------------------------------------------------------
 */

static gboolean
is_lit (const BwWorld *world, BwVec3 from, BwVec3 way, double most)
{
  if (world->studio.table && from.z + way.z * most < world->studio.table_z)
    return FALSE;
  return !bw_rays_blocked (world->rays, from, way, most);
}

/* What one lamp adds at a dull place; share: the chance that it was this one that was asked. */
static void
ask_lamp (const BwWorld *world, BwBeam *beam, const BwLamp *lamp, BwVec3 from, BwVec3 normal,
          double share)
{
  BwVec3 at = bw_lamp_point (lamp, &beam->lot), off = bw_vec3_sub (at, from);
  double most = bw_vec3_length (off), density = share * bw_lamp_density (lamp, from, at);
  BwVec3 way = bw_vec3_scale (off, 1 / most);
  double scattered = bw_vec3_dot (way, normal) / G_PI;
  if (scattered <= 0 || !isfinite (density) || !is_lit (world, from, way, most * (1 - 1e-5)))
    return;
  bw_beam_find (beam, lamp->light, bw_lamp_shine (lamp, at) * scattered / (density + scattered));
}

/* All of them where the eye looks, one by lot farther on. */
static void
ask_lamps (const BwWorld *world, BwBeam *beam, BwVec3 from, BwVec3 normal)
{
  const BwStudio *studio = &world->studio;
  gboolean all = beam->steps == 0;
  beam->share = all ? 1 : 1.0 / MAX (studio->n_lamps, 1);
  if (all)
    for (int i = 0; i < studio->n_lamps; i++)
      ask_lamp (world, beam, &studio->lamp[i], from, normal, 1);
  else if (studio->n_lamps) {
    int i = (int)(bw_lot_next (&beam->lot) * studio->n_lamps);
    ask_lamp (world, beam, &studio->lamp[i], from, normal, beam->share);
  }
}

/* The beam itself has come to a lamp. */
static void
reach_lamp (const BwWorld *world, BwBeam *beam, const BwLamp *lamp, double there)
{
  BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, there));
  double weight = 1;
  if (beam->density > 0)
    weight = beam->density / (beam->density + beam->share * bw_lamp_density (lamp, beam->from, at));
  bw_beam_find (beam, lamp->light, weight * bw_lamp_shine (lamp, at));
}

/* --- Surfaces ----------------------------------------------------------------------------------
 */

static void
scatter (const BwWorld *world, BwBeam *beam, const double dull[3], BwVec3 at, BwVec3 normal,
         BwVec3 face)
{
  bw_beam_dim (beam, dull);
  beam->from = bw_vec3_add (at, bw_vec3_scale (face, BW_BEAM_CLEAR));
  ask_lamps (world, beam, beam->from, normal);
  beam->way = bw_glass_scatter (normal, &beam->lot);
  beam->density = MAX (bw_vec3_dot (beam->way, normal) / G_PI, 1e-9);
  double depth = bw_vec3_dot (beam->way, face);
  if (depth < 0)
    beam->way = bw_vec3_sub (beam->way, bw_vec3_scale (face, 2 * depth));
}

static void
meet_surface (const BwWorld *world, BwBeam *beam, const BwSurface *surface, BwVec3 at,
              BwVec3 normal, BwVec3 face)
{
  double cosine = MAX (-bw_vec3_dot (beam->way, normal), 0);
  double mirrors = bw_surface_mirrors (surface, cosine);
  if (mirrors > 0 && bw_lot_next (&beam->lot) < mirrors)
    bw_surface_mirror (surface, beam, at, normal, face);
  else
    scatter (world, beam, surface->dull, at, normal, face);
}

/* --- Beads -------------------------------------------------------------------------------------
 */

typedef struct {
  BwVec3 x, y, z, at;
} Frame;

static Frame
frame_of (const BwSceneBead *bead)
{
  float out[3], axis[3];
  bw_bead_out (bead, out);
  bw_bead_axis (bead, axis);
  BwVec3 x = wide (out), z = wide (axis);
  return (Frame){ x, bw_vec3_cross (z, x), z, wide (bead->at) };
}

static BwVec3
turn_in (const Frame *f, BwVec3 v)
{
  return bw_vec3 (bw_vec3_dot (f->x, v), bw_vec3_dot (f->y, v), bw_vec3_dot (f->z, v));
}

static BwVec3
turn_out (const Frame *f, BwVec3 v)
{
  return bw_vec3_add (bw_vec3_scale (f->x, v.x),
                      bw_vec3_add (bw_vec3_scale (f->y, v.y), bw_vec3_scale (f->z, v.z)));
}

/* In the bead's own axes: the beam is bent in and followed until it is out again. */
static gboolean
go_through (const BwWorld *world, BwBeam *beam, const Frame *frame, const BwBeadLook *look,
            BwVec3 at, BwVec3 normal, BwVec3 bent)
{
  beam->from = bw_vec3_sub (at, bw_vec3_scale (normal, BW_BEAM_CLEAR));
  beam->way = bent;
  gboolean out = bw_bead_follow (&world->bead, look, beam);
  beam->from = bw_vec3_add (frame->at, turn_out (frame, beam->from));
  beam->way = turn_out (frame, beam->way);
  beam->density = 0;
  return out;
}

static gboolean
meet_glass (const BwWorld *world, BwBeam *beam, const Frame *frame, const BwBeadLook *look,
            BwVec3 at, BwVec3 normal, BwVec3 way)
{
  BwVec3 bent, facet = against (bw_glass_facet (normal, look->rough, &beam->lot), way);
  double mirrors = bw_glass_fresnel (-bw_vec3_dot (way, facet), 1 / BW_BEAD_INDEX);
  if (bw_lot_next (&beam->lot) >= mirrors && bw_glass_bend (way, facet, 1 / BW_BEAD_INDEX, &bent))
    return go_through (world, beam, frame, look, at, normal, bent);
  BwSurface gloss = { .metal = { 1, 1, 1 }, .rough = look->rough };
  BwVec3 out = turn_out (frame, normal);
  bw_surface_mirror (&gloss, beam, bw_vec3_add (frame->at, turn_out (frame, at)), out, out);
  return TRUE;
}

/* No two beads are quite alike. */
static void
own_colour (const BwSceneBead *bead, gboolean pure, float colour[3])
{
  float light[3],
      x = sinf (bead->at[0] * 12.9f + bead->at[1] * 78.2f + bead->at[2] * 37.7f) * 437.585f;
  bw_bead_light (bead, light);
  for (int i = 0; i < 3; i++)
    colour[i] = pure ? 1 : CLAMP (light[i] * (0.95f + 0.1f * (x - floorf (x))), 0, 1);
}

static gboolean
meet_bead (const BwWorld *world, BwBeam *beam, const BwRayHit *hit)
{
  const BwSceneBead *bead
      = &g_array_index (world->scene->beads, BwSceneBead, hit->shape - BW_SHAPE_BEADS);
  Frame frame = frame_of (bead);
  BwVec3 there = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, hit->way));
  BwVec3 at = turn_in (&frame, bw_vec3_sub (there, frame.at)), way = turn_in (&frame, beam->way);
  if (bw_vec3_dot (hit->face, way) > 0) { /* from inside, where two beads touch */
    bw_beam_leave (beam, there, beam->way, beam->way);
    return TRUE;
  }
  gboolean in_hole;
  float colour[3];
  BwBeadLook look;
  own_colour (bead, world->pure, colour);
  bw_bead_look_init (&look, &world->bead, colour, (BwFinish)bead->finish, world->pure);
  BwVec3 normal = bw_bead_shape_normal (&world->bead, at, &in_hole);
  if (bw_vec3_dot (normal, way) >= 0)
    normal = hit->face;
  if (look.glass)
    return meet_glass (world, beam, &frame, &look, at, normal, way);
  meet_surface (world, beam, &look.skin, there, turn_out (&frame, normal),
                turn_out (&frame, hit->face));
  return TRUE;
}

/* --- Cord, bed, thread, table ------------------------------------------------------------------
 */

/* Turn lies on turn: the bed's normal leans as the cord's round does. */
static BwVec3
wound (const BwWorld *world, BwVec3 normal, BwVec3 at, double *groove)
{
  double turn
      = (at.z - world->crystal.bed_low) / world->crystal.turn - atan2 (at.y, at.x) / (2 * G_PI);
  double round = 2 * (turn - floor (turn)) - 1, steep = 1 - fabs (normal.z);
  *groove = 1 - 0.55 * round * round * round * round * steep;
  normal.z += 0.9 * round * steep;
  return bw_glass_unit (normal);
}

static void
meet_cord (const BwWorld *world, BwBeam *beam, const BwRayHit *hit, BwVec3 at, BwVec3 normal,
           BwVec3 face)
{
  static const double leather[3] = { 0.155, 0.088, 0.050 };
  BwSurface surface = { .gloss = 0.03, .rough = 0.45, .metal = { 1, 1, 1 } };
  double shade = 1;
  if (hit->shape == BW_SHAPE_BED)
    normal = wound (world, normal, at, &shade);
  for (int i = 0; i < 3; i++) {
    double own = hit->shape == BW_SHAPE_BED      ? world->crystal.cord[i] * shade
                 : hit->shape == BW_SHAPE_THREAD ? world->thread[i]
                                                 : leather[i];
    surface.dull[i] = world->pure ? 1 : own;
  }
  if (hit->shape == BW_SHAPE_THREAD)
    surface.gloss = 0;
  meet_surface (world, beam, &surface, at, normal, face);
}

static void
meet_ring (const BwWorld *world, BwBeam *beam, BwVec3 at, BwVec3 normal, BwVec3 face)
{
  BwSurface surface = {
    .dull = { 0.5, 0.49, 0.47 }, .always = 0.92, .rough = 0.12, .metal = { 0.92, 0.90, 0.86 }
  };
  for (int i = 0; world->pure && i < 3; i++)
    surface.dull[i] = surface.metal[i] = 1;
  meet_surface (world, beam, &surface, at, normal, face);
}

/* FALSE: it goes on through, where less than all of it is shown, and out of what it has come into
 * through something pressed into it. */
static gboolean
is_shown (const BwWorld *world, const BwRayHit *hit, BwVec3 way, BwLot *lot)
{
  if (bw_vec3_dot (hit->face, way) > 0)
    return hit->shape == BW_SHAPE_STONE || hit->shape >= BW_SHAPE_BEADS;
  if (hit->shape != BW_SHAPE_CORD)
    return TRUE;
  double shown = bw_skin_shown (&world->cord, hit);
  return shown >= 1 || bw_lot_next (lot) < shown;
}

static BwVec3
cloth_normal (const BwWorld *world, const BwRayHit *hit, BwVec3 way)
{
  const BwSkin *skin = hit->shape == BW_SHAPE_BED    ? &world->bed
                       : hit->shape == BW_SHAPE_CORD ? &world->cord
                                                     : &world->ring;
  BwVec3 face = against (hit->face, way);
  if (hit->shape == BW_SHAPE_THREAD)
    return face;
  BwVec3 normal = bw_skin_normal (skin, hit);
  return bw_vec3_dot (normal, way) < 0 ? normal : face;
}

static gboolean
meet_cloth (const BwWorld *world, BwBeam *beam, const BwRayHit *hit)
{
  BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, hit->way));
  BwVec3 face = against (hit->face, beam->way), normal = cloth_normal (world, hit, beam->way);
  if (!is_shown (world, hit, beam->way, &beam->lot))
    bw_beam_leave (beam, at, beam->way, beam->way);
  else if (hit->shape == BW_SHAPE_RING)
    meet_ring (world, beam, at, normal, face);
  else
    meet_cord (world, beam, hit, at, normal, face);
  return TRUE;
}

/* --- The stone ---------------------------------------------------------------------------------
 */

static BwVec3
stone_face (const BwWorld *world, const BwRayHit *hit)
{
  return wide (g_array_index (world->scene->stone, BwSceneVertex, 3 * hit->element).normal);
}

static void
mirror_off_stone (BwBeam *beam, BwVec3 at, BwVec3 normal, BwVec3 face)
{
  BwSurface gloss = { .metal = { 1, 1, 1 } };
  bw_surface_mirror (&gloss, beam, at, normal, face);
}

/* Bent in, and followed until it is out again. */
static gboolean
enter_stone (const BwWorld *world, BwBeam *beam, BwVec3 at, BwVec3 normal, BwVec3 face)
{
  BwVec3 bent;
  if (!bw_glass_bend (beam->way, normal, 1 / bw_crystal_index (&world->crystal, beam), &bent))
    return FALSE;
  bw_beam_leave (beam, at, bw_vec3_scale (face, -1), bent);
  beam->density = 0;
  return bw_crystal_follow (&world->crystal, beam);
}

static gboolean
meet_stone (const BwWorld *world, BwBeam *beam, const BwRayHit *hit)
{
  BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, hit->way));
  BwVec3 face = stone_face (world, hit);
  if (bw_vec3_dot (face, beam->way) >= 0) {
    bw_beam_leave (beam, at, beam->way, beam->way);
    return TRUE;
  }
  BwVec3 normal = bw_crystal_facet (&world->crystal, face, at, beam->way, &beam->lot);
  double cosine = MAX (-bw_vec3_dot (beam->way, normal), 1e-6);
  double mirrored = bw_glass_fresnel (cosine, 1 / bw_crystal_index (&world->crystal, beam));
  if (bw_lot_next (&beam->lot) >= mirrored)
    return enter_stone (world, beam, at, normal, face);
  mirror_off_stone (beam, at, normal, face);
  return TRUE;
}

/* --- On and on ---------------------------------------------------------------------------------
 */

/* The way to the table, if it is met within so far from its foot. */
static double
table_ahead (const BwWorld *world, const BwBeam *beam, double reach)
{
  const BwStudio *studio = &world->studio;
  if (!studio->table || beam->way.z > -1e-9)
    return INFINITY;
  double there = (studio->table_z - beam->from.z) / beam->way.z;
  double x = beam->from.x + beam->way.x * there - studio->foot.x;
  double y = beam->from.y + beam->way.y * there - studio->foot.y;
  return there > 0 && hypot (x, y) < reach ? there : (double)INFINITY;
}

static gboolean
meet (const BwWorld *world, BwBeam *beam, const BwRayHit *hit)
{
  if (hit->shape >= BW_SHAPE_BEADS)
    return meet_bead (world, beam, hit);
  if (hit->shape == BW_SHAPE_STONE)
    return meet_stone (world, beam, hit);
  return meet_cloth (world, beam, hit);
}

/* One step; FALSE where the beam has come to light, or ended. */
static gboolean
go_on (const BwWorld *world, BwBeam *beam)
{
  BwRayHit hit;
  double lamp_way, around[3], table = table_ahead (world, beam, world->studio.table_reach);
  gboolean met = bw_rays_nearest (world->rays, beam->from, beam->way, MIN (table, FAR), &hit);
  double most = met ? hit.way : MIN (table, FAR);
  int lamp = bw_studio_meet (&world->studio, beam->from, beam->way, most, &lamp_way);
  if (lamp >= 0) {
    reach_lamp (world, beam, &world->studio.lamp[lamp], lamp_way);
    return FALSE;
  }
  if (met)
    return meet (world, beam, &hit);
  if (isfinite (table)) {
    BwVec3 up = bw_vec3 (0, 0, 1), at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, table));
    scatter (world, beam, world->studio.table_keeps, at, up, up);
    return TRUE;
  }
  bw_studio_around (&world->studio, beam->way, around);
  bw_beam_find (beam, around, 1);
  return FALSE;
}

static void
follow (const BwWorld *world, BwBeam *beam)
{
  while (go_on (world, beam) && bw_beam_goes_on (beam, ENOUGH))
    continue;
}

/* --- What the eye sees first -------------------------------------------------------------------
 */

static void
take (BwGlance *glance, const BwBeam *beam)
{
  for (int i = 0; i < 3; i++)
    glance->found[i] += MIN (beam->found[i], BRIGHTEST);
}

/* Each colour goes its own way through the stone. */
static void
see_through_stone (const BwWorld *world, const BwBeam *beam, BwVec3 at, BwVec3 normal, BwVec3 face,
                   const double mirrored[3], BwGlance *glance)
{
  BwLot lot = beam->lot;
  double about = (bw_lot_next (&lot) + bw_lot_next (&lot) - 1) * ABOUT_NM;
  for (int i = 0; i < 3; i++) {
    BwBeam one = *beam;
    one.lot = lot;
    one.nm = middle_nm[i] + about;
    for (int k = 0; k < 3; k++)
      one.keeps[k] = k == i ? 1 - mirrored[i] : 0;
    one.worth = MAX (one.keeps[i], 1e-9);
    if (enter_stone (world, &one, at, normal, face) && bw_beam_goes_on (&one, ENOUGH))
      follow (world, &one);
    take (glance, &one);
  }
}

/* What is mirrored and what goes in are both looked for. */
static void
see_stone (const BwWorld *world, BwBeam *beam, const BwRayHit *hit, BwGlance *glance)
{
  BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, hit->way));
  BwVec3 face = stone_face (world, hit);
  BwVec3 normal = bw_crystal_facet (&world->crystal, face, at, beam->way, &beam->lot);
  double cosine = MAX (-bw_vec3_dot (beam->way, normal), 1e-6);
  BwBeam mirrored = *beam;
  for (int i = 0; i < 3; i++) {
    double index = bw_cauchy_index (&world->crystal.bending, middle_nm[i]);
    mirrored.keeps[i] = bw_glass_fresnel (cosine, 1 / index);
  }
  see_through_stone (world, beam, at, normal, face, mirrored.keeps, glance);
  mirrored.worth = bw_beam_most (&mirrored);
  mirror_off_stone (&mirrored, at, normal, face);
  mirrored.steps++;
  follow (world, &mirrored);
  take (glance, &mirrored);
}

static void
describe (const BwWorld *world, const BwRayHit *hit, BwVec3 way, BwGlance *glance)
{
  glance->cover = 1;
  glance->normal = against (hit->face, way);
  for (int i = 0; i < 3; i++)
    glance->colour[i] = 1;
  if (hit->shape < BW_SHAPE_BEADS)
    return;
  const BwSceneBead *bead
      = &g_array_index (world->scene->beads, BwSceneBead, hit->shape - BW_SHAPE_BEADS);
  Frame frame = frame_of (bead);
  glance->normal = turn_out (&frame, hit->face);
  float light[3];
  bw_bead_light (bead, light);
  for (int i = 0; i < 3; i++)
    glance->colour[i] = (double)light[i];
}

/* How the piece changes the light on the table at a place: what falls there with it, and without.
 * Where it changes nothing there is no noise either. */
static void
see_table (const BwWorld *world, BwBeam *beam, double there, BwGlance *glance)
{
  const BwStudio *studio = &world->studio;
  BwVec3 up = bw_vec3 (0, 0, 1), at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, there));
  double change[3] = { 0, 0, 0 }, around[3];
  at.z += BW_BEAM_CLEAR;
  for (int k = 0; k < studio->n_lamps; k++) {
    const BwLamp *lamp = &studio->lamp[k];
    BwVec3 point = bw_lamp_point (lamp, &beam->lot), off = bw_vec3_sub (point, at);
    double most = bw_vec3_length (off);
    BwVec3 way = bw_vec3_scale (off, 1 / most);
    if (way.z <= 0 || !bw_rays_blocked (world->rays, at, way, most))
      continue;
    double lost = bw_lamp_shine (lamp, point) * way.z / (G_PI * bw_lamp_density (lamp, at, point));
    for (int i = 0; i < 3; i++)
      change[i] -= lost * lamp->light[i];
  }
  BwRayHit hit;
  beam->from = at;
  beam->way = bw_glass_scatter (up, &beam->lot);
  if (bw_rays_nearest (world->rays, beam->from, beam->way, FAR, &hit)) {
    bw_studio_around (studio, beam->way, around);
    beam->steps = 1;
    if (meet (world, beam, &hit))
      follow (world, beam);
    for (int i = 0; i < 3; i++)
      change[i] += MIN (beam->found[i], BRIGHTEST) - around[i];
  }
  for (int i = 0; i < 3; i++)
    glance->ground[i] = 1 + change[i] / studio->falls_on_foot[i];
}

void
bw_world_look (const BwWorld *world, BwVec3 from, BwVec3 way, BwLot lot, BwGlance *glance)
{
  BwBeam beam
      = { .from = from, .way = way, .keeps = { 1, 1, 1 }, .share = 1, .worth = 1, .lot = lot };
  BwRayHit hit;
  *glance = (BwGlance){ .ground = { 1, 1, 1 } };
  double table = table_ahead (world, &beam, FAR);
  while (bw_rays_nearest (world->rays, beam.from, beam.way, MIN (table, FAR), &hit)) {
    if (!is_shown (world, &hit, beam.way, &beam.lot)) {
      beam.from = bw_vec3_add (beam.from, bw_vec3_scale (beam.way, hit.way + BW_BEAM_CLEAR));
      continue;
    }
    describe (world, &hit, way, glance);
    if (hit.shape == BW_SHAPE_STONE)
      see_stone (world, &beam, &hit, glance);
    else {
      if (meet (world, &beam, &hit) && bw_beam_goes_on (&beam, ENOUGH))
        follow (world, &beam);
      take (glance, &beam);
    }
    return;
  }
  if (isfinite (table))
    see_table (world, &beam, table_ahead (world, &beam, FAR), glance);
}
