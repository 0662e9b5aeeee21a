/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-list.h"
#include "project/book/book-private.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static JsonObject *
root_object (const BwBook *book)
{
  return json_node_get_object (book->root);
}

static JsonArray *
array_of (const BwBook *book, const BwBookList *list)
{
  return json_object_has_member (root_object (book), list->key)
             ? json_object_get_array_member (root_object (book), list->key)
             : NULL;
}

/* --- Reading -----------------------------------------------------------------------------------
 */

static gboolean
check_name (JsonObject *element, const char *pointer, GError **error)
{
  char name[BW_KEPT_NAME_BYTES];
  g_autofree char *inner = bw_json_pointer (pointer, "name");
  JsonNode *node = bw_take_required (element, pointer, "name", error);

  if (!node || !bw_take_short_text (node, inner, name, sizeof name, error)
      || !bw_line_check (name, inner, error))
    return FALSE;
  if (*g_strchug (name))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, inner, _ ("a name is needed."));
  return FALSE;
}

static gboolean
check_element (const BwBookList *list, JsonObject *element, const char *pointer, GError **error)
{
  return check_name (element, pointer, error) && list->check (element, pointer, error);
}

static gboolean
check_length (const BwBookList *list, guint n, GError **error)
{
  g_autofree char *pointer = bw_json_pointer ("", list->key);

  if (n <= list->most)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("a list of length %u was found; at most %u can be kept."), n, list->most);
  return FALSE;
}

static gboolean
refuse_name (const BwBookList *list, guint at, const char *name, GError **error)
{
  g_autofree char *pointer = g_strdup_printf ("/%s/%u/name", list->key, at);

  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("“%s” is the name of another one."), name);
  return FALSE;
}

static gboolean
check_all (const BwBookList *list, JsonArray *array, GError **error)
{
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < json_array_get_length (array); i++) {
    g_autofree char *pointer = g_strdup_printf ("/%s/%u", list->key, i);
    JsonObject *element = bw_take_object (json_array_get_element (array, i), pointer, error);
    const char *name;

    if (!element || !check_element (list, element, pointer, error))
      return FALSE;
    name = json_object_get_string_member (element, "name");
    if (!g_hash_table_add (names, (gpointer)name) && !list->names_repeat)
      return refuse_name (list, i, name, error);
  }
  return TRUE;
}

gboolean
bw_book_list_check (const BwBook *book, const BwBookList *list, GError **error)
{
  JsonNode *node = json_object_get_member (root_object (book), list->key);
  g_autofree char *pointer = bw_json_pointer ("", list->key);
  JsonArray *array = node ? bw_take_list (node, pointer, error) : NULL;

  if (!node)
    return TRUE;
  return array && check_length (list, json_array_get_length (array), error)
         && check_all (list, array, error);
}

guint
bw_book_list_length (const BwBook *book, const BwBookList *list)
{
  JsonArray *array = array_of (book, list);

  return array ? json_array_get_length (array) : 0;
}

JsonObject *
bw_book_list_at (const BwBook *book, const BwBookList *list, guint i)
{
  g_return_val_if_fail (i < bw_book_list_length (book, list), NULL);
  return json_array_get_object_element (array_of (book, list), i);
}

const char *
bw_book_list_name (const BwBook *book, const BwBookList *list, guint i)
{
  return json_object_get_string_member (bw_book_list_at (book, list, i), "name");
}

int
bw_book_list_find (const BwBook *book, const BwBookList *list, const char *name)
{
  guint n = bw_book_list_length (book, list);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (bw_book_list_name (book, list, i), name))
      return (int)i;
  return -1;
}

/* --- Changing ----------------------------------------------------------------------------------
 */

static void
add_members (JsonObject *to, JsonObject *from)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  json_object_iter_init_ordered (&iter, from);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    json_object_set_member (to, key, json_node_copy (value));
}

/* Values inside are shared: they are replaced and never written into. */
static JsonObject *
copy_of (JsonObject *element)
{
  JsonObject *object = json_object_new ();

  add_members (object, element);
  return object;
}

JsonObject *
bw_book_list_draft (const BwBook *book, const BwBookList *list, int at, const char *name)
{
  JsonObject *element
      = at >= 0 ? copy_of (bw_book_list_at (book, list, (guint)at)) : json_object_new ();

  json_object_set_string_member (element, "name", name);
  return element;
}

static JsonArray *
array_made (BwBook *book, const BwBookList *list)
{
  if (!array_of (book, list))
    json_object_set_array_member (root_object (book), list->key, json_array_new ());
  return array_of (book, list);
}

static gboolean
is_free (const BwBook *book, const BwBookList *list, int at, const char *name, GError **error)
{
  int found = bw_book_list_find (book, list, name);

  return found < 0 || found == at || list->names_repeat
         || refuse_name (list, at >= 0 ? (guint)at : bw_book_list_length (book, list), name, error);
}

/* The object stays where it is in its array. */
static void
overwrite (JsonObject *to, JsonObject *from)
{
  g_autoptr (GList) members = json_object_get_members (to);
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);

  for (GList *item = members; item; item = item->next)
    g_ptr_array_add (keys, g_strdup (item->data));
  for (guint i = 0; i < keys->len; i++)
    json_object_remove_member (to, g_ptr_array_index (keys, i));
  add_members (to, from);
}

gboolean
bw_book_list_put (BwBook *book, const BwBookList *list, int at, JsonObject *element, GError **error)
{
  g_autoptr (JsonObject) taken = element;
  guint n = bw_book_list_length (book, list);
  g_autofree char *pointer = g_strdup_printf ("/%s/%u", list->key, at >= 0 ? (guint)at : n);

  if (!check_element (list, taken, pointer, error)
      || !is_free (book, list, at, json_object_get_string_member (taken, "name"), error)
      || !check_length (list, at >= 0 ? n : n + 1, error))
    return FALSE;
  if (at >= 0)
    overwrite (bw_book_list_at (book, list, (guint)at), taken);
  else
    json_array_add_object_element (array_made (book, list), g_steal_pointer (&taken));
  return TRUE;
}

void
bw_book_list_remove (BwBook *book, const BwBookList *list, guint at)
{
  g_return_if_fail (at < bw_book_list_length (book, list));
  json_array_remove_element (array_of (book, list), at);
}

/* --- Another book's ----------------------------------------------------------------------------
 */

/* Name → place + 1 of all there are. */
static GHashTable *
by_name (const BwBook *book, const BwBookList *list)
{
  GHashTable *table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = bw_book_list_length (book, list);

  for (guint i = 0; i < n; i++)
    g_hash_table_insert (table, g_strdup (bw_book_list_name (book, list, i)),
                         GUINT_TO_POINTER (i + 1));
  return table;
}

/* The i-th of the names that are tried where one is another's: the name itself, then "NAME 2" and
 * so on. Owned; cut so that the number fits. */
static char *
numbered (const char *name, int i)
{
  char cut[BW_KEPT_NAME_BYTES - 8];

  bw_copy_text (cut, sizeof cut, name);
  return i < 2 ? g_strdup (name) : g_strdup_printf ("%s %d", cut, i);
}

/* The first of these names that none has, owned; NULL where one of those before it has the same
 * thing, whose place then is told. */
static char *
find_room (const BwBook *book, const BwBookList *list, GHashTable *names, JsonObject *element,
           guint *at)
{
  for (int i = 1;; i++) {
    g_autofree char *name = numbered (json_object_get_string_member (element, "name"), i);
    guint found = GPOINTER_TO_UINT (g_hash_table_lookup (names, name));

    if (found == 0)
      return g_steal_pointer (&name);
    *at = found - 1;
    if (list->is_same (bw_book_list_at (book, list, *at), element))
      return NULL;
  }
}

int
bw_book_list_find_same (const BwBook *book, const BwBookList *list, JsonObject *element)
{
  g_autoptr (GHashTable) names = by_name (book, list);
  guint at = 0;
  g_autofree char *room = find_room (book, list, names, element, &at);

  return room ? -1 : (int)at;
}

static void
take_one (BwBook *book, const BwBookList *list, GHashTable *names, JsonObject *theirs)
{
  guint at;
  char *name = find_room (book, list, names, theirs, &at);
  JsonObject *element;

  if (!name) {
    if (list->learn)
      list->learn (book, at, theirs);
    return;
  }
  element = copy_of (theirs);
  json_object_set_string_member (element, "name", name);
  json_array_add_object_element (array_of (book, list), element);
  g_hash_table_insert (names, name, GUINT_TO_POINTER (bw_book_list_length (book, list)));
}

gboolean
bw_book_list_take_in (BwBook *book, const BwBookList *list, const BwBook *other, GError **error)
{
  g_autoptr (GHashTable) names = by_name (book, list);
  guint n = bw_book_list_length (other, list);

  if (!check_length (list, bw_book_list_length (book, list) + n, error))
    return FALSE;
  array_made (book, list); /* told as empty where it is */
  for (guint i = 0; i < n; i++)
    take_one (book, list, names, bw_book_list_at (other, list, i));
  return TRUE;
}
