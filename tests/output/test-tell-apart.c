/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters and marks in print, small and without colour: each pair is drawn at 6 points in grey at
 * 200 dots an inch and told apart.
 *
 * The measure: both pictures are blurred over three dots, as ink runs and eyes do, and one is laid
 * over the other where they agree best within two dots. What is not alike then, as a share of the
 * ink of both, is how far they are apart: 0 for the same picture, 1 for two that share nothing. A
 * sign is not even like itself, for it falls on the dots in another way each time: two are told
 * apart when they are at least twice as far apart as either is from itself, wherever it falls. */
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
#define SIDE 64      /* of a picture, dots */
#define REACH 2      /* dots by which one is laid off the other */
#define PHASES 3     /* places on a dot, each way */
#define MARGIN 2.0   /* times as far from another as from itself */
#define CONTRAST 0.3 /* of its most solid dot with the ground, at least: common practice */

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

static void
render (double grey[SIDE][SIDE], Draw draw, const BwTray *tray, int colour, guint32 ground,
        int phase)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, (ground >> 16) / 255.0, (ground >> 8 & 255) / 255.0,
                        (ground & 255) / 255.0);
  cairo_paint (cr);
  cairo_translate (cr, 14 + phase % PHASES / (double)PHASES, 14 + phase / PHASES / (double)PHASES);
  cairo_scale (cr, DPI / 72, DPI / 72);
  draw (cr, tray, colour);
  cairo_surface_flush (surface);
  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++)
      grey[y][x] = grey_of (cairo_image_surface_get_data (surface)
                            + y * cairo_image_surface_get_stride (surface) + 4 * x);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static double
difference (const Sign *a, const Sign *b, int dx, int dy)
{
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

typedef struct {
  Draw draw;
  const char *what;
  guint32 ground;
  BwTray tray;
  Sign *sign;   /* each at its first place */
  double *self; /* how far it is from itself at the others */
  int alike;
} Reading;

static void
take_sign (const Reading *reading, int i, int phase, Sign *sign)
{
  static double grey[SIDE][SIDE], empty[SIDE][SIDE];
  render (grey, reading->draw, &reading->tray, i, reading->ground, phase);
  if (reading->draw == draw_mark)
    render (empty, draw_mark, &reading->tray, 0, reading->ground, phase);
  else
    for (int k = 0; k < SIDE * SIDE; k++)
      empty[k / SIDE][k % SIDE] = grey_of ((const guint8 *)&reading->ground);
  take_ink (sign, grey, empty);
}

static void
read_sign (Reading *reading, int i)
{
  static Sign moved;
  take_sign (reading, i, 0, &reading->sign[i]);
  for (int phase = 1; reading->sign[i].sum > 0 && phase < PHASES * PHASES; phase++) {
    take_sign (reading, i, phase, &moved);
    reading->self[i] = MAX (reading->self[i], apart (&reading->sign[i], &moved));
  }
}

static void
check_pair (Reading *reading, int i, int k)
{
  const Sign *a = &reading->sign[i], *b = &reading->sign[k];
  double measure = a->sum + b->sum > 0 ? apart (a, b) : 0;
  double least = MARGIN * MAX (reading->self[i], reading->self[k]);
  if (measure > 0 && measure >= least)
    return;
  print_message ("%s %d and %d on #%06x: %.3f, not %.3f\n", reading->what, k, i, reading->ground,
                 measure, least);
  reading->alike++;
}

static void
check_contrast (Reading *reading, int i)
{
  if (reading->sign[i].sum <= 0 || reading->sign[i].most >= CONTRAST)
    return;
  print_message ("%s %d on #%06x: contrast %.2f\n", reading->what, i, reading->ground,
                 reading->sign[i].most);
  reading->alike++;
}

/* White, black, and two greys on which neither stands out much. */
static void
assert_apart (Draw draw, int n, const char *what)
{
  static const guint32 grounds[] = { 0xffffff, 0x000000, 0x808080, 0x6d6d6d };
  g_autofree Sign *sign = g_new0 (Sign, n);
  int alike = 0;
  for (gsize g = 0; g < G_N_ELEMENTS (grounds); g++) {
    g_autofree double *self = g_new0 (double, n);
    Reading reading = { draw, what, grounds[g], tray_of (n, grounds[g]), sign, self, 0 };
    for (int i = 0; i < n; i++)
      read_sign (&reading, i);
    for (int i = 0; i < n; i++) {
      check_contrast (&reading, i);
      for (int k = 0; k < i; k++)
        check_pair (&reading, i, k);
    }
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
  assert_apart (draw_letter, n, "letters");
}

/* A bead of the first colour has none: it is told by that. */
static void
any_two_marks_of_a_bead_of_six_points_are_told_apart_in_grey (void **state)
{
  assert_apart (draw_mark, BW_MARK_PATTERNS, "marks");
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
