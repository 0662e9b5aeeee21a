/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-stash.h"

#include "project/book/book-keys.h"
#include "project/book/book-list.h"
#include "project/book/book-things-private.h"
#include "project/book/stash-json.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define TAKINGS_MAX BW_BOOK_PIECES_MAX

void
bw_stash_taking_clear (BwStashTaking *taking)
{
  g_clear_pointer (&taking->of, g_array_unref);
}

static gboolean
read_items (JsonObject *element, const char *pointer, GArray *of, GError **error)
{
  JsonNode *node = bw_take_required (element, pointer, "of", error);
  g_autofree char *inner = bw_json_pointer (pointer, "of");
  JsonArray *list = node ? bw_take_list (node, inner, error) : NULL;

  for (guint i = 0; list && i < json_array_get_length (list); i++) {
    g_autofree char *at = g_strdup_printf ("%s/%u", inner, i);
    JsonObject *object = bw_take_object (json_array_get_element (list, i), at, error);
    BwStashItem item;

    if (!object || !bw_stash_read (object, at, &item, error))
      return FALSE;
    g_array_append_val (of, item);
  }
  return list != NULL;
}

static gboolean
read_taking (JsonObject *element, const char *pointer, BwStashTaking *taking, GError **error)
{
  *taking = (BwStashTaking){ .of = g_array_new (FALSE, FALSE, sizeof (BwStashItem)) };
  return bw_key_read_text (element, pointer, "name", taking->title, sizeof taking->title, error)
         && bw_take_required (element, pointer, "piece", error)
         && bw_key_read_text (element, pointer, "piece", taking->piece, sizeof taking->piece, error)
         && bw_key_read_text (element, pointer, "date", taking->date, sizeof taking->date, error)
         && read_items (element, pointer, taking->of, error);
}

static gboolean
check (JsonObject *element, const char *pointer, GError **error)
{
  g_auto (BwStashTaking) taking = { .of = NULL };

  return read_taking (element, pointer, &taking, error);
}

static const BwBookList takings = { "taken", TAKINGS_MAX, check, TRUE };

gboolean
bw_book_check_takings (const BwBook *book, GError **error)
{
  return bw_book_list_check (book, &takings, error);
}

guint
bw_book_n_takings (const BwBook *book)
{
  return bw_book_list_length (book, &takings);
}

void
bw_book_get_taking (const BwBook *book, guint i, BwStashTaking *taking)
{
  read_taking (bw_book_list_at (book, &takings, i), "", taking, NULL);
}

static const char *
piece_at (const BwBook *book, guint i)
{
  return json_object_get_string_member (bw_book_list_at (book, &takings, i), "piece");
}

int
bw_book_find_taking (const BwBook *book, const char *piece)
{
  for (guint i = 0; i < bw_book_n_takings (book); i++)
    if (g_str_equal (piece_at (book, i), piece))
      return (int)i;
  return -1;
}

static gboolean
note (BwBook *book, const BwStashTaking *taking, GError **error)
{
  const char *name = *taking->title ? taking->title : _ ("Untitled");
  JsonObject *element = bw_book_list_draft (book, &takings, -1, name);
  JsonArray *of = json_array_new ();

  json_object_set_string_member (element, "piece", taking->piece);
  bw_key_write_text (element, "date", taking->date);
  for (guint i = 0; i < taking->of->len; i++) {
    JsonObject *object = json_object_new ();

    bw_stash_write (&g_array_index (taking->of, BwStashItem, i), object);
    json_array_add_object_element (of, object);
  }
  json_object_set_array_member (element, "of", of);
  return bw_book_list_put (book, &takings, -1, element, error);
}

gboolean
bw_book_take (BwBook *book, const BwStashTaking *taking, GError **error)
{
  g_auto (BwStashTaking) really = *taking;

  really.of = g_array_new (FALSE, FALSE, sizeof (BwStashItem));
  if (!bw_book_put_back (book, taking->piece, error))
    return FALSE;
  for (guint i = 0; i < taking->of->len; i++) {
    BwStashItem item = g_array_index (taking->of, BwStashItem, i);

    if (!bw_stash_lessen (book, &item, error))
      return FALSE;
    if (item.amount > 0)
      g_array_append_val (really.of, item);
  }
  return really.of->len == 0 || note (book, &really, error);
}

gboolean
bw_book_put_back (BwBook *book, const char *piece, GError **error)
{
  int at = bw_book_find_taking (book, piece);
  g_auto (BwStashTaking) taking = { .of = NULL };

  if (at < 0)
    return TRUE;
  bw_book_get_taking (book, (guint)at, &taking);
  for (guint i = 0; i < taking.of->len; i++)
    if (!bw_stash_add (book, &g_array_index (taking.of, BwStashItem, i), error))
      return FALSE;
  bw_book_list_remove (book, &takings, (guint)at);
  return TRUE;
}

/* What the same piece took here stands; the other book's is another telling of it. */
gboolean
bw_book_take_in_takings (BwBook *book, const BwBook *other, GError **error)
{
  for (guint i = 0; i < bw_book_n_takings (other); i++) {
    g_auto (BwStashTaking) taking = { .of = NULL };

    bw_book_get_taking (other, i, &taking);
    if (bw_book_find_taking (book, taking.piece) < 0 && !note (book, &taking, error))
      return FALSE;
  }
  return TRUE;
}
