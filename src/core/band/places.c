/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where each bead sits. Columns are laid one by one, each round its own curve with its own chord;
 * the rows come out of it because odd columns start half a step further on. */
#include "core/band/places.h"

#include "core/band/column.h"
#include "core/base/lattice.h"
#include "core/base/tolerance.h"
#include <string.h>

static void
start_at_seam (BwCourse *course, const BwLaid *laid, int column, double half_step)
{
  course->start = bw_laid_seam (laid, &course->ring) + (column % 2 ? half_step : 0);
}

/* n equal chords on the relaxed bed. */
static void
lay_closed (BwCourse *course, const BwLaid *laid, const BwColumn *column, int c, int n)
{
  bw_column_relaxed (&course->ring, column);
  start_at_seam (course, laid, c, course->ring.length_mm / (2 * n));
  course->has_step = n >= 3;
  course->step = course->has_step ? bw_ring_chord (&course->ring, n, course->start) : 0;
}

/* A strip that does not close lies on the bed with its own pitch and leaves a gap. */
static void
lay_open (BwCourse *course, const BwLaid *laid, const BwColumn *column, int c)
{
  bw_column_relaxed (&course->ring, column);
  start_at_seam (course, laid, c, laid->design->pitch.mm / 2);
  course->has_step = TRUE;
  course->step = laid->design->pitch.mm;
}

/* How far a long column stands off: the distance at which its chord is its own pitch. The curve
 * grows by 2π for each millimetre, which makes a Newton step nearly exact. */
static double
stand_off (const BwLaid *laid, const BwColumn *column, int n, double gap)
{
  double off = -gap / (2 * G_PI);
  for (int k = 0; k < 20; k++) {
    BwRing ring;
    bw_ring_init (&ring, &column->section, column->relaxed_mm + off);
    double chord = bw_ring_chord_mean (&ring, n, bw_laid_seam (laid, &ring));
    double change = n * (laid->design->pitch.mm - chord) / (2 * G_PI);
    off = MAX (off + change, 0);
    if (fabs (change) < BW_ROUNDING_MM)
      break;
  }
  return off;
}

static void
lay_standing_off (BwCourse *course, const BwLaid *laid, const BwColumn *column, int c, int n,
                  double gap)
{
  BwColumn outer = *column;
  outer.relaxed_mm += stand_off (laid, column, n, gap);
  lay_closed (course, laid, &outer, c, n);
}

static gboolean
lies_open (const BwFit *fit)
{
  return fit->partial || fit->verdict == BW_VERDICT_WILL_NOT_CLOSE
         || fit->verdict == BW_VERDICT_ODD_ROWS;
}

static void
lay_true (BwCourse *course, const BwLaid *laid, const BwColumn *column, int c, const BwFit *fit)
{
  double gap = fit->column[c - 1].gap_mm;
  int n = fit->beads_around;
  if (lies_open (fit) && gap > 0)
    lay_open (course, laid, column, c);
  else if (gap < 0 && n >= 3)
    lay_standing_off (course, laid, column, c, n, gap);
  else
    lay_closed (course, laid, column, c, n);
}

/* fit NULL: the closed ring. Gives the column's height. */
static double
lay_course (BwCourse *course, const BwLaid *laid, int c, int n, const BwFit *fit)
{
  BwColumn column;
  bw_column_init (&column, laid, c);
  if (fit)
    lay_true (course, laid, &column, c, fit);
  else
    lay_closed (course, laid, &column, c, n);
  return column.section.z_mm;
}

/* Arc length of the bead after u. */
static double
next_bead (const BwCourse *course, double u, int n)
{
  if (course->has_step && bw_ring_advance (&course->ring, &u, course->step))
    return u;
  return u + course->ring.length_mm / n;
}

static BwPlace
place_at (const BwRing *ring, double z_mm, double u)
{
  BwRingPoint point = bw_ring_point (ring, u);
  return (BwPlace){ .at = bw_vec3 (point.at.x, point.at.y, z_mm),
                    .normal = point.normal,
                    .foot = point.foot,
                    .face = point.face,
                    .corner = point.corner,
                    .along_mm = point.along_mm };
}

static gboolean
are_alike (const BwCourse *a, const BwCourse *b)
{
  return a->start == b->start && a->has_step == b->has_step && a->step == b->step
         && !memcmp (&a->ring, &b->ring, sizeof a->ring);
}

/* The way of each of n beads along a course; `around` of them go round. */
static double *
ways_of (const BwCourse *course, int n, int around)
{
  double *way = g_new (double, MAX (n, 1)), u = course->start;
  for (int i = 0; i < n; i++) {
    way[i] = u;
    u = next_bead (course, u, around);
  }
  return way;
}

/* Index of the course: one that is there, of the last two, or a new one. */
static int
keep_course (BwPlaces *places, BwCourse *course, int around)
{
  int n = (int)places->courses->len;
  for (int i = n - 1; i >= MAX (n - 2, 0); i--)
    if (are_alike (&g_array_index (places->courses, BwCourse, i), course))
      return i;
  course->way = ways_of (course, (places->rows + 1) / 2, around);
  g_array_append_vals (places->courses, course, 1);
  return n;
}

static void
clear_course (gpointer course)
{
  g_free (((BwCourse *)course)->way);
}

/* Beads lie on the stone as it is drawn, whatever a try-on taught about the way round it. */
static BwDesign
as_measured (const BwDesign *design)
{
  BwDesign measured = *design;
  measured.tried = (BwBelief){ 0 };
  return measured;
}

static void
lay_places (BwPlaces *places, const BwDesign *design, const BwStone *stone, const BwFit *fit)
{
  BwLaid laid;
  int n = bw_lattice_beads_around (design->band.rows);
  places->columns = design->band.columns;
  places->rows = design->band.rows;
  places->course = g_new0 (int, places->columns);
  places->z_mm = g_new0 (double, places->columns);
  places->courses = g_array_new (FALSE, FALSE, sizeof (BwCourse));
  g_array_set_clear_func (places->courses, clear_course);
  BwDesign measured = as_measured (design);
  g_return_if_fail (bw_laid_init (&laid, &measured, stone));
  for (int c = 1; c <= places->columns; c++) {
    BwCourse course = { 0 };
    places->z_mm[c - 1] = lay_course (&course, &laid, c, n, fit);
    places->course[c - 1] = keep_course (places, &course, n);
  }
}

void
bw_places_init_closed (BwPlaces *places, const BwDesign *design, const BwStone *stone)
{
  lay_places (places, design, stone, NULL);
}

void
bw_places_init_true (BwPlaces *places, const BwDesign *design, const BwStone *stone,
                     const BwFit *fit)
{
  lay_places (places, design, stone, fit);
}

void
bw_places_clear (BwPlaces *places)
{
  g_clear_pointer (&places->course, g_free);
  g_clear_pointer (&places->z_mm, g_free);
  g_clear_pointer (&places->courses, g_array_unref);
}

BwPlace
bw_places_get (const BwPlaces *places, int row, int column)
{
  int course = places->course[column - 1];
  const BwCourse *laid = &g_array_index (places->courses, BwCourse, course);
  return place_at (&laid->ring, places->z_mm[column - 1], laid->way[(row - 1) / 2]);
}

static double
turn_between (BwVec2 a, BwVec2 b)
{
  return fabs (atan2 (bw_vec2_cross (a, b), bw_vec2_dot (a, b)));
}

/* Pieces of the curve in order: 2i over face i, 2i + 1 about the corner after it; below 0 where the
 * stone has no face. */
static int
piece_under (const BwPlace *place)
{
  return place->face >= 0 ? 2 * place->face : 2 * place->corner + 1;
}

static void
mark_corners (BwSplay *splay, const BwPlace *from, const BwPlace *to, int faces)
{
  int first = piece_under (from), last = piece_under (to);
  if (first < 0 || last < 0)
    return;
  for (int piece = first;; piece = (piece + 1) % (2 * faces)) {
    if (piece % 2)
      splay->corner_over[piece / 2] = TRUE;
    if (piece == last)
      return;
  }
}

/* The bead after this one in its column, across the join at the end; 0 where it is missing: with
 * odd rows every other column ends a bead short of the ring. */
static int
row_after (const BwPlaces *places, int row)
{
  int later = row + 2;
  if (later <= places->rows)
    return later;
  if (row % 2)
    return 1;
  return places->rows % 2 ? 0 : 2;
}

void
bw_splay_init (BwSplay *splay, const BwPlaces *places, const BwDesign *design)
{
  double limit = bw_radians (BW_SPLAY_LIMIT_DEG), max = 0;
  *splay = (BwSplay){ 0 };
  for (int row = 1; row <= places->rows; row++)
    for (int j = 0; j < places->columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      int after = row_after (places, row);
      if (after == 0)
        continue;
      BwPlace a = bw_places_get (places, row, column);
      BwPlace b = bw_places_get (places, after, column);
      double turn = turn_between (a.normal, b.normal);
      if (turn > limit)
        mark_corners (splay, &a, &b, design->stone.faces);
      if (turn > max) {
        max = turn;
        splay->row = row;
        splay->column = column;
      }
    }
  splay->max_deg = bw_degrees (max);
  splay->cure_mm = MAX (design->pitch.mm / (2 * sin (limit / 2)) - design->bead.diameter_mm / 2, 0);
  for (int i = 0; i < design->stone.faces; i++)
    splay->n_corners_over += splay->corner_over[i];
}

/* Arc lengths of the n beads of a closed column, and of the first once more. */
static double *
bead_lengths (const BwCourse *course, int n)
{
  double *u = g_new (double, n + 1);
  u[0] = course->start;
  for (int k = 0; k < n; k++)
    u[k + 1] = next_bead (course, u[k], n);
  return u;
}

/* Position in beads of an arc length, between the beads in proportion to it; cyclic in n. */
static double
in_beads (const double *u, int n, double length, double at)
{
  double rest = at - u[0];
  rest -= floor (rest / length) * length;
  int lo = 0, hi = n;
  while (hi - lo > 1) {
    int middle = (lo + hi) / 2;
    if (u[middle] - u[0] <= rest)
      lo = middle;
    else
      hi = middle;
  }
  return lo + (rest - (u[lo] - u[0])) / (u[lo + 1] - u[lo]);
}

static double
cyclic (double position, int n)
{
  return position - floor (position / n) * n;
}

void
bw_places_faces (const BwDesign *design, const BwStone *stone, int column, int n,
                 double middle[BW_FACES_MAX], double corner[BW_FACES_MAX])
{
  BwLaid laid;
  BwColumn on;
  BwCourse course;
  BwDesign measured = as_measured (design);
  g_return_if_fail (bw_laid_init (&laid, &measured, stone));
  bw_column_init (&on, &laid, column);
  lay_closed (&course, &laid, &on, column, n);
  const BwRing *ring = &course.ring;
  g_autofree double *u = bead_lengths (&course, n);
  /* The first bead of an odd column belongs to row 2, half a pitch after row 1. */
  double first = column % 2 ? 0.5 : 0;
  for (int i = 0; i < ring->edges; i++) {
    double face = ring->start[i] + ring->width[i] / 2;
    double edge = ring->start[i] + ring->width[i] + ring->rho_mm * ring->turn[i] / 2;
    if (ring->face[i] < 0)
      continue;
    middle[ring->face[i]] = cyclic (first + in_beads (u, n, ring->length_mm, face), n);
    corner[ring->face[i]] = cyclic (first + in_beads (u, n, ring->length_mm, edge), n);
  }
}
