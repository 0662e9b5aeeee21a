/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-list.h"
#include "project/book/book-private.h"
#include "project/book/book-stones-private.h"
#include "project/book/book-stones.h"
#include "project/fault/fault-words.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const states[] = { "waiting", "in-design", "set", NULL }; /* as BwStoneState */

/* --- Reading -----------------------------------------------------------------------------------
 */

static gboolean
read_text (JsonObject *element, const char *pointer, const char *key, char *buffer, gsize bytes,
           GError **error)
{
  JsonNode *node = json_object_get_member (element, key);
  g_autofree char *inner = bw_json_pointer (pointer, key);

  return !node
         || (bw_take_short_text (node, inner, buffer, bytes, error)
             && bw_line_check (buffer, inner, error));
}

static gboolean
read_state (JsonObject *element, const char *pointer, BwStoneState *state, GError **error)
{
  JsonNode *node = json_object_get_member (element, "state");
  g_autofree char *inner = bw_json_pointer (pointer, "state");
  int index = BW_STONE_WAITING;

  if (node && !bw_take_word (node, inner, states, &index, error))
    return FALSE;
  *state = (BwStoneState)index;
  return TRUE;
}

/* A fault of the core at /stone/…, told where this stone stands. */
static gboolean
check_stone (const BwDesign *design, const char *pointer, GError **error)
{
  g_autofree char *inner = NULL, *at = NULL, *words = NULL;
  BwFault fault;

  if (bw_stone_measures_validate (&design->stone, &fault)
      && bw_stone_look_validate (&design->look, &fault))
    return TRUE;
  inner = bw_fault_pointer (&fault);
  at = g_strconcat (pointer, inner, NULL);
  words = bw_fault_words (&fault);
  bw_fault_set (error, bw_fault_code (&fault), at, "%s", words);
  return FALSE;
}

static gboolean
read_measures (JsonObject *element, const char *pointer, BwKeptStone *stone, GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "stone");
  JsonNode *node = bw_take_required (element, pointer, "stone", error);
  JsonObject *object = node ? bw_take_object (node, inner, error) : NULL;
  const char *mineral = "";
  BwDesign design;

  bw_design_defaults (&design);
  if (!object || !bw_read_stone (object, inner, &design, &mineral, error)
      || !bw_read_look (object, inner, &design, error) || !check_stone (&design, pointer, error))
    return FALSE;
  bw_copy_text (stone->mineral, sizeof stone->mineral, mineral);
  stone->measures = design.stone;
  stone->look = design.look;
  return TRUE;
}

static gboolean
read_stone (JsonObject *element, const char *pointer, BwKeptStone *stone, GError **error)
{
  *stone = (BwKeptStone){ 0 };
  return read_text (element, pointer, "name", stone->name, sizeof stone->name, error)
         && read_text (element, pointer, "date", stone->date, sizeof stone->date, error)
         && (!*stone->date || bw_date_validate (stone->date, pointer, error))
         && read_text (element, pointer, "picture", stone->picture, sizeof stone->picture, error)
         && read_state (element, pointer, &stone->state, error)
         && read_measures (element, pointer, stone, error);
}

static gboolean
check (JsonObject *element, const char *pointer, GError **error)
{
  BwKeptStone stone;

  return read_stone (element, pointer, &stone, error);
}

static gboolean
has_same_measures (const BwKeptStone *a, const BwKeptStone *b)
{
  BwDesign one, other;

  bw_design_defaults (&one);
  other = one;
  one.stone = a->measures;
  other.stone = b->measures;
  return g_str_equal (a->mineral, b->mineral) && bw_design_difference (&one, &other) == 0;
}

static gboolean
is_as_it_was (const BwKeptStone *now, const BwKeptStone *before)
{
  return now->state == before->state && g_str_equal (now->date, before->date)
         && g_str_equal (now->picture, before->picture) && has_same_measures (now, before)
         && bw_stone_look_equal (&now->look, &before->look);
}

/* A stone is what was measured, whatever has become of it meanwhile. */
static gboolean
has_same_stone (JsonObject *a, JsonObject *b)
{
  BwKeptStone one, other;

  read_stone (a, "", &one, NULL);
  read_stone (b, "", &other, NULL);
  return has_same_measures (&one, &other);
}

static void learn_look (BwBook *book, guint at, JsonObject *theirs);

static const BwBookList stones
    = { "stones", BW_BOOK_STONES_MAX, check, FALSE, has_same_stone, learn_look };

gboolean
bw_book_check_stones (const BwBook *book, GError **error)
{
  return bw_book_list_check (book, &stones, error);
}

gboolean
bw_book_take_in_stones (BwBook *book, const BwBook *other, GError **error)
{
  return bw_book_list_take_in (book, &stones, other, error);
}

guint
bw_book_n_stones (const BwBook *book)
{
  return bw_book_list_length (book, &stones);
}

const char *
bw_book_stone_name (const BwBook *book, guint i)
{
  return bw_book_list_name (book, &stones, i);
}

int
bw_book_find_stone (const BwBook *book, const char *name)
{
  return bw_book_list_find (book, &stones, name);
}

void
bw_book_get_stone (const BwBook *book, guint i, BwKeptStone *stone)
{
  read_stone (bw_book_list_at (book, &stones, i), "", stone, NULL);
}

/* --- Changing ----------------------------------------------------------------------------------
 */

/* Where `before` still stands as it was; −1 with an error. */
static int
find_again (const BwBook *book, const BwKeptStone *before, GError **error)
{
  int at = bw_book_find_stone (book, before->name);
  BwKeptStone now;

  if (at >= 0)
    bw_book_get_stone (book, (guint)at, &now);
  if (at >= 0 && is_as_it_was (&now, before))
    return at;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("this stone was changed by another program meanwhile"));
  return -1;
}

static void
write_text (JsonObject *object, const char *key, const char *text)
{
  if (*text)
    json_object_set_string_member (object, key, text);
  else if (json_object_has_member (object, key))
    json_object_remove_member (object, key);
}

/* What is not known of a group that stands in an object, apart from the keys of the group and two
 * more. Owned; empty where there is none. */
static JsonObject *
unknown_of (JsonObject *outer, BwGroupId id, const char *more, const char *and_more)
{
  const BwKeyGroup *group = bw_key_group (id);
  g_autoptr (GPtrArray) known = g_ptr_array_new ();
  JsonObject *unknown = NULL;

  for (int i = 0; i < group->n_keys; i++)
    g_ptr_array_add (known, (gpointer)group->keys[i].name);
  g_ptr_array_add (known, (gpointer)more);
  g_ptr_array_add (known, (gpointer)and_more);
  g_ptr_array_add (known, NULL);
  if (outer && json_object_has_member (outer, group->name))
    unknown = bw_take_unknown (json_object_get_object_member (outer, group->name),
                               (const char *const *)known->pdata);
  return unknown ? unknown : json_object_new ();
}

static gboolean
says_something (const BwStoneLook *look)
{
  return !bw_stone_look_is_quiet (look) || look->seed != 0;
}

/* As a project has it: a quiet look is not written, unless something is not known of it. */
static void
write_look (JsonObject *object, JsonObject *old, const BwDesign *design)
{
  JsonObject *written = unknown_of (old, BW_GROUP_LOOK, NULL, NULL);

  if (!says_something (&design->look) && json_object_get_size (written) == 0) {
    json_object_unref (written);
    return;
  }
  bw_write_group (written, design, BW_GROUP_LOOK);
  json_object_set_object_member (object, bw_key_group (BW_GROUP_LOOK)->name, written);
}

/* What is not known of the old one, and what is new. */
static JsonObject *
stone_of (JsonObject *element, const BwKeptStone *stone)
{
  const char *look = bw_key_group (BW_GROUP_LOOK)->name;
  JsonObject *object = unknown_of (element, BW_GROUP_STONE, "mineral", look);
  JsonObject *old = json_object_has_member (element, "stone")
                        ? json_object_get_object_member (element, "stone")
                        : NULL;
  BwDesign design;

  bw_design_defaults (&design);
  design.stone = stone->measures;
  design.look = stone->look;
  write_text (object, "mineral", stone->mineral);
  bw_write_group (object, &design, BW_GROUP_STONE);
  write_look (object, old, &design);
  return object;
}

static JsonObject *
draft (const BwBook *book, int at, const BwKeptStone *stone)
{
  JsonObject *element = bw_book_list_draft (book, &stones, at, stone->name);

  write_text (element, "date", stone->date);
  write_text (element, "picture", stone->picture);
  json_object_set_string_member (element, "state", states[stone->state]);
  json_object_set_object_member (element, "stone", stone_of (element, stone));
  return element;
}

/* Where nothing was said here of what the stone looks like, what they say holds. */
static void
learn_look (BwBook *book, guint at, JsonObject *theirs)
{
  BwKeptStone ours, other;

  bw_book_get_stone (book, at, &ours);
  read_stone (theirs, "", &other, NULL);
  if (says_something (&ours.look) || !says_something (&other.look))
    return;
  ours.look = other.look;
  bw_book_list_put (book, &stones, (int)at, draft (book, (int)at, &ours), NULL);
}

int
bw_book_find_same_stone (const BwBook *book, const BwKeptStone *stone)
{
  g_autoptr (JsonObject) element = draft (book, -1, stone);

  return bw_book_list_find_same (book, &stones, element);
}

gboolean
bw_book_change_stone (BwBook *book, const BwKeptStone *before, const BwKeptStone *stone,
                      GError **error)
{
  int at = before ? find_again (book, before, error) : -1;

  if (before && at < 0)
    return FALSE;
  if (stone)
    return bw_book_list_put (book, &stones, at, draft (book, at, stone), error);
  bw_book_list_remove (book, &stones, (guint)at);
  return TRUE;
}

void
bw_book_copy_stone (BwBook *to, const BwBook *from, guint i)
{
  bw_book_list_put (to, &stones, -1,
                    bw_book_list_draft (from, &stones, (int)i, bw_book_stone_name (from, i)), NULL);
}
