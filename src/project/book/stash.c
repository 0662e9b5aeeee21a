/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/stash.h"

#include "project/book/book-stash.h"

#include <math.h>
#include <string.h>

#define WIDTH_SHARE 0.1 /* of a width, that another may differ and still be the same cord */

struct _BwStash {
  GArray *items; /* of BwStashItem */
  char **folded; /* the name of each, letters alike */
};

BwStash *
bw_stash_new (const BwBook *book)
{
  BwStash *self = g_atomic_rc_box_new0 (BwStash);
  guint n = bw_book_n_stash (book);

  self->items = g_array_sized_new (FALSE, TRUE, sizeof (BwStashItem), n);
  g_array_set_size (self->items, n);
  self->folded = g_new0 (char *, n + 1);
  for (guint i = 0; i < n; i++) {
    BwStashItem *item = &g_array_index (self->items, BwStashItem, i);

    bw_book_get_stash (book, i, item);
    self->folded[i] = g_utf8_casefold (item->name, -1);
  }
  return self;
}

BwStash *
bw_stash_ref (BwStash *stash)
{
  return g_atomic_rc_box_acquire (stash);
}

static void
clear (gpointer data)
{
  BwStash *self = data;

  g_array_unref (self->items);
  g_strfreev (self->folded);
}

void
bw_stash_unref (BwStash *stash)
{
  g_atomic_rc_box_release_full (stash, clear);
}

static GMutex own_lock;
static BwStash *own; /* under the lock */

void
bw_stash_set_own (BwStash *stash)
{
  g_mutex_lock (&own_lock);
  g_clear_pointer (&own, bw_stash_unref);
  own = stash ? bw_stash_ref (stash) : NULL;
  g_mutex_unlock (&own_lock);
}

BwStash *
bw_stash_dup_own (void)
{
  g_mutex_lock (&own_lock);
  BwStash *stash = own ? bw_stash_ref (own) : NULL;
  g_mutex_unlock (&own_lock);
  return stash;
}

guint
bw_stash_n (const BwStash *stash)
{
  return stash->items->len;
}

const BwStashItem *
bw_stash_get (const BwStash *stash, guint i)
{
  g_return_val_if_fail (i < stash->items->len, NULL);
  return &g_array_index (stash->items, BwStashItem, i);
}

/* name: of the colour wanted, letters alike. */
static gboolean
is_colour (const BwStash *stash, guint i, const BwStashWant *want, const char *name)
{
  const BwStashItem *item = bw_stash_get (stash, i);

  if (item->finish != want->colour->finish || !g_str_equal (item->bead, want->bead))
    return FALSE;
  if (*item->article && *want->colour->article)
    return g_str_equal (item->article, want->colour->article);
  return g_str_equal (stash->folded[i], name);
}

static gboolean
is_wanted (const BwStash *stash, guint i, const BwStashWant *want, const char *name)
{
  const BwStashItem *item = bw_stash_get (stash, i);

  if (item->what != want->what)
    return FALSE;
  if (item->what == BW_STASH_BEADS)
    return is_colour (stash, i, want, name);
  return !(item->width_mm > 0)
         || fabs (item->width_mm - want->width_mm) <= WIDTH_SHARE * want->width_mm;
}

static void
take (guint at, BwStashWant *want, double *left, GArray *shares)
{
  BwStashShare share = { at, fmin (*left, want->wanted - want->taken) };

  want->is_known = TRUE;
  want->there += *left;
  if (!(share.amount > 0))
    return;
  *left -= share.amount;
  want->taken += share.amount;
  if (shares)
    g_array_append_val (shares, share);
}

void
bw_stash_hold (const BwStash *stash, BwStashWant *wants, guint n, GArray *shares)
{
  guint n_items = stash ? stash->items->len : 0;
  g_autofree double *left = g_new (double, MAX (n_items, 1));

  for (guint i = 0; i < n_items; i++)
    left[i] = bw_stash_get (stash, i)->amount;
  for (guint k = 0; k < n; k++) {
    g_autofree char *name
        = wants[k].colour ? g_utf8_casefold (wants[k].colour->name, -1) : g_strdup ("");

    wants[k].is_known = FALSE;
    wants[k].there = wants[k].taken = 0;
    for (guint i = 0; i < n_items; i++)
      if (is_wanted (stash, i, &wants[k], name))
        take (i, &wants[k], &left[i], shares);
  }
}
