/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project is written twice, as it is and with the remedy taken, and what differs is listed: a
 * list kept by hand would forget a key some day. A file may leave out rows and height, which then
 * follow from the rest; where they would follow elsewhere they are told too. */
#include "output/report/remedy-keys.h"

#include "core/base/tolerance.h"
#include "core/band/fit.h"
#include <json-glib/json-glib.h>
#include <string.h>

static const char *
key_of (BwRemedyKind kind)
{
  static const char *const keys[] = {
    [BW_REMEDY_ROWS] = "/band/rows",      [BW_REMEDY_BED] = "/bed/cord_thickness_mm",
    [BW_REMEDY_LAYERS] = "/bed/layers",   [BW_REMEDY_GRADE] = "/bed/top_extra_mm",
    [BW_REMEDY_MOVE] = "/band/bottom_mm", [BW_REMEDY_BEAD] = "/bead/name",
  };
  return keys[kind];
}

/* Strip lengths measured with another bead say nothing about the new one. */
static gboolean
fit_progress (BwProject *project, const BwDesign *design, gboolean other_bead)
{
  int n_checks;
  const BwCheck *checks = bw_project_get_checks (project, &n_checks);
  int done = MIN (bw_project_get_rows_done (project), design->band.rows);
  g_autofree BwCheck *copy = g_memdup2 (checks, sizeof *checks * (gsize)n_checks);
  return bw_project_set_progress (project, "", done, copy, other_bead ? 0 : n_checks, NULL);
}

static JsonNode *
tree_of (BwProject *project)
{
  g_autofree char *data = bw_project_to_data (project, NULL);
  return json_from_string (data, NULL);
}

static JsonNode *
tree_with (BwProject *project, const BwDesign *design, gboolean other_bead)
{
  gsize length;
  g_autofree char *data = bw_project_to_data (project, &length);
  g_autoptr (BwProject) copy = bw_project_load_data (data, length, NULL);
  if (!copy || !fit_progress (copy, design, other_bead)
      || !bw_project_set_design (copy, "", design, NULL))
    return NULL;
  return tree_of (copy);
}

static void
answer_node (BwAnswer *json, const char *key, JsonNode *node)
{
  if (!node || JSON_NODE_HOLDS_NULL (node))
    bw_answer_null (json, key);
  else if (JSON_NODE_HOLDS_ARRAY (node)) {
    JsonArray *list = json_node_get_array (node);
    bw_answer_open_array (json, key);
    for (guint i = 0; i < json_array_get_length (list); i++)
      answer_node (json, NULL, json_array_get_element (list, i));
    bw_answer_close (json);
  } else if (json_node_get_value_type (node) == G_TYPE_STRING)
    bw_answer_string (json, key, json_node_get_string (node));
  else
    bw_answer_number (json, key, json_node_get_double (node));
}

/* Borrows node; NULL: to be left out. */
static void
answer_also (BwAnswer *json, const char *pointer, JsonNode *node)
{
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "key", pointer);
  answer_node (json, "value", node);
  bw_answer_close (json);
}

typedef struct {
  BwAnswer *json;
  const char *said;      /* the pointer that is told elsewhere; NULL: none */
  gboolean rows, bottom; /* told */
} Also;

static void
tell (Also *also, const char *pointer, JsonNode *node)
{
  if (g_strcmp0 (pointer, also->said) == 0)
    return;
  also->rows = also->rows || strcmp (pointer, "/band/rows") == 0;
  also->bottom = also->bottom || strcmp (pointer, "/band/bottom_mm") == 0;
  answer_also (also->json, pointer, node);
}

static void
tell_difference (Also *also, const char *pointer, JsonNode *was, JsonNode *is)
{
  if (is && JSON_NODE_HOLDS_OBJECT (is)) {
    /* Of an object that was not there every member is new. */
    g_autoptr (JsonObject) none = json_object_new ();
    JsonObject *to = json_node_get_object (is);
    JsonObject *from = was && JSON_NODE_HOLDS_OBJECT (was) ? json_node_get_object (was) : none;
    g_autoptr (GList) kept = json_object_get_members (to);
    g_autoptr (GList) before = json_object_get_members (from);
    for (GList *name = kept; name; name = name->next) {
      g_autofree char *inner = g_strdup_printf ("%s/%s", pointer, (const char *)name->data);
      tell_difference (also, inner, json_object_get_member (from, name->data),
                       json_object_get_member (to, name->data));
    }
    for (GList *name = before; name; name = name->next) {
      g_autofree char *inner = g_strdup_printf ("%s/%s", pointer, (const char *)name->data);
      if (!json_object_has_member (to, name->data))
        tell (also, inner, NULL);
    }
  } else if (!was || !json_node_equal (was, is))
    tell (also, pointer, is);
}

/* What a file leaves out follows from the measurements, not from a try-on. */
static int
rows_that_follow (const BwDesign *design, const BwStone *stone)
{
  BwDesign unread = *design;
  unread.tried = (BwBelief){ 0 };
  return 2 * bw_fit_recommended (&unread, stone);
}

/* What a file leaves out follows from the rest, and would follow the remedy. */
static void
tell_what_would_follow (Also *also, BwProject *project, const BwDesign *then)
{
  const BwDesign *now = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  if (!also->rows && g_strcmp0 (also->said, "/band/rows") != 0
      && now->band.rows == rows_that_follow (now, stone)
      && then->band.rows != rows_that_follow (then, stone)) {
    g_autoptr (JsonNode) rows = json_node_init_int (json_node_alloc (), then->band.rows);
    tell (also, "/band/rows", rows);
  }
  if (!also->bottom && g_strcmp0 (also->said, "/band/bottom_mm") != 0
      && bw_same_number (now->band.bottom_mm, bw_design_centred_bottom (now, stone))
      && !bw_same_number (then->band.bottom_mm, bw_design_centred_bottom (then, stone))) {
    g_autoptr (JsonNode) bottom = json_node_init_double (json_node_alloc (), then->band.bottom_mm);
    tell (also, "/band/bottom_mm", bottom);
  }
}

static void
answer_changes (BwAnswer *json, const char *key, BwProject *project, const BwDesign *then,
                gboolean other_bead, const char *said)
{
  g_autoptr (JsonNode) was = tree_of (project);
  g_autoptr (JsonNode) is = tree_with (project, then, other_bead);
  Also also = { .json = json, .said = said };
  bw_answer_open_array (json, key);
  if (was && is) {
    tell_difference (&also, "", was, is);
    tell_what_would_follow (&also, project, then);
  }
  bw_answer_close (json);
}

void
bw_answer_changes (BwAnswer *json, const char *key, BwProject *project, const BwDesign *then)
{
  gboolean same_bead = bw_bead_same_size (&bw_project_get_design (project)->bead, &then->bead);
  answer_changes (json, key, project, then, !same_bead, NULL);
}

void
bw_answer_remedy_keys (BwAnswer *json, BwProject *project, const BwRemedy *remedy)
{
  const char *key = key_of (remedy->kind);
  bw_answer_string (json, "key", key);
  answer_changes (json, "also", project, &remedy->design, remedy->kind == BW_REMEDY_BEAD,
                  remedy->kind == BW_REMEDY_BED ? NULL : key);
}
