/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whose a bead is, is found by laying the motifs again as they were laid; nothing has to be noted
 * while beads are painted. */
#include "core/pattern/anew.h"

#include "core/base/lattice.h"

#define NOBODY 254 /* the colour of a bead that a motif leaves; no tray has so many */

/* What the motifs alone have made, and which of them count. */
typedef struct {
  BwDrawing *base;
  gboolean gone[BW_MADE_MAX];
} Made;

typedef void (*Bead) (int row, int column, gpointer data);

static void
each_bead (const BwDrawing *drawing, Bead bead, gpointer data)
{
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++)
      bead (row, bw_lattice_column (row, j), data);
}

/* The motif's own beads on a band as large as the one it was laid on, seen as large as `like`. */
static BwDrawing *
beads_of (const BwMade *made, const BwDrawing *like)
{
  BwDrawing *own = bw_drawing_new (made->columns, made->rows, NOBODY);
  bw_motif_draw (&made->motif, own);
  bw_drawing_resize (own, bw_drawing_columns (like), bw_drawing_rows (like), NOBODY);
  return own;
}

typedef struct {
  const BwDrawing *own;
  BwDrawing *base;
  guint8 *owner; /* by place in the drawing; BW_MADE_MAX for none */
  guint8 who;
} Laying;

static gsize
place_of (const BwDrawing *drawing, int row, int column)
{
  return (gsize)(row - 1) * (gsize)(bw_drawing_columns (drawing) / 2)
         + (gsize)bw_lattice_index (column);
}

static void
lay_bead (int row, int column, gpointer data)
{
  Laying *laying = data;
  guint8 colour = bw_drawing_get (laying->own, row, column);
  if (colour == NOBODY)
    return;
  bw_drawing_set (laying->base, row, column, colour);
  laying->owner[place_of (laying->base, row, column)] = laying->who;
}

/* Lays those that are not gone; owner is filled. */
static void
lay_all (const BwDrawing *old, const BwMade *made, int n_made, Made *all, guint8 *owner)
{
  for (int i = 0; i < n_made; i++) {
    if (all->gone[i])
      continue;
    g_autoptr (BwDrawing) own = beads_of (&made[i], old);
    Laying laying = { own, all->base, owner, (guint8)i };
    each_bead (old, lay_bead, &laying);
  }
}

typedef struct {
  const BwDrawing *old, *base;
  const guint8 *owner;
  int owned[BW_MADE_MAX + 1], left[BW_MADE_MAX + 1];
} Tally;

static void
count_bead (int row, int column, gpointer data)
{
  Tally *tally = data;
  guint8 who = tally->owner[place_of (tally->old, row, column)];
  tally->owned[who]++;
  if (bw_drawing_get (tally->old, row, column) == bw_drawing_get (tally->base, row, column))
    tally->left[who]++;
}

static BwDrawing *
plain_like (const BwDrawing *old)
{
  return bw_drawing_new (bw_drawing_columns (old), bw_drawing_rows (old), bw_drawing_ground (old));
}

static guint8 *
owners_like (const BwDrawing *old)
{
  gsize n = (gsize)bw_drawing_rows (old) * (gsize)(bw_drawing_columns (old) / 2);
  guint8 *owner = g_malloc (n);
  for (gsize i = 0; i < n; i++)
    owner[i] = BW_MADE_MAX;
  return owner;
}

/* One that goes may give beads back to the motif beneath it: all are laid again without it. */
static gboolean
drop_those_gone (const BwDrawing *old, const BwMade *made, int n_made, Made *all)
{
  g_autofree guint8 *owner = owners_like (old);
  gboolean dropped = FALSE;
  all->base = plain_like (old);
  lay_all (old, made, n_made, all, owner);
  Tally tally = { .old = old, .base = all->base, .owner = owner };
  each_bead (old, count_bead, &tally);
  for (int i = 0; i < n_made; i++)
    if (!all->gone[i] && 2 * tally.left[i] < tally.owned[i])
      all->gone[i] = dropped = TRUE;
  if (dropped)
    g_clear_pointer (&all->base, bw_drawing_free);
  return dropped;
}

static void
made_init (Made *all, const BwDrawing *old, const BwMade *made, int n_made)
{
  *all = (Made){ 0 };
  while (drop_those_gone (old, made, n_made, all))
    continue;
}

/* --- By hand ---------------------------------------------------------------------------------- */

/* The row again from the beginning; an odd last row has no match before it. */
static int
row_repeated (int row, int rows)
{
  int period = rows - rows % 2;
  return row <= rows || period == 0 ? row : bw_lattice_wrap (row, period);
}

static int
column_repeated (int column, int columns)
{
  return bw_lattice_wrap (column, columns);
}

static int
column_stretched (int column, int from, int to)
{
  return from == to ? column : 1 + (int)lround ((column - 1.0) * (from - 1) / (to - 1));
}

/* The row nearest to the same share of the way that has a bead in this column. */
static int
row_stretched (int row, int column, int from, int to)
{
  double x = (row - 0.5) * from / to + 0.5;
  int nearest = bw_lattice_nearest (x, (column + 1) % 2);
  if (nearest < 1)
    nearest += 2;
  return nearest > from ? nearest - 2 : nearest;
}

typedef struct {
  const BwDrawing *old, *base;
  BwAnewWay way;
  BwDrawing *drawing;
} Hand;

/* Where the bead comes from; FALSE where there is nothing. */
static gboolean
source_of (const Hand *hand, int row, int column, int *from_row, int *from_column)
{
  int rows = bw_drawing_rows (hand->old), columns = bw_drawing_columns (hand->old);
  if (hand->way == BW_ANEW_REPEAT) {
    *from_row = row_repeated (row, rows);
    *from_column = column_repeated (column, columns);
  } else {
    *from_column = column_stretched (column, columns, bw_drawing_columns (hand->drawing));
    *from_row = row_stretched (row, *from_column, rows, bw_drawing_rows (hand->drawing));
  }
  return *from_row >= 1 && *from_row <= rows && bw_lattice_has (*from_row, *from_column);
}

static void
set_by_hand (int row, int column, gpointer data)
{
  Hand *hand = data;
  int r, c;
  if (!source_of (hand, row, column, &r, &c))
    return;
  guint8 colour = bw_drawing_get (hand->old, r, c);
  if (colour != bw_drawing_get (hand->base, r, c))
    bw_drawing_set (hand->drawing, row, column, colour);
}

typedef struct {
  BwDrawing *drawing;
  guint8 ground;
} Ground;

static void
fill (int row, int column, gpointer data)
{
  Ground *ground = data;
  bw_drawing_set (ground->drawing, row, column, ground->ground);
}

void
bw_anew_draw (const BwDrawing *old, const BwMade *made, const BwMade *renewed, int n_made,
              BwAnewWay way, BwDrawing *drawing)
{
  g_return_if_fail (n_made >= 0 && n_made <= BW_MADE_MAX);
  Made all;
  made_init (&all, old, made, n_made);
  Ground ground = { drawing, bw_drawing_ground (old) };
  each_bead (drawing, fill, &ground);
  for (int i = 0; i < n_made; i++)
    if (!all.gone[i])
      bw_motif_draw (&renewed[i].motif, drawing);
  Hand hand = { old, all.base, way, drawing };
  if (way != BW_ANEW_GROUND)
    each_bead (drawing, set_by_hand, &hand);
  bw_drawing_free (all.base);
}

typedef struct {
  const BwDrawing *old, *base;
  int n;
} Count;

static void
count_by_hand (int row, int column, gpointer data)
{
  Count *count = data;
  count->n += bw_drawing_get (count->old, row, column) != bw_drawing_get (count->base, row, column);
}

int
bw_anew_by_hand (const BwDrawing *old, const BwMade *made, int n_made)
{
  g_return_val_if_fail (n_made >= 0 && n_made <= BW_MADE_MAX, 0);
  Made all;
  made_init (&all, old, made, n_made);
  Count count = { old, all.base, 0 };
  each_bead (old, count_by_hand, &count);
  bw_drawing_free (all.base);
  return count.n;
}
