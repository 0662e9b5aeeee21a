/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What nature gave a stone is seen in every picture, follows its seed, and moves no outline. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/fine/fine.h"
#include "preview/picture/offscreen.h"
#include "preview/picture/projection.h"
#include "preview/scene/camera.h"
#include <string.h>

enum { SIDE = 160 };

typedef cairo_surface_t *(*Make) (BwScene *scene, BwCamera camera);

/* Without the lines on its edges, which chips break: what is left is shading. */
static cairo_surface_t *
with_gl (BwScene *scene, BwCamera camera)
{
  gboolean used_gl = FALSE;
  g_array_set_size (scene->stone_edges, 0);
  cairo_surface_t *shown = bw_offscreen_render (scene, camera, BW_LAYER_STONE, BW_LIGHT_DAY, SIDE,
                                                SIDE, &used_gl, NULL);
  assert_true (used_gl);
  return shown;
}

static cairo_surface_t *
painted (BwScene *scene, BwCamera camera)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);
  bw_projection_draw (cr, scene, camera, BW_LAYER_STONE, BW_LIGHT_DAY, -1, SIDE, SIDE);
  cairo_destroy (cr);
  return surface;
}

#if BW_EMBREE
static cairo_surface_t *
with_light_followed (BwScene *scene, BwCamera camera)
{
  BwStill still = { camera, BW_LAYER_STONE, BW_LIGHT_DAY, BW_GROUND_CLEAR, SIDE, SIDE };
  g_autoptr (GError) error = NULL;
  cairo_surface_t *shown
      = bw_fine_new (scene, &still, &(BwFineOptions){ .looks = 12 }, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return shown;
}
#endif

static BwScene *
scene_of (const BwStoneLook *look)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwDesign design = *bw_project_get_design (project);
  design.look = *look;
  assert_true (bw_project_set_design (project, "Look", &design, NULL));
  return bw_scene_new (project, FALSE);
}

static cairo_surface_t *
picture_of (Make make, const BwStoneLook *look, BwCamera camera)
{
  g_autoptr (BwScene) scene = scene_of (look);
  cairo_surface_t *shown = make (scene, camera);
  cairo_surface_flush (shown);
  return shown;
}

static guint32
point (cairo_surface_t *surface, int x, int y)
{
  guint32 value;
  memcpy (&value,
          cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface)
              + 4 * x,
          4);
  return value;
}

/* Points in which two pictures differ by more than `least` in some part. */
static int
differing (cairo_surface_t *a, cairo_surface_t *b, int least)
{
  int n = 0;
  for (int i = 0; i < SIDE * SIDE; i++) {
    guint32 p = point (a, i % SIDE, i / SIDE), q = point (b, i % SIDE, i / SIDE);
    gboolean differs = FALSE;
    for (int shift = 0; shift < 32; shift += 8)
      differs = differs || abs ((int)(p >> shift & 255) - (int)(q >> shift & 255)) > least;
    n += differs;
  }
  return n;
}

static int
change_by (Make make, BwStoneLook look, BwCamera camera, int least)
{
  cairo_surface_t *quiet = picture_of (make, &(BwStoneLook){ 0 }, camera);
  cairo_surface_t *shown = picture_of (make, &look, camera);
  int n = differing (quiet, shown, least);
  cairo_surface_destroy (quiet);
  cairo_surface_destroy (shown);
  return n;
}

static const BwCamera upright = { 20, 5, 1 }, from_below = { 20, -45, 1 };

/* With the seed of a quiet stone, whose veils lie where they did. */
static void
assert_each_setting_shows (Make make, int least)
{
  assert_true (change_by (make, (BwStoneLook){ .growth_lines = 1 }, upright, least) > 200);
  assert_true (change_by (make, (BwStoneLook){ .veils = 1 }, upright, least) > 200);
  assert_true (change_by (make, (BwStoneLook){ .needles = 1 }, upright, least) > 60);
  assert_true (change_by (make, (BwStoneLook){ .chips = 1 }, upright, least) > 20);
  assert_true (change_by (make, (BwStoneLook){ .base = BW_BASE_FROSTED }, from_below, least) > 500);
  assert_true (change_by (make, (BwStoneLook){ .base = BW_BASE_BROKEN }, from_below, least) > 500);
}

static void
each_setting_shows_in_the_stone_view (void **state)
{
  assert_each_setting_shows (with_gl, 12);
}

static void
needles_and_chips_show_in_the_drawn_projection (void **state)
{
  assert_true (change_by (painted, (BwStoneLook){ .needles = 1 }, upright, 6) > 60);
  assert_true (change_by (painted, (BwStoneLook){ .chips = 1 }, upright, 6) > 20);
}

#if BW_EMBREE
static void
each_setting_shows_in_the_fine_picture (void **state)
{
  assert_each_setting_shows (with_light_followed, 16);
}
#endif

static const BwStoneLook rich
    = { .growth_lines = 0.5, .veils = 0.8, .needles = 0.8, .chips = 0.8, .seed = 5 };

static void
a_seed_gives_the_same_picture_and_another_seed_another (void **state)
{
  static const Make makes[]
      = { with_gl,
          painted,
#if BW_EMBREE
          with_light_followed,
#endif
        };
  BwStoneLook other = rich;
  other.seed = 6;
  for (gsize i = 0; i < G_N_ELEMENTS (makes); i++) {
    cairo_surface_t *first = picture_of (makes[i], &rich, upright);
    cairo_surface_t *again = picture_of (makes[i], &rich, upright);
    cairo_surface_t *another = picture_of (makes[i], &other, upright);
    assert_int_equal (differing (first, again, 0), 0);
    assert_true (differing (first, another, 8) > 100);
    cairo_surface_destroy (first);
    cairo_surface_destroy (again);
    cairo_surface_destroy (another);
  }
}

/* Where the picture of a stone is covered that lets nothing through. */
static void
outline_of (Make make, const BwStoneLook *look, BwCamera camera, gboolean covered[SIDE * SIDE])
{
  g_autoptr (BwScene) scene = scene_of (look);
  scene->stone_keeps[0] = scene->stone_keeps[1] = scene->stone_keeps[2] = 0;
  cairo_surface_t *shown = make (scene, camera);
  cairo_surface_flush (shown);
  for (int i = 0; i < SIDE * SIDE; i++)
    covered[i] = point (shown, i % SIDE, i / SIDE) >> 24 > 127;
  cairo_surface_destroy (shown);
}

static void
no_setting_moves_the_outline (void **state)
{
  static gboolean quiet[SIDE * SIDE], natural[SIDE * SIDE];
  for (BwBaseSurface base = BW_BASE_PLAIN; base <= BW_BASE_BROKEN; base++) {
    const BwStoneLook look = { 1, 1, 1, 1, base, 3 };
    outline_of (with_gl, &(BwStoneLook){ 0 }, from_below, quiet);
    outline_of (with_gl, &look, from_below, natural);
    assert_memory_equal (quiet, natural, sizeof quiet);
  }
}

static void
the_veils_of_another_seed_lie_elsewhere (void **state)
{
  cairo_surface_t *one = picture_of (with_gl, &(BwStoneLook){ .veils = 1, .seed = 5 }, upright);
  cairo_surface_t *two = picture_of (with_gl, &(BwStoneLook){ .veils = 1, .seed = 6 }, upright);
  assert_true (differing (one, two, 8) > 200);
  cairo_surface_destroy (one);
  cairo_surface_destroy (two);
}

static void
a_chip_breaks_the_line_of_its_edge (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) whole = bw_scene_new (project, FALSE);
  BwDesign design = *bw_project_get_design (project);
  design.look = (BwStoneLook){ .chips = 1, .seed = 2 };
  assert_true (bw_project_set_design (project, "Chips", &design, NULL));
  g_autoptr (BwScene) chipped = bw_scene_new (project, FALSE);
  assert_true (chipped->stone_edges->len > whole->stone_edges->len);
  for (guint i = 0; i < chipped->stone_edges->len; i++) {
    const BwSceneLine *line = &g_array_index (chipped->stone_edges, BwSceneLine, i);
    for (int k = 0; k < chipped->nature.n_chips; k++) {
      const BwChip *chip = &chipped->nature.chip[k];
      BwVec3 middle = bw_vec3 ((double)(line->from[0] + line->to[0]) / 2,
                               (double)(line->from[1] + line->to[1]) / 2,
                               (double)(line->from[2] + line->to[2]) / 2);
      assert_true (bw_vec3_length (bw_vec3_sub (middle, chip->at)) > chip->radius - 1e-4);
    }
  }
  assert_int_equal (chipped->stone->len, whole->stone->len);
  assert_memory_equal (chipped->stone->data, whole->stone->data,
                       whole->stone->len * sizeof (BwSceneVertex));
}

/* --- Lines of growth ---------------------------------------------------------------------------
 */

/* A stone that lets no light through: what is seen is its skin. */
static cairo_surface_t *
skin_of (Make make, const char *mineral, double growth_lines, gboolean without_lines)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwDesign design = *bw_project_get_design (project);
  design.look = (BwStoneLook){ .growth_lines = growth_lines, .base = BW_BASE_FROSTED };
  assert_true (bw_project_set_design (project, "Look", &design, NULL));
  bw_project_set_mineral (project, "Mineral", mineral);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  memset (scene->stone_keeps, 0, sizeof scene->stone_keeps);
  if (without_lines)
    scene->stone_striae = BW_STRIAE_NONE;
  cairo_surface_t *shown = make (scene, upright);
  cairo_surface_flush (shown);
  return shown;
}

/* How much the mark that lines leave changes on the way up, against on the way aside. */
static double
up_against_aside (Make make, const char *mineral)
{
  cairo_surface_t *deep = skin_of (make, mineral, 1, FALSE);
  cairo_surface_t *none = skin_of (make, mineral, 0, FALSE);
  static int mark[SIDE * SIDE];
  double up = 0, aside = 0;
  for (int i = 0; i < SIDE * SIDE; i++)
    mark[i] = (int)(point (deep, i % SIDE, i / SIDE) >> 8 & 255)
              - (int)(point (none, i % SIDE, i / SIDE) >> 8 & 255);
  for (int y = 2; y < SIDE; y++)
    for (int x = 2; x < SIDE; x++) {
      up += abs (mark[y * SIDE + x] - mark[(y - 2) * SIDE + x]);
      aside += abs (mark[y * SIDE + x] - mark[y * SIDE + x - 2]);
    }
  cairo_surface_destroy (deep);
  cairo_surface_destroy (none);
  return up / MAX (aside, 1);
}

static void
assert_lines_run_as_the_mineral_has_them (Make make)
{
  assert_true (up_against_aside (make, "quartz") > 2);
  assert_true (up_against_aside (make, "beryl") < 0.5);
  assert_true (up_against_aside (make, "tourmaline") < 0.5);
}

static void
assert_only_what_grew_in_faces_has_lines (Make make)
{
  static const char *const bare[] = { "obsidian", "sea glass", "rose quartz", "fluorite" };
  for (gsize i = 0; i < G_N_ELEMENTS (bare); i++) {
    cairo_surface_t *planes = skin_of (make, bare[i], 0, TRUE);
    cairo_surface_t *shown = skin_of (make, bare[i], 1, FALSE);
    assert_int_equal (differing (planes, shown, 0), 0);
    cairo_surface_destroy (planes);
    cairo_surface_destroy (shown);
  }
  cairo_surface_t *planes = skin_of (make, "quartz", 0, TRUE);
  cairo_surface_t *faint = skin_of (make, "quartz", 0, FALSE);
  assert_true (differing (planes, faint, 0) > 100);
  cairo_surface_destroy (planes);
  cairo_surface_destroy (faint);
}

/* Brightest less darkest in the middle of the face in front, in a stone turned so. */
static int
range_on_face (double turn_deg)
{
  g_autoptr (BwProject) project = piece_new (0);
  bw_project_set_mineral (project, "Mineral", "obsidian");
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  cairo_surface_t *shown = with_gl (scene, (BwCamera){ turn_deg, 5, 1 });
  /* The face lies 25 points before the axis and is 28 wide. */
  int middle = (int)(SIDE / 2 - 25 * sin (bw_radians (turn_deg)));
  int half = (int)(9 * cos (bw_radians (turn_deg))), least = 255, most = 0;
  cairo_surface_flush (shown);
  for (int x = middle - half; x <= middle + half; x++) {
    int here = (int)(point (shown, x, SIDE / 2) >> 8 & 255);
    least = MIN (least, here);
    most = MAX (most, here);
  }
  cairo_surface_destroy (shown);
  return most - least;
}

/* A cut face swells a little: a window mirrored in it ends within it. */
static void
a_light_in_a_face_of_glass_has_an_edge (void **state)
{
  int most = 0;
  for (double turn_deg = 0; turn_deg <= 25; turn_deg += 5)
    most = MAX (most, range_on_face (turn_deg));
  assert_true (most > 40);
}

static void
lines_of_growth_run_alike_in_the_stone_view_and_the_fine_picture (void **state)
{
  assert_lines_run_as_the_mineral_has_them (with_gl);
#if BW_EMBREE
  assert_lines_run_as_the_mineral_has_them (with_light_followed);
#endif
}

static void
glass_and_massive_stones_have_no_lines_in_either (void **state)
{
  assert_only_what_grew_in_faces_has_lines (with_gl);
#if BW_EMBREE
  assert_only_what_grew_in_faces_has_lines (with_light_followed);
#endif
}

int
main (void)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (each_setting_shows_in_the_stone_view),
          cmocka_unit_test (needles_and_chips_show_in_the_drawn_projection),
#if BW_EMBREE
          cmocka_unit_test (each_setting_shows_in_the_fine_picture),
#endif
          cmocka_unit_test (a_seed_gives_the_same_picture_and_another_seed_another),
          cmocka_unit_test (no_setting_moves_the_outline),
          cmocka_unit_test (the_veils_of_another_seed_lie_elsewhere),
          cmocka_unit_test (a_chip_breaks_the_line_of_its_edge),
          cmocka_unit_test (lines_of_growth_run_alike_in_the_stone_view_and_the_fine_picture),
          cmocka_unit_test (a_light_in_a_face_of_glass_has_an_edge),
          cmocka_unit_test (glass_and_massive_stones_have_no_lines_in_either),
        };
  return cmocka_run_group_tests_name ("look", tests, NULL, NULL);
}
