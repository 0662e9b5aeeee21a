/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares are told apart from what is usual by sums, not by logarithms: they are errors of some
 * thousandths about a small number. */
#include "core/workshop/give-hands.h"

#include "core/workshop/hands.h"

#include <math.h>

static BwHandsSpread
spread_of (BwGive usual)
{
  double third = usual.sd / sqrt (3);
  return (BwHandsSpread){ third, third, third };
}

BwGive *
bw_give_next (BwGive usual, const BwGivePiece *pieces, int n_pieces, int n_kinds)
{
  g_autofree BwHandsPiece *heard = g_new0 (BwHandsPiece, MAX (n_pieces, 1));
  BwGive *next = g_new (BwGive, n_kinds + 1);
  BwHands hands;
  for (int i = 0; i < n_pieces; i++) {
    heard[i].kind = pieces[i].kind;
    bw_hands_add (&heard[i],
                  (BwHandsReading){ pieces[i].said.share - usual.share, pieces[i].said.sd });
  }
  bw_hands_init (&hands, spread_of (usual), heard, n_pieces, n_kinds + 1);
  for (int k = 0; k <= n_kinds; k++)
    next[k] = (BwGive){ usual.share + hands.next[k].mean, hands.next[k].sd };
  bw_hands_clear (&hands);
  return next;
}
