/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A footprint is sampled at points at least as close as the picture's pixels, so that over the
 * whole band every pixel counts about once whatever the scale and the turn, and the time goes with
 * the pixels and not with the beads times the pixels. */
#include "core/pattern/mapping.h"

#include "core/base/lattice.h"
#include "core/base/vec.h"
#include <math.h>
#include <string.h>

#define SAMPLES_LEAST 4   /* points along each side of a footprint that a large pixel covers */
#define SAMPLES_MOST 4096 /* of a footprint that covers a whole large picture */

/* From millimetres on the band, from the picture's middle, to pixels. */
typedef struct {
  const BwPicture *picture;
  float decode[256]; /* linear light of a channel */
  double px_per_mm;
  double across[2], up[2]; /* pixels a millimetre along u and along v */
  double middle[2];
} Lens;

static void
lens_init (Lens *lens, const BwPicture *picture, const BwPlacement *placement)
{
  double turn = bw_radians (placement->turn_deg);
  lens->picture = picture;
  lens->px_per_mm = picture->width / placement->width_mm;
  lens->across[0] = lens->px_per_mm * cos (turn);
  lens->across[1] = lens->px_per_mm * sin (turn);
  lens->up[0] = lens->px_per_mm * sin (turn);
  lens->up[1] = -lens->px_per_mm * cos (turn);
  lens->middle[0] = picture->width / 2.0;
  lens->middle[1] = picture->height / 2.0;
  for (int i = 0; i < 256; i++)
    lens->decode[i] = (float)bw_colour_decode (i / 255.0);
}

/* How many points a side of so many millimetres wants. */
static int
points_along (const Lens *lens, double mm)
{
  return (int)CLAMP (ceil (mm * lens->px_per_mm), SAMPLES_LEAST, SAMPLES_MOST);
}

/* Whether a brick about a point can touch the picture at all. */
static gboolean
may_touch (const Lens *lens, const double at[2], double reach)
{
  return fabs (at[0] - lens->middle[0]) <= lens->picture->width / 2.0 + reach
         && fabs (at[1] - lens->middle[1]) <= lens->picture->height / 2.0 + reach;
}

typedef struct {
  double r, g, b, weight;
} Sum;

static void
add_pixel (const Lens *lens, Sum *sum, int x, int y)
{
  const BwPicture *picture = lens->picture;
  const guint8 *pixel = picture->pixels + (gsize)y * picture->stride + x * picture->channels;
  double weight = picture->channels == 4 ? pixel[3] / 255.0 : 1;
  sum->r += weight * (double)lens->decode[pixel[0]];
  sum->g += weight * (double)lens->decode[pixel[1]];
  sum->b += weight * (double)lens->decode[pixel[2]];
  sum->weight += weight;
}

/* Adds up n × m points of a brick about `at`, half its sides given in pixels. */
static Sum
add_up (const Lens *lens, const double at[2], int n, int m, double w_mm, double h_mm)
{
  Sum sum = { 0 };
  int width = lens->picture->width, height = lens->picture->height;
  for (int j = 0; j < m; j++) {
    double up = ((j + 0.5) / m - 0.5) * h_mm;
    double step = w_mm / n, left = (0.5 / n - 0.5) * w_mm;
    double x = at[0] + left * lens->across[0] + up * lens->up[0];
    double y = at[1] + left * lens->across[1] + up * lens->up[1];
    for (int i = 0; i < n; i++, x += step * lens->across[0], y += step * lens->across[1])
      if (x >= 0 && y >= 0 && x < width && y < height)
        add_pixel (lens, &sum, (int)x, (int)y);
  }
  return sum;
}

static void
sample_bead (const Lens *lens, BwFootprints *footprints, gsize bead, double right_mm, double up_mm)
{
  const BwBandGrid *grid = &footprints->grid;
  double at[2] = { lens->middle[0] + right_mm * lens->across[0] + up_mm * lens->up[0],
                   lens->middle[1] + right_mm * lens->across[1] + up_mm * lens->up[1] };
  int n = points_along (lens, grid->pitch_mm), m = points_along (lens, grid->column_mm);
  if (!may_touch (lens, at, hypot (grid->pitch_mm, grid->column_mm) * lens->px_per_mm))
    return;
  Sum sum = add_up (lens, at, n, m, grid->pitch_mm, grid->column_mm);
  if (sum.weight <= 0)
    return;
  footprints->mean[bead] = (BwLinear){ sum.r / sum.weight, sum.g / sum.weight, sum.b / sum.weight };
  footprints->share[bead] = (float)(sum.weight / ((double)n * m));
}

/* The way from `from` to `to` round a ring of n, −n/2..n/2. */
static double
round_ring (double from, double to, int n)
{
  double way = to - from;
  return way - n * floor (way / n + 0.5);
}

static gboolean
goes_on (BwGoOn go_on, gpointer data, int done, int all)
{
  return !go_on || go_on ((double)done / all, data);
}

static int
first_row_of (const BwPlacement *placement, int rows)
{
  int ring = rows + rows % 2;
  int row = bw_lattice_wrap (1 + (int)fmod (ceil (2 * placement->u - ring / 2.0), ring), ring);
  return row <= rows ? row : 1;
}

gboolean
bw_mapping_sample (BwFootprints *footprints, const BwPicture *picture, const BwPlacement *placement,
                   const BwBandGrid *grid, BwGoOn go_on, gpointer data)
{
  int half = grid->columns / 2, around = bw_lattice_beads_around (grid->rows);
  gsize beads = (gsize)grid->rows * (gsize)half;
  Lens lens;
  lens_init (&lens, picture, placement);
  *footprints = (BwFootprints){ .grid = *grid,
                                .first_row = first_row_of (placement, grid->rows),
                                .mean = g_new0 (BwLinear, beads),
                                .share = g_new0 (float, beads) };
  for (int row = 1; row <= grid->rows; row++) {
    double right = round_ring (placement->u, bw_lattice_pitches (row), around) * grid->pitch_mm;
    if (!goes_on (go_on, data, row - 1, grid->rows)) {
      bw_footprints_clear (footprints);
      return FALSE;
    }
    for (int j = 0; j < half; j++) {
      double up = (bw_lattice_column (row, j) - 0.5 - placement->v) * grid->column_mm;
      sample_bead (&lens, footprints, (gsize)(row - 1) * (gsize)half + (gsize)j, right, up);
    }
  }
  return TRUE;
}

void
bw_footprints_clear (BwFootprints *footprints)
{
  g_clear_pointer (&footprints->mean, g_free);
  g_clear_pointer (&footprints->share, g_free);
}

BwPlacement
bw_placement_cover (const BwPicture *picture, const BwBandGrid *grid, double u)
{
  double height_mm = grid->columns * grid->column_mm;
  return (BwPlacement){ .u = u,
                        .v = grid->columns / 2.0,
                        .width_mm = height_mm * picture->width / picture->height };
}

/* --- matching ------------------------------------------------------------------------------- */

/* The tray as the eye and as light: worked out once. */
typedef struct {
  const BwChoice *choice;
  BwLab lab[BW_TRAY_MAX];
  BwLinear light[BW_TRAY_MAX];
} Eye;

static BwLinear
clamped (BwLinear c, double least)
{
  return (BwLinear){ CLAMP (c.r, least, 1), CLAMP (c.g, least, 1), CLAMP (c.b, least, 1) };
}

static int
nearest (const Eye *eye, BwLinear wish)
{
  BwLab lab = bw_colour_lab_from_linear (clamped (wish, 0));
  double least = INFINITY;
  int best = 0;
  for (int i = 0; i < eye->choice->n; i++) {
    /* The other terms of the difference are never negative together, for the rotation term stays
     * below 2, and the weight of lightness never above 1.75: what is farther by lightness alone
     * need not be worked out. */
    if (fabs (lab.L - eye->lab[i].L) > 1.75 * least)
      continue;
    double difference = bw_colour_difference (lab, eye->lab[i]);
    if (difference < least) {
      least = difference;
      best = i;
    }
  }
  return best;
}

static void
add (BwLinear *to, BwLinear what, double share)
{
  to->r += share * what.r;
  to->g += share * what.g;
  to->b += share * what.b;
}

/* What the beads of three rows could not show, by column; two columns more at either end take what
 * falls off. */
typedef struct {
  int columns;
  BwLinear *row[3];
} Rest;

static BwLinear *
rest_of (const Rest *rest, int turn)
{
  return rest->row[turn % 3] + 2;
}

/* The nearest beads to come: two of the next row, one of the row after it in the same column, and
 * at twice the distance the next of the own row. */
static void
hand_on (Rest *rest, int turn, int column, int way, BwLinear what)
{
  add (&rest_of (rest, turn)[column + 2 * way], what, 1 / 8.0);
  add (&rest_of (rest, turn + 1)[column + 1], what, 5 / 16.0);
  add (&rest_of (rest, turn + 1)[column - 1], what, 5 / 16.0);
  add (&rest_of (rest, turn + 2)[column], what, 1 / 4.0);
}

static void
match_row (const BwFootprints *footprints, const Eye *eye, Rest *rest, int turn, int row,
           BwDrawing *drawing)
{
  int way = turn / 2 % 2 ? -1 : 1;
  int half = footprints->grid.columns / 2;
  for (int k = 0; k < half; k++) {
    int j = way > 0 ? k : half - 1 - k, column = bw_lattice_column (row, j);
    gsize bead = (gsize)(row - 1) * (gsize)half + (gsize)j;
    if (footprints->share[bead] < (float)BW_FOOTPRINT_LEAST)
      continue;
    BwLinear wish = footprints->mean[bead];
    if (rest)
      add (&wish, rest_of (rest, turn)[column], 1);
    int best = nearest (eye, wish);
    bw_drawing_set (drawing, row, column, eye->choice->index[best]);
    if (!rest)
      continue;
    /* What no bead of this tray can make good must not pile up and spill over later beads. */
    add (&wish, eye->light[best], -1);
    hand_on (rest, turn, column, way, clamped (wish, -1));
  }
}

static void
rest_init (Rest *rest, int columns)
{
  rest->columns = columns;
  for (int i = 0; i < 3; i++)
    rest->row[i] = g_new0 (BwLinear, (gsize)columns + 5);
}

static void
rest_clear (Rest *rest)
{
  for (int i = 0; i < 3; i++)
    g_free (rest->row[i]);
}

static void
forget_row (Rest *rest, int turn)
{
  memset (rest->row[turn % 3], 0, sizeof (BwLinear) * ((gsize)rest->columns + 5));
}

static gboolean
match_rows (const BwFootprints *footprints, const Eye *eye, Rest *rest, BwDrawing *drawing,
            BwGoOn go_on, gpointer data)
{
  int rows = footprints->grid.rows;
  for (int k = 0; k < rows; k++) {
    int row = bw_lattice_wrap (footprints->first_row + k, rows);
    if (!goes_on (go_on, data, k, rows))
      return FALSE;
    match_row (footprints, eye, rest, k, row, drawing);
    if (rest)
      forget_row (rest, k);
  }
  return TRUE;
}

gboolean
bw_mapping_match (const BwFootprints *footprints, const BwChoice *choice, gboolean dither,
                  BwDrawing *drawing, BwGoOn go_on, gpointer data)
{
  Eye eye = { .choice = choice };
  Rest rest;
  for (int i = 0; i < choice->n; i++) {
    eye.lab[i] = bw_colour_lab (choice->srgb[i]);
    eye.light[i] = bw_colour_linear (choice->srgb[i]);
  }
  if (!dither)
    return match_rows (footprints, &eye, NULL, drawing, go_on, data);
  rest_init (&rest, footprints->grid.columns);
  gboolean done = match_rows (footprints, &eye, &rest, drawing, go_on, data);
  rest_clear (&rest);
  return done;
}
