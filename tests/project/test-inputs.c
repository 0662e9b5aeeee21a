/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each derived value depends on, proven key by key: one key of the project at a time is
 * changed under a project that has derived everything, and everything is compared whole with what a
 * fresh load of the same document derives. */
#include "../fewer.h"
#include "core/base/lattice.h"
#include "edits.h"

#include "core/band/column.h"
#include "project/document/keys.h"
#include "project/file/sizes.h"
#include <math.h>

/* Byte by byte, so that a member that comes later is compared as well. */
#define assert_whole(a, b) assert_memory_equal ((a), (b), sizeof *(a))

static void
assert_arrays (const GArray *a, const GArray *b)
{
  guint size = g_array_get_element_size ((GArray *)a);
  assert_int_equal (a->len, b->len);
  if (a->len > 0)
    assert_memory_equal (a->data, b->data, (gsize)a->len * size);
}

/* Beyond the edges there are there is nothing. */
static void
assert_rings (const BwRing *a, const BwRing *b)
{
  gsize n = (gsize)a->edges;
  assert_int_equal (a->edges, b->edges);
  assert_memory_equal (&a->rho_mm, &b->rho_mm, sizeof (double));
  assert_memory_equal (&a->length_mm, &b->length_mm, sizeof (double));
  assert_memory_equal (a->corner, b->corner, n * sizeof *a->corner);
  assert_memory_equal (a->normal, b->normal, n * sizeof *a->normal);
  assert_memory_equal (a->width, b->width, n * sizeof *a->width);
  assert_memory_equal (a->turn, b->turn, n * sizeof *a->turn);
  assert_memory_equal (a->face, b->face, n * sizeof *a->face);
  assert_memory_equal (a->start, b->start, n * sizeof *a->start);
}

static void
assert_places (const BwPlaces *a, const BwPlaces *b)
{
  assert_int_equal (a->rows, b->rows);
  assert_int_equal (a->columns, b->columns);
  for (int row = 1; row <= a->rows; row++)
    for (int j = 0; j < a->columns / 2; j++) {
      BwPlace x = bw_places_get (a, row, bw_lattice_column (row, j));
      BwPlace y = bw_places_get (b, row, bw_lattice_column (row, j));
      assert_memory_equal (&x, &y, sizeof x);
    }
}

static void
assert_joins (const BwJoin *a, const BwJoin *b)
{
  BwJoin p = *a, q = *b;
  assert_arrays (a->broken, b->broken);
  p.broken = q.broken = NULL;
  assert_whole (&p, &q);
}

static void
assert_passes (const guint16 *a, const guint16 *b, int rows, int columns)
{
  assert_true (!a == !b);
  if (a)
    assert_memory_equal (a, b, (gsize)rows * (gsize)(columns / 2) * sizeof *a);
}

static void
assert_paths (const BwPath *a, const BwPath *b, const BwDesign *design)
{
  BwPath p = *a, q = *b;
  assert_arrays (a->visits, b->visits);
  assert_arrays (a->lengths, b->lengths);
  assert_arrays (a->full_holes, b->full_holes);
  assert_passes (a->band_passes, b->band_passes, design->band.rows, design->band.columns);
  assert_passes (a->bail_passes, b->bail_passes, design->bail.rows, design->bail.columns);
  p.visits = p.lengths = p.full_holes = q.visits = q.lengths = q.full_holes = NULL;
  p.band_passes = p.bail_passes = q.band_passes = q.bail_passes = NULL;
  assert_whole (&p, &q);
}

/* Designs by what they mean: what is not given may be anything. */
static void
assert_remedies (const GArray *a, const GArray *b)
{
  assert_int_equal (a->len, b->len);
  for (guint i = 0; i < a->len; i++) {
    BwRemedy p = g_array_index (a, BwRemedy, i), q = g_array_index (b, BwRemedy, i);
    assert_int_equal (bw_design_difference (&p.design, &q.design), 0);
    memset (&p.design, 0, sizeof p.design);
    memset (&q.design, 0, sizeof q.design);
    assert_whole (&p, &q);
  }
}

static void
assert_all_equal (BwProject *a, BwProject *b)
{
  const BwBailBase *base = bw_project_bail_base (a), *fresh = bw_project_bail_base (b);
  assert_whole (bw_project_stone (a), bw_project_stone (b));
  assert_whole (bw_project_nature (a), bw_project_nature (b));
  assert_rings (bw_project_mid_ring (a), bw_project_mid_ring (b));
  assert_true (!base == !fresh);
  if (base)
    assert_whole (base, fresh);
  assert_whole (bw_project_fit (a), bw_project_fit (b));
  assert_whole (bw_project_forecast (a), bw_project_forecast (b));
  assert_joins (bw_project_join (a), bw_project_join (b));
  assert_places (bw_project_places (a), bw_project_places (b));
  assert_places (bw_project_true_places (a), bw_project_true_places (b));
  assert_whole (bw_project_splay (a), bw_project_splay (b));
  assert_whole (bw_project_hang (a), bw_project_hang (b));
  assert_paths (bw_project_path (a), bw_project_path (b), bw_project_get_design (a));
  assert_whole (bw_project_materials (a), bw_project_materials (b));
  assert_remedies (bw_project_remedies (a), bw_project_remedies (b));
}

static BwProject *
loaded_anew (BwProject *project)
{
  gsize length;
  g_autofree char *text = bw_project_to_data (project, &length);
  BwProject *fresh = bw_project_load_data (text, length, NULL);
  assert_non_null (fresh);
  return fresh;
}

static void
assert_nothing_stale (BwProject *project)
{
  g_autoptr (BwProject) fresh = loaded_anew (project);
  assert_all_equal (project, fresh);
}

/* --- Pieces of work that between them have every key -------------------------------------------
 */

static void
with_a_flap (BwDesign *d)
{
  d->bail.style = BW_BAIL_FLAP;
}

static void
with_an_upright_bail (BwDesign *d)
{
  d->bail = (BwBail){ BW_BAIL_UPRIGHT, 4, 30, 3, 100, 2.5, 1.5 };
  d->gauge.has_hands = TRUE;
  d->gauge.hands = (BwGaugeHands){ 1.61, 0.012 };
  d->bed.has_hands = d->thread.has_hands = TRUE;
  d->bed.hands = (BwGive){ 0.17, 0.04 };
  d->thread.hands = (BwGive){ 0.012, 0.002 };
  d->bed.has_girth_over = FALSE;
  d->bed.layers = 2;
}

static void
with_a_loop_over_the_tip (BwDesign *d)
{
  d->bail = (BwBail){ BW_BAIL_OVER, 4, 90, 20, 100, 2.5, 1.5 };
  d->bed.has_girth_over = FALSE;
  d->bed.layers = 2;
}

static void
with_a_ring_and_natural_angle (BwDesign *d)
{
  d->stone.has_shoulder = FALSE;
  d->stone.has_natural_angle = TRUE;
  d->stone.natural_angle_deg = 40;
  d->stone.has_base_shoulder = FALSE;
  d->bail.style = BW_BAIL_RING;
  d->gauge.has_swatch = FALSE;
  d->gauge.has_hands = TRUE;
  d->gauge.hands = (BwGaugeHands){ 1.62, 0.015 };
  d->bed.has_pulled = d->thread.has_pulled = TRUE;
  d->bed.pulled = (BwSqueezeReading){ 60, 64, 63.2, BW_STRIP_BY_CALLIPER };
  d->thread.pulled = (BwStretchReading){ 48.8, 49.5, BW_STRIP_BY_CALLIPER };
  d->bail.at_deg = 75;
}

static void
without_bail_across_flats (BwDesign *d)
{
  static const double flats[] = { 15.2, 16.1, 15.6 };
  d->stone.measured = BW_MEASURED_ACROSS_FLATS;
  memcpy (d->stone.values_mm, flats, sizeof flats);
  d->stone.base = BW_BASE_FLAT;
  d->bed.has_girth_over = FALSE;
  d->gauge.has_swatch = FALSE;
  d->gauge.has_hands = FALSE;
  d->gauge.column_mm = 1.35;
  d->gauge.pitch_mm = 1.62;
  d->bail.style = BW_BAIL_NONE;
}

static void
of_odd_rows (BwDesign *d)
{
  d->band.rows -= 1;
}

/* So that a tenth more or less of either limit decides. */
static void
at_the_limits (BwDesign *d)
{
  BwStone stone;
  BwFit fit;
  BwHang hang;
  d->bed.has_girth_over = FALSE;
  d->bed.top_extra_mm = 0.01;
  assert_true (bw_stone_init (&stone, &d->stone, NULL));
  d->band.rows = 2 * bw_fit_recommended (d, &stone) + 4;
  bw_fit_init (&fit, d, &stone, d->band.rows);
  assert_true (fit.gap_min_mm < -1);
  d->limits.slack_mm = -1.02 * fit.gap_min_mm;
  assert_true (bw_hang_init (&hang, d, &stone, NULL));
  d->limits.friction = 0.98 * fabs (tan (bw_radians (hang.wedge.alpha_deg)));
  assert_true (d->limits.friction < 0.2);
}

static void (*const variants[]) (BwDesign *design) = { with_a_flap,
                                                       with_a_loop_over_the_tip,
                                                       with_an_upright_bail,
                                                       with_a_ring_and_natural_angle,
                                                       without_bail_across_flats,
                                                       of_odd_rows,
                                                       at_the_limits };

/* As the corpus has it, no number as it is by default. */
static BwProject *
variant (gsize which)
{
  g_autoptr (GError) error = NULL;
  BwProject *project = corpus_project ("sound.bandwright");
  BwDesign design = *bw_project_get_design (project);
  design.look = (BwStoneLook){ 0.2, 0.3, 0.4, 0.5, BW_BASE_BROKEN, 12 };
  design.bead.glass_g_cm3 = 2.45;
  design.bed.layers = 2;
  design.bed.cord_thickness_mm = 0.3;
  design.bed.squeeze = 0.2;
  design.bed.overhang_mm = 0.8;
  design.thread = (BwThread){
    .diameter_mm = 0.16, .needle_mm = 0.34, .working_mm = 1500, .tail_mm = 80, .stretch = 0.015
  };
  design.limits = (BwFitLimits){ .slack_mm = 0.7, .friction = 0.18 };
  design.supply.spare = 0.12;
  design.supply.pieces = 3;
  design.supply.has_prices = TRUE;
  design.supply.hanging_cord_per_m = 0.4;
  design.supply.findings = 1.1;
  variants[which](&design);
  if (!bw_project_set_design (project, "Variant", &design, &error))
    fail_msg ("variant %d: %s", (int)which, error->message);
  return project;
}

/* --- One key at a time -------------------------------------------------------------------------
 */

/* Ways to change a value, in the order they are tried. */
#define N_WAYS 8

static double
changed_number (double value, int way)
{
  static const double factor[N_WAYS] = { 1.1, 0.9, 1.01, 0.99, 1, 1, 1, 1 };
  static const double more[N_WAYS] = { 0, 0, 0, 0, 0.1, -0.1, 0.5, -0.5 };
  return value * factor[way] + more[way];
}

static int
changed_whole (const BwKey *key, int value, int way)
{
  static const int more[N_WAYS] = { 1, -1, 2, -2, 10, -10, 4, -4 };
  int n = 0;
  if (key->kind == BW_KEY_WHOLE)
    return value + more[way];
  while (key->words[n])
    n++;
  return way < n ? way : value;
}

static void
change (BwDesign *design, const BwKey *key, int index, int way)
{
  void *field = bw_key_field (key, design);
  if (key->kind == BW_KEY_TEXT)
    g_snprintf (field, (gulong)key->hi, "other %d", way);
  else if (key->kind == BW_KEY_WHOLE || key->kind == BW_KEY_WORD)
    *(int *)field = changed_whole (key, *(int *)field, way);
  else
    ((double *)field)[index] = changed_number (((double *)field)[index], way);
}

/* Takes it over where it can be, looks, and takes it back. TRUE when anything differed. */
static gboolean
try_design (BwProject *project, const BwDesign *design)
{
  guint before = bw_project_get_position (project);
  if (!bw_project_set_design (project, "Key", design, NULL)
      || bw_project_get_position (project) == before)
    return FALSE;
  assert_nothing_stale (project);
  bw_project_undo (project);
  return TRUE;
}

/* A flag of the design: given or not. */
static gboolean
try_without (BwProject *project, size_t flag)
{
  BwDesign design = *bw_project_get_design (project);
  if (flag == 0)
    return FALSE;
  *bw_design_flag (&design, flag) = !*bw_design_flag (&design, flag);
  return try_design (project, &design);
}

static gboolean
try_key (BwProject *project, const BwKey *key)
{
  const BwDesign *now = bw_project_get_design (project);
  gboolean list = key->kind == BW_KEY_PAIR || key->kind == BW_KEY_VALUES;
  int n = list ? bw_key_count (key, now) : 1, tried = 0;
  for (int i = 0; i < n; i++)
    for (int way = 0; way < (i == 0 ? N_WAYS : 2) && tried < few (N_WAYS) + 2 * (n - 1); way++) {
      BwDesign design = *bw_project_get_design (project);
      change (&design, key, i, way);
      tried += try_design (project, &design);
    }
  try_without (project, key->has);
  return tried > 0;
}

typedef struct {
  gboolean tried[BW_N_GROUPS][32];
} Tried;

static void
try_every_key (BwProject *project, Tried *tried)
{
  for (int g = 0; g < BW_N_GROUPS; g++) {
    const BwKeyGroup *group = bw_key_group (g);
    try_without (project, group->has);
    for (int k = 0; k < group->n_keys; k++)
      if (bw_key_is_given (&group->keys[k], bw_project_get_design (project))
          && (!group->has
              || *bw_design_flag ((BwDesign *)bw_project_get_design (project), group->has)))
        tried->tried[g][k] = try_key (project, &group->keys[k]) || tried->tried[g][k];
  }
}

static void
no_key_of_the_design_leaves_anything_stale (void **state)
{
  Tried tried = { 0 };
  for (gsize which = 0; which < G_N_ELEMENTS (variants); which++) {
    g_autoptr (BwProject) project = variant (which);
    assert_nothing_stale (project);
    try_every_key (project, &tried);
    assert_nothing_stale (project);
  }
  for (int g = 0; g < BW_N_GROUPS; g++)
    for (int k = 0; k < bw_key_group (g)->n_keys; k++)
      if (!tried.tried[g][k])
        fail_msg ("%s/%s was never changed", bw_key_group (g)->pointer,
                  bw_key_group (g)->keys[k].name);
}

/* --- What is no key of the design --------------------------------------------------------------
 */

static void
no_bead_and_no_colour_leaves_anything_stale (void **state)
{
  g_autoptr (BwProject) project = variant (0);
  BwTray tray = *bw_project_get_tray (project);
  assert_nothing_stale (project);
  assert_true (bw_project_set_bead (project, "Band", FALSE, 1, 2, 2));
  assert_nothing_stale (project);
  assert_true (bw_project_set_bead (project, "Bail", TRUE, 2, 1, 2));
  assert_nothing_stale (project);
  tray.colour[tray.n_colours] = (BwColour){ .id = bw_tray_free_letter (&tray), .srgb = 0x123456 };
  tray.n_colours++;
  assert_true (bw_project_set_tray (project, "Colour", &tray, NULL));
  assert_nothing_stale (project);
  assert_true (bw_project_move_colour (project, "Move", 0, 2));
  assert_nothing_stale (project);
  assert_true (bw_project_remove_colour (project, "Remove", 1, 0, NULL));
  assert_nothing_stale (project);
  while (bw_project_can_undo (project)) {
    bw_project_undo (project);
    assert_nothing_stale (project);
  }
}

static void
no_progress_and_no_title_leaves_anything_stale (void **state)
{
  g_autoptr (BwProject) project = variant (0);
  const BwCheck checks[] = { { 20, 17.1 }, { 40, 33.9 } };
  for (int n = 0; n <= 2; n++) {
    assert_true (bw_project_set_progress (project, "Check", 20 * n + 2, checks, n, NULL));
    assert_nothing_stale (project);
  }
  const BwTried tried = { 42, { -0.4, BW_TRIED_PULLED, BW_TRIED_BY_CALLIPER } };
  assert_true (bw_project_set_tried (project, "Try-on", &tried, NULL));
  assert_nothing_stale (project);
  bw_project_set_title (project, "Title", "Another");
  bw_project_set_mineral (project, "Mineral", "another");
  assert_nothing_stale (project);
}

/* --- Each piece by itself ----------------------------------------------------------------------
 */

static void
assert_bail_and_path (BwProject *alone[], const BwDesign *d, const BwStone *stone, BwPath *path)
{
  BwRing ring;
  BwBailBase base = { 0 };
  bw_mid_ring_init (&ring, d, stone);
  assert_rings (bw_project_mid_ring (alone[0]), &ring);
  if (d->bail.style != BW_BAIL_NONE) {
    bw_bail_base_init (&base, d, &ring);
    assert_whole (bw_project_bail_base (alone[1]), &base);
  }
  bw_path_init (path, d, &base);
  assert_paths (bw_project_path (alone[2]), path, d);
}

static void
assert_laid (BwProject *alone[], const BwDesign *d, const BwStone *stone, const BwFit *fit)
{
  BwPlaces closed, lain;
  BwSplay splay;
  bw_places_init_closed (&closed, d, stone);
  bw_places_init_true (&lain, d, stone, fit);
  bw_splay_init (&splay, &closed, d);
  assert_places (bw_project_places (alone[0]), &closed);
  assert_places (bw_project_true_places (alone[1]), &lain);
  assert_whole (bw_project_splay (alone[2]), &splay);
  bw_places_clear (&closed);
  bw_places_clear (&lain);
}

static void
assert_judged (BwProject *alone[], const BwDesign *d, const BwStone *stone, const BwFit *fit)
{
  BwForecast forecast;
  BwJoin join;
  BwHang hang;
  assert_whole (bw_project_fit (alone[0]), fit);
  bw_forecast_init (&forecast, d, stone);
  assert_whole (bw_project_forecast (alone[1]), &forecast);
  bw_join_init (&join, fit, d, bw_project_get_drawing (alone[2]));
  assert_joins (bw_project_join (alone[2]), &join);
  assert_true (bw_hang_init (&hang, d, stone, NULL));
  assert_whole (bw_project_hang (alone[3]), &hang);
  bw_join_clear (&join);
}

static void
assert_bought_and_mended (BwProject *alone[], const BwDesign *d, const BwStone *stone,
                          const BwPath *path)
{
  BwMaterials materials;
  g_autoptr (GArray) sizes = bw_sizes_load (NULL);
  g_autoptr (GArray) remedies
      = bw_remedies (d, stone, (const BwBead *)sizes->data, (int)sizes->len);
  bw_materials_init (&materials, d, stone, bw_project_get_drawing (alone[0]),
                     bw_project_get_bail_drawing (alone[0]),
                     bw_project_get_tray (alone[0])->n_colours, path);
  assert_whole (bw_project_materials (alone[0]), &materials);
  assert_remedies (bw_project_remedies (alone[1]), remedies);
}

/* A piece that reads what it does not declare reads what is there by default. So each is asked of
 * a project that has derived nothing else, and compared with what the core makes of the whole
 * design. */
static void
each_piece_declares_all_it_reads (void **state)
{
  for (gsize which = 0; which < G_N_ELEMENTS (variants); which++) {
    g_autoptr (BwProject) project = variant (which);
    BwProject *alone[14];
    BwNature nature;
    BwDesign design = *bw_project_get_design (project);
    BwStone stone;
    BwFit fit;
    BwPath path;
    for (gsize i = 0; i < G_N_ELEMENTS (alone); i++)
      alone[i] = loaded_anew (project);
    assert_true (bw_stone_init (&stone, &design.stone, NULL));
    assert_whole (bw_project_stone (alone[0]), &stone);
    bw_nature_init (&nature, &stone, &design.look);
    assert_whole (bw_project_nature (alone[13]), &nature);
    bw_fit_init (&fit, &design, &stone, design.band.rows);
    assert_bail_and_path (alone + 1, &design, &stone, &path);
    assert_laid (alone + 4, &design, &stone, &fit);
    assert_judged (alone + 7, &design, &stone, &fit);
    assert_bought_and_mended (alone + 11, &design, &stone, &path);
    bw_path_clear (&path);
    for (gsize i = 0; i < G_N_ELEMENTS (alone); i++)
      g_object_unref (alone[i]);
  }
}

/* The remedies outlive a change of price, and must not bring the old one back. */
static void
a_remedy_taken_after_a_price_keeps_the_price (void **state)
{
  g_autoptr (BwProject) project = variant (0);
  BwDesign design = *bw_project_get_design (project);
  assert_true (bw_project_remedies (project)->len > 0);
  design.supply.hour = 21.5;
  assert_true (bw_project_set_design (project, "Hour", &design, NULL));
  design = g_array_index (bw_project_remedies (project), BwRemedy, 0).design;
  assert_true (bw_project_set_design (project, "Remedy", &design, NULL));
  assert_true (bw_project_get_design (project)->supply.hour == 21.5);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_key_of_the_design_leaves_anything_stale),
    cmocka_unit_test (no_bead_and_no_colour_leaves_anything_stale),
    cmocka_unit_test (no_progress_and_no_title_leaves_anything_stale),
    cmocka_unit_test (each_piece_declares_all_it_reads),
    cmocka_unit_test (a_remedy_taken_after_a_price_keeps_the_price),
  };

  return cmocka_run_group_tests_name ("inputs", tests, NULL, NULL);
}
