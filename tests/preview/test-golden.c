/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the demos look, held against pictures that were looked at and found good. Drivers differ in
 * their last bits and at edges, so both are blurred to cells and compared as the eye compares
 * colours (CIEDE2000). After a wished change of the looks: run this test with BW_GOLDEN set to a
 * folder, look at each picture that it writes there, and keep them in tests/preview/golden. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/pattern/colour.h"
#include "preview/fine/fine.h"
#include "preview/picture/finish-pictures.h"
#include <string.h>

enum { WIDTH = 96, HEIGHT = 120, CELL = 4, COLUMNS = WIDTH / CELL, ROWS = HEIGHT / CELL };

/* Over the cells that the piece covers. Measured: Mesa's two software drivers, llvmpipe and
 * softpipe of 22.3, lie 0.2 apart in the mean at most; about 1 is the least a practised eye sees
 * between large fields. */
#define MEAN_MOST 0.45
#define FAR 2.5
#define FAR_MOST 0.08 /* share of the cells that may lie farther off: those at edges may */

typedef struct {
  const char *demo, *name;
  const char *mineral; /* NULL: its own */
  BwLight light;
  BwGround ground;
  gboolean rests, fine;
} Sitting;

static const Sitting sittings[] = {
  { "split-tide", "split-tide-day", NULL, BW_LIGHT_DAY, BW_GROUND_PAPER, FALSE, FALSE },
  { "split-tide", "split-tide-lamp", NULL, BW_LIGHT_LAMP, BW_GROUND_PAPER, FALSE, FALSE },
  { "split-tide", "split-tide-amethyst", "amethyst", BW_LIGHT_DAY, BW_GROUND_DARK, FALSE, FALSE },
  { "harbour-lamp", "harbour-lamp-dusk", NULL, BW_LIGHT_LAMP, BW_GROUND_DARK, FALSE, FALSE },
  { "harbour-lamp", "harbour-lamp-hanging", NULL, BW_LIGHT_DAY, BW_GROUND_PAPER, TRUE, FALSE },
  { "twin-scud", "twin-scud-day", NULL, BW_LIGHT_DAY, BW_GROUND_PAPER, FALSE, FALSE },
#if BW_EMBREE
  { "split-tide", "split-tide-fine", NULL, BW_LIGHT_DAY, BW_GROUND_PAPER, FALSE, TRUE },
  { "harbour-lamp", "harbour-lamp-fine", NULL, BW_LIGHT_LAMP, BW_GROUND_DARK, FALSE, TRUE },
  { "twin-scud", "twin-scud-fine", NULL, BW_LIGHT_DAY, BW_GROUND_PAPER, TRUE, TRUE },
#endif
};

/* Point k of cell i. */
static guint32
point_of (cairo_surface_t *surface, int i, int k)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  int x = i % COLUMNS * CELL + k % CELL, y = i / COLUMNS * CELL + k / CELL;
  guint32 value;
  memcpy (&value, data + y * cairo_image_surface_get_stride (surface) + 4 * x, 4);
  return value;
}

/* So many of its points are covered. */
static double
alpha_of (cairo_surface_t *surface, int cell)
{
  double sum = 0;
  for (int k = 0; k < CELL * CELL; k++)
    sum += (point_of (surface, cell, k) >> 24) / 255.0;
  return sum;
}

static BwScene *
scene_of (const Sitting *sitting)
{
  g_autofree char *file = g_strconcat (sitting->demo, ".bandwright", NULL);
  g_autoptr (GFile) demo
      = g_file_new_build_filename (g_getenv ("BW_TEST_DATA"), "demo", file, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load (demo, &error);
  g_assert_no_error (error);
  if (sitting->mineral)
    bw_project_set_mineral (project, "Mineral", sitting->mineral);
  BwScene *scene = bw_scene_new (project, FALSE);
  if (sitting->rests)
    bw_scene_stand_at_rest (scene);
  return scene;
}

/* covered: the cells in which most is the piece. */
static cairo_surface_t *
sit (const Sitting *sitting, gboolean covered[COLUMNS * ROWS])
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwScene) scene = scene_of (sitting);
  BwStill still = { .camera = { 25, 8, 1 },
                    .layers = BW_LAYER_ALL,
                    .light = sitting->light,
                    .ground = BW_GROUND_CLEAR,
                    .width = WIDTH,
                    .height = HEIGHT };
  cairo_surface_t *alone = bw_still_new (scene, &still, &error);
  g_assert_no_error (error);
  cairo_surface_flush (alone);
  for (int i = 0; i < COLUMNS * ROWS; i++)
    covered[i] = alpha_of (alone, i) > CELL * CELL * 0.5;
  cairo_surface_destroy (alone);
  still.ground = sitting->ground;
  cairo_surface_t *surface
      = sitting->fine
            ? bw_fine_new (scene, &still, &(BwFineOptions){ .looks = 24 }, NULL, NULL, NULL, &error)
            : bw_still_new (scene, &still, &error);
  g_assert_no_error (error);
  cairo_surface_flush (surface);
  return surface;
}

/* The mean light of each cell. */
static void
blur (cairo_surface_t *surface, BwLab cell[COLUMNS * ROWS])
{
  for (int i = 0; i < COLUMNS * ROWS; i++) {
    BwLinear sum = { 0, 0, 0 };
    for (int k = 0; k < CELL * CELL; k++) {
      BwLinear light = bw_colour_linear (point_of (surface, i, k) & 0xffffff);
      sum.r += light.r / (CELL * CELL);
      sum.g += light.g / (CELL * CELL);
      sum.b += light.b / (CELL * CELL);
    }
    cell[i] = bw_colour_lab_from_linear (sum);
  }
}

static cairo_surface_t *
golden (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path = g_build_filename (BW_GOLDEN_FOLDER, file, NULL);
  cairo_surface_t *surface = cairo_image_surface_create_from_png (path);
  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS
      || cairo_image_surface_get_width (surface) != WIDTH
      || cairo_image_surface_get_height (surface) != HEIGHT)
    fail_msg ("%s is no picture of %d × %d", path, WIDTH, HEIGHT);
  return surface;
}

static void
keep (cairo_surface_t *surface, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path
      = g_getenv ("BW_GOLDEN") ? g_build_filename (g_getenv ("BW_GOLDEN"), file, NULL) : NULL;
  if (path)
    assert_int_equal (cairo_surface_write_to_png (surface, path), CAIRO_STATUS_SUCCESS);
}

static gboolean
looks_alike (const char *name, const BwLab *is, const BwLab *should_be, const gboolean *covered)
{
  double sum = 0;
  int far_off = 0, n = 0;
  for (int i = 0; i < COLUMNS * ROWS; i++) {
    double apart = covered[i] ? bw_colour_difference (is[i], should_be[i]) : 0;
    n += covered[i] != 0;
    sum += apart;
    far_off += apart > FAR;
  }
  print_message ("# %s: %.2f in the mean, %d of %d cells beyond %.1f\n", name, sum / n, far_off, n,
                 FAR);
  assert_true (n > COLUMNS * ROWS / 12);
  return sum / n < MEAN_MOST && far_off < n * FAR_MOST;
}

/* Takes the picture over. */
static void
assert_as_found_good (cairo_surface_t *now, const char *name, const gboolean *covered)
{
  BwLab is[COLUMNS * ROWS], should_be[COLUMNS * ROWS];
  keep (now, name);
  blur (now, is);
  cairo_surface_destroy (now);
  if (g_getenv ("BW_GOLDEN"))
    return;
  cairo_surface_t *then = golden (name);
  blur (then, should_be);
  cairo_surface_destroy (then);
  if (!looks_alike (name, is, should_be, covered))
    fail_msg ("%s looks otherwise", name);
}

static void
each_demo_looks_as_it_was_found_good (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sittings); i++) {
    gboolean covered[COLUMNS * ROWS];
    cairo_surface_t *now = sit (&sittings[i], covered);
    assert_as_found_good (now, sittings[i].name, covered);
  }
}

/* On the swatch card; the foot of the picture stays empty. */
static void
each_finish_looks_as_it_was_found_good (void **state)
{
  gboolean covered[COLUMNS * ROWS] = { FALSE };
  cairo_surface_t *swatch[BW_N_FINISHES];
  for (int i = 0; i < COLUMNS * WIDTH / CELL; i++)
    covered[i] = TRUE;
  assert_true (bw_finish_pictures (0x3a7a9a, WIDTH, swatch));
  for (int finish = 0; finish < BW_N_FINISHES; finish++) {
    g_autofree char *name = g_strconcat ("finish-", bw_finish_word ((BwFinish)finish), NULL);
    cairo_surface_t *now = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
    cairo_t *cr = cairo_create (now);
    cairo_set_source_surface (cr, swatch[finish], 0, 0);
    cairo_paint (cr);
    cairo_destroy (cr);
    cairo_surface_flush (now);
    cairo_surface_destroy (swatch[finish]);
    assert_as_found_good (now, name, covered);
  }
}

/* The measure itself: a little more of one colour all over is too much, one bead is not. */
static void
the_measure_tells_a_changed_light_from_a_changed_point (void **state)
{
  BwLab cell[COLUMNS * ROWS], other[COLUMNS * ROWS];
  gboolean covered[COLUMNS * ROWS];
  cairo_surface_t *surface = sit (&sittings[0], covered);
  int first = 0;
  blur (surface, cell);
  cairo_surface_destroy (surface);
  for (int i = 0; i < COLUMNS * ROWS; i++) {
    other[i] = cell[i];
    other[i].L *= 1.015;
    first = covered[i] && !first ? i : first;
  }
  assert_false (looks_alike ("lighter", cell, other, covered));
  memcpy (other, cell, sizeof other);
  other[first].L += 30;
  assert_true (looks_alike ("one cell", cell, other, covered));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_demo_looks_as_it_was_found_good),
    cmocka_unit_test (each_finish_looks_as_it_was_found_good),
    cmocka_unit_test (the_measure_tells_a_changed_light_from_a_changed_point),
  };
  return cmocka_run_group_tests_name ("golden", tests, NULL, NULL);
}
