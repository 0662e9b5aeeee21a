/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A symmetry is at most four maps (nothing, mirror, turn, glide) taken together with the repeat; an
 * orbit is the bead's images under those maps, shifted by every whole repeat round the ring. */
#include "core/pattern/symmetry.h"

#include "core/base/lattice.h"

/* The repeat in rows; once round when none is set. A ring of an odd number of rows has one slot
 * more, which stays empty. */
static int
repeat_of (const BwSymmetry *symmetry, int rows)
{
  return symmetry->repeat_rows > 0 ? symmetry->repeat_rows : rows + rows % 2;
}

static gboolean
glides (BwFrieze frieze)
{
  return frieze == BW_FRIEZE_P11G || frieze == BW_FRIEZE_P2MG;
}

BwFriezeFit
bw_symmetry_fit (const BwSymmetry *symmetry, int rows)
{
  int k = repeat_of (symmetry, rows);
  if (symmetry->frieze == BW_FRIEZE_P11M || symmetry->frieze == BW_FRIEZE_P2MM)
    return BW_FRIEZE_NEVER;
  if (glides (symmetry->frieze) && (k / 2) % 2 == 0)
    return BW_FRIEZE_ODD_REPEAT;
  if (k % 2 || rows % k)
    return BW_FRIEZE_OPEN;
  return BW_FRIEZE_FITS;
}

/* One map: along the ring by a sign and a shift, across it kept or flipped. */
typedef struct {
  int sign, shift;
  gboolean flip;
} Map;

static int
nearest_even (int x)
{
  return x - (x & 1);
}

/* The maps of a frieze within one repeat. The mirror a → s − a has s even, the turn s odd; with
 * both the glide is their product. */
static int
maps_of (const BwSymmetry *symmetry, int rows, Map maps[4])
{
  int s = 2 * symmetry->centre, g = repeat_of (symmetry, rows) / 2, n = 0;
  maps[n++] = (Map){ 1, 0, FALSE };
  switch (symmetry->frieze) {
  case BW_FRIEZE_P1M1:
    maps[n++] = (Map){ -1, nearest_even (s), FALSE };
    break;
  case BW_FRIEZE_P2:
    maps[n++] = (Map){ -1, nearest_even (s) + 1, TRUE };
    break;
  case BW_FRIEZE_P11G:
    maps[n++] = (Map){ 1, g, TRUE };
    break;
  case BW_FRIEZE_P2MG:
    maps[n++] = (Map){ -1, nearest_even (s), FALSE };
    maps[n++] = (Map){ 1, g, TRUE };
    maps[n++] = (Map){ -1, nearest_even (s) + g, TRUE };
    break;
  default:
    break;
  }
  return n;
}

static int
modulo (int x, int m)
{
  int r = x % m;
  return r < 0 ? r + m : r;
}

/* Whether strokes are carried anywhere at all. */
static gboolean
carries (const BwSymmetry *symmetry, int rows)
{
  BwFriezeFit fit = bw_symmetry_fit (symmetry, rows);
  return fit != BW_FRIEZE_NEVER && fit != BW_FRIEZE_ODD_REPEAT
         && repeat_of (symmetry, rows) % 2 == 0;
}

/* One rule for closed and open repeats: places a whole number of repeats apart, between the first
 * row and the last. Where the repeat divides the ring, that is the ring itself. */
void
bw_symmetry_each (const BwSymmetry *symmetry, int columns, int rows, int row, int column,
                  BwBeadVisit visit, gpointer data)
{
  int k = repeat_of (symmetry, rows);
  Map maps[4];

  visit (row, column, data);
  if (!carries (symmetry, rows))
    return;
  int n_maps = maps_of (symmetry, rows, maps);
  for (int i = 0; i < n_maps; i++) {
    int to_column = maps[i].flip ? columns + 1 - column : column;
    for (int a = modulo (maps[i].sign * (row - 1) + maps[i].shift, k); a < rows; a += k)
      if (a != row - 1 || to_column != column)
        visit (a + 1, to_column, data);
  }
}

typedef struct {
  GArray *places;
  GHashTable *seen;
  int columns;
} Orbit;

static void
add_once (int row, int column, gpointer data)
{
  Orbit *orbit = data;
  BwBeadAt place = { row, column };
  if (g_hash_table_add (orbit->seen, GINT_TO_POINTER (row * (orbit->columns + 1) + column)))
    g_array_append_val (orbit->places, place);
}

GArray *
bw_symmetry_orbit (const BwSymmetry *symmetry, int columns, int rows, int row, int column)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  Orbit orbit = { g_array_new (FALSE, FALSE, sizeof (BwBeadAt)), seen, columns };
  bw_symmetry_each (symmetry, columns, rows, row, column, add_once, &orbit);
  return orbit.places;
}

gboolean
bw_symmetry_holds (const BwSymmetry *symmetry, const BwDrawing *drawing)
{
  int rows = bw_drawing_rows (drawing), columns = bw_drawing_columns (drawing);
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < columns / 2; j++) {
      int column = bw_lattice_column (row, j);
      g_autoptr (GArray) orbit = bw_symmetry_orbit (symmetry, columns, rows, row, column);
      for (guint i = 1; i < orbit->len; i++) {
        BwBeadAt at = g_array_index (orbit, BwBeadAt, i);
        if (bw_drawing_get (drawing, at.row, at.column) != bw_drawing_get (drawing, row, column))
          return FALSE;
      }
    }
  return TRUE;
}
