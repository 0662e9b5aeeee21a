/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Five thousand random designs, and as many with a girth measured over the bed: what remedies each
 * is offered, whether every promise holds when its design is solved anew, and how many that do not
 * fit are left without a cure. Fails where a promise is broken or a design left so. */
#include "core/band/remedy.h"
#include "samples.h"

#include <math.h>
#include <stdio.h>

#define DESIGNS 5000

typedef struct {
  int snug, alone, joint, uncured, broken;
  double ms, most_ms;
} Count;

/* A girth over the bed that a maker may have measured. FALSE: it cannot be. */
static gboolean
measure_over (BwDesign *design, BwStone *stone, GRand *rand)
{
  BwSection middle;
  bw_section_init (&middle, stone, bw_band_span_mid (bw_design_span (design)));
  design->bed.has_girth_over = TRUE;
  design->bed.top_extra_mm = 0;
  design->bed.girth_over_mm = middle.girth_mm + sample_between (rand, 0, 5);
  return bw_design_validate (design, stone, NULL);
}

static gboolean
holds (const BwRemedy *remedy)
{
  BwStone stone;
  double least, most;
  if (!bw_design_validate (&remedy->design, &stone, NULL))
    return FALSE;
  return bw_fit_verdict (&remedy->design, &stone, remedy->design.band.rows, &least, &most)
             == remedy->verdict
         && fabs (least - remedy->gap_min_mm) < 1e-9 && fabs (most - remedy->gap_max_mm) < 1e-9;
}

static void
count (Count *counted, const BwDesign *design, const BwStone *stone)
{
  int n_sizes;
  const BwBead *sizes = bw_bead_sizes (&n_sizes);
  gint64 begin = g_get_monotonic_time ();
  g_autoptr (GArray) remedies = bw_remedies (design, stone, sizes, n_sizes);
  double ms = (double)(g_get_monotonic_time () - begin) / 1e3;
  gboolean alone = FALSE, joint = FALSE;
  counted->ms += ms;
  counted->most_ms = MAX (counted->most_ms, ms);
  for (guint i = 0; i < remedies->len; i++) {
    const BwRemedy *remedy = &g_array_index (remedies, BwRemedy, i);
    counted->broken += !holds (remedy);
    joint = joint || remedy->joint;
    alone = alone
            || (!remedy->joint && remedy->kind != BW_REMEDY_BEAD
                && remedy->verdict == BW_VERDICT_SNUG);
  }
  if (bw_fit_is_snug (design, stone, design->band.rows))
    counted->snug++;
  else if (alone)
    counted->alone++;
  else if (joint)
    counted->joint++;
  else
    counted->uncured++;
}

static Count
count_all (gboolean over)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  Count counted = { 0 };
  for (int k = 0; k < DESIGNS;) {
    BwStone stone;
    BwDesign design = sample_random_design (rand, &stone);
    if (over && !measure_over (&design, &stone, rand))
      continue;
    count (&counted, &design, &stone);
    k++;
  }
  return counted;
}

int
main (void)
{
  gboolean failed = FALSE;
  for (int over = 0; over < 2; over++) {
    Count counted = count_all (over);
    printf ("%d designs%s: %d snug, %d cured by one knob, %d by several, %d by none; %d promises "
            "broken; %.1f ms each, %.0f at most\n",
            DESIGNS, over ? ", girth measured over the bed" : "", counted.snug, counted.alone,
            counted.joint, counted.uncured, counted.broken, counted.ms / DESIGNS, counted.most_ms);
    failed = failed || counted.broken > 0 || counted.uncured > 0;
  }
  return failed;
}
