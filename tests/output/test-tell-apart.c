/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters and marks in print, small and without colour: each pair is drawn at 6 points in grey at
 * 200 dots an inch and told apart.
 *
 * The measure: both pictures are blurred over three dots, as ink runs and eyes do, and one is laid
 * over the other where they agree best within a dot. What is not alike then, as a share of the ink
 * of both, is how far they are apart: 0 for the same picture, 1 for two that share nothing. A sign
 * falls on the dots in another way each time, and a reader knows it in several ways: it is told
 * from all others when, however it falls, it is clearly nearer to one of its own pictures than to
 * any of another sign. Drawn six times as fine and averaged, so that it falls where it is put and
 * not where a font's renderer would have it. */
#include "../fewer.h"
#include "core/pattern/tint.h"
#include "output/chart/mark.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define DPI 200.0
#define POINTS 6.0
#define SIDE 32  /* of a picture, dots */
#define REACH 1  /* dots by which one is laid off the other */
#define FINER 6  /* times as many dots where it is drawn, each way */
#define PHASES 3 /* places on a dot of the pictures that a reader knows, each way */
/* How many times as far from another as from itself; marks, whose shape is the project's own,
 * farther. */
#define LETTERS_APART 2.0
#define MARKS_APART 4.0
/* Of its most solid dot with the ground, where it falls worst: common practice. */
#define CONTRAST 0.29

/* The ink of a sign on its ground, 0 to 1. */
typedef struct {
  double ink[SIDE][SIDE];
  double sum, most;
} Sign;

typedef void (*Draw) (cairo_t *cr, const BwTray *tray, int colour);

/* A letter of 6 points: those in beads are BW_MARK_LETTER of the bead's height. */
static void
draw_letter (cairo_t *cr, const BwTray *tray, int colour)
{
  g_auto (BwMarkPen) pen = { 0 };
  double high = POINTS / BW_MARK_LETTER;
  bw_mark_pen_init (&pen, tray, high, high);
  bw_mark_pen_draw (&pen, cr, colour, 0, 0);
}

/* The mark of a bead that is 6 points high. */
static void
draw_mark (cairo_t *cr, const BwTray *tray, int colour)
{
  bw_mark_draw (cr, tray, colour, 0, 0, 1.2 * POINTS, POINTS);
}

/* Rec. 709 weights of the channels. */
static double
grey_of (const guint8 *dot)
{
  return (0.0722 * dot[0] + 0.7152 * dot[1] + 0.2126 * dot[2]) / 255;
}

static double
at (const double grey[SIDE][SIDE], int y, int x)
{
  return grey[CLAMP (y, 0, SIDE - 1)][CLAMP (x, 0, SIDE - 1)];
}

/* What differs from the empty bead, blurred over three dots each way. */
static void
take_ink (Sign *sign, const double grey[SIDE][SIDE], const double empty[SIDE][SIDE])
{
  sign->sum = sign->most = 0;
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      double ink = 0;
      for (int i = 0; i < 9; i++)
        ink += fabs (at (grey, y + i / 3 - 1, x + i % 3 - 1)
                     - at (empty, y + i / 3 - 1, x + i % 3 - 1));
      sign->ink[y][x] = ink / 9;
      sign->sum += sign->ink[y][x];
      sign->most = MAX (sign->most, fabs (grey[y][x] - empty[y][x]));
    }
}

/* As printed, so many sixths of a dot to the right and down. */
static void
average (double grey[SIDE][SIDE], cairo_surface_t *fine, int right, int down)
{
  const guint8 *data = cairo_image_surface_get_data (fine);
  int stride = cairo_image_surface_get_stride (fine);
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      grey[y][x] = 0;
      for (int i = 0; i < FINER * FINER; i++)
        grey[y][x] += grey_of (data + ((y + 1) * FINER - down + i / FINER) * stride
                               + 4 * ((x + 1) * FINER - right + i % FINER))
                      / (FINER * FINER);
    }
}

/* A dot wider than a picture on every side. Owned. */
static cairo_surface_t *
draw_fine (Draw draw, const BwTray *tray, int colour, guint32 ground)
{
  const int side = (SIDE + 2) * FINER;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, side, side);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, (ground >> 16) / 255.0, (ground >> 8 & 255) / 255.0,
                        (ground & 255) / 255.0);
  cairo_paint (cr);
  cairo_translate (cr, 4 * FINER, 4 * FINER);
  cairo_scale (cr, FINER * DPI / 72, FINER * DPI / 72);
  draw (cr, tray, colour);
  cairo_surface_flush (surface);
  cairo_destroy (cr);
  return surface;
}

/* Two empty beads are the same. */
static double
difference (const Sign *a, const Sign *b, int dx, int dy)
{
  if (a->sum + b->sum <= 0)
    return 0;
  double sum = 0;
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++)
      sum += fabs (a->ink[y][x] - at (b->ink, y + dy, x + dx));
  return sum / (a->sum + b->sum);
}

static double
apart (const Sign *a, const Sign *b)
{
  double least = INFINITY;
  for (int dy = -REACH; dy <= REACH; dy++)
    for (int dx = -REACH; dx <= REACH; dx++)
      least = MIN (least, difference (a, b, dx, dy));
  return least;
}

static BwTray
tray_of (int n, guint32 srgb)
{
  BwTray tray = { .n_colours = n };
  for (int i = 0; i < n; i++)
    tray.colour[i] = (BwColour){ .id = 0x2460 + (gunichar)i, .srgb = srgb };
  return tray;
}

#define KNOWN (PHASES * PHASES)

typedef struct {
  Draw draw;
  const char *what;
  double apart; /* LETTERS_APART or MARKS_APART */
  guint32 ground;
  BwTray tray;
  int n;
  Sign *known; /* KNOWN of each, on whole thirds of a dot */
  double nearest;
  int alike;
} Reading;

/* Sixths of a dot. A sign that is its ground alone has no ink. */
static void
take_sign (const Reading *reading, int i, int right, int down, Sign *sign)
{
  static double grey[SIDE][SIDE], empty[SIDE][SIDE];
  cairo_surface_t *fine = draw_fine (reading->draw, &reading->tray, i, reading->ground);
  average (grey, fine, right, down);
  cairo_surface_destroy (fine);
  if (reading->draw == draw_mark) {
    fine = draw_fine (draw_mark, &reading->tray, 0, reading->ground);
    average (empty, fine, right, down);
    cairo_surface_destroy (fine);
  } else {
    for (int k = 0; k < SIDE * SIDE; k++)
      empty[k / SIDE][k % SIDE] = grey_of ((const guint8 *)&reading->ground);
  }
  take_ink (sign, grey, empty);
}

static double
how_far (const Reading *reading, const Sign *sign, int k)
{
  double least = INFINITY;
  for (int phase = 0; phase < KNOWN; phase++)
    least = MIN (least, apart (sign, &reading->known[k * KNOWN + phase]));
  return least;
}

/* One sign where no known one lies: between the thirds. */
static void
read_sign (Reading *reading, int i, int right, int down)
{
  static Sign sign;
  take_sign (reading, i, right, down, &sign);
  double own = how_far (reading, &sign, i);
  for (int k = 0; k < reading->n; k++) {
    if (k == i)
      continue;
    double other = how_far (reading, &sign, k);
    reading->nearest = MIN (reading->nearest, other / own);
    if (other > 0 && other >= reading->apart * own)
      continue;
    print_message ("%s %d and %d on #%06x: %.3f, not %.3f\n", reading->what, i, k, reading->ground,
                   other, reading->apart * own);
    reading->alike++;
  }
}

static void
check_contrast (Reading *reading, int i)
{
  double most = 1;
  for (int phase = 0; phase < KNOWN; phase++)
    most = MIN (most, reading->known[i * KNOWN + phase].most);
  if (reading->known[i * KNOWN].sum <= 0 || most >= CONTRAST)
    return;
  print_message ("%s %d on #%06x: contrast %.2f\n", reading->what, i, reading->ground, most);
  reading->alike++;
}

/* White, black, and two greys on which neither stands out much. */
static void
assert_apart (Draw draw, int n, const char *what, double apart_by)
{
  static const guint32 grounds[] = { 0xffffff, 0x000000, 0x808080, 0x6d6d6d };
  g_autofree Sign *known = g_new0 (Sign, n * KNOWN);
  int alike = 0;
  for (int g = 0; g < few (G_N_ELEMENTS (grounds)); g++) {
    Reading reading
        = { draw, what, apart_by, grounds[g], tray_of (n, grounds[g]), n, known, INFINITY, 0 };
    const int step = FINER / PHASES;
    for (int i = 0; i < n * KNOWN; i++)
      take_sign (&reading, i / KNOWN, i % PHASES * step, i / PHASES % PHASES * step, &known[i]);
    for (int i = 0; i < n; i++) {
      check_contrast (&reading, i);
      for (int phase = 0; phase < KNOWN; phase++)
        read_sign (&reading, i, phase % PHASES * step + 1, phase / PHASES * step + 1);
    }
    print_message ("%s on #%06x: another is %.2f times as far\n", what, grounds[g],
                   reading.nearest);
    alike += reading.alike;
  }
  assert_int_equal (alike, 0);
}

static void
any_two_letters_of_six_points_are_told_apart_in_grey (void **state)
{
  BwTray tray = tray_of (BW_TRAY_MAX, 0xffffff);
  int n = 0;
  char letter[BW_TRAY_LETTER];
  for (bw_tray_print_letter (&tray, 0, letter); !letter[1];)
    bw_tray_print_letter (&tray, ++n, letter);
  assert_int_equal (n, 23); /* capitals without I, L and O */
  assert_apart (draw_letter, n, "letters", LETTERS_APART);
}

/* A bead of the first colour has none: it is told by that. */
static void
any_two_marks_of_a_bead_of_six_points_are_told_apart_in_grey (void **state)
{
  assert_apart (draw_mark, BW_MARK_PATTERNS, "marks", MARKS_APART);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (any_two_letters_of_six_points_are_told_apart_in_grey),
    cmocka_unit_test (any_two_marks_of_a_bead_of_six_points_are_told_apart_in_grey),
  };
  return cmocka_run_group_tests_name ("tell-apart", tests, NULL, NULL);
}
