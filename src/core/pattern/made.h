/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a motif was laid, so that it can be laid anew on a band with other rows, columns or faces.
 * Plain data, pure functions. */
#pragma once

#include "core/pattern/motif.h"

#define BW_MADE_MAX 24 /* remembered in a design; the oldest goes when there is one more */

#define BW_MADE_AT_JOIN 0      /* the middle of a repeat lies on row 1 */
#define BW_MADE_ELSEWHERE (-1) /* where the motif's `centre` says */

/* Plain data, copied by assignment. */
typedef struct {
  BwMotif motif;     /* as it was laid: faces and centre hold for that band */
  int columns, rows; /* of the band it was laid on */
  int stone_faces;   /* of the stone there */
  int middle; /* BW_MADE_AT_JOIN, BW_MADE_ELSEWHERE, or the face (from 1) with the middle of a
                 repeat; of no use where each face is a repeat */
} BwMade;

/* The band that a motif is laid on; middles and corners of the faces as bw_places_faces() has them,
 * in pitches from row 1. */
typedef struct {
  int columns, rows, n_faces;
  double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
} BwMadeBand;

/* Puts the motif on this band: centre and, where each face is a repeat (n_faces > 0), the faces.
 * The middle of a face is moved to a bead of the odd rows there. */
void bw_made_settle (BwMade *made, const BwMadeBand *band);

/* What the same motif is on another band: the same columns by their share of the band; as many
 * repeats, or one on each face; repeats that were as many as the faces still are. FALSE with a
 * fault (BW_AT_MOTIF_…) when it cannot be drawn there. */
gboolean bw_made_renew (const BwMade *made, const BwMadeBand *band, BwMade *renewed,
                        BwFault *fault);

/* Appends to a list with room for BW_MADE_MAX; gives how many there are then. What the new motif
 * covers wholly is no longer remembered. */
int bw_made_append (BwMade *list, int n, const BwMade *made);

gboolean bw_made_equal (const BwMade *a, const BwMade *b);
