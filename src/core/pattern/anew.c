/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whose a bead is, is found by laying the motifs again as they were laid; nothing has to be noted
 * while beads are painted. */
#include "core/pattern/anew.h"

#include "core/base/lattice.h"

#define NOBODY 254 /* the colour of a bead that a motif leaves; no tray has so many */

/* What the motifs alone have made, whose each bead is, and which of them count. */
typedef struct {
  BwDrawing *base;
  guint8 *owner; /* by place in the drawing; BW_MADE_MAX: no motif's */
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
  Made *all;
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
  bw_drawing_set (laying->all->base, row, column, colour);
  laying->all->owner[place_of (laying->all->base, row, column)] = laying->who;
}

/* Lays those that are not gone. */
static void
lay_all (const BwDrawing *old, const BwMade *made, int n_made, Made *all)
{
  for (int i = 0; i < n_made; i++) {
    if (all->gone[i])
      continue;
    g_autoptr (BwDrawing) own = beads_of (&made[i], old);
    Laying laying = { own, all, (guint8)i };
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

static void
made_clear (Made *all)
{
  g_clear_pointer (&all->base, bw_drawing_free);
  g_clear_pointer (&all->owner, g_free);
}

/* One that goes may give beads back to the motif beneath it: all are laid again without it. */
static gboolean
drop_those_gone (const BwDrawing *old, const BwMade *made, int n_made, Made *all)
{
  gboolean dropped = FALSE;
  all->base = plain_like (old);
  all->owner = owners_like (old);
  lay_all (old, made, n_made, all);
  Tally tally = { .old = old, .base = all->base, .owner = all->owner };
  each_bead (old, count_bead, &tally);
  for (int i = 0; i < n_made; i++)
    if (!all->gone[i] && 2 * tally.left[i] < tally.owned[i])
      all->gone[i] = dropped = TRUE;
  if (dropped)
    made_clear (all);
  return dropped;
}

/* --- Rows that came later ----------------------------------------------------------------------
 * A band that grew after a motif was laid got rows that are copies of earlier ones, or plain. What
 * such a row shows is as much the motif's, and as little, as what it was copied from.
 */

/* Of the beads that came later more than so many must agree with the row they are taken to be
 * copied from; the others were painted since. */
#define COPIED_SHARE 0.75
#define PLAIN_ROW 0
#define LATER (BW_MADE_MAX + 1) /* the owner of such a bead: whichever motif ended before it */

typedef struct {
  const BwDrawing *old;
  const BwMade *made;
  int n_made;
  Made *all;
  guint8 ground;
} Growth;

/* Whether a motif that ends before this row would have a bead there, and none that reaches it. */
static gboolean
came_later (const Growth *growth, int row, int column)
{
  gboolean ended = FALSE;
  for (int i = 0; i < growth->n_made; i++) {
    const BwMade *made = &growth->made[i];
    if (growth->all->gone[i] || column < made->motif.first_column
        || column > made->motif.last_column)
      continue;
    if (made->rows >= row)
      return FALSE;
    ended = TRUE;
  }
  return ended;
}

static guint8
old_colour (const Growth *growth, int row, int column)
{
  return row == PLAIN_ROW ? growth->ground : bw_drawing_get (growth->old, row, column);
}

/* The share of the row's later beads that `from` has too. */
static double
agreement (const Growth *growth, int row, int from)
{
  int n = 0, same = 0;
  for (int j = 0; j < bw_drawing_columns (growth->old) / 2; j++) {
    int column = bw_lattice_column (row, j);
    if (!came_later (growth, row, column))
      continue;
    n++;
    same += old_colour (growth, row, column) == old_colour (growth, from, column);
  }
  return n > 0 ? (double)same / n : 0;
}

/* The earlier row of its kind that it is a copy of; a plain one where nothing agrees better. */
static int
copied_from (const Growth *growth, int row)
{
  int best = PLAIN_ROW;
  double most = MAX (agreement (growth, row, PLAIN_ROW), COPIED_SHARE);
  for (int from = row - 2; from >= 1 && most < 1; from -= 2) {
    double share = agreement (growth, row, from);
    if (share > most) {
      best = from;
      most = share;
    }
  }
  return best;
}

static int
shortest (const Growth *growth)
{
  int rows = bw_drawing_rows (growth->old);
  for (int i = 0; i < growth->n_made; i++)
    if (!growth->all->gone[i])
      rows = MIN (rows, growth->made[i].rows);
  return rows;
}

static void
run_on (const Growth *growth)
{
  BwDrawing *base = growth->all->base;
  for (int row = shortest (growth) + 1; row <= bw_drawing_rows (base); row++) {
    int from = copied_from (growth, row);
    for (int j = 0; j < bw_drawing_columns (base) / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (!came_later (growth, row, column))
        continue;
      growth->all->owner[place_of (base, row, column)] = LATER;
      if (from != PLAIN_ROW)
        bw_drawing_set (base, row, column, bw_drawing_get (base, from, column));
    }
  }
}

static void
made_init (Made *all, const BwDrawing *old, const BwMade *made, int n_made)
{
  *all = (Made){ 0 };
  while (drop_those_gone (old, made, n_made, all))
    continue;
  Growth growth = { old, made, n_made, all, bw_drawing_ground (old) };
  run_on (&growth);
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
  const BwDrawing *old;
  const Made *all;
  BwAnewWay way;
  gboolean beneath; /* those where no motif lies; else those upon one */
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
  gboolean beneath = hand->all->owner[place_of (hand->old, r, c)] == BW_MADE_MAX;
  if (beneath == hand->beneath && colour != bw_drawing_get (hand->all->base, r, c))
    bw_drawing_set (hand->drawing, row, column, colour);
}

static void
lay_by_hand (Hand *hand)
{
  if (hand->way != BW_ANEW_GROUND)
    each_bead (hand->drawing, set_by_hand, hand);
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
  Hand hand = { old, &all, way, TRUE, drawing };
  lay_by_hand (&hand);
  for (int i = 0; i < n_made; i++)
    if (!all.gone[i])
      bw_motif_draw (&renewed[i].motif, drawing);
  hand.beneath = FALSE;
  lay_by_hand (&hand);
  made_clear (&all);
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
  made_clear (&all);
  return count.n;
}
