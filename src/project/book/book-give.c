/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's readings of threads and cords, gathered by size. */
#include "config.h"

#include "project/book/book-private.h"

/* What a piece says of one of the two, and of which size; FALSE when it says nothing. */
typedef gboolean (*Hear) (const BwWoven *piece, double *mm, BwGive *said);

static gboolean
hear_stretch (const BwWoven *piece, double *mm, BwGive *said)
{
  if (piece->left_out || !piece->has_stretch)
    return FALSE;
  *mm = piece->thread_mm;
  *said = bw_stretch_said (&piece->stretch);
  return TRUE;
}

static gboolean
hear_squeeze (const BwWoven *piece, double *mm, BwGive *said)
{
  if (piece->left_out || !piece->has_squeeze)
    return FALSE;
  *mm = piece->cord_width_mm;
  *said = bw_squeeze_said (&piece->squeeze);
  return TRUE;
}

static int
compare_sizes (gconstpointer a, gconstpointer b)
{
  const BwBookGive *one = a, *other = b;

  return (one->mm > other->mm) - (one->mm < other->mm);
}

/* Every size once, in order, with how many pieces speak of it. */
static GArray *
list_sizes (const BwBook *book, Hear hear)
{
  g_autoptr (GArray) all = g_array_new (FALSE, TRUE, sizeof (BwBookGive));
  GArray *sizes = g_array_new (FALSE, TRUE, sizeof (BwBookGive));

  for (guint i = 0; i < bw_book_n_pieces (book); i++) {
    BwBookGive size = { .pieces = 1 };

    if (hear (bw_book_get_piece (book, i), &size.mm, &size.next))
      g_array_append_val (all, size);
  }
  g_array_sort (all, compare_sizes);
  for (guint i = 0; i < all->len; i++) {
    const BwBookGive *size = &g_array_index (all, BwBookGive, i);

    if (i == 0 || compare_sizes (size - 1, size) != 0)
      g_array_append_vals (sizes, size, 1);
    else
      g_array_index (sizes, BwBookGive, sizes->len - 1).pieces++;
  }
  return sizes;
}

static GArray *
list_readings (const BwBook *book, Hear hear, const GArray *sizes)
{
  GArray *readings = g_array_new (FALSE, FALSE, sizeof (BwGivePiece));

  for (guint i = 0; i < bw_book_n_pieces (book); i++) {
    BwBookGive size = { 0 };
    BwGivePiece piece = { 0 };
    guint at;

    if (!hear (bw_book_get_piece (book, i), &size.mm, &piece.said))
      continue;
    g_array_binary_search ((GArray *)sizes, &size, compare_sizes, &at);
    piece.kind = (int)at;
    g_array_append_val (readings, piece);
  }
  return readings;
}

static void
gather (BwBookGives *gives, const BwBook *book, Hear hear, BwGive usual)
{
  g_autoptr (GArray) sizes = list_sizes (book, hear);
  g_autoptr (GArray) readings = list_readings (book, hear, sizes);
  int n = (int)sizes->len;
  g_autofree BwGive *next = bw_give_next (usual, (const BwGivePiece *)(const void *)readings->data,
                                          (int)readings->len, n);

  for (int k = 0; k < n; k++)
    g_array_index (sizes, BwBookGive, k).next = next[k];
  *gives = (BwBookGives){ .pieces = (int)readings->len,
                          .n_kinds = n,
                          .kinds
                          = (BwBookGive *)(void *)g_array_free (g_steal_pointer (&sizes), FALSE),
                          .new_kind = next[n] };
}

void
bw_book_gives_init (BwBookHands *hands, const BwBook *book)
{
  gather (&hands->stretch, book, hear_stretch, bw_stretch_usual ());
  gather (&hands->squeeze, book, hear_squeeze, bw_squeeze_usual ());
}

void
bw_book_gives_clear (BwBookHands *hands)
{
  g_clear_pointer (&hands->stretch.kinds, g_free);
  g_clear_pointer (&hands->squeeze.kinds, g_free);
  hands->stretch = hands->squeeze = (BwBookGives){ 0 };
}

BwGive
bw_book_give_of (const BwBookGives *gives, double mm, int *pieces)
{
  const BwBookGive wanted = { .mm = mm };

  *pieces = 0;
  for (int k = 0; k < gives->n_kinds; k++)
    if (compare_sizes (&gives->kinds[k], &wanted) == 0) {
      *pieces = gives->kinds[k].pieces;
      return gives->kinds[k].next;
    }
  return gives->new_kind;
}
