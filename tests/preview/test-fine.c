/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light in the fine picture: against the laws it follows, against the stone view, and what happens
 * when it is stopped. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/pattern/colour.h"
#include "pieces.h"
#include "preview/fine/film.h"
#include "preview/fine/fine.h"
#include "preview/picture/offscreen.h"
#include "preview/scene/camera.h"
#include <string.h>
#include <sys/resource.h>

enum { LAYERS = BW_LAYER_ALL & ~BW_LAYER_THREAD & ~BW_LAYER_BALANCE };

static void
assert_near (double found, double expected, double within)
{
  if (!(fabs (found - expected) <= within))
    fail_msg ("%.9g is not within %.3g of %.9g", found, within, expected);
}

/* --- Laws --------------------------------------------------------------------------------------
 */

/* G. Ghosh, Opt. Commun. 163 (1999) 95–102: the ordinary ray in quartz, wavelength in nm. */
static double
quartz_index (double nm)
{
  double square = nm * nm * 1e-6;
  return sqrt (1.28604141 + 1.07044083 * square / (square - 0.0100585997)
               + 1.10202242 * square / (square - 100));
}

static const double lines_nm[] = { 656.27, 587.56, 486.13 };

/* A long upright prism of quartz whose section is a triangle of equal sides, its first face towards
 * −y, in which light neither strays nor fades. */
static void
quartz_prism (BwCrystal *crystal)
{
  BwMineralOptics optics;
  bw_mineral_optics ("rock crystal, quartz", &optics);
  *crystal = (BwCrystal){ .n = 5,
                          .bending = bw_cauchy_through (&optics.index),
                          .index = optics.index.n_d,
                          .low = -500,
                          .high = 500 };
  for (int i = 0; i < 3; i++) {
    double angle = bw_radians (-90 + 120 * i);
    crystal->normal[i][0] = cos (angle);
    crystal->normal[i][1] = sin (angle);
    crystal->distance[i] = 10;
  }
  crystal->normal[3][2] = 1;
  crystal->normal[4][2] = -1;
  crystal->distance[3] = crystal->distance[4] = 500;
}

/* Enters the prism's first face at so many degrees off its normal, leaning towards the second
 * face. FALSE where it did not leave by the second face at once. */
static gboolean
pass_prism (const BwCrystal *crystal, double in_deg, double nm, guint32 attempt, BwVec3 *out)
{
  double in = bw_radians (in_deg);
  BwBeam beam = { .keeps = { 1, 1, 1 }, .worth = 1, .nm = nm, .lot = bw_lot_at (1, 7, attempt) };
  BwVec3 bent, face = bw_vec3 (0, -1, 0), at = bw_vec3 (9, -10, 0);
  assert_true (bw_glass_bend (bw_vec3 (-sin (in), cos (in), 0), face,
                              1 / bw_crystal_index (crystal, &beam), &bent));
  beam.from = at;
  beam.way = bent;
  assert_true (bw_crystal_follow (crystal, &beam));
  *out = beam.way;
  return beam.steps == 0;
}

/* How far a ray is turned by a prism whose faces meet at this angle, from Snell's law at both. */
static double
deviation (double index, double in, double apex)
{
  double inside = apex - asin (sin (in) / index);
  return in + asin (index * sin (inside)) - apex;
}

static void
a_quartz_prism_bends_three_colours_as_snell_says (void **state)
{
  BwCrystal crystal;
  quartz_prism (&crystal);
  double turned[3];
  for (int i = 0; i < 3; i++) {
    double in = bw_radians (48), index = quartz_index (lines_nm[i]), apex = bw_radians (60);
    BwVec3 out, way = bw_vec3 (-sin (in), cos (in), 0);
    guint32 attempt = 0;
    while (!pass_prism (&crystal, 48, lines_nm[i], attempt, &out))
      assert_true (++attempt < 1000);
    turned[i] = acos (bw_vec3_dot (way, out));
    assert_near (turned[i], deviation (index, in, apex), 5e-5);
    /* Through the second face, and at Snell's angle to it. */
    BwVec3 second = bw_vec3 (crystal.normal[2][0], crystal.normal[2][1], 0);
    double inside = apex - asin (sin (in) / index);
    assert_near (bw_vec3_dot (out, second), cos (asin (index * sin (inside))), 5e-5);
  }
  /* Blue more than yellow, yellow more than red. */
  assert_true (turned[2] > turned[1] + 1e-3 && turned[1] > turned[0] + 5e-4);
}

/* A face without lines leans outward, the more the farther from its middle: no line on it. */
static void
a_cut_face_swells_and_has_no_lines (void **state)
{
  BwCrystal crystal;
  quartz_prism (&crystal);
  crystal.swell = 1;
  double before = -1;
  for (double x = -9; x <= 9; x += 0.05) {
    BwVec3 normal = bw_crystal_grain (&crystal, bw_vec3 (0, -1, 0), bw_vec3 (x, -10, 0));
    assert_true (normal.x > before);
    assert_near (bw_vec3_length (normal), 1, 1e-12);
    before = normal.x;
  }
  assert_true (before > 0.1 && before < 0.2);
  assert_near (bw_crystal_grain (&crystal, bw_vec3 (0, -1, 0), bw_vec3 (0, -10, 0)).x, 0, 1e-12);
  double low = bw_crystal_grain (&crystal, bw_vec3 (0, -1, 0), bw_vec3 (0, -10, -400)).z;
  double high = bw_crystal_grain (&crystal, bw_vec3 (0, -1, 0), bw_vec3 (0, -10, 400)).z;
  assert_true (low < -0.05 && high > 0.05);
}

/* Fresnel's equations in their first form, by both angles. */
static double
fresnel (double in, double index)
{
  double out = asin (sin (in) / index);
  double across = sin (in - out) / sin (in + out), along = tan (in - out) / tan (in + out);
  return (across * across + along * along) / 2;
}

static void
a_quartz_prism_mirrors_the_share_that_fresnel_says (void **state)
{
  enum { TRIES = 40000 };
  BwCrystal crystal;
  quartz_prism (&crystal);
  for (int i = 0; i < 3; i++) {
    double index = quartz_index (lines_nm[i]), apex = bw_radians (60);
    /* Leaves at about 70°, where a tenth and more is mirrored back in. */
    double in = bw_radians (37), inside = apex - asin (sin (in) / index);
    double leaves = asin (index * sin (inside));
    int through = 0;
    BwVec3 out;
    for (guint32 k = 0; k < TRIES; k++)
      through += pass_prism (&crystal, 37, lines_nm[i], k, &out);
    double share = fresnel (leaves, index), error = sqrt (share * (1 - share) / TRIES);
    assert_true (share > 0.1);
    assert_near (1 - through / (double)TRIES, share, 4 * error);
    /* From outside, and straight on. */
    assert_near (bw_glass_fresnel (cos (in), 1 / index), fresnel (in, index), 1e-12);
    double straight = (index - 1) / (index + 1);
    assert_near (bw_glass_fresnel (1, 1 / index), straight * straight, 1e-12);
  }
}

static void
a_mirrored_ray_leaves_as_steeply_as_it_came (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  for (int i = 0; i < 200; i++) {
    BwVec3 normal = bw_glass_unit (
        bw_vec3 (g_rand_double_range (rand, -1, 1), g_rand_double_range (rand, -1, 1), 1.1));
    BwVec3 way = bw_glass_unit (
        bw_vec3 (g_rand_double_range (rand, -1, 1), g_rand_double_range (rand, -1, 1), -3));
    BwVec3 back = bw_glass_mirror (way, normal);
    assert_near (bw_vec3_dot (back, normal), -bw_vec3_dot (way, normal), 1e-12);
    /* In one plane with the normal. */
    assert_near (bw_vec3_dot (bw_vec3_cross (way, normal), back), 0, 1e-12);
  }
}

static void
cauchys_curve_keeps_to_the_published_index_of_quartz (void **state)
{
  BwMineralOptics optics;
  bw_mineral_optics ("Smoky quartz", &optics);
  BwCauchy cauchy = bw_cauchy_through (&optics.index);
  for (int i = 0; i < 3; i++)
    assert_near (bw_cauchy_index (&cauchy, lines_nm[i]), quartz_index (lines_nm[i]), 1e-5);
  for (double nm = 420; nm <= 680; nm += 10)
    assert_near (bw_cauchy_index (&cauchy, nm), quartz_index (nm), 3e-4);
  /* What tables of gems call dispersion: between the lines G and B. */
  assert_near (bw_cauchy_index (&cauchy, 430.8) - bw_cauchy_index (&cauchy, 686.7), 0.0133, 3e-4);
}

static void
each_mineral_bends_blue_more_than_red_within_its_published_range (void **state)
{
  static const struct {
    const char *name;
    double least, most;
  } minerals[] = { { "amethyst", 1.544, 1.545 },   { "fluorite", 1.433, 1.435 },
                   { "tourmaline", 1.633, 1.651 }, { "aquamarine", 1.568, 1.602 },
                   { "topaz", 1.606, 1.638 },      { "calcite", 1.658, 1.659 },
                   { "apatite", 1.63, 1.64 },      { "obsidian", 1.48, 1.51 } };
  for (gsize i = 0; i < G_N_ELEMENTS (minerals); i++) {
    BwMineralOptics optics;
    bw_mineral_optics (minerals[i].name, &optics);
    assert_in_range ((int)(optics.index.n_d * 1e4), (int)(minerals[i].least * 1e4),
                     (int)(minerals[i].most * 1e4));
    assert_true (optics.index.n_f >= optics.index.n_d && optics.index.n_d >= optics.index.n_c);
  }
}

static void
beams_that_end_by_lot_keep_the_mean (void **state)
{
  enum { BEAMS = 20000 };
  double sum = 0;
  int ended = 0;
  for (guint32 i = 0; i < BEAMS; i++) {
    BwBeam beam = { .keeps = { 0.1, 0.05, 0 }, .worth = 1, .lot = bw_lot_at (4, 1, i) };
    if (bw_beam_goes_on (&beam, 0.5))
      sum += beam.keeps[1] / BEAMS;
    else
      ended++;
  }
  assert_near (sum, 0.05, 1e-3);
  assert_near ((double)ended / BEAMS, 0.8, 0.01);
}

/* --- Furnace -----------------------------------------------------------------------------------
 */

static BwStill
still_of (double turn_deg, double tip_deg, int side)
{
  return (BwStill){ .camera = { turn_deg, tip_deg, 1 },
                    .layers = LAYERS,
                    .light = BW_LIGHT_DAY,
                    .ground = BW_GROUND_CLEAR,
                    .width = side,
                    .height = side };
}

/* The mean of some looks at a point in white surroundings, where nothing takes light. */
static void
assert_white (const BwWorld *world, const BwEye *eye, int side, int x, int y)
{
  enum { LOOKS = 8 };
  double found[3] = { 0, 0, 0 };
  for (guint32 i = 0; i < LOOKS; i++) {
    BwGlance glance;
    BwVec3 from, way;
    bw_eye_ray (eye, x + 0.5, y + 0.5, side, side, &from, &way);
    bw_world_look (world, from, way, bw_lot_at (2, (guint32)(y * side + x), i), &glance);
    for (int k = 0; k < 3; k++)
      found[k] += (glance.cover > 0 ? glance.found[k] : 1) / LOOKS;
  }
  for (int k = 0; k < 3; k++)
    if (fabs (found[k] - 1) > 0.01)
      fail_msg ("point %d, %d has %.4f in part %d", x, y, found[k], k);
}

static void
in_white_surroundings_nothing_is_brighter_or_darker_than_white (void **state)
{
  enum { SIDE = 44 };
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (BwProject) project = piece_new (which);
    /* Every second stone as nature may have it. */
    BwDesign design = *bw_project_get_design (project);
    if (which % 2)
      design.look = (BwStoneLook){ 1, 1, 1, 1, (BwBaseSurface)(1 + which / 2 % 2), which };
    assert_true (bw_project_set_design (project, "Look", &design, NULL));
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwStill still = still_of (40 * which, which % 2 ? -30 : 15, SIDE);
    BwEye eye;
    bw_eye_init (&eye, still.camera, scene, SIDE, SIDE);
    g_autoptr (BwWorld) world = bw_world_new (scene, &eye, &still, TRUE, &error);
    g_assert_no_error (error);
    for (int y = 0; y < SIDE; y++)
      for (int x = 0; x < SIDE; x++)
        assert_white (world, &eye, SIDE, x, y);
  }
}

/* --- Against the stone view --------------------------------------------------------------------
 */

static cairo_surface_t *
fine_picture (BwScene *scene, const BwStill *still, const BwFineOptions *options)
{
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = bw_fine_new (scene, still, options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return surface;
}

static guint32
point (cairo_surface_t *surface, int x, int y)
{
  guint32 value;
  cairo_surface_flush (surface);
  memcpy (&value,
          cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface)
              + 4 * x,
          4);
  return value;
}

static void
the_silhouette_is_that_of_the_stone_view (void **state)
{
  enum { SIDE = 160 };
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwStill still = still_of (70 * which, 12, SIDE);
    if (which == 1)
      bw_scene_stand_at_rest (scene);
    /* A stone that lets nothing through covers the ground in both; the lines that the stone view
     * draws on its edges stand out over them. */
    g_array_set_size (scene->stone_edges, 0);
    scene->stone_keeps[0] = scene->stone_keeps[1] = scene->stone_keeps[2] = 0;
    cairo_surface_t *fine = fine_picture (scene, &still, &(BwFineOptions){ .looks = 8 });
    cairo_surface_t *drawn = bw_offscreen_render (scene, still.camera, still.layers, still.light,
                                                  SIDE, SIDE, NULL, NULL);
    int differ = 0, covered = 0;
    for (int y = 0; y < SIDE; y++)
      for (int x = 0; x < SIDE; x++) {
        gboolean a = point (fine, x, y) >> 24 > 127, b = point (drawn, x, y) >> 24 > 127;
        differ += a != b;
        covered += b;
      }
    cairo_surface_destroy (fine);
    cairo_surface_destroy (drawn);
    assert_true (covered > SIDE * SIDE / 20);
    if (differ > SIDE * SIDE / 200)
      fail_msg ("piece %d differs in %d points", which, differ);
  }
}

/* Mean CIELAB of a bead's points. */
typedef struct {
  double sum[3];
  int n;
} BeadMean;

static void
add_point (BeadMean *mean, guint32 value)
{
  BwLab lab = bw_colour_lab (value & 0xffffff);
  const double part[3] = { lab.L, lab.a, lab.b };
  for (int i = 0; i < 3; i++)
    mean->sum[i] += part[i];
  mean->n++;
}

static double
means_apart (const BeadMean *a, const BeadMean *b)
{
  double sum = 0;
  for (int i = 0; i < 3; i++) {
    double off = a->sum[i] / a->n - b->sum[i] / b->n;
    sum += off * off;
  }
  return sqrt (sum);
}

/* How far the two may lie apart in the mean, CIELAB, for each finish: a third more than was
 * measured. What is painted looks alike in both; of glass the stone view only gives an impression,
 * where the fine picture follows what is bent and mirrored inside. No bead may look like another
 * colour. */
static const double apart_most[BW_N_FINISHES] = {
  [BW_FINISH_OPAQUE] = 13.5,     [BW_FINISH_MATTE] = 4.5,    [BW_FINISH_CLEAR] = 30,
  [BW_FINISH_FROSTED] = 25,      [BW_FINISH_LINED] = 26,     [BW_FINISH_LUSTRE] = 6.5,
  [BW_FINISH_METAL] = 11,        [BW_FINISH_RAINBOW] = 12.5, [BW_FINISH_GALVANISED] = 5.5,
  [BW_FINISH_SILVER_LINED] = 20,
};

static void
beads_have_about_the_colour_they_have_in_the_stone_view (void **state)
{
  enum { SIDE = 240 };
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = still_of (0, 5, SIDE);
  still.camera.zoom = 2;
  cairo_surface_t *fine = fine_picture (scene, &still, &(BwFineOptions){ .looks = 16 });
  cairo_surface_t *drawn = bw_offscreen_render (scene, still.camera, still.layers, still.light,
                                                SIDE, SIDE, NULL, NULL);
  g_autofree BeadMean *mean = g_new0 (BeadMean, 2 * scene->beads->len);
  BwEye eye;
  bw_eye_init (&eye, still.camera, scene, SIDE, SIDE);
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      int bead = bw_eye_pick (&eye, scene, still.layers, x + 0.5, y + 0.5, SIDE, SIDE);
      if (bead < 0)
        continue;
      add_point (&mean[2 * bead], point (fine, x, y));
      add_point (&mean[2 * bead + 1], point (drawn, x, y));
    }
  cairo_surface_destroy (fine);
  cairo_surface_destroy (drawn);
  double worst = 0, sum[BW_N_FINISHES] = { 0 };
  int n[BW_N_FINISHES] = { 0 };
  for (guint i = 0; i < scene->beads->len; i++)
    if (mean[2 * i].n >= 30) {
      int finish = g_array_index (scene->beads, BwSceneBead, i).finish;
      double apart = means_apart (&mean[2 * i], &mean[2 * i + 1]);
      worst = MAX (worst, apart);
      sum[finish] += apart;
      n[finish]++;
    }
  for (int finish = 0; finish < BW_N_FINISHES; finish++) {
    print_message ("# %s: %d beads, %.1f\n", bw_finish_word ((BwFinish)finish), n[finish],
                   sum[finish] / MAX (n[finish], 1));
    assert_true (n[finish] > 5);
    if (sum[finish] / n[finish] > apart_most[finish])
      fail_msg ("%s is %.1f apart", bw_finish_word ((BwFinish)finish), sum[finish] / n[finish]);
  }
  assert_true (worst < 40);
}

/* --- What it is made of ------------------------------------------------------------------------
 */

static void
assert_same_picture (cairo_surface_t *a, cairo_surface_t *b)
{
  for (int y = 0; y < cairo_image_surface_get_height (a); y++)
    for (int x = 0; x < cairo_image_surface_get_width (a); x++)
      if (point (a, x, y) != point (b, x, y))
        fail_msg ("point %d, %d: %08x is not %08x", x, y, point (a, x, y), point (b, x, y));
}

static void
a_picture_made_in_strips_is_the_whole_picture (void **state)
{
  g_autoptr (BwProject) project = piece_new (2);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = still_of (30, 10, 140);
  still.ground = BW_GROUND_PAPER;
  cairo_surface_t *whole = fine_picture (scene, &still, &(BwFineOptions){ .looks = 8 });
  cairo_surface_t *strips
      = fine_picture (scene, &still, &(BwFineOptions){ .looks = 8, .at_a_time = 140 * 104 });
  assert_same_picture (whole, strips);
  cairo_surface_destroy (whole);
  cairo_surface_destroy (strips);
}

static void
the_same_seed_makes_the_same_picture_and_another_one_another (void **state)
{
  g_autoptr (BwProject) project = piece_new (1);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = still_of (0, 0, 60);
  BwFineOptions options = { .looks = 4, .lens = 1, .seed = 5 };
  cairo_surface_t *first = fine_picture (scene, &still, &options);
  cairo_surface_t *again = fine_picture (scene, &still, &options);
  options.seed = 6;
  cairo_surface_t *other = fine_picture (scene, &still, &options);
  int differ = 0;
  for (int i = 0; i < 3600; i++)
    differ += point (first, i % 60, i / 60) != point (other, i % 60, i / 60);
  assert_same_picture (first, again);
  assert_true (differ > 100);
  cairo_surface_destroy (first);
  cairo_surface_destroy (again);
  cairo_surface_destroy (other);
}

/* --- Bad input ---------------------------------------------------------------------------------
 */

static void
stop_at_once (double done, cairo_surface_t *so_far, gpointer stop)
{
  assert_true (done >= 0 && done <= 1);
  assert_int_equal (cairo_surface_status (so_far), CAIRO_STATUS_SUCCESS);
  g_cancellable_cancel (stop);
}

static void
a_stopped_picture_is_none (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  BwStill still = still_of (0, 0, 400);
  assert_null (bw_fine_new (scene, &still, &BW_FINE_USUAL, stop, stop_at_once, stop, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}

static void
the_largest_picture_takes_little_more_memory_than_itself (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  struct rusage before, after;
  BwStill still = still_of (0, 0, 8192);
  still.ground = BW_GROUND_PAPER;
  getrusage (RUSAGE_SELF, &before);
  /* Stopped when everything it needs lies ready. */
  assert_null (bw_fine_new (scene, &still, &BW_FINE_USUAL, stop, stop_at_once, stop, NULL));
  getrusage (RUSAGE_SELF, &after);
  long own_kb = 8192 * 8192 / 1024 * 4, more_kb = after.ru_maxrss - before.ru_maxrss;
  print_message ("# %ld MB, the picture itself %ld MB\n", more_kb / 1024, own_kb / 1024);
  assert_true (more_kb < own_kb + 250 * 1024);
}

static void
sizes_out_of_range_are_refused (void **state)
{
  g_autoptr (BwProject) project = piece_new (3);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const int wrong[] = { 15, 8193 };
  for (int i = 0; i < 2; i++) {
    g_autoptr (GError) error = NULL;
    BwStill still = still_of (0, 0, wrong[i]);
    assert_null (bw_fine_new (scene, &still, &BW_FINE_USUAL, NULL, NULL, NULL, &error));
    assert_non_null (error);
  }
}

static int
points_covered (const char *stone, const char *band)
{
  g_autofree char *data = g_strdup_printf (
      "{\"format\":\"bandwright-project\",\"version\":1,\"stone\":%s,"
      "\"bead\":{\"diameter_mm\":1.6,\"length_mm\":1.3,\"hole_mm\":0.8},\"band\":%s}",
      stone, band);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load_data (data, strlen (data), &error);
  g_assert_no_error (error);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = still_of (0, 30, 80);
  cairo_surface_t *picture = fine_picture (scene, &still, &(BwFineOptions){ .looks = 4 });
  int covered = 0;
  for (int i = 0; i < 80 * 80; i++)
    covered += point (picture, i % 80, i / 80) >> 24 == 255;
  cairo_surface_destroy (picture);
  return covered;
}

static void
one_bead_a_row_and_sixty_four_faces_make_pictures (void **state)
{
  assert_true (
      points_covered ("{\"faces\":6,\"measured\":\"girth\",\"values_mm\":[72],\"at_mm\":15,"
                      "\"length_mm\":55,\"shoulder_mm\":38}",
                      "{\"columns\":2,\"rows\":1}")
      > 500);
  assert_true (
      points_covered ("{\"faces\":64,\"measured\":\"girth\",\"values_mm\":[72],\"at_mm\":15,"
                      "\"length_mm\":55,\"shoulder_mm\":38}",
                      "{\"columns\":10}")
      > 500);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_quartz_prism_bends_three_colours_as_snell_says),
    cmocka_unit_test (a_quartz_prism_mirrors_the_share_that_fresnel_says),
    cmocka_unit_test (a_cut_face_swells_and_has_no_lines),
    cmocka_unit_test (a_mirrored_ray_leaves_as_steeply_as_it_came),
    cmocka_unit_test (cauchys_curve_keeps_to_the_published_index_of_quartz),
    cmocka_unit_test (each_mineral_bends_blue_more_than_red_within_its_published_range),
    cmocka_unit_test (beams_that_end_by_lot_keep_the_mean),
    cmocka_unit_test (in_white_surroundings_nothing_is_brighter_or_darker_than_white),
    cmocka_unit_test (the_silhouette_is_that_of_the_stone_view),
    cmocka_unit_test (beads_have_about_the_colour_they_have_in_the_stone_view),
    cmocka_unit_test (a_picture_made_in_strips_is_the_whole_picture),
    cmocka_unit_test (the_same_seed_makes_the_same_picture_and_another_one_another),
    cmocka_unit_test (a_stopped_picture_is_none),
    cmocka_unit_test (the_largest_picture_takes_little_more_memory_than_itself),
    cmocka_unit_test (sizes_out_of_range_are_refused),
    cmocka_unit_test (one_bead_a_row_and_sixty_four_faces_make_pictures),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
