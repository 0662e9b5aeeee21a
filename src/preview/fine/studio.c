/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A clear stone before white paper is seen by what it does not show: the backdrop ends beside the
 * picture, and past it the room is dim, so that its edges gather dark; before a dark ground they
 * gather the lamps. So glass is photographed (common practice, no source). */
#include "preview/fine/studio.h"

#include "core/pattern/colour.h"

/* Tables of lamps in the eye's space: x right, y up, z towards the eye; lengths in radii of the
 * piece. */
typedef struct {
  double to[3], away, half_width, half_height, light[3];
} LampPlan;

typedef struct {
  LampPlan lamp[BW_STUDIO_LAMPS]; /* key, fill, and a rim light at each side from behind */
  double sky[3], horizon[3], ground[3];
} Plan;

/* A north window at the left, a card above and two narrow lights behind; a table lamp at the right,
 * and dusk. */
static const Plan plans[] = {
  [BW_LIGHT_DAY] = { .lamp = { { { -0.58, 0.46, 0.67 }, 5, 1.45, 2.4, { 5.8, 5.75, 5.6 } },
                               { { 0.10, 0.95, 0.16 }, 5, 2.2, 1.4, { 2.4, 2.4, 2.4 } },
                               { { 0.88, 0.24, -0.42 }, 5, 0.75, 2.4, { 5.0, 5.1, 5.3 } },
                               { { -0.90, 0.20, -0.38 }, 5, 0.55, 2.2, { 3.6, 3.55, 3.5 } } },
                     .sky = { 0.50, 0.53, 0.56 },
                     .horizon = { 0.20, 0.21, 0.22 },
                     .ground = { 0.16, 0.155, 0.15 } },
  [BW_LIGHT_LAMP] = { .lamp = { { { 0.52, 0.46, 0.72 }, 4.5, 1.1, 1.3, { 12, 8.6, 5.1 } },
                                { { 0.10, 0.95, 0.16 }, 5, 2.0, 1.4, { 0.8, 0.6, 0.42 } },
                                { { 0.88, 0.24, -0.42 }, 5, 0.7, 2.2, { 3.6, 2.6, 1.6 } },
                                { { -0.90, 0.20, -0.38 }, 5, 0.5, 2.0, { 1.1, 1.4, 2.0 } } },
                      .sky = { 0.20, 0.17, 0.14 },
                      .horizon = { 0.13, 0.10, 0.08 },
                      .ground = { 0.10, 0.07, 0.05 } },
};

#define BACKDROP_WHOLE                                                                             \
  0.30                     /* tangent of the angle from the line of sight up to which it is there */
#define BACKDROP_GONE 0.62 /* and from where it is not */
#define CARD_HIGH 1.1      /* light of the card behind a piece on a dark ground, above */
#define CARD_LOW 0.30      /* and below */
#define WALL 2.6           /* a white wall behind the eye lightens the room there so much */
#define DARK_TABLE 1.4     /* reach of a dark table, in radii: the card stands behind it */
#define SOFT_RIM 0.35      /* share of a lamp's half width over which it fades */
#define FOOT_TRIES 4096    /* that tell what falls on the table */

static void
copy (double to[3], const double from[3])
{
  memcpy (to, from, 3 * sizeof (double));
}

static BwVec3
in_piece (const BwStudio *studio, const double v[3])
{
  return bw_vec3_add (
      bw_vec3_scale (studio->right, v[0]),
      bw_vec3_add (bw_vec3_scale (studio->up, v[1]), bw_vec3_scale (studio->back, v[2])));
}

static void
set_eye (BwStudio *studio, const BwEye *eye)
{
  BwVec3 *axis[] = { &studio->right, &studio->up, &studio->back };
  for (int k = 0; k < 3; k++)
    *axis[k] = bw_vec3 ((double)eye->view[0][k], (double)eye->view[1][k], (double)eye->view[2][k]);
}

static void
set_lamp (const BwStudio *studio, BwLamp *lamp, const LampPlan *plan, BwVec3 centre, double size)
{
  BwVec3 to = bw_glass_unit (in_piece (studio, plan->to));
  BwVec3 across = bw_glass_unit (bw_vec3_cross (studio->up, to));
  *lamp = (BwLamp){ .middle = bw_vec3_add (centre, bw_vec3_scale (to, plan->away * size)),
                    .normal = bw_vec3_scale (to, -1),
                    .across = bw_vec3_scale (across, plan->half_width * size),
                    .up = bw_vec3_scale (bw_vec3_cross (to, across), plan->half_height * size),
                    .area = 4 * plan->half_width * plan->half_height * size * size };
  copy (lamp->light, plan->light);
}

/* Light that is developed into a tint. Before a dark ground stands a card that the piece itself
 * hides: without it a clear stone would be black. */
static void
set_backdrop (BwStudio *studio, const Plan *plan, BwGround ground, BwLight light)
{
  BwGroundLook look = bw_ground_look (ground == BW_GROUND_DARK, light);
  for (int i = 0; i < 3; i++) {
    studio->high[i] = bw_colour_decode (bw_tint_part (look.high, look.dark, i)) * 1.1;
    studio->low[i] = bw_colour_decode (bw_tint_part (look.low, look.dark, i));
    studio->table_like[i] = studio->low[i];
    if (look.dark) {
      studio->high[i] += CARD_HIGH * plan->lamp[0].light[i] / plan->lamp[0].light[0];
      studio->low[i] += CARD_LOW * plan->lamp[0].light[i] / plan->lamp[0].light[0];
    }
  }
}

double
bw_lamp_shine (const BwLamp *lamp, BwVec3 at)
{
  BwVec3 off = bw_vec3_sub (at, lamp->middle);
  double u = bw_vec3_dot (off, lamp->across) / bw_vec3_dot (lamp->across, lamp->across);
  double v = bw_vec3_dot (off, lamp->up) / bw_vec3_dot (lamp->up, lamp->up);
  double in = CLAMP ((1 - fabs (u)) / SOFT_RIM, 0, 1), up = CLAMP ((1 - fabs (v)) / SOFT_RIM, 0, 1);
  return in * in * (3 - 2 * in) * up * up * (3 - 2 * up);
}

BwVec3
bw_lamp_point (const BwLamp *lamp, BwLot *lot)
{
  double u = 2 * bw_lot_next (lot) - 1, v = 2 * bw_lot_next (lot) - 1;
  return bw_vec3_add (lamp->middle,
                      bw_vec3_add (bw_vec3_scale (lamp->across, u), bw_vec3_scale (lamp->up, v)));
}

double
bw_lamp_density (const BwLamp *lamp, BwVec3 from, BwVec3 at)
{
  BwVec3 way = bw_vec3_sub (at, from);
  double square = bw_vec3_dot (way, way);
  double facing = -bw_vec3_dot (way, lamp->normal) / sqrt (square);
  return facing > 1e-6 ? square / (facing * lamp->area) : (double)INFINITY;
}

/* One try at the light on the table's foot, the table being bare. */
static void
fall (const BwStudio *studio, BwLot *lot, double sum[3])
{
  double light[3];
  for (int k = 0; k < studio->n_lamps; k++) {
    const BwLamp *lamp = &studio->lamp[k];
    BwVec3 at = bw_lamp_point (lamp, lot);
    BwVec3 way = bw_glass_unit (bw_vec3_sub (at, studio->foot));
    double share = MAX (way.z, 0) * bw_lamp_shine (lamp, at)
                   / (G_PI * bw_lamp_density (lamp, studio->foot, at));
    for (int i = 0; i < 3; i++)
      sum[i] += share * lamp->light[i] / FOOT_TRIES;
  }
  bw_studio_around (studio, bw_glass_scatter (bw_vec3 (0, 0, 1), lot), light);
  for (int i = 0; i < 3; i++)
    sum[i] += light[i] / FOOT_TRIES;
}

/* The table looks like the lower part of the backdrop. */
static void
set_table (BwStudio *studio, const BwScene *scene, gboolean dark)
{
  float low = INFINITY;
  for (guint i = 0; i < scene->stone->len; i++)
    low = MIN (low, g_array_index (scene->stone, BwSceneVertex, i).at[2]);
  studio->table = TRUE;
  studio->table_reach = dark ? DARK_TABLE * scene->stance.radius : (double)INFINITY;
  studio->table_z = (double)low;
  studio->foot = bw_vec3 (scene->stance.centre.x, scene->stance.centre.y, (double)low);
  for (guint i = 0; i < FOOT_TRIES; i++) {
    BwLot lot = bw_lot_at (0, 0, i);
    fall (studio, &lot, studio->falls_on_foot);
  }
  for (int i = 0; i < 3; i++)
    studio->table_keeps[i] = MIN (studio->table_like[i] / studio->falls_on_foot[i], 0.9);
}

void
bw_studio_init (BwStudio *studio, const BwScene *scene, const BwEye *eye, const BwStill *still)
{
  const Plan *plan = &plans[still->light == BW_LIGHT_LAMP ? BW_LIGHT_LAMP : BW_LIGHT_DAY];
  double size = MAX (scene->stance.radius, 1e-3);
  *studio = (BwStudio){ .n_lamps = BW_STUDIO_LAMPS, .wall = WALL };
  set_eye (studio, eye);
  copy (studio->sky, plan->sky);
  copy (studio->horizon, plan->horizon);
  copy (studio->ground, plan->ground);
  for (int i = 0; i < BW_STUDIO_LAMPS; i++)
    set_lamp (studio, &studio->lamp[i], &plan->lamp[i], scene->stance.centre, size);
  set_backdrop (studio, plan, still->ground, still->light);
  if (scene->stance.stands && still->camera.tip_deg > -5 && still->ground != BW_GROUND_CLEAR)
    set_table (studio, scene, still->ground == BW_GROUND_DARK);
}

void
bw_studio_init_white (BwStudio *studio)
{
  *studio = (BwStudio){
    .wall = 1, .right = bw_vec3 (1, 0, 0), .up = bw_vec3 (0, 0, 1), .back = bw_vec3 (0, -1, 0)
  };
  double *all[] = { studio->sky, studio->horizon, studio->ground, studio->high, studio->low };
  for (gsize k = 0; k < G_N_ELEMENTS (all); k++)
    all[k][0] = all[k][1] = all[k][2] = 1;
}

static double
smooth (double from, double to, double x)
{
  double share = CLAMP ((x - from) / (to - from), 0, 1);
  return share * share * (3 - 2 * share);
}

void
bw_studio_around (const BwStudio *studio, BwVec3 way, double light[3])
{
  double up = bw_vec3_dot (way, studio->up), away = -bw_vec3_dot (way, studio->back);
  double side = bw_vec3_dot (way, studio->right), steep = sqrt (fabs (up));
  double off = away > 0 ? hypot (side, up) / away : (double)INFINITY;
  double behind = 1 - smooth (BACKDROP_WHOLE, BACKDROP_GONE, off);
  double height = CLAMP (0.5 + up / (2 * BACKDROP_WHOLE), 0, 1);
  const double *end = up > 0 ? studio->sky : studio->ground;
  double wall = 1 + (studio->wall - 1) * smooth (-0.1, 0.8, -away);
  for (int i = 0; i < 3; i++) {
    double room = (studio->horizon[i] + (end[i] - studio->horizon[i]) * steep) * wall;
    double drop = studio->low[i] + (studio->high[i] - studio->low[i]) * height;
    light[i] = room + (drop - room) * behind;
  }
}

int
bw_studio_meet (const BwStudio *studio, BwVec3 from, BwVec3 way, double most, double *there)
{
  int met = -1;
  for (int k = 0; k < studio->n_lamps; k++) {
    const BwLamp *lamp = &studio->lamp[k];
    double speed = -bw_vec3_dot (way, lamp->normal);
    if (speed < 1e-6)
      continue;
    double t = -bw_vec3_dot (bw_vec3_sub (lamp->middle, from), lamp->normal) / speed;
    BwVec3 off = bw_vec3_sub (bw_vec3_add (from, bw_vec3_scale (way, t)), lamp->middle);
    if (t <= 0 || t >= most
        || fabs (bw_vec3_dot (off, lamp->across)) > bw_vec3_dot (lamp->across, lamp->across)
        || fabs (bw_vec3_dot (off, lamp->up)) > bw_vec3_dot (lamp->up, lamp->up))
      continue;
    most = *there = t;
    met = k;
  }
  return met;
}
