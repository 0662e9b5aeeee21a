/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture is made strip by strip, so that a large one takes no more memory than a small one, and
 * a strip in rounds: what is calm already gets no more looks. Strips overlap by what the smoothing
 * reaches, and each point's lot is its own, so that no seam is seen. */
#include "config.h"

#include "preview/fine/fine.h"

#include "preview/fine/film.h"
#include "project/fault/fault-words.h"

#define TILE 8        /* points a side; what is calm is told tile by tile */
#define ROUND_LOOKS 4 /* at each point in a round */
#define LEAST_LOOKS 8
#define MOST_LOOKS 64
#define USUAL_POINTS 1.44e6 /* up to which a picture gets the most looks */
#define STRIP_POINTS 1500000
#define OVERLAP (5 * TILE) /* rows; smoothing reaches 34 */
#define CALM 0.012         /* a tile's mean error of lightness at which it is left as it is */
#define APERTURE 0.022     /* of the lens, in radii of the piece */
#define SO_FAR_PX 360
#define SMALLEST 16
#define LARGEST 8192

typedef struct {
  const BwWorld *world;
  const BwEye *eye;
  int width, height; /* of the whole picture */
  guint seed;
  double lens, focus; /* radius of the lens, and the distance it is set to */
  int looks;
  int rounds_done, rounds; /* of the whole picture, about */
  BwFineTold told;
  gpointer data;
  GCancellable *stop;
  cairo_surface_t *so_far, *ground;
  int shrink; /* points of the picture to one of so_far, a side */
} Work;

/* Rows top up to end of the picture. */
typedef struct {
  Work *work;
  int top;
  BwFilm film;
  int across, down; /* tiles */
  int round;
  gint next; /* tile, taken in turn by all threads */
} Strip;

/* --- One look ----------------------------------------------------------------------------------
 */

static BwVec3
eye_axis (const BwEye *eye, int k)
{
  return bw_vec3 ((double)eye->view[0][k], (double)eye->view[1][k], (double)eye->view[2][k]);
}

/* A point of the lens by lot, and the ray from there to where the straight one is in focus. */
static void
through_lens (const Work *work, BwLot *lot, BwVec3 *from, BwVec3 *way)
{
  double u = bw_lot_next (lot), v = 2 * G_PI * bw_lot_next (lot);
  if (work->lens <= 0)
    return;
  double out = work->lens * sqrt (u);
  BwVec3 off = bw_vec3_add (bw_vec3_scale (eye_axis (work->eye, 0), out * cos (v)),
                            bw_vec3_scale (eye_axis (work->eye, 1), out * sin (v)));
  double depth = -bw_vec3_dot (*way, eye_axis (work->eye, 2));
  BwVec3 aim = bw_vec3_sub (bw_vec3_scale (*way, work->focus / depth), off);
  *from = bw_vec3_add (*from, off);
  *way = bw_glass_unit (aim);
}

static void
look (const Work *work, int x, int y, guint32 attempt, BwFilmCell *cell)
{
  BwLot lot = bw_lot_at (work->seed, (guint32)(y * work->width + x), attempt);
  double px = x + bw_lot_next (&lot), py = y + bw_lot_next (&lot);
  BwVec3 from, way;
  BwGlance glance;
  bw_eye_ray (work->eye, px, py, work->width, work->height, &from, &way);
  through_lens (work, &lot, &from, &way);
  bw_world_look (work->world, from, way, lot, &glance);
  bw_film_add (cell, &glance);
}

/* --- Rounds ------------------------------------------------------------------------------------
 */

typedef struct {
  int left, right, top, end;
} Tile;

static Tile
tile_at (const Strip *strip, int index)
{
  int left = index % strip->across * TILE, top = index / strip->across * TILE;
  return (Tile){ left, MIN (left + TILE, strip->film.width), top,
                 MIN (top + TILE, strip->film.height) };
}

static gboolean
is_calm (const Strip *strip, const Tile *tile)
{
  double sum = 0;
  if (strip->round * ROUND_LOOKS < LEAST_LOOKS)
    return FALSE;
  for (int y = tile->top; y < tile->end; y++)
    for (int x = tile->left; x < tile->right; x++)
      sum += bw_film_unsure (&strip->film.cell[y * strip->film.width + x]);
  return sum < CALM * (tile->right - tile->left) * (tile->end - tile->top);
}

static void
look_at_tile (Strip *strip, int index)
{
  Tile tile = tile_at (strip, index);
  int looks = MIN (ROUND_LOOKS, strip->work->looks - strip->round * ROUND_LOOKS);
  if (is_calm (strip, &tile))
    return;
  for (int y = tile.top; y < tile.end; y++)
    for (int x = tile.left; x < tile.right; x++)
      for (int i = 0; i < looks; i++)
        look (strip->work, x, strip->top + y, (guint32)(strip->round * ROUND_LOOKS + i),
              &strip->film.cell[y * strip->film.width + x]);
}

static gpointer
take_tiles (gpointer data)
{
  Strip *strip = data;
  int index;
  while ((index = g_atomic_int_add (&strip->next, 1)) < strip->across * strip->down
         && !g_cancellable_is_cancelled (strip->work->stop))
    look_at_tile (strip, index);
  return NULL;
}

/* This thread works too, and is the only one that tells. */
static void
take_and_tell (Strip *strip)
{
  Work *work = strip->work;
  int index, n = strip->across * strip->down;
  while ((index = g_atomic_int_add (&strip->next, 1)) < n
         && !g_cancellable_is_cancelled (work->stop)) {
    look_at_tile (strip, index);
    if (work->told)
      work->told ((work->rounds_done + (double)index / n) / work->rounds, work->so_far, work->data);
  }
}

static void
run_round (Strip *strip)
{
  guint n = MAX (g_get_num_processors (), 1) - 1;
  g_autofree GThread **helper = g_new (GThread *, n + 1);
  strip->next = 0;
  for (guint i = 0; i < n; i++)
    helper[i] = g_thread_new ("fine picture", take_tiles, strip);
  take_and_tell (strip);
  for (guint i = 0; i < n; i++)
    g_thread_join (helper[i]);
}

/* Lays the strip as it is, small, into the picture so far. */
static void
show_so_far (const Strip *strip)
{
  Work *work = strip->work;
  BwFilm small;
  if (!work->told)
    return;
  bw_film_shrink (&strip->film, work->shrink, &small);
  bw_film_smooth (&small);
  int at = strip->top / work->shrink;
  int room = cairo_image_surface_get_height (work->so_far) - at;
  cairo_t *cr = cairo_create (work->so_far);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, work->ground, 0, 0);
  cairo_rectangle (cr, 0, at, small.width, small.height);
  cairo_fill (cr);
  cairo_destroy (cr);
  bw_film_develop (&small, 0, MIN (small.height, room), work->so_far, at);
  bw_film_clear (&small);
}

static void
strip_init (Strip *strip, Work *work, int top, int end)
{
  *strip = (Strip){ .work = work, .top = top };
  bw_film_init (&strip->film, work->width, end - top);
  strip->across = (work->width + TILE - 1) / TILE;
  strip->down = (end - top + TILE - 1) / TILE;
}

static int
rounds_of (const Work *work)
{
  return (work->looks + ROUND_LOOKS - 1) / ROUND_LOOKS;
}

/* FALSE: stopped. */
static gboolean
make_strip (Strip *strip)
{
  for (; strip->round < rounds_of (strip->work); strip->round++) {
    run_round (strip);
    if (g_cancellable_is_cancelled (strip->work->stop))
      return FALSE;
    strip->work->rounds_done++;
    show_so_far (strip);
  }
  bw_film_smooth (&strip->film);
  return TRUE;
}

/* --- The picture -------------------------------------------------------------------------------
 */

static int
rows_at_a_time (const Work *work, const BwFineOptions *options)
{
  int points = options->at_a_time > 0 ? options->at_a_time : STRIP_POINTS;
  int rows = points / work->width / TILE * TILE - 2 * OVERLAP;
  return work->height <= rows + 2 * OVERLAP ? work->height : MAX (rows, TILE);
}

static gboolean
make_strips (Work *work, const BwFineOptions *options, cairo_surface_t *surface)
{
  int rows = rows_at_a_time (work, options);
  gboolean whole = TRUE;
  work->rounds = (work->height + rows - 1) / rows * rounds_of (work);
  for (int y = 0; whole && y < work->height; y += rows) {
    Strip strip;
    int end = MIN (y + rows, work->height), top = MAX (y - OVERLAP, 0);
    strip_init (&strip, work, top, MIN (end + OVERLAP, work->height));
    whole = make_strip (&strip);
    if (whole)
      bw_film_develop (&strip.film, y - top, end - top, surface, y);
    bw_film_clear (&strip.film);
  }
  return whole;
}

static cairo_surface_t *
bare_ground (const BwStill *still, int shrink)
{
  int width = (still->width + shrink - 1) / shrink, height = (still->height + shrink - 1) / shrink;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);
  bw_ground_paint (cr, still->ground, still->light, NULL, 0, width, height);
  cairo_destroy (cr);
  return surface;
}

/* A picture of many points needs fewer looks at each: it is seen smaller. */
static int
looks_for (const BwStill *still, const BwFineOptions *options)
{
  double share = USUAL_POINTS / ((double)still->width * still->height);
  return options->looks > 0 ? options->looks
                            : (int)CLAMP (MOST_LOOKS * share, LEAST_LOOKS, MOST_LOOKS);
}

/* The front of the piece is what is sharp. */
static void
set_lens (Work *work, const BwScene *scene, double lens)
{
  BwVec3 to = bw_vec3_sub (
      scene->stance.centre,
      bw_vec3 ((double)work->eye->eye[0], (double)work->eye->eye[1], (double)work->eye->eye[2]));
  work->lens = lens * APERTURE * scene->stance.radius;
  work->focus = -bw_vec3_dot (to, eye_axis (work->eye, 2)) - 0.75 * (double)scene->breadth;
}

static gboolean
make (Work *work, const BwScene *scene, const BwStill *still, const BwFineOptions *options,
      cairo_surface_t *surface, GError **error)
{
  BwEye eye;
  bw_eye_init (&eye, still->camera, scene, still->width, still->height);
  g_autoptr (BwWorld) world = bw_world_new (scene, &eye, still, FALSE, error);
  if (!world)
    return FALSE;
  work->world = world;
  work->eye = &eye;
  set_lens (work, scene, options->lens);
  return make_strips (work, options, surface)
         || !g_cancellable_set_error_if_cancelled (work->stop, error);
}

cairo_surface_t *
bw_fine_new (BwScene *scene, const BwStill *still, const BwFineOptions *options, GCancellable *stop,
             BwFineTold told, gpointer data, GError **error)
{
  if (!bw_fault_check_range (still->width, SMALLEST, LARGEST, "", error)
      || !bw_fault_check_range (still->height, SMALLEST, LARGEST, "", error))
    return NULL;
  Work work = { .width = still->width,
                .height = still->height,
                .seed = options->seed,
                .looks = looks_for (still, options),
                .told = told,
                .data = data,
                .stop = stop,
                .shrink = (MAX (still->width, still->height) + SO_FAR_PX - 1) / SO_FAR_PX };
  cairo_surface_t *surface = bare_ground (still, 1);
  work.so_far = bare_ground (still, work.shrink);
  work.ground = bare_ground (still, work.shrink);
  if (!make (&work, scene, still, options, surface, error))
    g_clear_pointer (&surface, cairo_surface_destroy);
  cairo_surface_destroy (work.so_far);
  cairo_surface_destroy (work.ground);
  return surface;
}
