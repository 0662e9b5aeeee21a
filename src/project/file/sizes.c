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
static gboolean
validate_size (const BwBead *bead, const char *pointer, GError **error)
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
      || !validate_size (&design.bead, pointer, error))
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

GArray *
bw_sizes_load (char **warning)
{
  static GOnce once = G_ONCE_INIT;
  const Loaded *loaded = g_once (&once, load_once, NULL);

  if (warning)
    *warning = g_strdup (loaded->warning);
  return g_array_copy (loaded->sizes);
}
