/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/band/fit.h"

#include "makers.h"

#include <math.h>

/* Box and Muller, Annals of Mathematical Statistics 29(2), 1958, 610-611. */
double
maker_normal (GRand *rand, double mean, double sd)
{
  double u = 1 - g_rand_double (rand), v = g_rand_double (rand);
  return mean + sd * sqrt (-2 * log (u)) * cos (2 * G_PI * v);
}

static BwDesign
plain_piece (GRand *rand)
{
  BwDesign design = sample_design ();
  double across = sample_between (rand, 14, 30);
  for (int i = 0; i < 3; i++)
    design.stone.values_mm[i] = across * sample_between (rand, 0.95, 1.05);
  design.stone.has_second = FALSE;
  design.band.columns = 2 * g_rand_int_range (rand, 3, 7);
  design.bed.layers = 1;
  return design;
}

/* What nobody measures. */
static void
draw_hands (Maker *maker, GRand *rand)
{
  BwDesign *truth = &maker->truth;
  maker->pitch_mm = truth->gauge.pitch_mm * maker_normal (rand, 1, MAKER_PITCH_SHARE);
  truth->pitch = (BwPitch){ .mm = maker->pitch_mm };
  truth->bed.cord_thickness_mm += maker_normal (rand, 0, MAKER_BED_MM) / truth->bed.layers;
  truth->bed.squeeze = CLAMP (maker_normal (rand, 0.15, MAKER_SQUEEZE_SD), 0, 0.5);
  truth->thread.stretch = CLAMP (maker_normal (rand, 0.010, MAKER_STRETCH_SD), 0, 0.05);
}

static gboolean
solve (Maker *maker)
{
  if (!bw_design_validate (&maker->truth, &maker->real, NULL)
      || !bw_design_validate (&maker->told, &maker->known, NULL))
    return FALSE;
  maker->right = 2 * bw_fit_recommended (&maker->truth, &maker->real);
  return TRUE;
}

BwCheck
maker_check (const Maker *maker, GRand *rand, int rows, double error_mm)
{
  return (BwCheck){ rows, maker_normal (rand, (rows + 1) * maker->pitch_mm / 2, error_mm) };
}

gboolean
maker_init (Maker *maker, GRand *rand)
{
  maker->told = plain_piece (rand);
  maker->truth = maker->told;
  for (int i = 0; i < 3; i++)
    maker->truth.stone.values_mm[i]
        = maker_normal (rand, maker->told.stone.values_mm[i], MAKER_FLATS_MM);
  draw_hands (maker, rand);
  if (!solve (maker))
    return FALSE;
  const int rows[] = { 24, maker->right / 3, 2 * maker->right / 3 };
  BwCheck checks[G_N_ELEMENTS (rows)];
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    checks[i] = maker_check (maker, rand, rows[i], bw_strip_error_mm (BW_STRIP_BY_RULER));
  maker->told.pitch = bw_gauge_pitch (&maker->told.gauge, checks, G_N_ELEMENTS (checks));
  return TRUE;
}

/* Any size, as wide a band as before, one to three layers. */
static void
take_any_bead (BwDesign *design, GRand *rand)
{
  int n_sizes;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  design->bead = sizes[g_rand_int_range (rand, 0, n_sizes)];
  design->gauge
      = (BwGauge){ .column_mm = design->bead.length_mm, .pitch_mm = design->bead.diameter_mm };
  design->pitch = bw_gauge_pitch (&design->gauge, NULL, 0);
  design->band.columns
      = 2 * MAX (2, (int)(sample_between (rand, 8, 18) / 2 / design->bead.length_mm));
  design->bed.layers = g_rand_int_range (rand, 1, 4);
}

/* The stone as it is, before anything is measured. */
static void
let_taper (BwDesign *design, GRand *rand)
{
  BwStone stone;
  if (!bw_stone_init (&stone, &design->stone, NULL))
    return;
  design->stone.has_second = TRUE;
  design->stone.second_girth_mm = stone.girth_mm * sample_between (rand, 0.96, 1.04);
}

/* What calliper or strip of paper say of the true stone. */
static gboolean
measure (BwStoneMeasures *told, const BwStoneMeasures *truth, GRand *rand, gboolean by_strip)
{
  BwStone stone;
  if (!bw_stone_init (&stone, truth, NULL))
    return FALSE;
  if (by_strip) {
    told->measured = BW_MEASURED_GIRTH;
    told->values_mm[0] = maker_normal (rand, stone.girth_mm, MAKER_GIRTH_MM);
  } else
    for (int i = 0; i < 3; i++)
      told->values_mm[i] = maker_normal (rand, truth->values_mm[i], MAKER_FLATS_MM);
  if (told->has_second)
    told->second_girth_mm = maker_normal (rand, truth->second_girth_mm, MAKER_GIRTH_MM);
  return TRUE;
}

gboolean
maker_init_with (Maker *maker, GRand *rand, MakerHabits habits)
{
  maker->truth = plain_piece (rand);
  if (habits.any_bead)
    take_any_bead (&maker->truth, rand);
  if (habits.tapers)
    let_taper (&maker->truth, rand);
  maker->told = maker->truth;
  if (!measure (&maker->told.stone, &maker->truth.stone, rand, habits.by_strip))
    return FALSE;
  draw_hands (maker, rand);
  return solve (maker);
}

void
maker_lacks (const Maker *maker, int rows, double *slack, double *pulled)
{
  g_autofree BwFit *fit = g_new (BwFit, 1);
  bw_fit_init (fit, &maker->truth, &maker->real, rows);
  *pulled = -INFINITY;
  *slack = 0;
  for (int i = 0; i < fit->n_columns; i++)
    if (fit->column[i].gap_mm - fit->column[i].pull_mm > *pulled) {
      *slack = fit->column[i].gap_mm;
      *pulled = *slack - fit->column[i].pull_mm;
    }
}

gboolean
maker_is_snug (const Maker *maker, int rows)
{
  return bw_fit_is_snug (&maker->truth, &maker->real, rows);
}

BwReading
maker_read (const Maker *maker, GRand *rand, int rows, BwTriedHow how, BwTriedTool tool)
{
  double slack, pulled, p = maker->truth.pitch.mm;
  maker_lacks (maker, rows, &slack, &pulled);
  double lacks = slack;
  if (how == BW_TRIED_PULLED)
    lacks -= (slack - pulled) * maker_normal (rand, 1, MAKER_HAND_SHARE);
  if (tool == BW_TRIED_BY_CALLIPER)
    return (BwReading){ maker_normal (rand, lacks, BW_TRIED_CALLIPER_MM), how, tool };
  double beads = round (2 * maker_normal (rand, lacks / p, BW_TRIED_EYE_BEADS)) / 2;
  return bw_reading_beads (&maker->told, beads, how);
}

gboolean
maker_pull (const Maker *maker, GRand *rand, int rows)
{
  double slack, pulled;
  maker_lacks (maker, rows, &slack, &pulled);
  return slack <= (slack - pulled) * maker_normal (rand, 1, MAKER_HAND_SHARE);
}
