/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's pieces as readings of the hands, gathered by kind of bead. */
#include "config.h"

#include "project/book/book-private.h"

#include <string.h>

static gboolean
is_kind (const BwBookKind *kind, const char *name, double diameter_mm)
{
  return !(kind->diameter_mm < diameter_mm) && !(kind->diameter_mm > diameter_mm)
         && g_str_equal (kind->name, name);
}

static int
compare_kinds (gconstpointer a, gconstpointer b)
{
  const BwBookKind *one = a, *other = b;

  if (one->diameter_mm < other->diameter_mm)
    return -1;
  return one->diameter_mm > other->diameter_mm ? 1 : strcmp (one->name, other->name);
}

static BwBookKind
kind_of_piece (const BwWoven *piece)
{
  BwBookKind kind = { .diameter_mm = piece->diameter_mm };

  g_strlcpy (kind.name, piece->bead, sizeof kind.name);
  return kind;
}

/* Every kind once, in order. */
static GArray *
list_kinds (const BwBook *book)
{
  guint n = bw_book_n_pieces (book);
  g_autoptr (GArray) all = g_array_sized_new (FALSE, FALSE, sizeof (BwBookKind), n);
  GArray *kinds = g_array_new (FALSE, FALSE, sizeof (BwBookKind));

  for (guint i = 0; i < n; i++) {
    BwBookKind kind = kind_of_piece (bw_book_get_piece (book, i));

    g_array_append_val (all, kind);
  }
  g_array_sort (all, compare_kinds);
  for (guint i = 0; i < n; i++)
    if (i == 0
        || compare_kinds (&g_array_index (all, BwBookKind, i - 1),
                          &g_array_index (all, BwBookKind, i))
               != 0)
      g_array_append_vals (kinds, &g_array_index (all, BwBookKind, i), 1);
  return kinds;
}

static int
find_kind (const GArray *kinds, const BwWoven *piece)
{
  BwBookKind kind = kind_of_piece (piece);
  guint at = 0;

  g_array_binary_search ((GArray *)kinds, &kind, compare_kinds, &at);
  return (int)at;
}

void
bw_book_hands_init (BwBookHands *hands, const BwBook *book)
{
  g_autoptr (GArray) kinds = list_kinds (book);
  guint n = bw_book_n_pieces (book);
  g_autofree BwHandsPiece *pieces = g_new (BwHandsPiece, MAX (n, 1));
  BwHands known;

  for (guint i = 0; i < n; i++) {
    const BwWoven *piece = bw_book_get_piece (book, i);

    pieces[i] = bw_woven_hands (piece, find_kind (kinds, piece));
    if (pieces[i].weight > 0)
      g_array_index (kinds, BwBookKind, pieces[i].kind).pieces++;
  }
  hands->spread = bw_hands_fit_spread (pieces, (int)n, (int)kinds->len, &hands->fitted);
  /* One kind more than there are: beads never woven before. */
  bw_hands_init (&known, hands->spread, pieces, (int)n, (int)kinds->len + 1);
  hands->hands = known.hands;
  hands->new_kind = known.next[kinds->len];
  for (guint k = 0; k < kinds->len; k++)
    g_array_index (kinds, BwBookKind, k).next = known.next[k];
  bw_hands_clear (&known);
  bw_book_gives_init (hands, book);
  hands->n_kinds = (int)kinds->len;
  hands->kinds = (BwBookKind *)(void *)g_array_free (g_steal_pointer (&kinds), FALSE);
}

static BwHandsEnd
end_of (const BwWoven *piece)
{
  BwHandsEnd end = { .diameter_mm = piece->diameter_mm };

  if (piece->has_end) {
    end.beads_around = piece->end.rows / 2;
    end.closing_pitch_mm = piece->end.closing_pitch_mm;
    end.girth_sd_mm = piece->end.girth_sd_mm;
  }
  return end;
}

void
bw_book_calibrate (BwCalibration *calibration, const BwBook *book)
{
  g_autoptr (GArray) kinds = list_kinds (book);
  guint n = bw_book_n_pieces (book);
  g_autofree BwHandsPiece *pieces = g_new (BwHandsPiece, MAX (n, 1));
  g_autofree BwHandsEnd *ends = g_new (BwHandsEnd, MAX (n, 1));
  gboolean fitted;

  for (guint i = 0; i < n; i++) {
    const BwWoven *piece = bw_book_get_piece (book, i);

    pieces[i] = bw_woven_hands (piece, find_kind (kinds, piece));
    ends[i] = end_of (piece);
  }
  BwHandsSpread spread = bw_hands_fit_spread (pieces, (int)n, (int)kinds->len, &fitted);
  bw_calibration_init (calibration, spread, pieces, ends, (int)n, (int)kinds->len);
}

void
bw_book_hands_clear (BwBookHands *hands)
{
  g_clear_pointer (&hands->kinds, g_free);
  bw_book_gives_clear (hands);
  hands->n_kinds = 0;
}

BwGaugeHands
bw_book_hands_of (const BwBookHands *hands, const char *bead, double diameter_mm, int *pieces)
{
  BwHandsBelief next = hands->new_kind;

  *pieces = 0;
  for (int k = 0; k < hands->n_kinds; k++)
    if (is_kind (&hands->kinds[k], bead, diameter_mm)) {
      next = hands->kinds[k].next;
      *pieces = hands->kinds[k].pieces;
    }
  BwHandsPitch pitch = bw_hands_pitch (next, diameter_mm);
  return (BwGaugeHands){ pitch.mm, pitch.sd_mm };
}
