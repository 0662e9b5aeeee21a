/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/base/tolerance.h"
#include "project/book/book-beads.h"
#include "project/book/book-habits-private.h"
#include "project/book/book-private.h"
#include "project/book/book-stash.h"
#include "project/book/book-stones.h"
#include "project/book/book-stones-private.h"
#include "project/book/book-trays.h"
#include "project/book/book-trays-private.h"
#include "project/book/book-things-private.h"
#include "project/fault/fault-error.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>

#define FORMAT "bandwright-book"
#define VERSION 1

static BwBook *
book_of_root (JsonNode *root)
{
  BwBook *self = g_new0 (BwBook, 1);

  self->root = root;
  self->pieces = g_array_new (FALSE, TRUE, sizeof (BwWoven));
  g_array_set_clear_func (self->pieces, (GDestroyNotify)bw_woven_clear);
  return self;
}

BwBook *
bw_book_new (void)
{
  JsonObject *object = json_object_new ();
  JsonNode *root = json_node_init_object (json_node_alloc (), object);

  json_object_set_string_member (object, "format", FORMAT);
  json_object_set_member (object, "version", bw_json_number (VERSION));
  json_object_set_array_member (object, "pieces", json_array_new ());
  json_object_unref (object);
  return book_of_root (root);
}

void
bw_book_free (BwBook *self)
{
  g_array_unref (self->pieces);
  json_node_unref (self->root);
  g_free (self);
}

static JsonObject *
root_object (const BwBook *self)
{
  return json_node_get_object (self->root);
}

static JsonArray *
piece_list (const BwBook *self)
{
  return json_object_get_array_member (root_object (self), "pieces");
}

/* First of all, so that another program's file is called that and nothing else. */
static gboolean
check_head (JsonObject *object, GError **error)
{
  static const char *const formats[] = { FORMAT, NULL };
  JsonNode *node = bw_take_required (object, "", "format", error);
  int index, version;

  if (!node || !bw_take_word (node, "/format", formats, &index, error)
      || !(node = bw_take_required (object, "", "version", error))
      || !bw_take_whole (node, "/version", 1, G_MAXINT, &version, error))
    return FALSE;
  if (version <= VERSION)
    return TRUE;
  bw_fault_set (error, BW_FAULT_VERSION, "/version",
                _ ("this book was written by a newer Bandwright (version %d of the format; this "
                   "program knows %d)."),
                version, VERSION);
  return FALSE;
}

static gboolean
check_length (guint n, GError **error)
{
  if (n <= BW_BOOK_PIECES_MAX)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/pieces",
                _ ("a list of length %u was found; at most %d can be kept."), n,
                BW_BOOK_PIECES_MAX);
  return FALSE;
}

static gboolean
read_pieces (BwBook *self, JsonObject *object, GError **error)
{
  JsonNode *node = json_object_get_member (object, "pieces");
  JsonArray *list = node ? bw_take_list (node, "/pieces", error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if (!node)
    json_object_set_array_member (object, "pieces", json_array_new ());
  if ((node && !list) || !check_length (n, error))
    return FALSE;
  g_array_set_size (self->pieces, n);
  for (guint i = 0; i < n; i++) {
    g_autofree char *pointer = g_strdup_printf ("/pieces/%u", i);

    if (!bw_woven_read (json_array_get_element (list, i), pointer,
                        &g_array_index (self->pieces, BwWoven, i), error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
read_things (const BwBook *self, GError **error)
{
  return bw_book_check_trays (self, error) && bw_book_check_stones (self, error)
         && bw_book_check_beads (self, error) && bw_book_check_stash (self, error)
         && bw_book_check_takings (self, error) && bw_book_check_habits (self, error);
}

BwBook *
bw_book_from_data (const char *data, gsize length, GError **error)
{
  g_autoptr (JsonNode) root = bw_json_parse_up_to (data, length, BW_BOOK_VALUES_MAX, error);
  JsonObject *object = root ? bw_take_object (root, "", error) : NULL;
  g_autoptr (BwBook) self = NULL;

  if (!object || !check_head (object, error))
    return NULL;
  self = book_of_root (g_steal_pointer (&root));
  return read_pieces (self, object, error) && read_things (self, error) ? g_steal_pointer (&self)
                                                                        : NULL;
}

char *
bw_book_to_data (const BwBook *self, gsize *length)
{
  return bw_json_print (self->root, length);
}

guint
bw_book_n_pieces (const BwBook *self)
{
  return self->pieces->len;
}

guint
bw_book_n_entries (const BwBook *self)
{
  return self->pieces->len + bw_book_n_beads (self) + bw_book_n_trays (self)
         + bw_book_n_stones (self) + bw_book_n_stash (self);
}

const BwWoven *
bw_book_get_piece (const BwBook *self, guint i)
{
  g_return_val_if_fail (i < self->pieces->len, NULL);
  return &g_array_index (self->pieces, BwWoven, i);
}

int
bw_book_find_piece (const BwBook *self, const char *id)
{
  for (guint i = 0; *id && i < self->pieces->len; i++)
    if (g_str_equal (g_array_index (self->pieces, BwWoven, i).id, id))
      return (int)i;
  return -1;
}

/* At the end when at is the number of pieces. */
static gboolean
put_at (BwBook *self, guint at, const BwWoven *piece, GError **error)
{
  g_autofree char *pointer = g_strdup_printf ("/pieces/%u", at);

  if (!bw_woven_validate (piece, pointer, error) || !check_length (at + 1, error))
    return FALSE;
  if (at == self->pieces->len) {
    json_array_add_object_element (piece_list (self), json_object_new ());
    g_array_set_size (self->pieces, at + 1);
  }
  bw_woven_write (piece, json_array_get_object_element (piece_list (self), at));
  BwWoven *place = &g_array_index (self->pieces, BwWoven, at);
  bw_woven_clear (place);
  *place = bw_woven_copy (piece);
  return TRUE;
}

gboolean
bw_book_put_piece (BwBook *self, const BwWoven *piece, GError **error)
{
  int found = bw_book_find_piece (self, piece->id);

  return put_at (self, found >= 0 ? (guint)found : self->pieces->len, piece, error);
}

static gboolean
is_same_check (const BwWoven *a, const BwWoven *b, guint i)
{
  BwCheck one = g_array_index (a->checks, BwCheck, i),
          other = g_array_index (b->checks, BwCheck, i);

  return one.rows == other.rows && !(one.length_mm < other.length_mm)
         && !(one.length_mm > other.length_mm);
}

static gboolean
is_same_give (const BwWoven *a, const BwWoven *b)
{
  return a->has_stretch == b->has_stretch && a->has_squeeze == b->has_squeeze
         && (!a->has_stretch || bw_same_number (a->stretch.pulled_mm, b->stretch.pulled_mm))
         && (!a->has_squeeze || bw_same_number (a->squeeze.pulled_mm, b->squeeze.pulled_mm));
}

/* Word for word, as far as it tells one entry from another. */
static gboolean
says_the_same (const BwWoven *a, const BwWoven *b)
{
  guint n = a->checks ? a->checks->len : 0;

  if (!g_str_equal (a->id, b->id) || !g_str_equal (a->bead, b->bead)
      || !g_str_equal (a->date, b->date) || a->has_swatch != b->has_swatch
      || (a->has_swatch && a->swatch.rows != b->swatch.rows)
      || n != (b->checks ? b->checks->len : 0) || !is_same_give (a, b))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!is_same_check (a, b, i))
      return FALSE;
  return TRUE;
}

gboolean
bw_book_mend_piece (BwBook *self, guint at, const BwWoven *before, const BwWoven *piece,
                    GError **error)
{
  int found = bw_book_find_piece (self, before->id);

  if (found < 0 && at < self->pieces->len && says_the_same (bw_book_get_piece (self, at), before))
    found = (int)at;
  if (found >= 0)
    return put_at (self, (guint)found, piece, error);
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("this entry was changed by another program meanwhile"));
  return FALSE;
}

static gboolean
has_piece (const BwBook *self, const BwWoven *piece)
{
  for (guint i = 0; i < self->pieces->len; i++)
    if (says_the_same (bw_book_get_piece (self, i), piece))
      return TRUE;
  return FALSE;
}

gboolean
bw_book_take_in (BwBook *self, const BwBook *other, GError **error)
{
  guint before = self->pieces->len;

  if (!check_length (before + other->pieces->len, error))
    return FALSE;
  bw_book_take_in_habits (self, other);
  for (guint i = 0; i < other->pieces->len; i++) {
    const BwWoven *piece = bw_book_get_piece (other, i);

    if ((*piece->id || !has_piece (self, piece)) && !bw_book_put_piece (self, piece, error))
      return FALSE;
  }
  return bw_book_take_in_trays (self, other, error) && bw_book_take_in_stones (self, other, error)
         && bw_book_take_in_beads (self, other, error) && bw_book_take_in_stash (self, other, error)
         && bw_book_take_in_takings (self, other, error);
}
