/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece at rest: stone, band, bed and bail are one rigid body that hangs from the crest of the
 * bail's loop. Thread, cord and ring weigh nothing, and the cord does not turn the piece. */
#include "core/bail/hang.h"

#include "core/base/tolerance.h"
#include "core/stone/section.h"

/* What belongs to the band's place on the stone, before masses come in. */
typedef struct {
  double mid_mm;  /* z_mid, the height of band and bed */
  BwVec2 outward; /* unit, the bail's azimuth */
  double slope;   /* dg/dz */
} Site;

static void
site_init (Site *site, const BwDesign *design, const BwStone *stone)
{
  BwSection section;
  double azimuth = bw_radians (design->bail.at_deg);
  site->mid_mm = bw_band_span_mid (bw_design_span (design));
  bw_section_init (&section, stone, site->mid_mm);
  site->outward = bw_vec2 (cos (azimuth), sin (azimuth));
  site->slope = section.slope;
}

/* A point in the bail's middle plane, so far over the middle of its base. */
static BwVec3
over_base (const BwBailFrame *frame, double distance)
{
  return bw_vec3_add (frame->middle, bw_vec3_scale (frame->out, distance));
}

/* Centroid of the arc of half-angle φ and radius r over its chord: r(sin φ/φ − cos φ). */
static double
arc_centroid_mm (const BwLoop *loop)
{
  double phi = loop->half_angle;
  return loop->radius_mm * (sin (phi) / phi - cos (phi));
}

static void
weigh (BwHang *hang, const BwDesign *design, const BwStone *stone, const Site *site)
{
  double bead = bw_bead_mass_g (&design->bead);
  BwVec3 axis = bw_vec3 (0, 0, site->mid_mm);
  BwVec3 bail = hang->has_bail ? over_base (&hang->frame, arc_centroid_mm (&hang->loop)) : axis;
  hang->stone_g = stone->mass_g;
  hang->band_g = bead * design->band.rows * (design->band.columns / 2);
  hang->bed_g = bw_bed_mass_g (&design->bed, stone, bw_design_span (design));
  hang->bail_g = bead * bw_bail_bead_count (&design->bail);
  hang->mass_g = hang->stone_g + hang->band_g + hang->bed_g + hang->bail_g;
  BwVec3 moment = bw_vec3_add (bw_vec3_scale (stone->centroid, hang->stone_g),
                               bw_vec3_scale (axis, hang->band_g + hang->bed_g));
  moment = bw_vec3_add (moment, bw_vec3_scale (bail, hang->bail_g));
  hang->centroid = bw_vec3_scale (moment, 1 / hang->mass_g);
}

static BwUp
up_of (double rise)
{
  return rise > 0 ? BW_UP_TIP : rise < 0 ? BW_UP_BASE : BW_UP_LEVEL;
}

/* Free to turn about the crest: G comes to rest straight below A. */
static void
hang_free (BwHang *hang)
{
  BwVec3 up = bw_vec3_sub (hang->pivot, hang->centroid);
  hang->tilt_deg = bw_degrees (atan2 (hypot (up.x, up.y), fabs (up.z)));
  hang->up = up_of (up.z);
}

/* A flap lies on its cord along the stone: level as long as G is between its edges, else the piece
 * tips about the edge until G is below that. */
static void
hang_flat (BwHang *hang, const BwDesign *design, const Site *site)
{
  double beyond = hang->centroid.z - site->mid_mm;
  BwVec3 to_pivot = bw_vec3_sub (hang->pivot, hang->centroid);
  double drop = bw_vec2_dot (bw_vec2 (to_pivot.x, to_pivot.y), site->outward);
  hang->has_margin = TRUE;
  hang->margin_mm = design->bail.columns * design->gauge.column_mm / 2 - fabs (beyond);
  if (hang->margin_mm >= 0) {
    hang->tilt_deg = 90;
    hang->up = BW_UP_LEVEL;
    return;
  }
  hang->tilt_deg = fabs (90 - bw_degrees (atan2 (-hang->margin_mm, drop)));
  hang->up = up_of (-beyond);
}

static BwVec3
unit_or (BwVec3 v, BwVec3 otherwise)
{
  double length = bw_vec3_length (v);
  return length > BW_ROUNDING_UNIT ? bw_vec3_scale (v, 1 / length) : otherwise;
}

/* Up and the point of the cord above G, where the cord may touch all along the crest's line. */
static void
stand_along_crest (BwHang *hang, const Site *site)
{
  BwVec3 outward = bw_vec3 (site->outward.x, site->outward.y, 0);
  BwVec3 off = bw_vec3_sub (hang->pivot, hang->centroid);
  off.z = 0;
  double from_tip = bw_radians (hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg);
  double sine = sin (from_tip), cosine = hang->level ? 0 : cos (from_tip);
  hang->vertical = bw_vec3_scale (unit_or (off, outward), sine);
  hang->vertical.z = cosine;
  hang->hold = hang->pivot;
  hang->hold.z
      = hang->centroid.z + (sine > BW_ROUNDING_UNIT ? bw_vec3_length (off) * cosine / sine : 0);
}

static void
stand_under_pivot (BwHang *hang)
{
  hang->hold = hang->pivot;
  hang->vertical = unit_or (bw_vec3_sub (hang->pivot, hang->centroid), bw_vec3 (0, 0, 1));
}

static void
come_to_rest (BwHang *hang, const BwDesign *design, const Site *site)
{
  const BwLoop *loop = &hang->loop;
  double crest = loop->radius_mm * (1 - cos (loop->half_angle));
  hang->pivot = over_base (&hang->frame, crest - design->bead.diameter_mm / 2);
  if (design->bail.style == BW_BAIL_FLAP)
    hang_flat (hang, design, site);
  else
    hang_free (hang);
  hang->level = hang->up == BW_UP_LEVEL;
  if (design->bail.style == BW_BAIL_FLAP)
    stand_along_crest (hang, site);
  else
    stand_under_pivot (hang);
}

/* α is the half angle of the round cone that narrows as fast. */
static void
judge_wedge (BwWedge *wedge, double slope, double friction)
{
  double tangent = -slope / (2 * G_PI);
  wedge->alpha_deg = bw_degrees (atan (tangent));
  wedge->thin_end = tangent > 0 ? BW_THIN_TIP : tangent < 0 ? BW_THIN_BASE : BW_THIN_NEITHER;
  wedge->slips = fabs (tangent) > friction;
}

gboolean
bw_hang_init (BwHang *hang, const BwDesign *design, const BwStone *stone, BwFault *fault)
{
  BwHang solved = { .has_bail = design->bail.style != BW_BAIL_NONE };
  Site site;
  if (solved.has_bail && !bw_bail_loop_init (&solved.loop, &solved.frame, design, stone, fault))
    return FALSE;
  site_init (&site, design, stone);
  weigh (&solved, design, stone, &site);
  judge_wedge (&solved.wedge, site.slope, design->limits.friction);
  if (solved.has_bail)
    come_to_rest (&solved, design, &site);
  *hang = solved;
  return TRUE;
}

/* Suggestions. */

#define STEP_MM 0.5
#define REACH_DEG 5.0

/* How the axis would stand, as the angle of the tip from straight up, 0..180, and its distance from
 * what is wanted. */
static double
deviation (BwWant want, const BwHang *hang)
{
  double from_up = hang->up == BW_UP_BASE ? 180 - hang->tilt_deg : hang->tilt_deg;
  static const double wanted[]
      = { [BW_WANT_LEVEL] = 90, [BW_WANT_TIP_DOWN] = 180, [BW_WANT_TIP_UP] = 0 };
  return fabs (from_up - wanted[want]);
}

typedef struct {
  BwHangHeight height;
  double deviation; /* degrees; infinite before any height was tried */
} Best;

/* Heights come nearest first, so the first one within reach stays; an eye sees a degree off level,
 * and there the best of all is sought. Of two as near, one above and one below, the upper comes
 * first. */
static void
consider (Best *best, double bottom_mm, const BwHang *hang)
{
  double off = deviation (best->height.want, hang);
  gboolean found = best->height.reached && best->height.want != BW_WANT_LEVEL;
  if (found || off >= best->deviation - BW_ROUNDING_DEG)
    return;
  best->deviation = off;
  best->height.bottom_mm = bottom_mm;
  best->height.tilt_deg = hang->tilt_deg;
  best->height.up = hang->up;
  best->height.reached = off <= REACH_DEG;
}

/* Which whole steps from the present bottom keep the band between two heights. */
static gboolean
steps_between (const BwDesign *design, double low, double high, int *least, int *most)
{
  BwBandSpan span = bw_design_span (design);
  *least = (int)ceil ((low - span.bottom_mm) / STEP_MM - BW_ROUNDING_WHOLE);
  *most = (int)floor ((high - span.width_mm - span.bottom_mm) / STEP_MM + BW_ROUNDING_WHOLE);
  return *least <= *most;
}

/* The bed goes with the band as thick as it is: a girth measured over it belongs to the old place.
 */
static BwDesign
moved (const BwDesign *design, const BwStone *stone, double bottom_mm)
{
  BwDesign there = *design;
  BwSection old, new;
  there.band.bottom_mm = bottom_mm;
  bw_section_init (&old, stone, bw_band_span_mid (bw_design_span (design)));
  bw_section_init (&new, stone, bw_band_span_mid (bw_design_span (&there)));
  there.bed.girth_over_mm += new.girth_mm - old.girth_mm;
  return there;
}

int
bw_hang_suggest (BwHangHeight heights[3], const BwDesign *design, const BwStone *stone)
{
  Best best[3];
  int least, most;
  if (design->bail.style == BW_BAIL_NONE)
    return 0;
  for (int want = 0; want < 3; want++)
    best[want] = (Best){ { .want = (BwWant)want, .bottom_mm = design->band.bottom_mm }, INFINITY };
  if (!steps_between (design, stone->base_shoulder_mm, stone->shoulder_mm, &least, &most))
    least = most = 0;
  int reach = MAX (abs (least), abs (most));
  for (int i = 0; i <= 2 * reach; i++) {
    int step = i % 2 ? (i + 1) / 2 : -i / 2;
    BwDesign there = moved (design, stone, design->band.bottom_mm + step * STEP_MM);
    BwHang hang;
    if (step < least || step > most || !bw_hang_init (&hang, &there, stone, NULL))
      continue;
    for (int want = 0; want < 3; want++)
      consider (&best[want], there.band.bottom_mm, &hang);
  }
  for (int want = 0; want < 3; want++)
    heights[want] = best[want].height;
  return 3;
}
