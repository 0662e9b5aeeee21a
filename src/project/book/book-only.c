/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-only.h"

#include "project/book/book-habits-private.h"
#include "project/book/book-habits.h"
#include "project/book/book-stones-private.h"
#include "project/book/book-things-private.h"
#include "project/book/book-trays-private.h"

/* An empty book has room for all that another has. */
BwBook *
bw_book_only_beads (const BwBook *book)
{
  BwBook *only = bw_book_new ();

  bw_book_take_in_beads (only, book, NULL);
  return only;
}

BwBook *
bw_book_only_stash (const BwBook *book)
{
  BwBook *only = bw_book_new ();

  bw_book_take_in_stash (only, book, NULL);
  return only;
}

BwBook *
bw_book_only_trays (const BwBook *book)
{
  BwBook *only = bw_book_new ();

  bw_book_take_in_trays (only, book, NULL);
  return only;
}

BwBook *
bw_book_only_stones (const BwBook *book)
{
  BwBook *only = bw_book_new ();

  bw_book_take_in_stones (only, book, NULL);
  return only;
}

BwBook *
bw_book_only_habits (const BwBook *book)
{
  BwBook *only = bw_book_new ();
  const BwHabits none = { 0 };

  bw_book_change_habits (only, &none, &none, NULL); /* told as none where there are none */
  bw_book_take_in_habits (only, book);
  return only;
}
