/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ring of one column, walked piece by piece: on a straight piece and on an arc the next bead
 * centre follows in closed form, so a whole turn costs one square root a bead and no angle at all.
 *
 * Pieces alternate: piece 2i is the straight run over face i, piece 2i + 1 the arc about corner i.
 */
#include "core/band/ring.h"

/* The error that a Newton step leaves is of the order of its square: a step of this share of the
 * chord leaves none. */
#define STEP_SETTLED 1e-9

/* A bracket of this share of the chord has no room for a double between its ends, or hardly. */
#define BRACKET_SHUT 1e-14

/* A spot of the curve during a walk. */
typedef struct {
  int piece;
  int laps; /* whole turns made since the walk began at face 0 */
  BwVec2 at;
  BwVec2 normal;
} Spot;

/* Counter-clockwise quarter turn: the normal's tangent. */
static BwVec2
quarter (BwVec2 v)
{
  return bw_vec2 (-v.y, v.x);
}

static int
previous (const BwRing *ring, int i)
{
  return i > 0 ? i - 1 : ring->edges - 1;
}

static int
next (const BwRing *ring, int i)
{
  return i + 1 < ring->edges ? i + 1 : 0;
}

static BwVec2
outward (BwVec2 from, BwVec2 normal, double distance)
{
  return bw_vec2_add (from, bw_vec2_scale (normal, distance));
}

/* Where the straight run over face i begins and ends. */
static BwVec2
run_begin (const BwRing *ring, int i)
{
  return outward (ring->corner[previous (ring, i)], ring->normal[i], ring->rho_mm);
}

static BwVec2
run_end (const BwRing *ring, int i)
{
  return outward (ring->corner[i], ring->normal[i], ring->rho_mm);
}

void
bw_ring_init (BwRing *ring, const BwSection *section, double rho_mm)
{
  double u = 0;
  ring->edges = section->edges;
  ring->rho_mm = rho_mm;
  for (int i = 0; i < ring->edges; i++) {
    ring->corner[i] = section->corner[i];
    ring->normal[i] = section->normal[i];
    ring->turn[i] = section->turn[i];
    ring->face[i] = section->face[i];
  }
  for (int i = 0; i < ring->edges; i++) {
    BwVec2 edge = bw_vec2_sub (ring->corner[i], ring->corner[previous (ring, i)]);
    ring->width[i] = MAX (bw_vec2_dot (edge, quarter (ring->normal[i])), 0);
    ring->start[i] = u;
    u += ring->width[i] + rho_mm * ring->turn[i];
  }
  ring->length_mm = u;
}

static Spot
spot_on_face (const BwRing *ring, int i, double along)
{
  BwVec2 begin = run_begin (ring, i);
  return (Spot){ .piece = 2 * i,
                 .at = outward (begin, quarter (ring->normal[i]), along),
                 .normal = ring->normal[i] };
}

static Spot
spot_on_arc (const BwRing *ring, int i, double angle)
{
  BwVec2 n = ring->normal[i];
  BwVec2 normal
      = bw_vec2_add (bw_vec2_scale (n, cos (angle)), bw_vec2_scale (quarter (n), sin (angle)));
  return (Spot){ .piece = 2 * i + 1,
                 .at = outward (ring->corner[i], normal, ring->rho_mm),
                 .normal = normal };
}

/* The spot at arc length u, on its first lap. */
static Spot
spot_at (const BwRing *ring, double u)
{
  u -= floor (u / ring->length_mm) * ring->length_mm;
  int i = 0;
  while (i + 1 < ring->edges && u >= ring->start[i + 1])
    i++;
  double along = MAX (u - ring->start[i], 0);
  if (along < ring->width[i] || !(ring->rho_mm > 0))
    return spot_on_face (ring, i, MIN (along, ring->width[i]));
  return spot_on_arc (ring, i, MIN ((along - ring->width[i]) / ring->rho_mm, ring->turn[i]));
}

/* Arc length of a spot from the beginning of the walk's first lap. */
static double
spot_length (const BwRing *ring, const Spot *spot)
{
  int i = spot->piece / 2;
  double u = spot->laps * ring->length_mm + ring->start[i];
  BwVec2 n = ring->normal[i];
  if (spot->piece % 2 == 0)
    return u + bw_vec2_dot (bw_vec2_sub (spot->at, run_begin (ring, i)), quarter (n));
  double angle = atan2 (bw_vec2_cross (n, spot->normal), bw_vec2_dot (n, spot->normal));
  return u + ring->width[i] + ring->rho_mm * angle;
}

/* The distance from a fixed point to a point that runs along a line is convex: a run that begins
 * nearer than s reaches s once, and only when its end is at least s away. */
static gboolean
reach_on_face (const BwRing *ring, int i, BwVec2 from, double s, Spot *spot)
{
  BwVec2 end = run_end (ring, i);
  BwVec2 e = bw_vec2_sub (end, from);
  if (bw_vec2_dot (e, e) < s * s)
    return FALSE;
  BwVec2 tangent = quarter (ring->normal[i]);
  double across = bw_vec2_dot (e, ring->normal[i]);
  double half = sqrt (MAX (s * s - across * across, 0));
  double back = CLAMP (bw_vec2_dot (e, tangent) - half, 0, ring->width[i]);
  spot->at = outward (end, tangent, -back);
  spot->normal = ring->normal[i];
  return TRUE;
}

/* Whether direction d points between the two normals at corner i. */
static gboolean
within_corner (const BwRing *ring, int i, BwVec2 d)
{
  return bw_vec2_cross (ring->normal[i], d) >= 0
         && bw_vec2_cross (d, ring->normal[next (ring, i)]) >= 0;
}

/* Rounding may put a point that is known to lie on the arc just beyond one of its ends. */
static BwVec2
nearer_end (const BwRing *ring, int i, BwVec2 d)
{
  BwVec2 a = ring->normal[i], b = ring->normal[next (ring, i)];
  return bw_vec2_dot (a, d) > bw_vec2_dot (b, d) ? a : b;
}

/* The distance from a fixed point to a point that runs counter-clockwise round a circle grows until
 * that point is opposite. An arc that begins nearer than s reaches s when its end is far enough, or
 * when the opposite point lies on it and is. */
static gboolean
reach_on_arc (const BwRing *ring, int i, BwVec2 from, double s, Spot *spot)
{
  double rho = ring->rho_mm;
  BwVec2 e = bw_vec2_sub (from, ring->corner[i]);
  BwVec2 end = bw_vec2_scale (ring->normal[next (ring, i)], rho);
  BwVec2 to_end = bw_vec2_sub (end, e);
  gboolean far_enough = bw_vec2_dot (to_end, to_end) >= s * s;
  if (!far_enough && !within_corner (ring, i, bw_vec2_scale (e, -1)))
    return FALSE;
  double d2 = bw_vec2_dot (e, e);
  if (!(rho > 0) || !(d2 > 0))
    return FALSE;
  double a = (d2 + rho * rho - s * s) / (2 * d2 * rho);
  double b2 = 1 / d2 - a * a;
  if (b2 < 0 && !far_enough)
    return FALSE;
  BwVec2 normal
      = bw_vec2_add (bw_vec2_scale (e, a), bw_vec2_scale (quarter (e), sqrt (MAX (b2, 0))));
  if (!within_corner (ring, i, normal)) {
    if (!far_enough)
      return FALSE;
    normal = nearer_end (ring, i, normal);
  }
  spot->at = outward (ring->corner[i], normal, rho);
  spot->normal = normal;
  return TRUE;
}

/* Moves the spot to the first later point at distance s. FALSE when there is none within one turn:
 * the spot is spoilt then. */
static gboolean
step (const BwRing *ring, Spot *spot, double s)
{
  BwVec2 from = spot->at;
  for (int k = 0; k < 2 * ring->edges; k++) {
    int i = spot->piece / 2;
    if (spot->piece % 2 == 0 ? reach_on_face (ring, i, from, s, spot)
                             : reach_on_arc (ring, i, from, s, spot))
      return TRUE;
    if (++spot->piece == 2 * ring->edges) {
      spot->piece = 0;
      spot->laps++;
    }
  }
  return FALSE;
}

/* How the arc length of the walk's end grows with s: by implicit differentiation of |C(v) − C(u)| =
 * s, dv = (ds + (e·T_u) du)/(e·T_v) with e the chord's direction. */
static double
carry_rate (double rate, const Spot *from, const Spot *to, double s)
{
  BwVec2 chord = bw_vec2_sub (to->at, from->at);
  double leaving = bw_vec2_dot (chord, quarter (from->normal));
  double arriving = bw_vec2_dot (chord, quarter (to->normal));
  return (s + leaving * rate) / arriving;
}

/* How many beads the run still holds that the spot lies on: along a straight line each chord goes
 * on where the last one ended. */
static int
beads_ahead (const BwRing *ring, const Spot *spot, double s, int most)
{
  int i = spot->piece / 2;
  if (spot->piece % 2)
    return 0;
  BwVec2 ahead = bw_vec2_sub (run_end (ring, i), spot->at);
  double room = bw_vec2_dot (ahead, quarter (spot->normal)) / s;
  return room < most ? (int)MAX (room, 0) : most;
}

/* Moves the spot on by one bead, or by all that lie ahead on the same straight run, `most` at the
 * most. Returns how many, 0 when a chord finds no end. Carries the rate along. */
static int
stride (const BwRing *ring, Spot *spot, double s, int most, double *rate)
{
  int beads = beads_ahead (ring, spot, s, most);
  if (beads > 0) {
    spot->at = outward (spot->at, quarter (spot->normal), beads * s);
    *rate += beads;
    return beads;
  }
  Spot from = *spot;
  if (!step (ring, spot, s))
    return 0;
  *rate = carry_rate (*rate, &from, spot, s);
  return 1;
}

/* Walks n chords of length s. Writes by how much the end lies beyond one whole turn, and the rate
 * of that with s. FALSE when a chord finds no end or the walk runs far beyond the turn: s is too
 * long. */
static gboolean
walk (const BwRing *ring, int n, const Spot *start, double s, double *beyond, double *rate)
{
  Spot spot = *start;
  *rate = 0;
  for (int left = n; left > 0;) {
    int beads = stride (ring, &spot, s, left, rate);
    if (beads == 0 || spot.laps > 2)
      return FALSE;
    left -= beads;
  }
  *beyond = spot_length (ring, &spot) - spot_length (ring, start) - ring->length_mm;
  return TRUE;
}

/* What n chords would be if the curve's turning were spread evenly over its arcs: to third order a
 * chord of arc l and curvature κ is l − κ² l³/24. */
static double
first_guess (const BwRing *ring, int n)
{
  double arc = ring->length_mm / n;
  double lost = arc * arc * 2 * G_PI / (24 * ring->rho_mm * ring->length_mm);
  return arc * (1 - MIN (lost, 0.3));
}

/* Newton's method kept inside a bracket: an arc is never shorter than its chord, so the chord lies
 * between 0 and Λ/n. Where the walk jumps (s > 2ρ round a sharp corner) the bracket is halved until
 * it holds the jump. */
static double
solve_chord (const BwRing *ring, int n, double u, double guess)
{
  Spot start = spot_at (ring, u);
  double lo = 0, hi = ring->length_mm / n, s = CLAMP (guess, 0.5 * hi, hi);
  for (int k = 0; k < 200 && hi - lo > BRACKET_SHUT * hi; k++) {
    double beyond = 0, rate = 0;
    gboolean whole = walk (ring, n, &start, s, &beyond, &rate);
    if (!whole || beyond > 0)
      hi = s;
    else
      lo = s;
    double newton = whole ? s - beyond / rate : s;
    if (whole && newton >= lo && newton <= hi && fabs (newton - s) <= STEP_SETTLED * s)
      return newton;
    s = whole && newton > lo && newton < hi ? newton : (lo + hi) / 2;
  }
  return s;
}

BwRingPoint
bw_ring_point (const BwRing *ring, double u)
{
  Spot spot = spot_at (ring, u);
  int i = spot.piece / 2;
  BwRingPoint point = { .at = spot.at, .normal = spot.normal, .face = -1, .corner = ring->face[i] };
  point.foot = ring->corner[i];
  if (spot.piece % 2 == 0) {
    point.face = ring->face[i];
    point.corner = -1;
    point.foot = outward (spot.at, spot.normal, -ring->rho_mm);
    point.along_mm = spot_length (ring, &spot) - ring->start[i] - ring->width[i] / 2;
  }
  return point;
}

/* The axis when it lies in the section, else the section's centroid. */
static BwVec2
ray_origin (const BwRing *ring)
{
  gboolean inside = TRUE;
  for (int i = 0; i < ring->edges; i++)
    inside = inside && bw_vec2_dot (ring->normal[i], ring->corner[i]) >= 0;
  return inside ? bw_vec2 (0, 0) : bw_vec2_centroid (ring->corner, ring->edges);
}

/* Arc length on piece p where the ray meets it. */
static double
meet_piece (const BwRing *ring, int piece, BwVec2 origin, BwVec2 d)
{
  int i = piece / 2;
  Spot spot = { .piece = piece, .normal = ring->normal[i] };
  if (piece % 2 == 0) {
    BwVec2 to = bw_vec2_sub (run_end (ring, i), origin);
    double reach = bw_vec2_dot (to, spot.normal) / bw_vec2_dot (d, spot.normal);
    spot.at = outward (origin, d, reach);
    return spot_length (ring, &spot);
  }
  BwVec2 to = bw_vec2_sub (ring->corner[i], origin);
  double along = bw_vec2_dot (to, d), across = bw_vec2_cross (d, to);
  double reach = along + sqrt (MAX (ring->rho_mm * ring->rho_mm - across * across, 0));
  spot.normal = bw_vec2_sub (outward (origin, d, reach), ring->corner[i]);
  return spot_length (ring, &spot);
}

double
bw_ring_ray (const BwRing *ring, double azimuth)
{
  BwVec2 origin = ray_origin (ring), d = bw_vec2 (cos (azimuth), sin (azimuth));
  for (int piece = 0; piece < 2 * ring->edges; piece++) {
    int i = piece / 2;
    BwVec2 a = piece % 2 ? run_end (ring, i) : run_begin (ring, i);
    BwVec2 b = piece % 2 ? run_begin (ring, next (ring, i)) : run_end (ring, i);
    /* Seen from within, the curve turns counter-clockwise all the way: it crosses the ray's line
     * from right to left in front of the origin and nowhere else. */
    if (bw_vec2_cross (d, bw_vec2_sub (a, origin)) <= 0
        && bw_vec2_cross (d, bw_vec2_sub (b, origin)) > 0)
      return meet_piece (ring, piece, origin, d);
  }
  return 0;
}

double
bw_ring_azimuth (const BwRing *ring, double u)
{
  BwVec2 d = bw_vec2_sub (bw_ring_point (ring, u).at, ray_origin (ring));
  return atan2 (d.y, d.x);
}

gboolean
bw_ring_advance (const BwRing *ring, double *u, double s)
{
  Spot spot = spot_at (ring, *u);
  double begin = spot_length (ring, &spot);
  if (!step (ring, &spot, s))
    return FALSE;
  *u = *u + spot_length (ring, &spot) - begin;
  return TRUE;
}

double
bw_ring_chord (const BwRing *ring, int n, double start)
{
  return solve_chord (ring, n, start, first_guess (ring, n));
}

static double
half_step (const BwRing *ring, int n)
{
  return ring->length_mm / (2 * n);
}

double
bw_ring_chord_mean (const BwRing *ring, int n, double start)
{
  double first = bw_ring_chord (ring, n, start);
  return (first + solve_chord (ring, n, start + half_step (ring, n), first)) / 2;
}

/* Whether n chords of length s make a whole turn at least. */
static gboolean
goes_round (const BwRing *ring, int n, double u, double s)
{
  Spot start = spot_at (ring, u);
  double beyond, rate;
  return !walk (ring, n, &start, s, &beyond, &rate) || beyond >= 0;
}

gboolean
bw_ring_closes (const BwRing *ring, int n, double start, double s)
{
  /* An arc is never shorter than its chord. */
  if (ring->length_mm <= n * s)
    return TRUE;
  gboolean first = goes_round (ring, n, start, s);
  gboolean second = goes_round (ring, n, start + half_step (ring, n), s);
  return first == second ? first : bw_ring_chord_mean (ring, n, start) <= s;
}

/* Whether a walk that began at `begin` may be about to end its turn. */
static gboolean
is_near_goal (const Spot *spot, const Spot *begin)
{
  return spot->laps > 1 || (spot->laps == 1 && spot->piece >= begin->piece);
}

int
bw_ring_count (const BwRing *ring, double start, double s)
{
  g_return_val_if_fail (s > 0, 0);
  Spot begin = spot_at (ring, start), spot = begin;
  double goal = spot_length (ring, &begin) + ring->length_mm, rate = 0;
  for (int n = 0;;) {
    int most = is_near_goal (&spot, &begin) ? 1 : G_MAXINT16;
    int beads = stride (ring, &spot, s, most, &rate);
    if (beads == 0)
      return n + 1;
    n += beads;
    if (is_near_goal (&spot, &begin) && spot_length (ring, &spot) >= goal)
      return n;
  }
}
