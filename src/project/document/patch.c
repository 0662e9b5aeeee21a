/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo without limit must be cheap where it is used most: a maker sets beads one by one, a million
 * of them in a long life of a file. So a kept step holds only the cells it changed, in few bytes.
 */
#include "config.h"

#include "project/document/patch.h"
#include "core/base/lattice.h"
#include "core/base/limits.h"

#define PLACES_IN_ROW (BW_COLUMNS_MAX / 2)
#define PLACES_IN_CANVAS ((guint32)PLACES_IN_ROW * BW_ROWS_MAX)

guint32
bw_place_of (BwCanvas canvas, int row, int bead)
{
  return (guint32)canvas * PLACES_IN_CANVAS + (guint32)(row - 1) * PLACES_IN_ROW + (guint32)bead;
}

BwCanvas
bw_place_canvas (guint32 place)
{
  return place < PLACES_IN_CANVAS ? BW_CANVAS_BAND : BW_CANVAS_BAIL;
}

int
bw_place_row (guint32 place)
{
  return (int)(place % PLACES_IN_CANVAS / PLACES_IN_ROW) + 1;
}

int
bw_place_column (guint32 place)
{
  return bw_lattice_column (bw_place_row (place), (int)(place % PLACES_IN_ROW));
}

static int
compare_places (gconstpointer a, gconstpointer b)
{
  guint32 p = ((const BwChange *)a)->place, q = ((const BwChange *)b)->place;

  return (p > q) - (p < q);
}

void
bw_changes_join (GArray *changes)
{
  BwChange *change = (BwChange *)changes->data;
  guint kept = 0;

  g_array_sort (changes, compare_places); /* stable: changes of one place stay in their order */
  for (guint i = 0; i < changes->len;) {
    BwChange joined = change[i];

    for (i++; i < changes->len && change[i].place == joined.place; i++)
      joined.after = change[i].after;
    if (joined.after != joined.before)
      change[kept++] = joined;
  }
  g_array_set_size (changes, kept);
}

static void
put_number (GByteArray *bytes, guint32 number)
{
  guint8 byte;

  for (; number >= 0x80; number >>= 7) {
    byte = (guint8)(number | 0x80);
    g_byte_array_append (bytes, &byte, 1);
  }
  byte = (guint8)number;
  g_byte_array_append (bytes, &byte, 1);
}

static guint32
take_number (const guint8 **p)
{
  guint32 number = 0;
  int shift = 0;

  for (; **p & 0x80; (*p)++, shift += 7)
    number |= (guint32)(**p & 0x7f) << shift;
  number |= (guint32) * *p << shift;
  (*p)++;
  return number;
}

static guint
run_length (const BwChange *change, guint left)
{
  guint n = 1;

  while (n < left && change[n].place == change[0].place + n)
    n++;
  return n;
}

void
bw_changes_pack (const GArray *changes, GByteArray *bytes)
{
  guint32 next = 0;

  for (guint i = 0; i < changes->len;) {
    const BwChange *change = &g_array_index (changes, BwChange, i);
    guint n = run_length (change, changes->len - i);

    put_number (bytes, change[0].place - next);
    put_number (bytes, n);
    for (guint j = 0; j < n; j++)
      g_byte_array_append (bytes, &change[j].before, 1);
    for (guint j = 0; j < n; j++)
      g_byte_array_append (bytes, &change[j].after, 1);
    next = change[0].place + n;
    i += n;
  }
}

void
bw_changes_unpack (GArray *changes, const guint8 *bytes, gsize length)
{
  const guint8 *p = bytes, *end = bytes + length;
  guint32 next = 0;

  while (p < end) {
    guint32 first = next + take_number (&p), n = take_number (&p);

    for (guint32 j = 0; j < n; j++) {
      BwChange change = { .place = first + j, .before = p[j], .after = p[n + j] };

      g_array_append_val (changes, change);
    }
    p += 2 * n;
    next = first + n;
  }
}
