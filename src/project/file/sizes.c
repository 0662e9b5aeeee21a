/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads differ from batch to batch, so a maker can write down the sizes of the drawer at hand. A
 * broken list must not stop anybody from working: it is reported, and the built-in sizes serve. */
#include "config.h"

#include "project/fault/fault-words.h"
#include "project/json/json.h"
#include "project/file/reader.h"
#include "project/file/sizes.h"
#include "project/file/take.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define SIZES_MAX 1000

static GArray *
built_in_sizes (void)
{
  GArray *sizes = g_array_new (FALSE, TRUE, sizeof (BwBead));
  int n;
  const BwBead *size = bw_bead_sizes (&n);

  return g_array_append_vals (sizes, size, (guint)n);
}

static void
put_size (GArray *sizes, const BwBead *bead)
{
  for (guint i = 0; i < sizes->len; i++)
    if (g_str_equal (g_array_index (sizes, BwBead, i).name, bead->name)) {
      g_array_index (sizes, BwBead, i) = *bead;
      return;
    }
  g_array_append_vals (sizes, bead, 1);
}

/* A fault of a bead lies at /bead/KEY; here the bead is an element of a list. */
gboolean
bw_size_validate (const BwBead *bead, const char *pointer, GError **error)
{
  g_autofree char *inner = NULL, *moved = NULL, *words = NULL;
  BwFault fault;

  if (bw_bead_validate (bead, &fault))
    return TRUE;
  inner = bw_fault_pointer (&fault);
  moved = g_strconcat (pointer, inner + strlen ("/bead"), NULL);
  words = bw_fault_words (&fault);
  bw_fault_set (error, bw_fault_code (&fault), moved, "%s", words);
  return FALSE;
}

static gboolean
read_size (JsonNode *node, const char *pointer, BwBead *bead, GError **error)
{
  JsonObject *object = bw_take_object (node, pointer, error);
  BwDesign design;

  bw_design_defaults (&design);
  if (!object || !bw_take_required (object, pointer, "name", error)
      || !bw_read_group (BW_GROUP_BEAD, object, pointer, &design, error)
      || !bw_size_validate (&design.bead, pointer, error))
    return FALSE;
  *bead = design.bead;
  return TRUE;
}

static gboolean
read_sizes (JsonNode *root, GArray *sizes, GError **error)
{
  JsonArray *list = bw_take_list (root, "", error);
  guint n = list ? json_array_get_length (list) : 0;

  if (n > SIZES_MAX)
    bw_fault_set (error, BW_FAULT_RANGE, "",
                  _ ("a list of length %u was found; at most %d can be kept."), n, SIZES_MAX);
  for (guint i = 0; list && i < n && n <= SIZES_MAX; i++) {
    g_autofree char *pointer = g_strdup_printf ("/%u", i);
    BwBead bead;

    if (!read_size (json_array_get_element (list, i), pointer, &bead, error))
      return FALSE;
    put_size (sizes, &bead);
  }
  return list && n <= SIZES_MAX;
}

static gboolean
read_file (const char *path, GArray *sizes, GError **error)
{
  g_autofree char *data = NULL;
  g_autoptr (JsonNode) root = NULL;
  gsize length;

  if (!g_file_get_contents (path, &data, &length, error))
    return FALSE;
  root = bw_json_parse (data, length, error);
  return root && read_sizes (root, sizes, error);
}

GArray *
bw_sizes_load_from (const char *path, char **warning)
{
  g_autoptr (GArray) sizes = built_in_sizes ();
  g_autoptr (GError) error = NULL;

  if (warning)
    *warning = NULL;
  if (!g_file_test (path, G_FILE_TEST_EXISTS) || read_file (path, sizes, &error))
    return g_steal_pointer (&sizes);
  if (warning) {
    g_autofree char *name = g_filename_display_name (path);

    *warning = g_strdup_printf (_ ("The list of bead sizes %s cannot be used: %s"), name,
                                error->message);
  }
  return built_in_sizes ();
}

typedef struct {
  GArray *sizes;
  char *warning;
} Loaded;

static gpointer
load_once (gpointer data)
{
  g_autofree char *path
      = g_build_filename (g_get_user_data_dir (), "bandwright", "bead-sizes.json", NULL);
  Loaded *loaded = g_new0 (Loaded, 1);

  loaded->sizes = bw_sizes_load_from (path, &loaded->warning);
  return loaded;
}

static GMutex own_lock;
static GArray *own_sizes; /* of BwBead; under the lock */

void
bw_sizes_set_own (const GArray *sizes)
{
  g_mutex_lock (&own_lock);
  g_clear_pointer (&own_sizes, g_array_unref);
  own_sizes = sizes ? g_array_copy ((GArray *)sizes) : NULL;
  g_mutex_unlock (&own_lock);
}

/* The same list with the maker's own ones in it. */
static void
put_own (GArray *sizes)
{
  g_autoptr (GHashTable) places = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = sizes->len;

  g_mutex_lock (&own_lock);
  /* Room first: the names looked for lie in the array. */
  g_array_set_size (sizes, n + (own_sizes ? own_sizes->len : 0));
  g_array_set_size (sizes, n);
  for (guint i = 0; i < n; i++)
    g_hash_table_insert (places, g_array_index (sizes, BwBead, i).name, GUINT_TO_POINTER (i + 1));
  for (guint i = 0; own_sizes && i < own_sizes->len; i++) {
    const BwBead *own = &g_array_index (own_sizes, BwBead, i);
    guint at = GPOINTER_TO_UINT (g_hash_table_lookup (places, own->name));

    if (at)
      g_array_index (sizes, BwBead, at - 1) = *own;
    else
      g_array_append_vals (sizes, own, 1);
  }
  g_mutex_unlock (&own_lock);
}

GArray *
bw_sizes_load (char **warning)
{
  static GOnce once = G_ONCE_INIT;
  const Loaded *loaded = g_once (&once, load_once, NULL);
  GArray *sizes = g_array_copy (loaded->sizes);

  if (warning)
    *warning = g_strdup (loaded->warning);
  put_own (sizes);
  return sizes;
}

static int
nearer (gconstpointer a, gconstpointer b, gpointer bead)
{
  const BwBead *one = *(const BwBead *const *)a, *other = *(const BwBead *const *)b, *now = bead;
  double to_one = hypot (one->diameter_mm - now->diameter_mm, one->length_mm - now->length_mm);
  double to_other
      = hypot (other->diameter_mm - now->diameter_mm, other->length_mm - now->length_mm);

  if (to_one < to_other || to_one > to_other)
    return to_one < to_other ? -1 : 1;
  return one > other ? -1 : 1; /* of one size the maker's own, which stand behind the others */
}

static gboolean
has_size (const GPtrArray *sizes, const BwBead *bead)
{
  for (guint i = 0; i < sizes->len; i++)
    if (bw_bead_same_size (g_ptr_array_index (sizes, i), bead))
      return TRUE;
  return FALSE;
}

/* Different sizes, the nearest first; borrowed from all. */
static GPtrArray *
nearest (const GArray *all, const BwBead *bead, guint most)
{
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  GPtrArray *near = g_ptr_array_new ();
  BwBead now = *bead;

  for (guint i = 0; i < all->len; i++)
    g_ptr_array_add (sorted, &g_array_index (all, BwBead, i));
  g_ptr_array_sort_with_data (sorted, nearer, &now);
  for (guint i = 0; i < sorted->len && near->len < most; i++)
    if (!has_size (near, g_ptr_array_index (sorted, i)))
      g_ptr_array_add (near, g_ptr_array_index (sorted, i));
  return near;
}

GArray *
bw_sizes_near (const BwBead *bead, guint most)
{
  g_autoptr (GArray) all = bw_sizes_load (NULL);
  g_autoptr (GPtrArray) near = nearest (all, bead, most);
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (BwBead));

  for (guint i = 0; i < all->len; i++)
    if (g_ptr_array_find (near, &g_array_index (all, BwBead, i), NULL))
      g_array_append_vals (sizes, &g_array_index (all, BwBead, i), 1);
  return sizes;
}
