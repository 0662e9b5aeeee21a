/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-keys.h"
#include "project/book/book-private.h"
#include "project/fault/fault-error.h"
#include "project/file/done-json.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>

static gboolean
read_whole (JsonObject *object, const char *pointer, const char *key, int *number, GError **error)
{
  JsonNode *node = bw_take_required (object, pointer, key, error);
  g_autofree char *inner = bw_json_pointer (pointer, key);

  return node && bw_take_whole (node, inner, 1, BW_ROWS_MAX, number, error);
}

static gboolean
read_left_out (JsonObject *object, const char *pointer, gboolean *left_out, GError **error)
{
  JsonNode *node = json_object_get_member (object, "left_out");
  g_autofree char *inner = bw_json_pointer (pointer, "left_out"), *found = NULL;

  if (!node)
    return TRUE;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN) {
    *left_out = json_node_get_boolean (node);
    return TRUE;
  }
  found = bw_take_describe (node);
  bw_fault_set (error, BW_FAULT_TYPE, inner, _ ("%s was found; true or false is needed."), found);
  return FALSE;
}

/* The keys are those of the project's swatch, and so is how they are read. */
static gboolean
read_swatch (JsonObject *object, const char *pointer, BwWoven *piece, GError **error)
{
  JsonNode *node = json_object_get_member (object, "swatch");
  g_autofree char *inner = bw_json_pointer (pointer, "swatch");
  JsonObject *swatch = node ? bw_take_object (node, inner, error) : NULL;
  BwDesign design;

  if (!node)
    return TRUE;
  bw_design_defaults (&design);
  if (!swatch || !bw_read_group (BW_GROUP_SWATCH, swatch, inner, &design, error))
    return FALSE;
  piece->has_swatch = TRUE;
  piece->swatch = design.gauge.swatch;
  return TRUE;
}

/* A reading of thread or cord: its size, and the keys of the project's own. */
static gboolean
read_pulled (JsonObject *object, const char *pointer, const char *key, BwGroupId id,
             const char *size_key, double *size_mm, BwDesign *design, GError **error)
{
  JsonNode *node = json_object_get_member (object, key);
  g_autofree char *inner = bw_json_pointer (pointer, key);
  JsonObject *pulled = bw_take_object (node, inner, error);

  return pulled && bw_key_need_number (pulled, inner, size_key, size_mm, error)
         && bw_read_group (id, pulled, inner, design, error);
}

static gboolean
read_gives (JsonObject *object, const char *pointer, BwWoven *piece, GError **error)
{
  BwDesign design;

  bw_design_defaults (&design);
  piece->has_stretch = json_object_has_member (object, "stretch");
  piece->has_squeeze = json_object_has_member (object, "squeeze");
  if ((piece->has_stretch
       && !read_pulled (object, pointer, "stretch", BW_GROUP_THREAD_PULLED, "thread_mm",
                        &piece->thread_mm, &design, error))
      || (piece->has_squeeze
          && !read_pulled (object, pointer, "squeeze", BW_GROUP_BED_PULLED, "cord_width_mm",
                           &piece->cord_width_mm, &design, error)))
    return FALSE;
  piece->stretch = design.thread.pulled;
  piece->squeeze = design.bed.pulled;
  return TRUE;
}

static gboolean
read_check (JsonNode *node, const char *pointer, GArray *checks, GError **error)
{
  JsonObject *object = bw_take_object (node, pointer, error);
  BwCheck check;

  if (!object || !read_whole (object, pointer, "rows", &check.rows, error)
      || !bw_key_need_number (object, pointer, "length_mm", &check.length_mm, error))
    return FALSE;
  g_array_append_val (checks, check);
  return TRUE;
}

static gboolean
read_checks (JsonObject *object, const char *pointer, BwWoven *piece, GError **error)
{
  JsonNode *node = json_object_get_member (object, "checks");
  g_autofree char *inner = bw_json_pointer (pointer, "checks");
  JsonArray *list = node ? bw_take_list (node, inner, error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if (!node)
    return TRUE;
  if (!list)
    return FALSE;
  if (n > BW_CHECKS_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, inner,
                  _ ("a list of length %u was found; at most %d can be kept."), n, BW_CHECKS_MAX);
    return FALSE;
  }
  piece->checks = g_array_new (FALSE, FALSE, sizeof (BwCheck));
  for (guint i = 0; i < n; i++) {
    g_autofree char *at = g_strdup_printf ("%s/%u", inner, i);

    if (!read_check (json_array_get_element (list, i), at, piece->checks, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
read_end (JsonObject *object, const char *pointer, BwWoven *piece, GError **error)
{
  JsonNode *node = json_object_get_member (object, "finished");
  g_autofree char *inner = bw_json_pointer (pointer, "finished");
  JsonObject *end = node ? bw_take_object (node, inner, error) : NULL;

  if (!node)
    return TRUE;
  piece->has_end = TRUE;
  return end && read_whole (end, inner, "rows", &piece->end.rows, error)
         && (!json_object_has_member (end, "columns")
             || read_whole (end, inner, "columns", &piece->end.columns, error))
         && bw_key_need_number (end, inner, "closing_pitch_mm", &piece->end.closing_pitch_mm, error)
         && bw_key_need_number (end, inner, "girth_sd_mm", &piece->end.girth_sd_mm, error)
         && (!json_object_has_member (end, "cost")
             || bw_key_need_number (end, inner, "cost", &piece->end.cost, error))
         && bw_key_read_text (end, inner, "currency", piece->end.currency,
                              sizeof piece->end.currency, error)
         && bw_read_done (end, inner, &piece->end.done, error);
}

gboolean
bw_woven_read (JsonNode *node, const char *pointer, BwWoven *piece, GError **error)
{
  JsonObject *object = bw_take_object (node, pointer, error);

  *piece = (BwWoven){ 0 };
  return object
         && bw_key_read_text (object, pointer, "title", piece->title, sizeof piece->title, error)
         && bw_key_read_text (object, pointer, "id", piece->id, sizeof piece->id, error)
         && bw_key_read_text (object, pointer, "bead", piece->bead, sizeof piece->bead, error)
         && bw_key_read_text (object, pointer, "thread", piece->thread, sizeof piece->thread, error)
         && bw_key_need_number (object, pointer, "diameter_mm", &piece->diameter_mm, error)
         && bw_take_required (object, pointer, "date", error)
         && bw_key_read_text (object, pointer, "date", piece->date, sizeof piece->date, error)
         && read_left_out (object, pointer, &piece->left_out, error)
         && read_swatch (object, pointer, piece, error)
         && read_checks (object, pointer, piece, error)
         && read_gives (object, pointer, piece, error) && read_end (object, pointer, piece, error)
         && bw_woven_validate (piece, pointer, error);
}

/* The object under a key, a new one when there is none. Borrowed. */
static JsonObject *
inner_object (JsonObject *object, const char *key)
{
  if (!json_object_has_member (object, key))
    json_object_set_object_member (object, key, json_object_new ());
  return json_object_get_object_member (object, key);
}

static void
write_swatch (const BwSwatch *swatch, JsonObject *object)
{
  bw_key_write_number (object, "columns", swatch->columns);
  bw_key_write_number (object, "width_mm", swatch->width_mm);
  bw_key_write_number (object, "rows", swatch->rows);
  bw_key_write_number (object, "length_mm", swatch->length_mm);
  json_object_set_string_member (object, "tool", bw_strip_tool_words[swatch->tool]);
}

static void
write_gives (const BwWoven *piece, JsonObject *object)
{
  BwDesign design = { .thread.pulled = piece->stretch, .bed.pulled = piece->squeeze };

  if (piece->has_stretch) {
    JsonObject *inner = inner_object (object, "stretch");

    bw_key_write_number (inner, "thread_mm", piece->thread_mm);
    bw_write_group (inner, &design, BW_GROUP_THREAD_PULLED);
  } else
    bw_key_drop (object, "stretch");
  if (piece->has_squeeze) {
    JsonObject *inner = inner_object (object, "squeeze");

    bw_key_write_number (inner, "cord_width_mm", piece->cord_width_mm);
    bw_write_group (inner, &design, BW_GROUP_BED_PULLED);
  } else
    bw_key_drop (object, "squeeze");
}

static void
write_end (const BwWovenEnd *end, JsonObject *object)
{
  bw_key_write_number (object, "rows", end->rows);
  if (end->columns > 0)
    bw_key_write_number (object, "columns", end->columns);
  bw_key_write_number (object, "closing_pitch_mm", end->closing_pitch_mm);
  bw_key_write_number (object, "girth_sd_mm", end->girth_sd_mm);
  BwDone done = end->done;
  done.rows = end->rows;
  bw_write_done (&done, object);
  if (end->cost > 0)
    bw_key_write_number (object, "cost", end->cost);
  bw_key_write_text (object, "currency", end->currency);
}

/* What stood beside the rows and length of a check stays with the check of the same place. */
static void
write_checks (const GArray *checks, JsonObject *object)
{
  JsonArray *old = json_object_has_member (object, "checks")
                       ? json_object_get_array_member (object, "checks")
                       : NULL;
  JsonArray *list = json_array_new ();

  for (guint i = 0; checks && i < checks->len; i++) {
    BwCheck check = g_array_index (checks, BwCheck, i);
    JsonObject *element = old && i < json_array_get_length (old)
                              ? json_object_ref (json_array_get_object_element (old, i))
                              : json_object_new ();

    bw_key_write_number (element, "rows", check.rows);
    bw_key_write_number (element, "length_mm", check.length_mm);
    json_array_add_object_element (list, element);
  }
  json_object_set_array_member (object, "checks", list);
}

void
bw_woven_write (const BwWoven *piece, JsonObject *object)
{
  bw_key_write_text (object, "id", piece->id);
  bw_key_write_text (object, "title", piece->title);
  bw_key_write_text (object, "bead", piece->bead);
  bw_key_write_number (object, "diameter_mm", piece->diameter_mm);
  bw_key_write_text (object, "thread", piece->thread);
  bw_key_write_text (object, "date", piece->date);
  if (piece->left_out || json_object_has_member (object, "left_out"))
    json_object_set_boolean_member (object, "left_out", piece->left_out);
  if (piece->has_swatch)
    write_swatch (&piece->swatch, inner_object (object, "swatch"));
  else
    bw_key_drop (object, "swatch");
  if (piece->checks && piece->checks->len > 0)
    write_checks (piece->checks, object);
  else
    bw_key_drop (object, "checks");
  write_gives (piece, object);
  if (piece->has_end)
    write_end (&piece->end, inner_object (object, "finished"));
  else
    bw_key_drop (object, "finished");
}
