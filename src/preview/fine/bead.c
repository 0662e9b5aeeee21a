/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/bead.h"

#define ROUND 48 /* pieces round the hole */
#define RIM 4    /* pieces of a rounded rim */
#define OUTLINE (4 * (RIM + 1))
#define ENOUGH 0.2      /* beams that keep less end by lot */
#define GLASS_STEPS 200 /* walls a beam meets inside, at most */

/* --- Shape -------------------------------------------------------------------------------------
 */

/* The wall's section, once round: distance from the axis, and height. */
static void
outline (const BwBeadShape *shape, double point[OUTLINE][2])
{
  double r = shape->rounding;
  const double corner[4][2] = { { shape->radius - r, shape->half - r },
                                { shape->hole + r, shape->half - r },
                                { shape->hole + r, r - shape->half },
                                { shape->radius - r, r - shape->half } };
  for (int k = 0; k < 4; k++)
    for (int i = 0; i <= RIM; i++) {
      double angle = G_PI / 2 * (k + (double)i / RIM);
      point[k * (RIM + 1) + i][0] = corner[k][0] + r * cos (angle);
      point[k * (RIM + 1) + i][1] = corner[k][1] + r * sin (angle);
    }
}

static void
add_body (const BwBeadShape *shape)
{
  double point[OUTLINE][2];
  float corner[ROUND * OUTLINE][3];
  guint32 triangle[2 * ROUND * OUTLINE][3];
  outline (shape, point);
  for (int i = 0; i < ROUND; i++)
    for (int k = 0; k < OUTLINE; k++) {
      guint32 a = (guint32)(i * OUTLINE + k), b = (guint32)(i * OUTLINE + (k + 1) % OUTLINE);
      guint32 c = (a + OUTLINE) % (ROUND * OUTLINE), d = (b + OUTLINE) % (ROUND * OUTLINE);
      corner[a][0] = (float)(point[k][0] * cos (2 * G_PI * i / ROUND));
      corner[a][1] = (float)(point[k][0] * sin (2 * G_PI * i / ROUND));
      corner[a][2] = (float)point[k][1];
      guint32 pair[2][3] = { { a, c, b }, { b, c, d } };
      memcpy (triangle[2 * a], pair, sizeof pair);
    }
  bw_rays_add_mesh (shape->body, 0, corner, ROUND * OUTLINE, triangle, 2 * ROUND * OUTLINE);
}

gboolean
bw_bead_shape_init (BwBeadShape *shape, const BwScene *scene, GError **error)
{
  *shape = (BwBeadShape){ (double)scene->bead_radius, (double)scene->bead_half_length,
                          (double)scene->hole_radius, (double)scene->bead_rounding,
                          bw_rays_new (error) };
  if (!shape->body)
    return FALSE;
  add_body (shape);
  return bw_rays_close (shape->body, error);
}

void
bw_bead_shape_clear (BwBeadShape *shape)
{
  g_clear_pointer (&shape->body, bw_rays_free);
}

BwVec3
bw_bead_shape_normal (const BwBeadShape *shape, BwVec3 at, gboolean *in_hole)
{
  double off = hypot (at.x, at.y), middle = (shape->radius + shape->hole) / 2;
  double x = fabs (off - middle) - (shape->radius - shape->hole) / 2 + shape->rounding;
  double y = fabs (at.z) - shape->half + shape->rounding;
  if (x <= 0 && y <= 0) {
    x = x > y ? 1 : 0;
    y = 1 - x;
  }
  x = MAX (x, 0);
  y = MAX (y, 0);
  *in_hole = off < middle && x >= y;
  double size = MAX (hypot (x, y), 1e-9), out = (off < middle ? -x : x) / size;
  off = MAX (off, 1e-9);
  return bw_vec3 (out * at.x / off, out * at.y / off, (at.z < 0 ? -y : y) / size);
}

/* --- Finishes ----------------------------------------------------------------------------------
 */

/* What a mirror of silver sends back, and how uneven a hole is. */
#define SILVER 0.92
#define SILVER_ROUGH 0.2

static void
set_glass (BwBeadLook *look, const BwBeadShape *shape, const float colour[3], double depth)
{
  look->glass = TRUE;
  for (int i = 0; i < 3; i++)
    look->takes[i] = -log (CLAMP ((double)colour[i], 0.004, 1)) * depth / (2 * shape->radius);
}

static void
set_finish (BwBeadLook *look, const BwBeadShape *shape, const float colour[3], BwFinish finish)
{
  BwSurface *skin = &look->skin;
  switch (finish) {
  case BW_FINISH_MATTE:
    skin->gloss = 0.02;
    skin->rough = 0.5;
    break;
  case BW_FINISH_CLEAR:
    set_glass (look, shape, colour, 0.6);
    break;
  case BW_FINISH_FROSTED:
    set_glass (look, shape, colour, 0.4);
    look->rough = 0.42;
    break;
  case BW_FINISH_LINED:
    set_glass (look, shape, (const float[3]){ 0.93f, 0.95f, 0.96f }, 1);
    look->lined = TRUE;
    break;
  case BW_FINISH_LUSTRE:
    skin->always = 0.10;
    skin->gloss = 0.06;
    skin->rough = 0.14;
    skin->film = 1;
    break;
  case BW_FINISH_METAL:
    skin->always = 0.86;
    skin->rough = 0.2;
    break;
  case BW_FINISH_GALVANISED:
    skin->always = 0.5;
    skin->rough = 0.36;
    break;
  case BW_FINISH_RAINBOW:
    skin->always = 0.16;
    skin->gloss = 0.08;
    skin->rough = 0.1;
    skin->film = 1.6;
    break;
  case BW_FINISH_SILVER_LINED:
    set_glass (look, shape, colour, 0.5);
    look->lined = look->silver = TRUE;
    break;
  default:
    skin->rough = 0.05;
    break;
  }
}

void
bw_bead_look_init (BwBeadLook *look, const BwBeadShape *shape, const float colour[3],
                   BwFinish finish, gboolean pure)
{
  static const float white[3] = { 1, 1, 1 };
  gboolean metal = finish == BW_FINISH_METAL || finish == BW_FINISH_GALVANISED;
  *look = (BwBeadLook){ .skin = { .gloss = 0.043 } };
  set_finish (look, shape, pure ? white : colour, finish);
  for (int i = 0; i < 3; i++) {
    double own = pure ? 1 : (double)colour[i];
    look->skin.dull[i] = own * (metal ? 0.5 : pure ? 1 : 0.95);
    /* Metal mirrors more than the dull colour it is told by. */
    look->skin.metal[i] = metal ? sqrt (own) : 1;
    look->lining[i] = pure ? 1 : look->silver ? SILVER : MIN (0.05 + 0.93 * pow (own, 0.6), 0.97);
    if (pure) {
      look->takes[i] = 0;
      look->skin.dull[i] = look->skin.metal[i] = 1;
    }
  }
  if (pure)
    look->skin.film = 0;
}

/* --- Inside ------------------------------------------------------------------------------------
 */

static void
absorb (const BwBeadLook *look, BwBeam *beam, double way)
{
  for (int i = 0; i < 3; i++)
    if (look->takes[i] > 0)
      beam->keeps[i] *= exp (-look->takes[i] * way);
}

/* Mirrored or scattered back into the glass at a wall whose normal `out` leads out of it. */
static void
turn_back (BwBeam *beam, BwVec3 at, BwVec3 out, BwVec3 way)
{
  double through = bw_vec3_dot (way, out);
  if (through > -1e-3)
    way = bw_glass_unit (bw_vec3_sub (way, bw_vec3_scale (out, through + 1e-3)));
  bw_beam_leave (beam, at, bw_vec3_scale (out, -1), way);
}

/* TRUE when it leaves. */
static gboolean
meet_wall (const BwBeadLook *look, BwBeam *beam, BwVec3 at, BwVec3 out, gboolean in_hole)
{
  BwVec3 way, inward = bw_vec3_scale (out, -1);
  if (look->lined && in_hole) {
    bw_beam_dim (beam, look->lining);
    BwVec3 sent = look->silver ? bw_glass_mirror (beam->way,
                                                  bw_glass_facet (inward, SILVER_ROUGH, &beam->lot))
                               : bw_glass_scatter (inward, &beam->lot);
    turn_back (beam, at, out, sent);
    return FALSE;
  }
  BwVec3 facet = bw_glass_facet (inward, look->rough, &beam->lot);
  double cosine = -bw_vec3_dot (beam->way, facet);
  if (cosine > 0 && bw_lot_next (&beam->lot) >= bw_glass_fresnel (cosine, BW_BEAD_INDEX)
      && bw_glass_bend (beam->way, facet, BW_BEAD_INDEX, &way) && bw_vec3_dot (way, out) > 0) {
    bw_beam_leave (beam, at, out, way);
    return TRUE;
  }
  turn_back (beam, at, out, bw_glass_mirror (beam->way, cosine > 0 ? facet : inward));
  return FALSE;
}

gboolean
bw_bead_follow (const BwBeadShape *shape, const BwBeadLook *look, BwBeam *beam)
{
  for (int i = 0; i < GLASS_STEPS; i++) {
    BwRayHit hit;
    gboolean in_hole;
    /* Between two facets of the wall it may slip out: then it is out. */
    if (!bw_rays_nearest (shape->body, beam->from, beam->way, 8 * (shape->radius + shape->half),
                          &hit))
      return TRUE;
    BwVec3 at = bw_vec3_add (beam->from, bw_vec3_scale (beam->way, hit.way));
    absorb (look, beam, hit.way);
    BwVec3 out = bw_bead_shape_normal (shape, at, &in_hole);
    if (bw_vec3_dot (beam->way, hit.face) < 0 || meet_wall (look, beam, at, out, in_hole))
      return TRUE;
    if (!bw_beam_goes_on (beam, ENOUGH))
      return FALSE;
  }
  return FALSE;
}
