/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-done.h"

static void
add_told (BwBookDone *all, const BwDone *done)
{
  BwToldBin *bin = &all->bin[MIN ((int)(BW_TOLD_BINS * done->told), BW_TOLD_BINS - 1)];
  gboolean right = done->rows == done->planned;

  all->planned++;
  all->right += right;
  all->told += done->told;
  bin->pieces++;
  bin->right += right;
  bin->told += done->told;
}

static void
add_piece (BwBookDone *all, const BwWovenEnd *end)
{
  const BwDone *done = &end->done;

  all->pieces++;
  if (done->planned > 0)
    add_told (all, done);
  if (done->hours > 0) {
    all->hours += done->hours;
    all->hours_rows += done->rows;
  }
  if (done->hours > 0 && end->columns > 0) {
    all->beads_hours += done->hours;
    all->beads += done->rows / 2 * end->columns;
  }
}

void
bw_book_done_init (BwBookDone *all, const BwBook *book)
{
  *all = (BwBookDone){ 0 };
  for (guint i = 0; i < bw_book_n_pieces (book); i++) {
    const BwWoven *piece = bw_book_get_piece (book, i);

    if (piece->has_end)
      add_piece (all, &piece->end);
  }
  if (all->planned > 0)
    all->told /= all->planned;
  for (int i = 0; i < BW_TOLD_BINS; i++)
    if (all->bin[i].pieces > 0)
      all->bin[i].told /= all->bin[i].pieces;
}

double
bw_book_pace (const BwBook *book)
{
  BwBookDone all;

  bw_book_done_init (&all, book);
  return all.beads > 0 ? (double)all.beads / all.beads_hours : 0;
}
