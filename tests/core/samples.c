/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random stones are drawn from their face distances, so that most of what is drawn can be a stone.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include "samples.h"

#include <math.h>

void
sample_assert_near (double found, double expected, double within, const char *what,
                    const char *file, int line)
{
  if (fabs (found - expected) <= within)
    return;
  print_error ("%s is %.17g, not %.17g within %g\n", what, found, expected, within);
  _fail (file, line);
}

double
sample_between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

/* Half the width of the face at distance a that meets a neighbour at distance b under the angle. */
static double
reach (double a, double b, double angle)
{
  return (b - a * cos (angle)) / sin (angle);
}

void
sample_section (BwSection *section, int faces, const double *distance_mm)
{
  double angle = 2 * G_PI / faces;
  *section = (BwSection){ .edges = faces, .z_mm = 10 };
  for (int i = 0; i < faces; i++) {
    double h = distance_mm[i], next = distance_mm[(i + 1) % faces];
    double last = distance_mm[(i + faces - 1) % faces], azimuth = angle * i;
    double along = reach (h, next, angle);
    section->corner[i] = bw_vec2 (cos (azimuth) * h - sin (azimuth) * along,
                                  sin (azimuth) * h + cos (azimuth) * along);
    section->girth_mm += along + reach (h, last, angle);
    section->normal[i] = bw_vec2 (cos (azimuth), sin (azimuth));
    section->turn[i] = angle;
    section->face[i] = i;
  }
}

/* Irregular as crystals are, but never so much that a face vanishes. */
static void
random_distances (GRand *rand, int faces, double *distance_mm)
{
  double mean = sample_between (rand, 4, 25);
  double uneven = MIN (0.15, 4.0 / (faces * faces));
  for (int i = 0; i < faces; i++)
    distance_mm[i] = mean * (1 + sample_between (rand, -uneven, uneven));
}

void
sample_random_section (BwSection *section, GRand *rand)
{
  double distance[BW_FACES_MAX];
  int faces = g_rand_int_range (rand, 3, 13);
  random_distances (rand, faces, distance);
  sample_section (section, faces, distance);
}

BwDesign
sample_design (void)
{
  BwDesign design;
  bw_design_defaults (&design);
  design.stone.faces = 6;
  design.stone.measured = BW_MEASURED_ACROSS_FLATS;
  design.stone.values_mm[0] = 24.6;
  design.stone.values_mm[1] = 23.9;
  design.stone.values_mm[2] = 25.2;
  design.stone.at_mm = 12;
  design.stone.has_second = TRUE;
  design.stone.second_girth_mm = 83.9;
  design.stone.second_at_mm = 34;
  design.stone.length_mm = 58;
  design.stone.has_shoulder = TRUE;
  design.stone.shoulder_mm = 41;
  design.stone.apex_offset_mm[0] = 0.8;
  design.stone.apex_offset_mm[1] = -0.4;
  design.bead = (BwBead){ "11/0 cylinder", 1.6, 1.3, 0.8, 2.5 };
  design.gauge = (BwGauge){ .column_mm = 1.3, .pitch_mm = 1.6 };
  design.pitch = bw_gauge_pitch (&design.gauge, NULL, 0);
  design.bed.layers = 1;
  design.band = (BwBand){ .columns = 14, .rows = 114, .bottom_mm = 14.2, .seam_deg = 180 };
  return design;
}

void
sample_solve (const BwDesign *design, BwStone *stone)
{
  BwFault fault;
  if (!bw_design_validate (design, stone, &fault))
    g_error ("the sample is not sound: fault %d at key %d", fault.kind, fault.key);
}

static void
random_stone (GRand *rand, BwStoneMeasures *stone)
{
  double distance[BW_FACES_MAX];
  BwSection section;
  stone->faces = g_rand_int_range (rand, 3, 11);
  random_distances (rand, stone->faces, distance);
  sample_section (&section, stone->faces, distance);
  stone->measured = BW_MEASURED_FACE_WIDTHS;
  for (int i = 0; i < stone->faces; i++)
    stone->values_mm[i] = bw_section_face_width_mm (&section, i);
  stone->at_mm = 10;
  stone->length_mm = sample_between (rand, 50, 90);
  stone->has_shoulder = TRUE;
  stone->shoulder_mm = sample_between (rand, 38, 45);
  stone->has_second = g_rand_boolean (rand);
  stone->second_at_mm = 34;
  stone->second_girth_mm = section.girth_mm * sample_between (rand, 0.95, 1.05);
}

static void
random_band (GRand *rand, BwDesign *design)
{
  int n_sizes;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  design->bead = sizes[g_rand_int_range (rand, 0, n_sizes)];
  design->gauge
      = (BwGauge){ .column_mm = design->bead.length_mm * sample_between (rand, 1, 1.06),
                   .pitch_mm = design->bead.diameter_mm * sample_between (rand, 0.98, 1.04) };
  design->pitch = bw_gauge_pitch (&design->gauge, NULL, 0);
  design->bed.cord_thickness_mm = sample_between (rand, 0.2, 0.6);
  design->bed.layers = g_rand_int_range (rand, 0, 4);
  design->bed.top_extra_mm = design->bed.layers ? sample_between (rand, -0.1, 0.2) : 0;
  design->band.columns = 2 * g_rand_int_range (rand, 1, 8);
  design->band.seam_deg = sample_between (rand, 0, 360);
  double room = 38 - design->band.columns * design->gauge.column_mm;
  design->band.bottom_mm = sample_between (rand, 0, MAX (room, 0.1));
}

BwDesign
sample_random_design (GRand *rand, BwStone *stone)
{
  for (;;) {
    BwDesign design;
    bw_design_defaults (&design);
    random_stone (rand, &design.stone);
    random_band (rand, &design);
    design.band.rows = 6;
    if (!bw_design_validate (&design, stone, NULL))
      continue;
    double around = stone->girth_mm + G_PI * design.bead.diameter_mm;
    design.band.rows
        = 2 * (int)ceil (around / design.pitch.mm) + 2 * g_rand_int_range (rand, -1, 3);
    if (bw_design_validate (&design, stone, NULL))
      return design;
  }
}

void
sample_mid_ring (BwRing *ring, const BwDesign *design)
{
  BwStone stone;
  BwFault fault;
  if (!bw_stone_init (&stone, &design->stone, &fault))
    g_error ("the sample is not sound: fault %d at key %d", fault.kind, fault.key);
  bw_mid_ring_init (ring, design, &stone);
}

void
sample_bail_base (BwBailBase *base, const BwDesign *design)
{
  BwRing ring;
  sample_mid_ring (&ring, design);
  bw_bail_base_init (base, design, &ring);
}

void
sample_path (BwPath *path, const BwDesign *design)
{
  BwBailBase base;
  if (design->bail.style != BW_BAIL_NONE)
    sample_bail_base (&base, design);
  bw_path_init (path, design, &base);
}

void
sample_true_places (BwPlaces *places, const BwDesign *design, const BwStone *stone)
{
  BwFit fit;
  bw_fit_init (&fit, design, stone, design->band.rows);
  bw_places_init_true (places, design, stone, &fit);
}

static void
scale_stone (BwStoneMeasures *stone, double factor)
{
  for (int i = 0; i < BW_FACES_MAX; i++)
    stone->values_mm[i] *= factor;
  stone->at_mm *= factor;
  stone->second_girth_mm *= factor;
  stone->second_at_mm *= factor;
  stone->length_mm *= factor;
  stone->shoulder_mm *= factor;
  stone->base_shoulder_mm *= factor;
  stone->girth_sd_mm *= factor;
  for (int i = 0; i < 2; i++) {
    stone->apex_offset_mm[i] *= factor;
    stone->base_apex_offset_mm[i] *= factor;
  }
}

BwDesign
sample_scaled (const BwDesign *design, double factor)
{
  BwDesign scaled = *design;
  scale_stone (&scaled.stone, factor);
  scaled.bead.diameter_mm *= factor;
  scaled.bead.length_mm *= factor;
  scaled.bead.hole_mm *= factor;
  scaled.gauge.column_mm *= factor;
  scaled.gauge.pitch_mm *= factor;
  scaled.pitch.mm *= factor;
  scaled.pitch.sd_mm *= factor;
  scaled.bed.cord_thickness_mm *= factor;
  scaled.bed.cord_width_mm *= factor;
  scaled.bed.top_extra_mm *= factor;
  scaled.bed.overhang_mm *= factor;
  scaled.bed.girth_over_mm *= factor;
  scaled.band.bottom_mm *= factor;
  scaled.limits.slack_mm *= factor;
  return scaled;
}

BwDesign
sample_renumbered (const BwDesign *design, int by)
{
  BwDesign turned = *design;
  int values = bw_stone_value_count (design->stone.measured, design->stone.faces);
  double angle = 2 * G_PI * by / design->stone.faces;
  const double *apex = design->stone.apex_offset_mm;
  for (int i = 0; i < values; i++)
    turned.stone.values_mm[(i + by) % values] = design->stone.values_mm[i];
  turned.stone.apex_offset_mm[0] = apex[0] * cos (angle) - apex[1] * sin (angle);
  turned.stone.apex_offset_mm[1] = apex[0] * sin (angle) + apex[1] * cos (angle);
  turned.band.seam_deg = fmod (design->band.seam_deg + bw_degrees (angle), 360);
  turned.bail.at_deg = fmod (design->bail.at_deg + bw_degrees (angle), 360);
  return turned;
}
