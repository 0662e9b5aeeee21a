/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-list.h"
#include "project/book/book-trays-private.h"
#include "project/book/book-trays.h"
#include "project/document/line.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* NULL with a fault. Owned. */
static BwTrayValue *
read_tray (JsonObject *element, const char *pointer, GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "tray");
  JsonNode *node = bw_take_required (element, pointer, "tray", error);
  g_autoptr (BwTrayValue) value = bw_tray_value_new ();

  return node && bw_read_tray (node, inner, value, error) ? g_steal_pointer (&value) : NULL;
}

static gboolean
check (JsonObject *element, const char *pointer, GError **error)
{
  g_autoptr (BwTrayValue) value = read_tray (element, pointer, error);

  return value != NULL;
}

static gboolean
is_same_colour (const BwColour *a, const BwColour *b)
{
  return a->id == b->id && a->srgb == b->srgb && a->finish == b->finish
         && g_str_equal (a->name, b->name) && g_str_equal (a->article, b->article)
         && !(a->in_hand_g < b->in_hand_g) && !(a->in_hand_g > b->in_hand_g);
}

static gboolean
is_same_tray (const BwTray *a, const BwTray *b)
{
  if (a->n_colours != b->n_colours)
    return FALSE;
  for (int i = 0; i < a->n_colours; i++)
    if (!is_same_colour (&a->colour[i], &b->colour[i]))
      return FALSE;
  return TRUE;
}

static gboolean
has_same_tray (JsonObject *a, JsonObject *b)
{
  g_autoptr (BwTrayValue) one = read_tray (a, "", NULL), other = read_tray (b, "", NULL);

  return is_same_tray (&one->tray, &other->tray);
}

static const BwBookList trays = { "trays", BW_BOOK_TRAYS_MAX, check, FALSE, has_same_tray };

gboolean
bw_book_check_trays (const BwBook *book, GError **error)
{
  return bw_book_list_check (book, &trays, error);
}

gboolean
bw_book_take_in_trays (BwBook *book, const BwBook *other, GError **error)
{
  return bw_book_list_take_in (book, &trays, other, error);
}

guint
bw_book_n_trays (const BwBook *book)
{
  return bw_book_list_length (book, &trays);
}

const char *
bw_book_tray_name (const BwBook *book, guint i)
{
  return bw_book_list_name (book, &trays, i);
}

int
bw_book_find_tray (const BwBook *book, const char *name)
{
  return bw_book_list_find (book, &trays, name);
}

void
bw_book_get_tray (const BwBook *book, guint i, BwKeptTray *tray)
{
  g_autoptr (BwTrayValue) value = read_tray (bw_book_list_at (book, &trays, i), "", NULL);

  g_return_if_fail (value != NULL);
  bw_copy_text (tray->name, sizeof tray->name, bw_book_tray_name (book, i));
  tray->tray = value->tray;
}

/* --- Changing ----------------------------------------------------------------------------------
 */

/* Where `before` still stands as it was; −1 with an error. */
static int
find_again (const BwBook *book, const BwKeptTray *before, GError **error)
{
  int at = bw_book_find_tray (book, before->name);
  g_autofree BwKeptTray *now = g_new0 (BwKeptTray, 1);

  if (at >= 0)
    bw_book_get_tray (book, (guint)at, now);
  if (at >= 0 && is_same_tray (&now->tray, &before->tray))
    return at;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("this tray was changed by another program meanwhile"));
  return -1;
}

static JsonObject *
draft (const BwBook *book, int at, const BwKeptTray *tray)
{
  JsonObject *element = bw_book_list_draft (book, &trays, at, tray->name);
  g_autoptr (BwTrayValue) value = bw_tray_value_new ();
  g_autoptr (BwTrayValue) old = at >= 0 ? read_tray (element, "", NULL) : NULL;

  value->tray = tray->tray;
  if (old)
    bw_tray_value_inherit (value, old);
  json_object_set_array_member (element, "tray", bw_write_tray (value));
  return element;
}

int
bw_book_find_same_tray (const BwBook *book, const BwKeptTray *tray)
{
  g_autoptr (JsonObject) element = draft (book, -1, tray);

  return bw_book_list_find_same (book, &trays, element);
}

gboolean
bw_book_change_tray (BwBook *book, const BwKeptTray *before, const BwKeptTray *tray, GError **error)
{
  int at = before ? find_again (book, before, error) : -1;

  if (before && at < 0)
    return FALSE;
  if (tray)
    return bw_book_list_put (book, &trays, at, draft (book, at, tray), error);
  bw_book_list_remove (book, &trays, (guint)at);
  return TRUE;
}
