/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-stash.h"

#include "project/book/book-keys.h"
#include "project/book/book-list.h"
#include "project/book/book-things-private.h"
#include "project/book/stash-json.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static gboolean
check (JsonObject *element, const char *pointer, GError **error)
{
  BwStashItem item;

  return bw_stash_read (element, pointer, &item, error);
}

static const BwBookList stash = { "stash", BW_STASH_MAX, check, TRUE };

/* --- The stash ---------------------------------------------------------------------------------
 */

guint
bw_book_n_stash (const BwBook *book)
{
  return bw_book_list_length (book, &stash);
}

const char *
bw_book_stash_name (const BwBook *book, guint i)
{
  return bw_book_list_name (book, &stash, i);
}

void
bw_book_get_stash (const BwBook *book, guint i, BwStashItem *item)
{
  bw_stash_read (bw_book_list_at (book, &stash, i), "", item, NULL);
}

/* Text that tells one thing from another. Owned. */
static char *
identity (const BwStashItem *item)
{
  return g_strdup_printf ("%d\n%s\n%s\n%d\n%s\n%s\n%.9g", (int)item->what, item->name, item->bead,
                          (int)item->finish, item->article, item->lot, item->width_mm);
}

static gboolean
is_twice (guint at, const BwStashItem *item, GError **error)
{
  g_autofree char *pointer = g_strdup_printf ("/stash/%u", at);

  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("“%s” is in the stash already: change how much there is of it."), item->name);
  return FALSE;
}

gboolean
bw_book_check_stash (const BwBook *book, GError **error)
{
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  if (!bw_book_list_check (book, &stash, error))
    return FALSE;
  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem item;

    bw_book_get_stash (book, i, &item);
    if (!g_hash_table_add (known, identity (&item)))
      return is_twice (i, &item, error);
  }
  return TRUE;
}

/* −1: none is the same thing. */
static int
find (const BwBook *book, const BwStashItem *item)
{
  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem other;

    bw_book_get_stash (book, i, &other);
    if (bw_stash_item_is (&other, item))
      return (int)i;
  }
  return -1;
}

static gboolean
is_as_it_was (const BwBook *book, int at, const BwStashItem *before)
{
  JsonObject *now = json_object_new (), *then = json_object_new ();
  BwStashItem item;

  bw_book_get_stash (book, (guint)at, &item);
  bw_stash_write (&item, now);
  bw_stash_write (before, then);
  return bw_key_same_objects (now, then);
}

static int
find_again (const BwBook *book, const BwStashItem *before, GError **error)
{
  int at = find (book, before);

  if (at >= 0 && is_as_it_was (book, at, before))
    return at;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED,
               _ ("“%s” was changed by another program meanwhile"), before->name);
  return -1;
}

/* at −1: at the end. */
static gboolean
put (BwBook *book, int at, const BwStashItem *item, GError **error)
{
  JsonObject *element = bw_book_list_draft (book, &stash, at, item->name);

  bw_stash_write (item, element);
  return bw_book_list_put (book, &stash, at, element, error);
}

gboolean
bw_book_change_stash (BwBook *book, const BwStashItem *before, const BwStashItem *item,
                      GError **error)
{
  int at = before ? find_again (book, before, error) : -1;

  if (before && at < 0)
    return FALSE;
  if (!item) {
    bw_book_list_remove (book, &stash, (guint)at);
    return TRUE;
  }
  int twin = find (book, item);
  if (twin >= 0 && twin != at)
    return is_twice (at >= 0 ? (guint)at : bw_book_n_stash (book), item, error);
  return put (book, at, item, error);
}

/* --- Another book's ----------------------------------------------------------------------------
 */

/* Of each its place and 1. */
static GHashTable *
places (const BwBook *book)
{
  GHashTable *table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < bw_book_n_stash (book); i++) {
    BwStashItem item;

    bw_book_get_stash (book, i, &item);
    g_hash_table_insert (table, identity (&item), GUINT_TO_POINTER (i + 1));
  }
  return table;
}

gboolean
bw_book_take_in_stash (BwBook *book, const BwBook *other, GError **error)
{
  g_autoptr (GHashTable) known = places (book);

  for (guint i = 0; i < bw_book_n_stash (other); i++) {
    BwStashItem item;

    bw_book_get_stash (other, i, &item);
    g_autofree char *name = identity (&item);
    int at = (int)GPOINTER_TO_UINT (g_hash_table_lookup (known, name)) - 1;
    if (!put (book, at, &item, error))
      return FALSE;
  }
  return TRUE;
}

/* --- Taken and put back ------------------------------------------------------------------------
 */

gboolean
bw_stash_add (BwBook *book, const BwStashItem *item, GError **error)
{
  int at = find (book, item);
  BwStashItem sum = *item;

  if (at >= 0) {
    bw_book_get_stash (book, (guint)at, &sum);
    sum.amount += item->amount;
  }
  return put (book, at, &sum, error);
}

gboolean
bw_stash_lessen (BwBook *book, BwStashItem *item, GError **error)
{
  int at = find (book, item);
  BwStashItem left;

  if (at < 0) {
    item->amount = 0;
    return TRUE;
  }
  bw_book_get_stash (book, (guint)at, &left);
  item->amount = fmin (item->amount, left.amount);
  left.amount -= item->amount;
  return put (book, at, &left, error);
}
