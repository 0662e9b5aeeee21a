/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece at rest, against closed forms and plain statics. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "core/base/fault.h"
#include "core/bail/hang.h"
#include "core/stone/section.h"

typedef struct {
  BwDesign design;
  BwStone stone;
  BwHang hang;
} Piece;

/* A regular six-sided quartz point, flat at the base. */
static void
take (Piece *piece)
{
  BwDesign *d = &piece->design;
  bw_design_defaults (d);
  d->stone.faces = 6;
  d->stone.measured = BW_MEASURED_GIRTH;
  d->stone.values_mm[0] = 80;
  d->stone.at_mm = 15;
  d->stone.length_mm = 60;
  d->stone.has_shoulder = TRUE;
  d->stone.shoulder_mm = 42;
  d->stone.density_g_cm3 = 2.65;
  d->bead = (BwBead){ "", 1.6, 1.3, 0.8, 2.5 };
  d->gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
  d->pitch = (BwPitch){ 1.6, 0.03 };
  d->band = (BwBand){ 12, 110, 20, 180 };
  d->bail = (BwBail){ BW_BAIL_RING, 4, 23, 3, 180, 3, 2 };
}

static void
hang_up (Piece *piece)
{
  BwFault fault;
  if (!bw_design_validate (&piece->design, &piece->stone, &fault)
      || !bw_hang_init (&piece->hang, &piece->design, &piece->stone, &fault))
    fail_msg ("fault %d at key %d", fault.kind, fault.key);
}

/* The same stone with a point at either end, alike: G lies at half its length. */
static void
make_even (Piece *piece)
{
  BwStoneMeasures *stone = &piece->design.stone;
  stone->base = BW_BASE_POINT;
  stone->has_base_shoulder = TRUE;
  stone->base_shoulder_mm = 15;
  stone->shoulder_mm = 45;
  stone->at_mm = 30;
  piece->design.band.bottom_mm = 30 - 12 * 1.3 / 2;
}

static void
random_piece (Piece *piece, GRand *dice)
{
  do {
    take (piece);
    BwDesign *d = &piece->design;
    d->stone.values_mm[0] = g_rand_double_range (dice, 30, 120);
    d->stone.has_second = TRUE;
    d->stone.second_girth_mm = d->stone.values_mm[0] * g_rand_double_range (dice, 0.7, 1.2);
    d->stone.second_at_mm = 40;
    d->stone.apex_offset_mm[0] = g_rand_double_range (dice, -2, 2);
    d->stone.apex_offset_mm[1] = g_rand_double_range (dice, -2, 2);
    d->band.bottom_mm = g_rand_double_range (dice, 0, 40);
    d->bail.style = (BwBailStyle)g_rand_int_range (dice, BW_BAIL_FLAP, BW_BAIL_OVER + 1);
    d->bail.columns = 2 * g_rand_int_range (dice, 1, 6);
    d->bail.base_beads = d->bail.style == BW_BAIL_OVER ? g_rand_int_range (dice, 20, 60) : 3;
    d->bail.rows = g_rand_int_range (dice, 12, 40);
    d->bail.at_deg = g_rand_double_range (dice, 0, 360);
    if (d->bail.style == BW_BAIL_OVER)
      d->bail.rows *= 4;
  } while (!bw_design_validate (&piece->design, &piece->stone, NULL));
  assert_true (bw_hang_init (&piece->hang, &piece->design, &piece->stone, NULL));
}

static void
assert_near (double a, double b, double by)
{
  if (!(fabs (a - b) <= by))
    fail_msg ("%.12g is not %.12g", a, b);
}

static void
the_piece_weighs_what_its_parts_weigh (void **state)
{
  Piece piece;
  take (&piece);
  hang_up (&piece);
  const BwHang *hang = &piece.hang;
  double bead = 2.5e-3 * G_PI / 4 * (1.6 * 1.6 - 0.8 * 0.8) * 1.3;
  assert_near (hang->band_g, 12 / 2 * 110 * bead, 1e-9);
  assert_near (hang->bail_g, 4 / 2 * 23 * bead, 1e-9);
  assert_near (hang->stone_g, piece.stone.mass_g, 0);
  double turns = (12 * 1.3 - 2) / 1.0;
  assert_near (hang->bed_g, 1.2e-3 * turns * (80 + G_PI * 0.35) * 0.35, 1e-9);
  assert_near (hang->mass_g, hang->stone_g + hang->band_g + hang->bed_g + hang->bail_g, 1e-12);
}

/* By hand: the balance point is the mean of the parts by weight. */
static void
the_balance_point_is_the_mean_of_the_parts (void **state)
{
  Piece piece;
  take (&piece);
  piece.design.bail.at_deg = 0;
  hang_up (&piece);
  const BwHang *hang = &piece.hang;
  const BwLoop *loop = &hang->loop;
  double half_face = 80 / 6.0 / (2 * tan (G_PI / 6));
  double out
      = half_face + 0.35 + 0.8
        + loop->radius_mm * (sin (loop->half_angle) / loop->half_angle - cos (loop->half_angle));
  double z = 20 + 6 * 1.3;
  assert_near (hang->centroid.x, hang->bail_g * out / hang->mass_g, 1e-9);
  assert_near (hang->centroid.y, 0, 1e-9);
  assert_near (hang->centroid.z,
               (hang->stone_g * piece.stone.centroid.z + (hang->mass_g - hang->stone_g) * z)
                   / hang->mass_g,
               1e-9);
}

/* The loop's crest lies r(1 − cos φ) over its base; the cord bears half a bead lower. */
static void
the_pivot_is_under_the_crest_of_the_loop (void **state)
{
  Piece piece;
  take (&piece);
  piece.design.bail.at_deg = 0;
  hang_up (&piece);
  const BwLoop *loop = &piece.hang.loop;
  double half_face = 80 / 6.0 / (2 * tan (G_PI / 6));
  assert_near (piece.hang.pivot.x,
               half_face + 0.35 + 0.8 + loop->radius_mm * (1 - cos (loop->half_angle)) - 0.8, 1e-9);
  assert_near (piece.hang.pivot.y, 0, 1e-9);
  assert_near (piece.hang.pivot.z, 27.8, 1e-9);
}

/* Statics of a body on a free pivot (J. L. Meriam, L. G. Kraige, Statics; from memory): it rests
 * with G straight below A, so that its axis leans by atan(aside/rise). */
static void
a_ring_lets_the_balance_point_come_below_the_pivot (void **state)
{
  GRand *dice = g_rand_new_with_seed (21);
  for (int i = 0; i < 500; i++) {
    Piece piece;
    random_piece (&piece, dice);
    const BwHang *hang = &piece.hang;
    if (piece.design.bail.style == BW_BAIL_FLAP)
      continue;
    BwVec3 up = bw_vec3_sub (hang->pivot, hang->centroid);
    double cosine = up.z / bw_vec3_length (up);
    assert_near (hang->tilt_deg, bw_degrees (acos (fabs (cosine))), 1e-6);
    assert_int_equal (hang->up, cosine > 0 ? BW_UP_TIP : BW_UP_BASE);
    assert_false (hang->has_margin);
    assert_near (hang->margin_mm, 0, 0);
  }
  g_rand_free (dice);
}

/* By hand: on a regular prism the feet of a loop straight across stand on opposite faces. */
static void
a_loop_straight_across_hangs_a_regular_stone_upright (void **state)
{
  Piece piece;
  take (&piece);
  piece.design.band.bottom_mm = 24;
  piece.design.bail = (BwBail){ BW_BAIL_OVER, 4, 91, 27.5, 90, 3, 2 };
  hang_up (&piece);
  const BwHang *hang = &piece.hang;
  double half_face = 80 / 6.0 / (2 * tan (G_PI / 6)), edge = 24 + 12 * 1.3;
  double crest = hang->loop.radius_mm * (1 - cos (hang->loop.half_angle));
  assert_near (hang->loop.base_mm, 2 * (half_face + 0.35 + 0.8), 1e-6);
  assert_near (hang->pivot.z, edge + crest - 0.8, 1e-9);
  assert_near (hypot (hang->pivot.x, hang->pivot.y), 0, 1e-6);
  assert_near (hang->loop.opening_mm, crest - 0.8 - (60 - edge), 1e-9);
  assert_near (hang->frame.twist_deg, 0, 1e-4);
  assert_near (hang->tilt_deg, 0, 1e-5);
  assert_int_equal (hang->up, BW_UP_TIP);
  double centroid
      = hang->loop.radius_mm
        * (sin (hang->loop.half_angle) / hang->loop.half_angle - cos (hang->loop.half_angle));
  double z = (hang->stone_g * piece.stone.centroid.z + (hang->band_g + hang->bed_g) * (24 + 7.8)
              + hang->bail_g * (edge + centroid))
             / hang->mass_g;
  assert_near (hang->centroid.z, z, 1e-9);
}

/* The farther its feet lie from straight across, the farther off the axis it holds the piece. */
static void
a_loop_to_one_side_leans_the_piece_and_twists_at_its_feet (void **state)
{
  double before = -1, twist_before = -1;
  for (double base = 27.5; base >= 8; base -= 0.5) {
    Piece piece;
    take (&piece);
    piece.design.bail = (BwBail){ BW_BAIL_OVER, 4, 121, base, 90, 3, 2 };
    hang_up (&piece);
    BwVec3 pivot = piece.hang.pivot;
    assert_near (pivot.x, 0, 1e-6);
    assert_true (pivot.y > -1e-6);
    assert_true (piece.hang.tilt_deg > before);
    assert_true (piece.hang.frame.twist_deg >= twist_before - 1e-6);
    before = piece.hang.tilt_deg;
    twist_before = piece.hang.frame.twist_deg;
  }
  assert_true (before > 8 && twist_before > 45);
}

/* Walked along the arc: no point of the stone in the loop's plane comes nearer than is told. */
static void
the_room_beside_the_stone_is_that_to_its_nearest_corner (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (915);
  int free_of_it = 0, in_the_way = 0;
  for (int i = 0; i < 400; i++) {
    Piece piece;
    random_piece (&piece, dice);
    const BwHang *hang = &piece.hang;
    const BwBailFrame *frame = &hang->frame;
    if (piece.design.bail.style != BW_BAIL_OVER || frame->middle.z >= piece.stone.shoulder_mm)
      continue;
    /* At the shoulder the plane cuts the section; its ends are corners of what stands there. */
    BwSection section;
    double least = INFINITY, z = piece.stone.shoulder_mm;
    bw_section_init (&section, &piece.stone, z);
    for (int k = 0; k < section.edges; k++) {
      BwVec2 a = section.corner[k], b = section.corner[(k + 1) % section.edges];
      double from
          = (a.x - frame->middle.x) * frame->columns.x + (a.y - frame->middle.y) * frame->columns.y;
      double to
          = (b.x - frame->middle.x) * frame->columns.x + (b.y - frame->middle.y) * frame->columns.y;
      if (from * to >= 0)
        continue;
      BwVec2 at = bw_vec2_add (a, bw_vec2_scale (bw_vec2_sub (b, a), from / (from - to)));
      double x
          = (at.x - frame->middle.x) * frame->along.x + (at.y - frame->middle.y) * frame->along.y;
      double y = z - frame->middle.z + hang->loop.radius_mm * cos (hang->loop.half_angle);
      least = fmin (least, hang->loop.radius_mm - 0.8 - hypot (x, y));
    }
    assert_true (frame->beside_mm <= least + 1e-9);
    free_of_it += frame->beside_mm >= 0;
    in_the_way += frame->beside_mm < 0;
  }
  assert_true (free_of_it > 5 && in_the_way > 5);
}

static void
a_loop_made_to_reach_over_lets_its_cord_through (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (916);
  for (int i = 0; i < 200; i++) {
    Piece piece;
    random_piece (&piece, dice);
    piece.design.bail.cord_mm = g_rand_double_range (dice, 1, 5);
    bw_bail_reach_over (&piece.design, &piece.stone);
    hang_up (&piece);
    assert_int_equal (piece.design.bail.style, BW_BAIL_OVER);
    assert_true (piece.hang.loop.largest_cord_mm >= piece.design.bail.cord_mm);
    assert_int_equal (piece.hang.loop.rows_needed, piece.design.bail.rows);
    assert_near (piece.design.bail.base_beads, piece.design.band.rows / 4.0, 0);
  }
}

static void
a_piece_hung_above_its_balance_point_shows_its_tip_up (void **state)
{
  static const BwBailStyle styles[] = { BW_BAIL_RING, BW_BAIL_UPRIGHT, BW_BAIL_FLAP };
  for (gsize i = 0; i < G_N_ELEMENTS (styles); i++) {
    Piece piece;
    take (&piece);
    piece.design.bail.style = styles[i];
    piece.design.bail.columns = 2;
    piece.design.band.bottom_mm = 26;
    hang_up (&piece);
    assert_int_equal (piece.hang.up, BW_UP_TIP);
    assert_false (piece.hang.level);
    piece.design.band.bottom_mm = 0;
    hang_up (&piece);
    assert_int_equal (piece.hang.up, BW_UP_BASE);
    assert_true (piece.hang.tilt_deg > 0 && piece.hang.tilt_deg < 90);
  }
}

/* An even stone banded round its middle balances: the flap has half its width to spare. */
static void
an_even_stone_banded_in_the_middle_hangs_level (void **state)
{
  Piece piece;
  take (&piece);
  make_even (&piece);
  piece.design.bail.style = BW_BAIL_FLAP;
  hang_up (&piece);
  assert_near (piece.hang.centroid.z, 30, 1e-9);
  assert_true (piece.hang.has_margin);
  assert_near (piece.hang.margin_mm, 4 * 1.3 / 2, 1e-9);
  assert_near (piece.hang.tilt_deg, 90, 0);
  assert_true (piece.hang.level);
  piece.design.bail.style = BW_BAIL_RING;
  hang_up (&piece);
  assert_near (piece.hang.tilt_deg, 90, 1e-9);
}

/* Just beyond its edge a flap leans as far as G is beyond, over the drop: 90° − atan(beyond/drop).
 */
static void
a_flap_tips_about_its_edge_when_the_balance_point_leaves_it (void **state)
{
  int tipped = 0, level = 0;
  for (double bottom = 0; bottom <= 26; bottom += 0.25) {
    Piece piece;
    take (&piece);
    piece.design.bail.style = BW_BAIL_FLAP;
    piece.design.bail.at_deg = 0;
    piece.design.band.bottom_mm = bottom;
    hang_up (&piece);
    const BwHang *hang = &piece.hang;
    double beyond = fabs (hang->centroid.z - (bottom + 7.8)) - 2.6;
    assert_near (hang->margin_mm, -beyond, 1e-9);
    assert_int_equal (hang->level, beyond <= 0);
    if (beyond > 0) {
      double drop = hang->pivot.x - hang->centroid.x;
      assert_near (hang->tilt_deg, 90 - bw_degrees (atan (beyond / drop)), 1e-9);
      tipped++;
    } else {
      assert_near (hang->tilt_deg, 90, 0);
      level++;
    }
  }
  assert_true (tipped > 10 && level > 10);
}

/* Nothing about a regular stone changes when the bail goes on to the next face. */
/* The tip's angle from straight up, as the tilt tells it. */
static double
from_tip_deg (const BwHang *hang)
{
  return hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg;
}

static void
up_in_space_makes_the_tilt_with_the_axis (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (911);
  for (int i = 0; i < 800; i++) {
    Piece piece;
    random_piece (&piece, dice);
    BwVec3 up = piece.hang.vertical;
    assert_true (fabs (bw_vec3_length (up) - 1) < 1e-12);
    double angle = bw_degrees (atan2 (hypot (up.x, up.y), up.z));
    assert_true (fabs (angle - from_tip_deg (&piece.hang)) < 1e-9);
  }
}

static void
the_balance_point_rests_straight_under_a_point_of_the_cord (void **state)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (912);
  int level = 0, tipped = 0, hung_free = 0;
  for (int i = 0; i < 1600; i++) {
    Piece piece;
    random_piece (&piece, dice);
    const BwHang *hang = &piece.hang;
    BwVec3 down = bw_vec3_sub (hang->centroid, hang->hold);
    double depth = -bw_vec3_dot (down, hang->vertical);
    BwVec3 aside = bw_vec3_add (down, bw_vec3_scale (hang->vertical, depth));
    assert_true (depth > 0);
    assert_true (bw_vec3_length (aside) < 1e-9);
    /* On the crest's line; A itself where the piece may turn every way. */
    assert_true (hang->hold.x == hang->pivot.x && hang->hold.y == hang->pivot.y);
    double along = fabs (hang->hold.z - hang->pivot.z);
    double half = piece.design.bail.columns * piece.design.gauge.column_mm / 2;
    if (piece.design.bail.style != BW_BAIL_FLAP) {
      assert_true (along == 0);
      hung_free++;
    } else if (hang->level) {
      assert_true (along <= half);
      level++;
    } else {
      double azimuth = bw_radians (piece.design.bail.at_deg);
      BwVec3 off = bw_vec3_sub (hang->pivot, hang->centroid);
      double drop = off.x * cos (azimuth) + off.y * sin (azimuth);
      double longer = hypot (off.x, off.y) / drop - 1;
      assert_true (longer >= -1e-12 && longer < 0.1);
      assert_true (fabs (along - half - hang->margin_mm * longer) < 1e-8);
      tipped++;
    }
  }
  assert_true (level > 50 && tipped > 50 && hung_free > 200);
}

static void
every_face_of_a_regular_stone_hangs_alike (void **state)
{
  Piece first;
  take (&first);
  first.design.bail.at_deg = 0;
  first.design.bail.style = BW_BAIL_FLAP;
  first.design.bail.columns = 2;
  hang_up (&first);
  for (int face = 1; face < 6; face++) {
    Piece piece = first;
    piece.design.bail.at_deg = 60 * face;
    hang_up (&piece);
    assert_near (piece.hang.tilt_deg, first.hang.tilt_deg, 1e-9);
    assert_near (piece.hang.margin_mm, first.hang.margin_mm, 1e-9);
  }
}

/* A round cone of the same girths: the half angle of its mantle. */
static void
the_wedge_is_the_half_angle_of_the_cone (void **state)
{
  Piece piece;
  take (&piece);
  piece.design.stone.has_second = TRUE;
  piece.design.stone.second_girth_mm = 70;
  piece.design.stone.second_at_mm = 35;
  hang_up (&piece);
  double radius_low = 80 / (2 * G_PI), radius_high = 70 / (2 * G_PI);
  assert_near (piece.hang.wedge.alpha_deg, bw_degrees (atan ((radius_low - radius_high) / 20)),
               1e-9);
  assert_int_equal (piece.hang.wedge.thin_end, BW_THIN_TIP);
  assert_false (piece.hang.wedge.slips);
  piece.design.limits.friction = 0.99 * (radius_low - radius_high) / 20;
  hang_up (&piece);
  assert_true (piece.hang.wedge.slips);
  piece.design.stone.second_girth_mm = 90;
  hang_up (&piece);
  assert_true (piece.hang.wedge.alpha_deg < 0);
  assert_int_equal (piece.hang.wedge.thin_end, BW_THIN_BASE);
}

static void
a_straight_prism_has_no_thin_end (void **state)
{
  Piece piece;
  take (&piece);
  hang_up (&piece);
  assert_int_equal (piece.hang.wedge.thin_end, BW_THIN_NEITHER);
  assert_near (piece.hang.wedge.alpha_deg, 0, 0);
  assert_false (piece.hang.wedge.slips);
}

static void
a_band_on_the_point_slips_towards_the_tip (void **state)
{
  Piece piece;
  take (&piece);
  piece.design.band.columns = 6;
  piece.design.bail.columns = 2;
  piece.design.band.bottom_mm = 44;
  hang_up (&piece);
  assert_near (tan (bw_radians (piece.hang.wedge.alpha_deg)), 80 / (2 * G_PI) / 18, 1e-9);
  assert_true (piece.hang.wedge.slips);
}

static void
without_a_bail_there_is_weight_but_nothing_to_hang_by (void **state)
{
  Piece piece;
  BwHangHeight heights[3];
  take (&piece);
  piece.design.bail.style = BW_BAIL_NONE;
  hang_up (&piece);
  assert_false (piece.hang.has_bail);
  assert_near (piece.hang.bail_g, 0, 0);
  assert_near (piece.hang.centroid.x, 0, 1e-9);
  assert_true (piece.hang.mass_g > piece.stone.mass_g);
  assert_int_equal (bw_hang_suggest (heights, &piece.design, &piece.stone), 0);
}

static void
a_bail_that_cannot_arch_is_named_and_nothing_is_changed (void **state)
{
  Piece piece;
  BwFault fault = { .key = BW_N_FAULT_KEYS };
  take (&piece);
  hang_up (&piece);
  BwHang before = piece.hang;
  piece.design.bail.rows = 3;
  assert_false (bw_hang_init (&piece.hang, &piece.design, &piece.stone, &fault));
  assert_int_equal (fault.key, BW_AT_BAIL_ROWS);
  assert_int_equal (fault.kind, BW_FAULTY_LOOP_SHORT);
  assert_near (piece.hang.tilt_deg, before.tilt_deg, 0);
  assert_near (piece.hang.mass_g, before.mass_g, 0);
}

/* Suggestions, against a plain look at every height. */

static double
off_want (BwWant want, const BwHang *hang)
{
  double from_up = hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg;
  return want == BW_WANT_LEVEL ? fabs (from_up - 90)
                               : fabs (from_up - (want == BW_WANT_TIP_UP ? 0 : 180));
}

static double
off_at (const Piece *piece, double bottom, BwWant want)
{
  BwDesign there = piece->design;
  BwHang hang;
  there.band.bottom_mm = bottom;
  assert_true (bw_hang_init (&hang, &there, &piece->stone, NULL));
  return off_want (want, &hang);
}

static void
check_height (const Piece *piece, const BwHangHeight *height)
{
  double width = bw_design_span (&piece->design).width_mm, here = piece->design.band.bottom_mm;
  double low = piece->stone.base_shoulder_mm, high = piece->stone.shoulder_mm - width;
  double own = off_at (piece, height->bottom_mm, height->want);
  double steps = (height->bottom_mm - here) / 0.5;
  assert_near (steps, round (steps), 1e-9);
  assert_true (height->bottom_mm >= low - 1e-9 && height->bottom_mm <= high + 1e-9);
  assert_int_equal (height->reached, own <= 5);
  for (int k = -200; k <= 200; k++) {
    double bottom = here + k * 0.5;
    if (bottom < low - 1e-9 || bottom > high + 1e-9)
      continue;
    double off = off_at (piece, bottom, height->want);
    if (height->want == BW_WANT_LEVEL)
      assert_true (off >= own - 1e-6);
    else if (!height->reached)
      assert_true (off > 5 && off >= own - 1e-9);
    else if (off <= 5)
      assert_true (fabs (bottom - here) >= fabs (height->bottom_mm - here) - 1e-9);
  }
}

static void
each_suggestion_is_the_nearest_height_that_does_or_the_best_there_is (void **state)
{
  GRand *dice = g_rand_new_with_seed (22);
  int reached[3] = { 0 }, missed[3] = { 0 };
  for (int i = 0; i < 150; i++) {
    Piece piece;
    BwHangHeight heights[3];
    random_piece (&piece, dice);
    if (bw_design_span (&piece.design).width_mm > piece.stone.shoulder_mm - 1)
      continue;
    assert_int_equal (bw_hang_suggest (heights, &piece.design, &piece.stone), 3);
    for (int want = 0; want < 3; want++) {
      assert_int_equal (heights[want].want, want);
      check_height (&piece, &heights[want]);
      reached[want] += heights[want].reached;
      missed[want] += !heights[want].reached;
    }
  }
  assert_true (reached[BW_WANT_LEVEL] > 20);
  assert_true (missed[BW_WANT_TIP_DOWN] + missed[BW_WANT_TIP_UP] > 20);
  g_rand_free (dice);
}

static void
a_suggestion_tells_the_tilt_the_piece_will_have_there (void **state)
{
  GRand *dice = g_rand_new_with_seed (23);
  for (int i = 0; i < 100; i++) {
    Piece piece;
    BwHangHeight heights[3];
    random_piece (&piece, dice);
    bw_hang_suggest (heights, &piece.design, &piece.stone);
    for (int want = 0; want < 3; want++) {
      Piece there = piece;
      there.design.band.bottom_mm = heights[want].bottom_mm;
      hang_up (&there);
      assert_near (there.hang.tilt_deg, heights[want].tilt_deg, 1e-9);
      assert_int_equal (there.hang.up, heights[want].up);
    }
  }
  g_rand_free (dice);
}

/* A girth over the bed tells how thick it is; at another height of a tapered stone the same bed has
 * another girth. */
static void
a_measured_bed_goes_along_as_thick_as_it_is (void **state)
{
  Piece measured, wound;
  BwHangHeight a[3], b[3];
  BwSection section;
  take (&wound);
  wound.design.stone.has_second = TRUE;
  wound.design.stone.second_girth_mm = 72;
  wound.design.stone.second_at_mm = 35;
  wound.design.band.bottom_mm = 4;
  hang_up (&wound);
  measured = wound;
  bw_section_init (&section, &measured.stone, 4 + 7.8);
  measured.design.bed.has_girth_over = TRUE;
  measured.design.bed.girth_over_mm = section.girth_mm + 2 * G_PI * 0.35;
  bw_hang_suggest (a, &measured.design, &measured.stone);
  bw_hang_suggest (b, &wound.design, &wound.stone);
  for (int want = 0; want < 3; want++) {
    assert_near (a[want].bottom_mm, b[want].bottom_mm, 0);
    assert_near (a[want].tilt_deg, b[want].tilt_deg, 1e-9);
  }
}

/* Nobody sets a band at the very tip because it hangs well there. */
static void
a_band_wider_than_the_prism_is_sent_nowhere (void **state)
{
  Piece piece;
  BwHangHeight heights[3];
  take (&piece);
  piece.design.band.columns = 36;
  piece.design.band.bottom_mm = 5;
  hang_up (&piece);
  assert_int_equal (bw_hang_suggest (heights, &piece.design, &piece.stone), 3);
  for (int want = 0; want < 3; want++) {
    assert_near (heights[want].bottom_mm, 5, 0);
    assert_near (heights[want].tilt_deg, piece.hang.tilt_deg, 1e-9);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_piece_weighs_what_its_parts_weigh),
    cmocka_unit_test (the_balance_point_is_the_mean_of_the_parts),
    cmocka_unit_test (the_pivot_is_under_the_crest_of_the_loop),
    cmocka_unit_test (a_ring_lets_the_balance_point_come_below_the_pivot),
    cmocka_unit_test (a_loop_straight_across_hangs_a_regular_stone_upright),
    cmocka_unit_test (a_loop_to_one_side_leans_the_piece_and_twists_at_its_feet),
    cmocka_unit_test (the_room_beside_the_stone_is_that_to_its_nearest_corner),
    cmocka_unit_test (a_loop_made_to_reach_over_lets_its_cord_through),
    cmocka_unit_test (a_piece_hung_above_its_balance_point_shows_its_tip_up),
    cmocka_unit_test (an_even_stone_banded_in_the_middle_hangs_level),
    cmocka_unit_test (a_flap_tips_about_its_edge_when_the_balance_point_leaves_it),
    cmocka_unit_test (up_in_space_makes_the_tilt_with_the_axis),
    cmocka_unit_test (the_balance_point_rests_straight_under_a_point_of_the_cord),
    cmocka_unit_test (every_face_of_a_regular_stone_hangs_alike),
    cmocka_unit_test (the_wedge_is_the_half_angle_of_the_cone),
    cmocka_unit_test (a_straight_prism_has_no_thin_end),
    cmocka_unit_test (a_band_on_the_point_slips_towards_the_tip),
    cmocka_unit_test (without_a_bail_there_is_weight_but_nothing_to_hang_by),
    cmocka_unit_test (a_bail_that_cannot_arch_is_named_and_nothing_is_changed),
    cmocka_unit_test (each_suggestion_is_the_nearest_height_that_does_or_the_best_there_is),
    cmocka_unit_test (a_suggestion_tells_the_tilt_the_piece_will_have_there),
    cmocka_unit_test (a_measured_bed_goes_along_as_thick_as_it_is),
    cmocka_unit_test (a_band_wider_than_the_prism_is_sent_nowhere),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
