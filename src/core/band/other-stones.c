/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asked of fit itself, for stones made thicker and thinner: the greatest that a count closes round,
 * and the least it grips, are found by halving, since a thicker stone is never easier to close nor
 * harder to grip. */
#include "core/band/other-stones.h"

#include "core/band/join.h"
#include "core/base/lattice.h"
#include "core/stone/section.h"

#define HALVINGS 40
#define SEARCHED 0.3 /* of the first guess, to either side */

/* A stone so many times as thick; its girth over the bed is told, so that the bed's thickness stays
 * what it is however it was given. FALSE where stone or bed cannot be. */
static gboolean
thicker (BwDesign *design, BwStone *stone, const BwDesign *from, const BwStone *own, double times,
         double bed_mm)
{
  BwStoneMeasures *m = &design->stone;
  BwSection section;
  BwBedding bedding;
  BwBandSpan span = bw_design_span (from);
  *design = *from;
  for (int i = 0; i < bw_stone_value_count (m->measured, m->faces); i++)
    m->values_mm[i] *= times;
  m->second_girth_mm *= times;
  for (int i = 0; i < 2; i++) {
    m->apex_offset_mm[i] *= times;
    m->base_apex_offset_mm[i] *= times;
  }
  m->has_shoulder = TRUE;
  m->shoulder_mm = own->shoulder_mm;
  if (!bw_stone_init (stone, m, NULL))
    return FALSE;
  bw_section_init (&section, stone, bw_band_span_mid (span));
  design->bed.has_girth_over = TRUE;
  design->bed.girth_over_mm = section.girth_mm + bed_mm;
  return bw_bedding_init (&bedding, &design->bed, stone, span, NULL);
}

typedef struct {
  const BwDesign *design; /* without what a try-on taught */
  const BwStone *stone;
  double girth_mm, bed_mm;
  int rows;
} Search;

/* Stones that cannot be are too thin or too thick for a band to be judged; they count as thick. */
static BwVerdict
verdict_at (const Search *search, double times)
{
  BwDesign design;
  BwStone stone;
  double least, most;
  if (!thicker (&design, &stone, search->design, search->stone, times, search->bed_mm))
    return BW_VERDICT_WILL_NOT_CLOSE;
  return bw_fit_verdict (&design, &stone, search->rows, &least, &most);
}

/* The last scale between lo and hi at which the verdict is `is` or not (wanted), as it is at lo. */
static double
last_scale (const Search *search, double lo, double hi, BwVerdict is, gboolean wanted)
{
  for (int i = 0; i < HALVINGS; i++) {
    double middle = (lo + hi) / 2;
    if ((verdict_at (search, middle) == is) == wanted)
      lo = middle;
    else
      hi = middle;
  }
  return lo;
}

/* FALSE when no stone of the kind suits the count. */
static gboolean
find_range (const Search *search, double *least, double *most)
{
  const BwDesign *design = search->design;
  double round = bw_lattice_beads_around (search->rows) * design->pitch.mm;
  double guess = (round - search->bed_mm - G_PI * design->bead.diameter_mm) / search->girth_mm;
  double lo = (1 - SEARCHED) * guess, hi = (1 + SEARCHED) * guess;
  if (guess <= 0 || verdict_at (search, lo) != BW_VERDICT_LOOSE
      || verdict_at (search, hi) != BW_VERDICT_WILL_NOT_CLOSE)
    return FALSE;
  *most = last_scale (search, lo, hi, BW_VERDICT_WILL_NOT_CLOSE, FALSE);
  *least = last_scale (search, lo, *most, BW_VERDICT_LOOSE, TRUE);
  return verdict_at (search, *most) == BW_VERDICT_SNUG;
}

static void
tell_drawing (BwOtherStone *line, int repeat, int own_rows)
{
  line->repeat_rows = repeat;
  line->rows_over = repeat > 0 ? line->rows % repeat : line->rows - own_rows;
}

static Search
search_for (BwDesign *plain, const BwStone *stone)
{
  BwSection section;
  BwBedding bedding;
  BwBandSpan span = bw_design_span (plain);
  double middle = bw_band_span_mid (span);
  plain->tried = (BwBelief){ 0 };
  bw_section_init (&section, stone, middle);
  bw_bedding_init (&bedding, &plain->bed, stone, span, NULL);
  return (Search){ .design = plain,
                   .stone = stone,
                   .girth_mm = section.girth_mm,
                   .bed_mm = 2 * G_PI * bw_bedding_thickness (&bedding, middle) };
}

GArray *
bw_other_stones (const BwDesign *design, const BwStone *stone, const BwDrawing *drawing)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (BwOtherStone));
  BwDesign plain = *design;
  Search search = search_for (&plain, stone);
  int own = bw_lattice_beads_around (design->band.rows), repeat = bw_join_repeat (drawing);
  for (int n = MAX (3, own - BW_OTHER_STONES); n <= own + BW_OTHER_STONES; n++) {
    double least, most;
    BwOtherStone line = { .beads_around = n, .rows = 2 * n, .bed_mm = search.bed_mm };
    search.rows = line.rows;
    if (!find_range (&search, &least, &most))
      continue;
    line.least_mm = least * search.girth_mm + search.bed_mm;
    line.most_mm = most * search.girth_mm + search.bed_mm;
    tell_drawing (&line, repeat, bw_drawing_rows (drawing));
    g_array_append_val (lines, line);
  }
  return lines;
}
