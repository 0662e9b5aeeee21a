/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture made without a display: a PNG of the size asked for, the piece in its middle, nothing
 * round it. */
#include "sample.h"

#include <cairo.h>
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

typedef struct {
  char *folder, *project, *picture;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (Sample) sample = sample_new (rand, 10, 0, SAMPLE_FLAP);
  g_autofree char *json = sample_json (sample);
  bench->folder = g_dir_make_tmp ("bandwright-render-XXXXXX", NULL);
  bench->project = g_build_filename (bench->folder, "piece.bandwright", NULL);
  bench->picture = g_build_filename (bench->folder, "piece.png", NULL);
  assert_true (g_file_set_contents (bench->project, json, -1, NULL));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  g_remove (bench->project);
  g_remove (bench->picture);
  g_assert_no_errno (g_rmdir (bench->folder));
  g_free (bench->folder);
  g_free (bench->project);
  g_free (bench->picture);
  g_free (bench);
  return 0;
}

/* Renders with these further arguments, no display in reach. Returns the exit status. */
static int
render (const Bench *bench, const char *picture, const char *const *arguments, char **err)
{
  g_autoptr (GStrvBuilder) argv = g_strv_builder_new ();
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);
  g_autofree char *out = NULL;
  g_strv_builder_add_many (argv, g_getenv ("BW_TOOL"), "render", bench->project, "-o", picture,
                           NULL);
  for (; arguments && *arguments; arguments++)
    g_strv_builder_add (argv, *arguments);
  g_auto (GStrv) words = g_strv_builder_end (argv);
  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  g_subprocess_launcher_unsetenv (launcher, "WAYLAND_DISPLAY");
  /* Under a leak checker: the graphics driver keeps its start-up data, and once unloaded it has no
   * name by which it could be excepted. The scene and the camera have tests of their own. */
  g_subprocess_launcher_setenv (launcher, "ASAN_OPTIONS", "detect_leaks=0", TRUE);
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawnv (launcher, (const char *const *)words, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, err, NULL));
  assert_true (g_subprocess_get_if_exited (process));
  assert_string_equal (out, "");
  return g_subprocess_get_exit_status (process);
}

static cairo_surface_t *
picture_of (const Bench *bench, const char *const *arguments)
{
  g_autofree char *err = NULL;
  assert_int_equal (render (bench, bench->picture, arguments, &err), 0);
  cairo_surface_t *surface = cairo_image_surface_create_from_png (bench->picture);
  assert_int_equal (cairo_surface_status (surface), CAIRO_STATUS_SUCCESS);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const unsigned char *row = cairo_image_surface_get_data (surface)
                             + (gsize)y * (gsize)cairo_image_surface_get_stride (surface);
  guint32 value;
  memcpy (&value, row + 4 * x, sizeof value);
  return value;
}

/* The share of pixels that hide what is behind them, in percent. */
static int
opaque_share (cairo_surface_t *a)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a), n = 0;
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      n += pixel (a, x, y) >> 24 == 255;
  return 100 * n / (width * height);
}

static void
the_picture_has_the_size_asked_for_and_a_clear_ground (void **state)
{
  static const char *const arguments[] = { "--size", "200x320", NULL };
  cairo_surface_t *picture = picture_of (*state, arguments);
  assert_int_equal (cairo_image_surface_get_format (picture), CAIRO_FORMAT_ARGB32);
  assert_int_equal (cairo_image_surface_get_width (picture), 200);
  assert_int_equal (cairo_image_surface_get_height (picture), 320);
  assert_int_equal (pixel (picture, 0, 0) >> 24, 0);
  assert_int_equal (pixel (picture, 199, 319) >> 24, 0);
  assert_true (pixel (picture, 100, 160) >> 24 > 0);
  assert_in_range (opaque_share (picture), 5, 60);
  cairo_surface_destroy (picture);
}

static int
count_differences (cairo_surface_t *a, cairo_surface_t *b)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a), n = 0;
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      n += pixel (a, x, y) != pixel (b, x, y);
  return n;
}

/* The share of pixels in which two pictures of one size differ, in percent. */
static int
difference (cairo_surface_t *a, cairo_surface_t *b)
{
  return 100 * count_differences (a, b)
         / (cairo_image_surface_get_width (a) * cairo_image_surface_get_height (a));
}

static void
turn_and_tip_move_the_eye (void **state)
{
  static const char *const plain[] = { "--size=120x120", NULL };
  static const char *const turned[] = { "--size=120x120", "--turn", "-90", NULL };
  static const char *const tipped[] = { "--size=120x120", "--tip", "60", NULL };
  cairo_surface_t *front = picture_of (*state, plain), *again = picture_of (*state, plain);
  cairo_surface_t *side = picture_of (*state, turned), *top = picture_of (*state, tipped);
  assert_int_equal (difference (front, again), 0);
  assert_true (difference (front, side) > 5);
  assert_true (difference (front, top) > 5);
  cairo_surface_destroy (front);
  cairo_surface_destroy (again);
  cairo_surface_destroy (side);
  cairo_surface_destroy (top);
}

static guint32
luminance (guint32 argb)
{
  return ((argb >> 16 & 255) * 2 + (argb >> 8 & 255) * 5 + (argb & 255)) / 8;
}

/* On a ground nothing shines through: light by day, dark where that is asked for, and darker where
 * the piece stands than beside it. */
static void
a_ground_is_laid_under_the_piece_with_its_shadow (void **state)
{
  static const char *const paper[] = { "--size=160x200", "--tip=12", "--ground", "paper", NULL };
  static const char *const dark[] = { "--size=160x200", "--tip=12", "--ground=dark", NULL };
  static const char *const clear[] = { "--size=160x200", "--tip=12", "--ground=clear", NULL };
  cairo_surface_t *on_paper = picture_of (*state, paper), *on_dark = picture_of (*state, dark);
  cairo_surface_t *on_none = picture_of (*state, clear);
  /* Read back without any transparency. */
  assert_int_equal (cairo_image_surface_get_format (on_paper), CAIRO_FORMAT_RGB24);
  assert_int_equal (cairo_image_surface_get_format (on_dark), CAIRO_FORMAT_RGB24);
  assert_true (luminance (pixel (on_paper, 2, 2)) > 180);
  assert_true (luminance (pixel (on_dark, 2, 2)) < 70);
  int darkest = 255, corner = (int)luminance (pixel (on_paper, 2, 190));
  for (int y = 150; y < 200; y++)
    for (int x = 0; x < 160; x++)
      if (pixel (on_none, x, y) >> 24 == 0)
        darkest = MIN (darkest, (int)luminance (pixel (on_paper, x, y)));
  assert_true (darkest < corner - 25);
  cairo_surface_destroy (on_paper);
  cairo_surface_destroy (on_dark);
  cairo_surface_destroy (on_none);
}

static void
a_view_is_seen_by_its_name (void **state)
{
  static const char *const views[] = { "front", "join", "above", "rest" };
  cairo_surface_t *picture[G_N_ELEMENTS (views)];
  for (gsize i = 0; i < G_N_ELEMENTS (views); i++) {
    const char *const arguments[] = { "--size=120x120", "--view", views[i], NULL };
    picture[i] = picture_of (*state, arguments);
    for (gsize k = 0; k < i; k++)
      assert_true (difference (picture[i], picture[k]) > 5);
  }
  for (gsize i = 0; i < G_N_ELEMENTS (views); i++)
    cairo_surface_destroy (picture[i]);
}

/* Mean share of red less blue over what the piece covers, and how many points that is. */
static double
warmth (cairo_surface_t *surface, int *covered)
{
  double sum = 0;
  *covered = 0;
  for (int y = 0; y < 120; y++)
    for (int x = 0; x < 120; x++) {
      guint32 argb = pixel (surface, x, y);
      sum += (double)(argb >> 16 & 255) - (double)(argb & 255);
      *covered += argb >> 24 == 255;
    }
  return sum;
}

static void
a_lamp_is_warm_and_nearer_is_larger (void **state)
{
  static const char *const day[] = { "--size=120x120", NULL };
  static const char *const lamp[] = { "--size=120x120", "--light=lamp", NULL };
  static const char *const near[] = { "--size=120x120", "--near", "3", NULL };
  cairo_surface_t *by_day = picture_of (*state, day), *by_lamp = picture_of (*state, lamp);
  cairo_surface_t *close = picture_of (*state, near);
  int far_covers, near_covers, lamp_covers;
  double cool = warmth (by_day, &far_covers);
  assert_true (warmth (by_lamp, &lamp_covers) > cool + 10.0 * lamp_covers);
  warmth (close, &near_covers);
  assert_true (near_covers > far_covers * 3 / 2);
  cairo_surface_destroy (by_day);
  cairo_surface_destroy (by_lamp);
  cairo_surface_destroy (close);
}

static void
a_word_that_is_no_ground_or_view_is_told (void **state)
{
  static const char *const wrong[][2] = { { "--ground=green", "--ground: 'green' is not" },
                                          { "--view=below", "--view: 'below' is not" },
                                          { "--light=noon", "--light: 'noon' is not" },
                                          { "--near=0.5", "--near: '0.5' is not" },
                                          { "--near=21", "--near: '21' is not" } };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    const char *const arguments[] = { wrong[i][0], NULL };
    const Bench *bench = *state;
    g_autofree char *err = NULL;
    assert_int_equal (render (bench, bench->picture, arguments, &err), 2);
    assert_non_null (strstr (err, wrong[i][1]));
  }
}

static void
a_picture_that_cannot_be_written_is_named (void **state)
{
  static const char *const arguments[] = { "--size=64x64", NULL };
  g_autofree char *err = NULL;
  assert_int_equal (render (*state, "/no/such/folder/piece.png", arguments, &err), 1);
  assert_true (g_str_has_prefix (err, "bandwright-tool: /no/such/folder/piece.png: "));
  assert_ptr_equal (strchr (err, '\n'), err + strlen (err) - 1);
}

static void
the_project_is_not_drawn_over (void **state)
{
  const Bench *bench = *state;
  static const char *const arguments[] = { "--size=64x64", NULL };
  g_autofree char *err = NULL, *before = NULL, *after = NULL;
  assert_true (g_file_get_contents (bench->project, &before, NULL, NULL));
  assert_int_equal (render (bench, bench->project, arguments, &err), 2);
  assert_true (g_file_get_contents (bench->project, &after, NULL, NULL));
  assert_string_equal (before, after);
}

#if BW_EMBREE
/* The alpha of all points. */
static double
mean_cover (cairo_surface_t *surface)
{
  int side = cairo_image_surface_get_width (surface),
      stride = cairo_image_surface_get_stride (surface);
  const guint8 *data = cairo_image_surface_get_data (surface);
  double sum = 0;
  for (int y = 0; y < side; y++)
    for (int x = 0; x < side; x++)
      sum += data[y * stride + 4 * x + 3] / 255.0 / (side * side);
  return sum;
}

static void
a_fine_picture_has_the_size_and_the_outline_of_the_plain_one (void **state)
{
  static const char *const plain[] = { "--size=72x72", "--turn=20", NULL };
  static const char *const fine[] = { "--size=72x72", "--turn=20", "--fine", NULL };
  cairo_surface_t *first = picture_of (*state, plain), *second = picture_of (*state, fine);
  assert_int_equal (cairo_image_surface_get_width (second), 72);
  assert_int_equal (cairo_image_surface_get_height (second), 72);
  assert_true (mean_cover (second) > mean_cover (first) * 0.9);
  assert_true (difference (first, second) > 3);
  cairo_surface_destroy (first);
  cairo_surface_destroy (second);
}

#endif

static void
a_turntable_is_numbered_pictures_or_one_that_moves (void **state)
{
  static const char *const arguments[] = { "--size=32x32", "--turntable", "--frames=3", NULL };
  const Bench *bench = *state;
  g_autofree char *moving = g_build_filename (bench->folder, "piece.webp", NULL), *bytes = NULL;
  g_autofree char *err = NULL, *told = NULL;
  assert_int_equal (render (bench, bench->picture, arguments, &err), 0);
  for (int i = 1; i <= 4; i++) {
    g_autofree char *name = g_strdup_printf ("piece-%03d.png", i);
    g_autofree char *path = g_build_filename (bench->folder, name, NULL);
    assert_int_equal (g_file_test (path, G_FILE_TEST_EXISTS), i < 4);
    g_remove (path);
  }
  assert_int_equal (render (bench, moving, arguments, &told), 0);
  assert_true (g_file_get_contents (moving, &bytes, NULL, NULL));
  assert_memory_equal (bytes, "RIFF", 4);
  assert_memory_equal (bytes + 8, "WEBPVP8X", 8);
  g_remove (moving);
}

/* Picture i + 1 of the weaving, which is taken away. */
static cairo_surface_t *
woven (const Bench *bench, int i)
{
  g_autofree char *name = g_strdup_printf ("piece-%03d.png", i + 1);
  g_autofree char *path = g_build_filename (bench->folder, name, NULL);
  cairo_surface_t *picture = cairo_image_surface_create_from_png (path);
  assert_int_equal (cairo_surface_status (picture), CAIRO_STATUS_SUCCESS);
  g_remove (path);
  return picture;
}

/* Seen from above, where no bead's place is out of sight. */
static void
the_weaving_is_numbered_pictures_ever_more_like_the_finished_piece (void **state)
{
  static const char *const arguments[]
      = { "--size=160x160", "--play", "--frames=5", "--turn=10", "--tip=60", NULL };
  static const char *const finished[] = { "--size=160x160", "--turn=10", "--tip=60", NULL };
  const Bench *bench = *state;
  g_autofree char *err = NULL;
  cairo_surface_t *whole = picture_of (bench, finished);
  int last = G_MAXINT;
  assert_int_equal (render (bench, bench->picture, arguments, &err), 0);
  for (int i = 0; i < 5; i++) {
    cairo_surface_t *picture = woven (bench, i);
    int off = count_differences (picture, whole);
    assert_true (off < last);
    last = off;
    cairo_surface_destroy (picture);
  }
  cairo_surface_destroy (whole);
}

/* Of three pictures of the weaving. */
static void
first_and_last (const Bench *bench, cairo_surface_t *picture[2])
{
  picture[0] = woven (bench, 0);
  cairo_surface_destroy (woven (bench, 1));
  picture[1] = woven (bench, 2);
}

static void
the_eye_goes_round_with_the_needle_unless_it_is_told_where_to_stand (void **state)
{
  static const char *const arguments[] = { "--size=64x64", "--play", "--frames=3", NULL };
  static const char *const still[]
      = { "--size=64x64", "--play", "--frames=3", "--view=front", NULL };
  const Bench *bench = *state;
  g_autofree char *err = NULL, *told = NULL;
  cairo_surface_t *picture[2][2];
  assert_int_equal (render (bench, bench->picture, arguments, &err), 0);
  first_and_last (bench, picture[0]);
  assert_int_equal (render (bench, bench->picture, still, &told), 0);
  first_and_last (bench, picture[1]);
  /* Beside the stone nothing changes for an eye that stands still, but the band. */
  assert_true (count_differences (picture[0][0], picture[0][1])
               > count_differences (picture[1][0], picture[1][1]));
  for (int i = 0; i < 4; i++)
    cairo_surface_destroy (picture[i / 2][i % 2]);
}

static void
frames_that_make_no_round_are_told (void **state)
{
  static const char *const wrong[][3]
      = { { "--turntable", "--frames=1", "--frames: '1' is not a whole number" },
          { "--turntable", "--frames=361", "--frames: '361' is not a whole number" },
          { "--size=32x32", "--frames=12", "--frames goes with --turntable or --play" },
          { "--turntable", "--play", "--turntable and --play do not go together" },
          { "--view=rest", "--play", "--play: a piece that is being woven does not hang" } };
  const Bench *bench = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++) {
    const char *const arguments[] = { wrong[i][0], wrong[i][1], NULL };
    g_autofree char *err = NULL;
    assert_int_equal (render (bench, bench->picture, arguments, &err), 2);
    assert_non_null (strstr (err, wrong[i][2]));
  }
}

/* What is written is a PNG, and nothing is written under a name that says otherwise. */
static void
a_name_that_ends_like_another_picture_is_refused (void **state)
{
  static const char *const endings[] = { ".bmp", ".jpg", ".webp", ".png.gif" };
  static const char *const arguments[] = { "--size=16x16", NULL };
  const Bench *bench = *state;
  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++) {
    g_autofree char *path = g_strconcat (bench->folder, "/kelp", endings[i], NULL), *err = NULL;
    assert_int_equal (render (bench, path, arguments, &err), 2);
    assert_non_null (strstr (err, "the name must end in .png"));
    assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  }
  g_autofree char *good = g_strconcat (bench->folder, "/kelp.PNG", NULL), *err = NULL;
  assert_int_equal (render (bench, good, arguments, &err), 0);
  assert_int_equal (g_remove (good), 0);
}

static void
without_embree_a_fine_picture_is_refused_and_nothing_written (void **state)
{
  static const char *const arguments[] = { "--size=64x64", "--fine", NULL };
  const Bench *bench = *state;
  g_autofree char *err = NULL;
  g_remove (bench->picture);
  g_setenv ("BANDWRIGHT_EMBREE", "/no/such/library.so", TRUE);
  assert_int_equal (render (bench, bench->picture, arguments, &err), 1);
  g_unsetenv ("BANDWRIGHT_EMBREE");
  assert_non_null (strstr (err, "Embree"));
  assert_ptr_equal (strchr (err, '\n'), err + strlen (err) - 1);
  assert_false (g_file_test (bench->picture, G_FILE_TEST_EXISTS));
}

/* --- The file manager --------------------------------------------------------------------------
 */

/* A field of the file that tells file managers how pictures of projects are made. */
static char *
thumbnailer_field (const char *name)
{
  g_autoptr (GKeyFile) entry = g_key_file_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"),
                                            "io.github.bandwright.Bandwright.thumbnailer", NULL);
  g_key_file_load_from_file (entry, path, G_KEY_FILE_NONE, &error);
  g_assert_no_error (error);
  char *value = g_key_file_get_string (entry, "Thumbnailer Entry", name, &error);
  g_assert_no_error (error);
  return value;
}

/* Runs the command as a file manager does: the words are divided as a shell does, %i is the file,
 * %o the picture, %s its size. Returns the exit status. */
static int
run_thumbnailer (const char *file, const char *picture, const char *size)
{
  g_autofree char *exec = thumbnailer_field ("Exec");
  g_auto (GStrv) words = NULL;
  assert_true (g_shell_parse_argv (exec, NULL, &words, NULL));
  assert_string_equal (words[0], "bandwright-tool");
  for (int i = 0; words[i]; i++) {
    const char *value = g_str_equal (words[i], "%i")   ? file
                        : g_str_equal (words[i], "%o") ? picture
                        : g_str_equal (words[i], "%s") ? size
                        : i == 0                       ? g_getenv ("BW_TOOL")
                                                       : words[i];
    char *old = words[i];
    words[i] = g_strdup (value);
    g_free (old);
  }
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDERR_SILENCE);
  g_subprocess_launcher_unsetenv (launcher, "DISPLAY");
  g_subprocess_launcher_setenv (launcher, "ASAN_OPTIONS", "detect_leaks=0", TRUE);
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawnv (launcher, (const char *const *)words, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_wait (process, NULL, NULL));
  return g_subprocess_get_exit_status (process);
}

static void
a_file_manager_gets_a_small_picture_of_the_piece_alone (void **state)
{
  const Bench *bench = *state;
  static const char *const sizes[] = { "64", "128", "512" };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++) {
    assert_int_equal (run_thumbnailer (bench->project, bench->picture, sizes[i]), 0);
    cairo_surface_t *picture = cairo_image_surface_create_from_png (bench->picture);
    int width = cairo_image_surface_get_width (picture), most = atoi (sizes[i]);
    int height = cairo_image_surface_get_height (picture);
    assert_true (width <= most && height <= most && MAX (width, height) > most * 3 / 4);
    cairo_surface_destroy (picture);
  }
}

static void
a_file_manager_is_told_of_a_file_that_is_no_project (void **state)
{
  const Bench *bench = *state;
  g_autofree char *broken = g_build_filename (bench->folder, "broken.bandwright", NULL);
  g_remove (bench->picture);
  assert_true (g_file_set_contents (broken, "{", 1, NULL));
  assert_int_equal (run_thumbnailer (broken, bench->picture, "128"), 1);
  assert_false (g_file_test (bench->picture, G_FILE_TEST_EXISTS));
  g_remove (broken);
}

static void
file_managers_ask_for_pictures_of_projects_alone (void **state)
{
  g_autofree char *kind = thumbnailer_field ("MimeType"), *bare = NULL, *mime = NULL, *text = NULL;
  mime = g_build_filename (g_getenv ("BW_TEST_DATA"), "io.github.bandwright.Bandwright.mime.xml",
                           NULL);
  assert_true (g_str_has_suffix (kind, ";"));
  bare = g_strdup_printf ("<mime-type type=\"%.*s\">", (int)strlen (kind) - 1, kind);
  assert_true (g_file_get_contents (mime, &text, NULL, NULL));
  assert_non_null (strstr (text, bare));
}

int
main (void)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (the_picture_has_the_size_asked_for_and_a_clear_ground),
          cmocka_unit_test (turn_and_tip_move_the_eye),
          cmocka_unit_test (a_ground_is_laid_under_the_piece_with_its_shadow),
          cmocka_unit_test (a_view_is_seen_by_its_name),
          cmocka_unit_test (a_lamp_is_warm_and_nearer_is_larger),
          cmocka_unit_test (a_word_that_is_no_ground_or_view_is_told),
          cmocka_unit_test (a_name_that_ends_like_another_picture_is_refused),
          cmocka_unit_test (a_picture_that_cannot_be_written_is_named),
          cmocka_unit_test (the_project_is_not_drawn_over),
#if BW_EMBREE
          cmocka_unit_test (a_fine_picture_has_the_size_and_the_outline_of_the_plain_one),
#endif
          cmocka_unit_test (a_turntable_is_numbered_pictures_or_one_that_moves),
          cmocka_unit_test (the_weaving_is_numbered_pictures_ever_more_like_the_finished_piece),
          cmocka_unit_test (the_eye_goes_round_with_the_needle_unless_it_is_told_where_to_stand),
          cmocka_unit_test (frames_that_make_no_round_are_told),
          cmocka_unit_test (a_file_manager_gets_a_small_picture_of_the_piece_alone),
          cmocka_unit_test (a_file_manager_is_told_of_a_file_that_is_no_project),
          cmocka_unit_test (file_managers_ask_for_pictures_of_projects_alone),
          cmocka_unit_test (without_embree_a_fine_picture_is_refused_and_nothing_written),
        };
  return cmocka_run_group_tests_name ("render", tests, set_up, tear_down);
}
