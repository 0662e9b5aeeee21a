/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/pattern/photo-tray.h"

#include <math.h>
#include <string.h>

#define SIDE_MOST 160      /* points looked at across and down */
#define BOX_MOST 3         /* pixels across that make a point */
#define SEEN_LEAST 128     /* opacity of a pixel that is there, 0..255 */
#define COMPANY_LEAST 2    /* of the eight round a point that is no ground are none either */
#define BORDER_SHARE 0.025 /* of either side: how wide the border is */
#define GROUND_NEAR 9      /* as far from the ground's colour is ground still */
#define COMMON_SHARE 0.25  /* of the border has its commonest colour at least */
#define EDGE_FAR 12        /* as far from a neighbour's colour there is an edge between them */
#define EDGES_MOST 1       /* of a point's eight neighbours, where it is no mixture itself */
#define CALM_SHARE 0.25    /* of the points must be no mixture, else all count */
#define LEFT_LEAST 0.002   /* of the points that the ground must leave */
#define MARK_REACH 2       /* points round the one marked that speak for it */

/* --- Points ------------------------------------------------------------------------------------
 */

typedef struct {
  int across, down;
  BwLab *lab;     /* across × down */
  gboolean *seen; /* those that are not transparent */
} Points;

/* Where the i-th of n begins on the side of a picture. */
static int
place_of (int i, int n, int pixels)
{
  return (int)((gint64)i * pixels / n);
}

/* The mean, in linear light, of the pixels round the middle of a point's share of the picture: a
 * single one has the camera's noise. */
static void
take_point (Points *points, const BwPicture *picture, int x, int y)
{
  int left = place_of (x, points->across, picture->width);
  int top = place_of (y, points->down, picture->height);
  int wide = CLAMP (picture->width / points->across, 1, BOX_MOST);
  int high = CLAMP (picture->height / points->down, 1, BOX_MOST);
  BwLinear sum = { 0 };
  int n = 0, at = y * points->across + x;
  for (int i = 0; i < wide * high; i++) {
    const guint8 *pixel = picture->pixels + (gsize)(top + i / wide) * picture->stride
                          + (gsize)(left + i % wide) * (gsize)picture->channels;
    if (picture->channels == 4 && pixel[3] < SEEN_LEAST)
      continue;
    BwLinear one = bw_colour_linear ((guint32)(pixel[0] << 16 | pixel[1] << 8 | pixel[2]));
    sum = (BwLinear){ sum.r + one.r, sum.g + one.g, sum.b + one.b };
    n++;
  }
  points->seen[at] = n > 0;
  points->lab[at] = bw_colour_lab_from_linear (
      (BwLinear){ sum.r / MAX (n, 1), sum.g / MAX (n, 1), sum.b / MAX (n, 1) });
}

static Points
take_points (const BwPicture *picture)
{
  Points points = { MIN (picture->width, SIDE_MOST), MIN (picture->height, SIDE_MOST), NULL, NULL };
  gsize n = (gsize)points.across * (gsize)points.down;
  points.lab = g_new (BwLab, n);
  points.seen = g_new (gboolean, n);
  for (int y = 0; y < points.down; y++)
    for (int x = 0; x < points.across; x++)
      take_point (&points, picture, x, y);
  return points;
}

static void
points_clear (Points *points)
{
  g_free (points->lab);
  g_free (points->seen);
}

/* --- The ground --------------------------------------------------------------------------------
 */

static gboolean
is_near (BwLab a, BwLab b)
{
  double l = (a.L - b.L) / 2, x = a.a - b.a, y = a.b - b.b;
  return l * l + x * x + y * y < GROUND_NEAR * GROUND_NEAR;
}

static gboolean
mean_near (const GArray *labs, BwLab to, BwLab *mean, guint *count)
{
  BwLab sum = { 0 };
  *count = 0;
  for (guint i = 0; i < labs->len; i++) {
    BwLab lab = g_array_index (labs, BwLab, i);
    if (!is_near (lab, to))
      continue;
    sum.L += lab.L;
    sum.a += lab.a;
    sum.b += lab.b;
    (*count)++;
  }
  if (*count > 0)
    *mean = (BwLab){ sum.L / *count, sum.a / *count, sum.b / *count };
  return *count > 0;
}

static gboolean
is_border (const Points *points, int x, int y)
{
  int wide = MAX ((int)(BORDER_SHARE * points->across), 1);
  int high = MAX ((int)(BORDER_SHARE * points->down), 1);
  return x < wide || y < high || x >= points->across - wide || y >= points->down - high;
}

static gboolean
is_round (const Points *points, const BwPhotoWish *wish, int x, int y)
{
  return abs (x - (int)(wish->x * points->across)) <= MARK_REACH
         && abs (y - (int)(wish->y * points->down)) <= MARK_REACH;
}

/* The points that speak for the ground. */
static GArray *
witnesses (const Points *points, const BwPhotoWish *wish)
{
  GArray *labs = g_array_new (FALSE, FALSE, sizeof (BwLab));
  for (int y = 0; y < points->down; y++)
    for (int x = 0; x < points->across; x++) {
      int at = y * points->across + x;
      if (points->seen[at]
          && (wish->ground == BW_PHOTO_GROUND_BORDER ? is_border (points, x, y)
                                                     : is_round (points, wish, x, y)))
        g_array_append_val (labs, points->lab[at]);
    }
  return labs;
}

/* The colour that most of them are near to. */
static gboolean
commonest (const GArray *labs, double share_least, BwLab *colour)
{
  guint most = 0;
  for (guint i = 0; i < labs->len; i++) {
    BwLab mean;
    guint count;
    if (mean_near (labs, g_array_index (labs, BwLab, i), &mean, &count) && count > most) {
      most = count;
      *colour = mean;
    }
  }
  return most > 0 && most >= share_least * labs->len;
}

static void
find_ground (BwPhotoTray *tray, const Points *points, const BwPhotoWish *wish)
{
  g_autoptr (GArray) labs = witnesses (points, wish);
  double least = wish->ground == BW_PHOTO_GROUND_BORDER ? COMMON_SHARE : 0;
  tray->has_ground = wish->ground != BW_PHOTO_GROUND_NONE && commonest (labs, least, &tray->ground);
}

gboolean
bw_photo_tray_is_ground (const BwPhotoTray *tray, guint32 srgb)
{
  return tray->has_ground && is_near (bw_colour_lab (srgb), tray->ground);
}

/* --- The beads ---------------------------------------------------------------------------------
 */

static gboolean
is_off_ground (const BwPhotoTray *tray, const Points *points, int x, int y)
{
  int at = y * points->across + x;
  if (x < 0 || y < 0 || x >= points->across || y >= points->down || !points->seen[at])
    return FALSE;
  return !is_near (points->lab[at], tray->ground);
}

/* A point alone on the ground is noise: beads are larger. */
static gboolean
is_bead (const BwPhotoTray *tray, const Points *points, int x, int y)
{
  int company = -1;
  if (!tray->has_ground || !is_off_ground (tray, points, x, y))
    return !tray->has_ground;
  for (int i = 0; i < 9; i++)
    company += is_off_ground (tray, points, x + i % 3 - 1, y + i / 3 - 1);
  return company >= COMPANY_LEAST;
}

/* Where two colours meet a point is a mixture of both, and neither's colour. */
static gboolean
is_calm (const Points *points, int x, int y)
{
  BwLab own = points->lab[y * points->across + x];
  int edges = 0;
  for (int i = 0; i < 9; i++) {
    int beside = x + i % 3 - 1, above = y + i / 3 - 1;
    if (beside < 0 || above < 0 || beside >= points->across || above >= points->down
        || !points->seen[above * points->across + beside])
      continue;
    BwLab lab = points->lab[above * points->across + beside];
    edges += hypot (hypot (lab.L - own.L, lab.a - own.a), lab.b - own.b) > EDGE_FAR;
  }
  return edges <= EDGES_MOST;
}

/* What is seen, without the ground, and without mixtures. */
static GArray *
beads_of (const BwPhotoTray *tray, const Points *points, gboolean calm, guint *seen)
{
  GArray *labs = g_array_new (FALSE, FALSE, sizeof (BwLab));
  *seen = 0;
  for (int y = 0; y < points->down; y++)
    for (int x = 0; x < points->across; x++) {
      int at = y * points->across + x;
      if (points->seen[at] && is_bead (tray, points, x, y) && (!calm || is_calm (points, x, y)))
        g_array_append_val (labs, points->lab[at]);
      *seen += points->seen[at] != 0;
    }
  return labs;
}

/* Without the ground, unless nothing else is there. */
static GArray *
beads_and_mixtures (BwPhotoTray *tray, const Points *points)
{
  guint seen;
  GArray *labs = beads_of (tray, points, FALSE, &seen);
  if (tray->has_ground && (labs->len == 0 || labs->len < LEFT_LEAST * seen)) {
    tray->has_ground = FALSE;
    g_array_unref (labs);
    labs = beads_of (tray, points, FALSE, &seen);
  }
  tray->ground_share = seen > 0 ? 1 - (double)labs->len / seen : 0;
  return labs;
}

static GArray *
find_beads (BwPhotoTray *tray, const Points *points)
{
  guint seen;
  g_autoptr (GArray) all = beads_and_mixtures (tray, points);
  g_autoptr (GArray) calm = beads_of (tray, points, TRUE, &seen);
  return g_array_ref (calm->len < CALM_SHARE * all->len ? all : calm);
}

/* Two that a screen shows alike are one. */
static void
add_colour (BwPhotoTray *tray, BwLab lab, double share)
{
  guint32 srgb = bw_colour_srgb (bw_colour_linear_from_lab (lab));
  for (int i = 0; i < tray->n; i++)
    if (tray->srgb[i] == srgb) {
      tray->share[i] += share;
      return;
    }
  tray->srgb[tray->n] = srgb;
  tray->share[tray->n++] = share;
}

static gboolean
gather (BwPhotoTray *tray, const GArray *beads, int k, BwGoOn go_on, gpointer data)
{
  const BwLab *labs = (const BwLab *)(const void *)beads->data;
  BwKMeans means;
  if (beads->len == 0)
    return TRUE;
  if (!(k > 0 ? bw_kmeans_find (&means, labs, beads->len, k, go_on, data)
              : bw_kmeans_suggest (&means, labs, beads->len, BW_PHOTO_SUGGEST_MOST, go_on, data)))
    return FALSE;
  for (int c = 0; c < means.k; c++)
    add_colour (tray, means.centre[c], (double)means.count[c] / beads->len);
  return TRUE;
}

gboolean
bw_photo_tray_find (BwPhotoTray *tray, const BwPicture *picture, const BwPhotoWish *wish,
                    BwGoOn go_on, gpointer data)
{
  Points points = take_points (picture);
  memset (tray, 0, sizeof *tray);
  find_ground (tray, &points, wish);
  g_autoptr (GArray) beads = find_beads (tray, &points);
  points_clear (&points);
  return gather (tray, beads, wish->k, go_on, data);
}
