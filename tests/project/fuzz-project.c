/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes at all: they are refused with one fault, or they are a project from which everything
 * can be computed and which reads back as it was written. How to run it stands in meson.build. */
#include "project/fault/fault-error.h"
#include "core/stone/section.h"
#include "project/json/json.h"
#include "project/project.h"
#include <math.h>
#include <string.h>

/* Enough for every path through the code; the largest bands would only make it slow. */
#define BEADS_MAX 20000

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);
size_t LLVMFuzzerCustomMutator (guint8 *data, gsize size, gsize max_size, unsigned seed);
size_t LLVMFuzzerMutate (guint8 *data, gsize size, gsize max_size);

static void
must (gboolean condition, const char *what)
{
  if (!condition)
    g_error ("%s", what);
}

/* Every error is a fault with a sentence, and its pointer is one. */
static void
check_fault (const GError *error)
{
  g_autofree char *pointer = NULL;

  must (error != NULL, "a refusal without a fault");
  must (error->domain == BW_FAULT, error->message);
  must (g_utf8_validate (error->message, -1, NULL), "a fault that is not UTF-8");
  pointer = bw_fault_dup_pointer (error);
  must (!pointer || *pointer == '/', "a pointer that is none");
}

static void
check_stone (BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);

  must (isfinite (stone->volume_mm3) && stone->volume_mm3 > 0, "a stone without a volume");
  must (stone->n_vertices <= BW_STONE_MAX_VERTICES, "too many vertices");
  for (int i = 0; i <= 8; i++) {
    BwSection section;

    bw_section_init (&section, stone, stone->length_mm * i / 8);
    must (isfinite (section.girth_mm) && section.girth_mm >= 0, "a section without a girth");
  }
}

static void
check_fit (BwProject *project)
{
  const BwFit *fit = bw_project_fit (project);
  const BwForecast *forecast = bw_project_forecast (project);

  must (isfinite (fit->gap_min_mm) && isfinite (fit->gap_max_mm), "a gap that is no number");
  must (forecast->recommended >= 3, "fewer than three beads around");
  must (fabs (forecast->p_total - 1) < 1e-6, "chances that do not add up");
  must (isfinite (bw_project_splay (project)->max_deg), "a splay that is no number");
}

static void
check_hang (BwProject *project)
{
  BwHangHeight heights[3];
  const BwHang *hang = bw_project_hang (project);
  int n = bw_hang_suggest (heights, bw_project_get_design (project), bw_project_stone (project));

  must (isfinite (hang->mass_g) && hang->mass_g > 0, "a piece without a mass");
  must (n == (hang->has_bail ? 3 : 0), "suggestions of the wrong number");
}

static void
check_materials (BwProject *project)
{
  const BwPath *path = bw_project_path (project);
  const BwMaterials *materials = bw_project_materials (project);

  must (path->visits->len > 0 && isfinite (path->length_mm), "a path without a length");
  must (materials->total_beads > 0 && isfinite (materials->cost.total), "no materials");
}

static void
check_remedies (BwProject *project)
{
  const GArray *remedies = bw_project_remedies (project);

  for (guint i = 0; i < remedies->len; i++)
    must (bw_design_validate (&g_array_index (remedies, BwRemedy, i).design, NULL, NULL),
          "a remedy that is not sound");
}

static void
check_text (BwProject *project)
{
  g_autoptr (BwProject) again = NULL;
  g_autofree char *text = NULL, *second = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  text = bw_project_to_data (project, &length);
  again = bw_project_load_data (text, length, &error);
  must (again != NULL, error ? error->message : "");
  second = bw_project_to_data (again, NULL);
  must (g_str_equal (text, second), "a file that changes when it is read and written");
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load_data ((const char *)data, size, &error);
  const BwDesign *design;

  if (!project) {
    check_fault (error);
    return 0;
  }
  design = bw_project_get_design (project);
  check_stone (project);
  check_text (project);
  if (design->band.rows * design->band.columns / 2 + bw_bail_bead_count (&design->bail) > BEADS_MAX)
    return 0;
  check_fit (project);
  must (bw_project_join (project)->broken != NULL, "a join without a list");
  must (bw_project_true_places (project)->rows == design->band.rows, "places of the wrong number");
  check_hang (project);
  check_materials (project);
  check_remedies (project);
  g_strfreev (bw_project_warnings (project, BW_UNIT_INCH));
  return 0;
}

/* Values at the edges of what a key may hold. */
static JsonNode *
odd_value (GRand *rand)
{
  static const char *const values[] = { "0",
                                        "1",
                                        "2",
                                        "3",
                                        "4",
                                        "6",
                                        "7",
                                        "8",
                                        "64",
                                        "200",
                                        "20000",
                                        "-1",
                                        "0.001",
                                        "1e-300",
                                        "1e300",
                                        "-1e9",
                                        "0.5",
                                        "89.999",
                                        "179.9",
                                        "1000",
                                        "99999",
                                        "true",
                                        "null",
                                        "\"\"",
                                        "\"a\"",
                                        "[]",
                                        "{}",
                                        "[1,2]",
                                        "\"girth\"",
                                        "\"face-widths\"",
                                        "\"across-flats\"",
                                        "\"point\"",
                                        "\"flat\"",
                                        "\"none\"",
                                        "\"flap\"",
                                        "\"upright\"",
                                        "\"ring\"",
                                        "\"#000000\"" };
  const char *value = values[g_rand_int_range (rand, 0, G_N_ELEMENTS (values))];

  return bw_json_parse (value, strlen (value), NULL);
}

static JsonNode *
new_value (JsonNode *old, GRand *rand)
{
  if (bw_json_is_number (old) && isfinite (bw_json_get_number (old))) {
    double number = bw_json_get_number (old);

    switch (g_rand_int_range (rand, 0, 4)) {
    case 0:
      return bw_json_number (number * g_rand_double_range (rand, 0, 2));
    case 1:
      return bw_json_number (number + g_rand_int_range (rand, -3, 4));
    case 2:
      return bw_json_number (number * pow (10, g_rand_int_range (rand, -3, 4)));
    default:
      break;
    }
  }
  return odd_value (rand);
}

static void mutate (JsonNode *node, GRand *rand);

static void
mutate_object (JsonObject *object, GRand *rand)
{
  g_autoptr (GList) keys = json_object_get_members (object);
  int n = (int)g_list_length (keys);
  const char *key = n > 0 ? g_list_nth_data (keys, (guint)g_rand_int_range (rand, 0, n)) : NULL;
  JsonNode *value = key ? json_object_get_member (object, key) : NULL;

  if (!key)
    return;
  if (JSON_NODE_HOLDS_OBJECT (value) || JSON_NODE_HOLDS_ARRAY (value)) {
    if (g_rand_int_range (rand, 0, 40) > 0)
      mutate (value, rand);
    else
      json_object_remove_member (object, key);
  } else if (g_rand_int_range (rand, 0, 8) == 0) {
    json_object_remove_member (object, key);
  } else {
    json_object_set_member (object, key, new_value (value, rand));
  }
}

static void
mutate_list (JsonNode *node, GRand *rand)
{
  JsonArray *old = json_node_get_array (node), *list = json_array_new ();
  int n = (int)json_array_get_length (old);
  int chosen = n > 0 ? g_rand_int_range (rand, 0, n) : 0, way = g_rand_int_range (rand, 0, 8);

  for (int i = 0; i < n; i++) {
    JsonNode *element = json_array_get_element (old, (guint)i);
    gboolean nested = JSON_NODE_HOLDS_OBJECT (element) || JSON_NODE_HOLDS_ARRAY (element);

    if (i == chosen && way == 0)
      continue;
    if (i == chosen && way > 1 && nested)
      mutate (element, rand);
    if (i == chosen && way == 1)
      json_array_add_element (list, json_node_copy (element));
    json_array_add_element (list, i == chosen && way > 1 && !nested ? new_value (element, rand)
                                                                    : json_node_copy (element));
  }
  json_node_take_array (node, list);
}

static void
mutate (JsonNode *node, GRand *rand)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    mutate_object (json_node_get_object (node), rand);
  else if (JSON_NODE_HOLDS_ARRAY (node))
    mutate_list (node, rand);
}

/* Mostly one value of a tree that is JSON already; else bytes, as the fuzzer sees fit. */
size_t
LLVMFuzzerCustomMutator (guint8 *data, gsize size, gsize max_size, unsigned seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (JsonNode) root
      = g_rand_int_range (rand, 0, 8) ? bw_json_parse ((const char *)data, size, NULL) : NULL;
  g_autofree char *text = NULL;
  gsize length;

  if (!root)
    return LLVMFuzzerMutate (data, size, max_size);
  for (int i = g_rand_int_range (rand, 1, 4); i > 0; i--)
    mutate (root, rand);
  text = bw_json_print (root, &length);
  if (length > max_size)
    return LLVMFuzzerMutate (data, size, max_size);
  memcpy (data, text, length);
  return length;
}
