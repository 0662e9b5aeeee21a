/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/pattern/made.h"

#include "core/base/tolerance.h"
#include <math.h>
#include <string.h>

static double
to_half (double pitches)
{
  return round (2 * pitches) / 2;
}

static void
settle_faces (BwMotif *motif, const BwMadeBand *band)
{
  double on_bead[BW_FACES_MAX];
  for (int i = 0; i < band->n_faces; i++)
    on_bead[i] = round (band->middle[i]);
  bw_motif_set_faces (motif, band->n_faces, on_bead, band->corner);
}

void
bw_made_settle (BwMade *made, const BwMadeBand *band)
{
  BwMotif *motif = &made->motif;
  if (motif->n_faces > 0)
    settle_faces (motif, band);
  if (made->middle == BW_MADE_AT_JOIN)
    motif->centre = 0;
  else if (made->middle > 0 && band->n_faces > 0)
    motif->centre = to_half (band->middle[MIN (made->middle, band->n_faces) - 1]);
  made->columns = band->columns;
  made->rows = band->rows;
  made->stone_faces = band->n_faces;
}

/* A column's place on a band with more columns or fewer. */
static int
column_on (int column, int from, int to)
{
  if (from == to || from < 2)
    return MIN (column, to);
  return 1 + (int)lround ((column - 1.0) * (to - 1) / (from - 1));
}

gboolean
bw_made_renew (const BwMade *made, const BwMadeBand *band, BwMade *renewed, BwFault *fault)
{
  BwMotif *motif = &renewed->motif;
  *renewed = *made;
  motif->first_column = column_on (motif->first_column, made->columns, band->columns);
  motif->last_column = column_on (motif->last_column, made->columns, band->columns);
  if (motif->repeats == made->stone_faces)
    motif->repeats = band->n_faces;
  if (made->middle == BW_MADE_ELSEWHERE)
    motif->centre = to_half (motif->centre * band->rows / made->rows);
  bw_made_settle (renewed, band);
  return bw_motif_validate (motif, band->columns, band->rows, fault);
}

static gboolean
is_hidden_by (const BwMade *old, const BwMade *made)
{
  return bw_motif_covers (&made->motif) && old->motif.first_column >= made->motif.first_column
         && old->motif.last_column <= made->motif.last_column && old->rows <= made->rows;
}

int
bw_made_append (BwMade *list, int n, const BwMade *made)
{
  int kept = 0;
  for (int i = 0; i < n; i++)
    if (!is_hidden_by (&list[i], made))
      list[kept++] = list[i];
  if (kept == BW_MADE_MAX)
    memmove (list, list + 1, sizeof *list * (gsize)--kept);
  list[kept++] = *made;
  return kept;
}

static gboolean
faces_equal (const BwMotif *a, const BwMotif *b)
{
  if (a->n_faces != b->n_faces)
    return FALSE;
  for (int i = 0; i < a->n_faces; i++)
    if (!bw_same_number (a->face_middle[i], b->face_middle[i])
        || !bw_same_number (a->face_end[i], b->face_end[i]))
      return FALSE;
  return TRUE;
}

static gboolean
numbers_equal (const BwMotif *a, const BwMotif *b)
{
  return a->first_column == b->first_column && a->last_column == b->last_column
         && a->repeats == b->repeats && bw_same_number (a->centre, b->centre)
         && bw_same_number (a->size, b->size) && bw_same_number (a->reach, b->reach)
         && bw_same_number (a->slope, b->slope) && bw_same_number (a->density, b->density)
         && a->seed == b->seed && a->dither == b->dither && a->leaves_ground == b->leaves_ground;
}

gboolean
bw_made_equal (const BwMade *a, const BwMade *b)
{
  const BwMotif *x = &a->motif, *y = &b->motif;
  return a->columns == b->columns && a->rows == b->rows && a->stone_faces == b->stone_faces
         && a->middle == b->middle && x->kind == y->kind && x->n_colours == y->n_colours
         && memcmp (x->colour, y->colour, (gsize)x->n_colours) == 0 && numbers_equal (x, y)
         && strcmp (x->text, y->text) == 0 && faces_equal (x, y);
}
