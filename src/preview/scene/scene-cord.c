/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the piece hangs by: the cord through the loop of beads, or through the metal ring in it.
 *
 * The cord lies straight under what rests on it, bends round the edges there and goes up, its two
 * ends a little apart, as the two halves of a necklace do. It touches the inside of the loop at the
 * core's pivot. How strongly a cord bends and how far its ends part is common practice, no source.
 */
#include "preview/scene/scene-parts.h"

#define PARTING_DEG 21.0 /* of each end off the vertical where it leaves the bend */
#define PARTED_DEG 12.0  /* and farther up, where the neck takes over */
#define BEND_STEPS 12
#define END_STEPS 32
#define FADE 0.8 /* share of an end that shows whole */
#define RING_STATIONS 96
#define RING_ROOM_MM 0.3 /* between ring and band, ring and cord */

static void
put (float to[3], BwVec3 v)
{
  to[0] = (float)v.x;
  to[1] = (float)v.y;
  to[2] = (float)v.z;
}

/* --- The cord -----------------------------------------------------------------------------------
 */

/* The plane the cord lies in: along the opening, and up from it. */
typedef struct {
  BwVec3 at, along, over;
} Plane;

static BwVec3
on_plane (const Plane *plane, double p, double q)
{
  return bw_vec3_add (
      plane->at, bw_vec3_add (bw_vec3_scale (plane->along, p), bw_vec3_scale (plane->over, q)));
}

/* One half of the cord, from its middle out. In the plane: p runs out along the opening on this
 * side, q up; angle is the way it goes, from p towards q. */
typedef struct {
  const Plane *plane;
  double side;
  double p, q, angle, along;
  GArray *stations;
} Half;

static void
add_station (Half *half, float shown)
{
  BwSceneStation station = { .along = (float)(half->side * half->along), .shown = shown };
  const Plane *plane = half->plane;
  put (station.at, on_plane (plane, half->side * half->p, half->q));
  BwVec3 way = bw_vec3_add (bw_vec3_scale (plane->along, half->side * cos (half->angle)),
                            bw_vec3_scale (plane->over, sin (half->angle)));
  put (station.tangent, bw_vec3_scale (way, half->side));
  g_array_append_val (half->stations, station);
}

static void
go (Half *half, double length, double to_angle)
{
  double middle = (half->angle + to_angle) / 2;
  /* The chord of an arc is a little shorter than the arc. */
  double bend = fabs (to_angle - half->angle) / 2;
  double chord = bend > 1e-9 ? length * sin (bend) / bend : length;
  half->p += chord * cos (middle);
  half->q += chord * sin (middle);
  half->along += length;
  half->angle = to_angle;
}

/* lean: how far up is inclined towards this side, radians. */
static void
lay_half (Half *half, const BwSceneSeat *seat, double lean, double length)
{
  double leaving = CLAMP (G_PI_2 - lean - bw_radians (PARTING_DEG), 0, 0.97 * G_PI);
  double end = leaving + bw_radians (PARTING_DEG - PARTED_DEG);
  add_station (half, 1);
  go (half, seat->half, 0);
  add_station (half, 1);
  for (int i = 1; i <= BEND_STEPS; i++) {
    go (half, seat->bend * leaving / BEND_STEPS, leaving * i / BEND_STEPS);
    add_station (half, 1);
  }
  for (int i = 1; i <= END_STEPS; i++) {
    double share = (double)i / END_STEPS, faded = MAX (share - FADE, 0) / (1 - FADE);
    go (half, length / END_STEPS, leaving + (end - leaving) * MIN (2 * share, 1));
    add_station (half, (float)(1 - faded * faded * (3 - 2 * faded)));
  }
}

void
bw_scene_lay_cord (BwScene *scene, BwVec3 up, double length)
{
  const BwSceneSeat *seat = &scene->seat;
  GArray *cord = scene->cord.stations;
  g_array_set_size (cord, 0);
  if (seat->radius <= 0)
    return;
  double lean = asin (CLAMP (bw_vec3_dot (up, seat->along), -1, 1));
  BwVec3 over = bw_vec3_sub (up, bw_vec3_scale (seat->along, bw_vec3_dot (up, seat->along)));
  double size = bw_vec3_length (over);
  Plane plane
      = { seat->at, seat->along, size > 1e-6 ? bw_vec3_scale (over, 1 / size) : seat->over };
  g_autoptr (GArray) back = g_array_new (FALSE, FALSE, sizeof (BwSceneStation));
  Half away = { .plane = &plane, .side = -1, .stations = back };
  lay_half (&away, seat, -lean, length);
  for (guint i = back->len; i-- > 1;)
    g_array_append_val (cord, g_array_index (back, BwSceneStation, i));
  Half onward = { .plane = &plane, .side = 1, .stations = cord };
  lay_half (&onward, seat, lean, length);
  put (scene->cord.binormal, bw_vec3_cross (plane.along, plane.over));
}

/* --- Where it lies ------------------------------------------------------------------------------
 */

static BwVec3
outward_of (const BwBail *bail)
{
  double at = bw_radians (bail->at_deg);
  return bw_vec3 (cos (at), sin (at), 0);
}

/* Half the width of the strip of beads, to the end of its last bead. */
static double
half_width (const BwDesign *design)
{
  return (design->bail.columns - 1) * design->gauge.column_mm / 2 + design->bead.length_mm / 2;
}

/* A cord never bends sharper than about its own thickness, and clears the beads it bends round. */
static double
bend_of (double radius, double edge_mm)
{
  return MAX (2.4 * radius, radius + edge_mm);
}

static void
seat_in_loop (BwSceneSeat *seat, const BwHang *hang, const BwDesign *design)
{
  seat->at = bw_vec3_sub (hang->pivot, bw_vec3_scale (hang->frame.out, seat->radius));
  seat->along = hang->frame.columns;
  seat->over = hang->frame.out;
  seat->half = half_width (design);
  seat->bend = bend_of (seat->radius, 0.6 * design->bead.diameter_mm);
}

/* A closed round ring in the plane of the axis and the bail. Across: half width of the flap;
 * clear: the loop's opening. In this plane the flap's section is a box 2·across wide that stands
 * from 0 to one bead's diameter over the crest's inside. */
typedef struct {
  double wire;   /* radius */
  double inner;  /* radius of the ring's hole */
  double height; /* of its middle over the crest's inside */
  double shift;  /* of its middle along the axis */
} Ring;

/* The wire that goes through with room to spare; 1 mm thick at most (common practice, no source).
 */
static double
wire_of (double clear_mm)
{
  return CLAMP (0.12 * clear_mm, 0.15, 0.5);
}

/* The ring hangs as low in the loop as leaves room over the band, so that it is as small as it may
 * be; it is larger when the cord needs the room. lean: how far the cord's pull is inclined along
 * the axis; the middle of the ring goes with it as far as the loop lets it. */
static Ring
fit_ring (double across, double clear, double cord, double bead, double lean)
{
  Ring ring = { .wire = wire_of (clear) };
  double dip = MAX (clear - 2 * ring.wire - RING_ROOM_MM, 0.1 * ring.wire);
  dip = MIN (dip, 0.75 * across);
  /* A circle through both corners at 0 that dips so far below, or rises so far above: the same law.
   */
  double rise = bead + cord + RING_ROOM_MM;
  ring.inner = (across * across + dip * dip) / (2 * dip);
  if (rise > across)
    ring.inner = MAX (ring.inner, (across * across + rise * rise) / (2 * rise));
  ring.inner = MAX (ring.inner, hypot (across, bead / 2));
  ring.height = sqrt (MAX (ring.inner * ring.inner - across * across, 0));
  /* Shifted it must still hold the far corner, and so it grows, and dips deeper. */
  for (double share = 1; share > 0.01; share -= 0.1) {
    double shift = share * ring.height * tan (CLAMP (lean, -1.2, 1.2));
    double inner = hypot (across + fabs (shift), ring.height);
    if (inner - ring.height > clear - 2 * ring.wire)
      continue;
    ring.shift = shift;
    ring.inner = inner;
    break;
  }
  return ring;
}

static void
add_ring (BwScene *scene, const Ring *ring, BwVec3 middle, BwVec3 out)
{
  double radius = ring->inner + ring->wire;
  BwVec3 axis = bw_vec3 (0, 0, 1);
  scene->ring.radius = (float)ring->wire;
  put (scene->ring.binormal, bw_vec3_cross (axis, out));
  for (int i = 0; i <= RING_STATIONS; i++) {
    double angle = 2 * G_PI * i / RING_STATIONS, c = cos (angle), s = sin (angle);
    BwSceneStation station = { .along = (float)(radius * angle), .shown = 1 };
    put (station.at, bw_vec3_add (middle, bw_vec3_add (bw_vec3_scale (axis, radius * c),
                                                       bw_vec3_scale (out, radius * s))));
    put (station.tangent, bw_vec3_add (bw_vec3_scale (axis, -s), bw_vec3_scale (out, c)));
    g_array_append_val (scene->ring.stations, station);
  }
}

/* Through the ring the cord runs across the stone, and the ring's top rests on it. */
static void
seat_in_ring (BwScene *scene, const BwHang *hang, const BwDesign *design)
{
  BwSceneSeat *seat = &scene->seat;
  BwVec3 out = outward_of (&design->bail), axis = bw_vec3 (0, 0, 1);
  BwVec3 pull = bw_vec3 (0, bw_vec3_dot (hang->vertical, out), hang->vertical.z);
  double lean = atan2 (pull.z, MAX (pull.y, 0.05)), bead = design->bead.diameter_mm;
  Ring ring = fit_ring (half_width (design), hang->loop.opening_mm, 2 * seat->radius, bead, lean);
  BwVec3 middle = bw_vec3_add (hang->pivot, bw_vec3_add (bw_vec3_scale (out, ring.height),
                                                         bw_vec3_scale (axis, ring.shift)));
  add_ring (scene, &ring, middle, out);
  seat->over = bw_vec3_add (bw_vec3_scale (out, cos (lean)), bw_vec3_scale (axis, sin (lean)));
  seat->at = bw_vec3_add (middle, bw_vec3_scale (seat->over, ring.inner - seat->radius));
  seat->along = bw_vec3 (-out.y, out.x, 0);
  seat->half = 0.6 * ring.wire;
  seat->bend = bend_of (seat->radius, ring.wire);
}

void
bw_scene_add_cord (BwScene *scene, const BwHang *hang, const BwDesign *design)
{
  const BwBail *bail = &design->bail;
  if (bail->style == BW_BAIL_NONE || !hang->has_bail)
    return;
  scene->seat.radius = bail->cord_mm / 2;
  scene->cord.radius = (float)scene->seat.radius;
  if (bail->style == BW_BAIL_RING)
    seat_in_ring (scene, hang, design);
  else
    seat_in_loop (&scene->seat, hang, design);
}
