/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/fine/film.h"

#include "core/pattern/colour.h"

#define EXPOSURE 1.10 /* as in the stone view */
#define KNEE 0.7      /* light that is shown as it is; beyond, it is pressed together */
#define GROUND 0.6    /* lightness of a ground, where it counts for noise */

void
bw_film_init (BwFilm *film, int width, int height)
{
  *film = (BwFilm){ width, height, g_new0 (BwFilmCell, (gsize)width * (gsize)height) };
}

void
bw_film_clear (BwFilm *film)
{
  g_clear_pointer (&film->cell, g_free);
}

double
bw_film_shown (double light)
{
  double bright = light * EXPOSURE, over = MAX (bright - KNEE, 0);
  return MIN (bright, KNEE) + (1 - KNEE) * over / (over + 1 - KNEE);
}

/* Rec. 709 luminance. */
static double
luminance (const double rgb[3])
{
  return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
}

void
bw_film_add (BwFilmCell *cell, const BwGlance *glance)
{
  const double normal[3] = { glance->normal.x, glance->normal.y, glance->normal.z };
  double bare = 1 - glance->cover;
  double bright = sqrt (bw_film_shown (luminance (glance->found)) * glance->cover
                        + bare * GROUND * CLAMP (luminance (glance->ground), 0, 2));
  for (int i = 0; i < 3; i++) {
    cell->found[i] += (float)glance->found[i];
    cell->ground[i] += (float)(bare * glance->ground[i]);
    cell->colour[i] += (float)glance->colour[i];
    cell->normal[i] += (float)normal[i];
  }
  cell->cover += (float)glance->cover;
  cell->bright += (float)bright;
  cell->square += (float)(bright * bright);
  cell->n++;
}

double
bw_film_unsure (const BwFilmCell *cell)
{
  double n = MAX ((double)cell->n, 1), mean = (double)cell->bright / n;
  double spread = MAX ((double)cell->square / n - mean * mean, 0);
  return sqrt (spread / n);
}

static void
merge (BwFilmCell *sum, const BwFilmCell *cell)
{
  G_STATIC_ASSERT (sizeof (BwFilmCell) % sizeof (float) == 0);
  float *to = (float *)(void *)sum;
  const float *from = (const float *)(const void *)cell;
  for (gsize i = 0; i < sizeof *sum / sizeof *to; i++)
    to[i] += from[i];
}

void
bw_film_shrink (const BwFilm *film, int by, BwFilm *small)
{
  bw_film_init (small, (film->width + by - 1) / by, (film->height + by - 1) / by);
  for (int y = 0; y < film->height; y++)
    for (int x = 0; x < film->width; x++)
      merge (&small->cell[y / by * small->width + x / by], &film->cell[y * film->width + x]);
}

/* --- Developing --------------------------------------------------------------------------------
 */

/* What stands on it makes a ground darker, or throws light on it, which never burns. */
static double
shaded (double ground, double by)
{
  if (by <= 1 || ground <= 0)
    return ground * MAX (by, 0);
  double room = MAX (1 - ground, 1e-6), more = ground * (by - 1);
  return ground + room * (1 - exp (-more / room));
}

/* One part of a point; ground: 0..255 as painted, cover and ground_share: 0..1. */
static double
part (const BwFilmCell *cell, int i, int painted, double cover)
{
  double n = (double)cell->n, piece = 0, bare = 0;
  if (cover > 0)
    piece = bw_film_shown (MAX ((double)cell->found[i], 0) / n / cover);
  if (cover < 1)
    bare = shaded (bw_colour_decode (painted / 255.0), (double)cell->ground[i] / n / (1 - cover));
  return piece * cover + bare * (1 - cover);
}

static guint32
point (const BwFilmCell *cell, guint32 ground)
{
  double cover = CLAMP ((double)(cell->cover / cell->n), 0, 1);
  gboolean clear = ground >> 24 == 0;
  guint32 value = clear ? (guint32)lround (255 * cover) << 24 : 0xffu << 24;
  for (int i = 0; i < 3; i++) {
    int shift = 16 - 8 * i;
    double shown = clear && cover <= 0 ? 0 : part (cell, i, (int)(ground >> shift & 255), cover);
    /* Over nothing, colours are encoded first and then weighed, as all painting on screens is. */
    double code = clear ? cover * bw_colour_encode (MIN (shown / MAX (cover, 1e-6), 1))
                        : bw_colour_encode (MIN (shown, 1));
    value |= (guint32)lround (255 * code) << shift;
  }
  return value;
}

void
bw_film_develop (const BwFilm *film, int first_row, int end_row, cairo_surface_t *surface, int at)
{
  cairo_surface_flush (surface);
  int stride = cairo_image_surface_get_stride (surface) / 4;
  guint32 *pixels = (guint32 *)(void *)cairo_image_surface_get_data (surface);
  for (int y = first_row; y < end_row; y++) {
    guint32 *row = pixels + (gsize)stride * (gsize)(at + y - first_row);
    for (int x = 0; x < film->width; x++) {
      const BwFilmCell *cell = &film->cell[(gsize)y * (gsize)film->width + (gsize)x];
      if (cell->n > 0)
        row[x] = point (cell, row[x]);
    }
  }
  cairo_surface_mark_dirty (surface);
}
