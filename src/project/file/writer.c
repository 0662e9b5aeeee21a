/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the document to the JSON tree. Every value is written out, so that a file means the same
 * after a default of the program has changed. */
#include "config.h"

#include "project/file/done-json.h"
#include "project/json/json.h"
#include "project/file/reader.h"

static JsonNode *
text_node (const char *text)
{
  return json_node_init_string (json_node_alloc (), text);
}

static JsonNode *
whole_node (int number)
{
  return bw_json_number (number);
}

static JsonNode *
numbers_node (const double *numbers, int n)
{
  g_autoptr (JsonArray) list = json_array_new ();

  for (int i = 0; i < n; i++)
    json_array_add_element (list, bw_json_number (numbers[i]));
  return json_node_init_array (json_node_alloc (), list);
}

static JsonNode *
key_node (const BwKey *key, const BwDesign *design)
{
  const void *value = bw_key_value (key, design);

  switch (key->kind) {
  case BW_KEY_NUMBER:
    return bw_json_number (*(const double *)value);
  case BW_KEY_WHOLE:
    return whole_node (*(const int *)value);
  case BW_KEY_WORD:
    return text_node (key->words[*(const int *)value]);
  case BW_KEY_TEXT:
    return text_node (value);
  case BW_KEY_PAIR:
  case BW_KEY_VALUES:
  default:
    return numbers_node (value, bw_key_count (key, design));
  }
}

static void
add_object (JsonObject *object, const char *key, JsonObject *inner)
{
  json_object_set_object_member (object, key, inner);
}

/* Keys the program does not know; one it has come to write itself is not repeated. */
static void
add_unknown (JsonObject *object, JsonObject *unknown)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  if (!unknown)
    return;
  json_object_iter_init_ordered (&iter, unknown);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    if (!json_object_has_member (object, key))
      json_object_set_member (object, key, json_node_copy (value));
}

void
bw_write_group (JsonObject *object, const BwDesign *design, BwGroupId id)
{
  const BwKeyGroup *group = bw_key_group (id);

  for (int i = 0; i < group->n_keys; i++)
    if (bw_key_is_given (&group->keys[i], design))
      json_object_set_member (object, group->keys[i].name, key_node (&group->keys[i], design));
}

static void
add_keys (JsonObject *object, const BwDocument *document, BwGroupId id)
{
  bw_write_group (object, &document->head.frame->design, id);
}

/* Finishes the object of a group with what is not known in it and hangs it in outer. */
static void
close_group (JsonObject *outer, JsonObject *object, const BwDocument *document, BwGroupId id)
{
  const BwKeyGroup *group = bw_key_group (id);

  add_unknown (object, g_hash_table_lookup (document->extras, group->pointer));
  add_object (outer, group->name, object);
}

static void
add_group (JsonObject *outer, const BwDocument *document, BwGroupId id)
{
  JsonObject *object = json_object_new ();

  add_keys (object, document, id);
  close_group (outer, object, document, id);
}

/* A quiet stone's look is not written, as before there was any. */
static void
add_look (JsonObject *stone, const BwDocument *document)
{
  const BwStoneLook *look = &document->head.frame->design.look;

  if (!bw_stone_look_is_quiet (look) || look->seed != 0
      || g_hash_table_contains (document->extras, bw_key_group (BW_GROUP_LOOK)->pointer))
    add_group (stone, document, BW_GROUP_LOOK);
}

static void
add_stone (JsonObject *root, const BwDocument *document)
{
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "mineral", document->head.text->mineral);
  add_keys (object, document, BW_GROUP_STONE);
  add_look (object, document);
  close_group (root, object, document, BW_GROUP_STONE);
}

/* Where the design has it. */
static void
add_if_given (JsonObject *outer, const BwDocument *document, BwGroupId id)
{
  BwDesign *design = (BwDesign *)&document->head.frame->design;

  if (*bw_design_flag (design, bw_key_group (id)->has))
    add_group (outer, document, id);
}

/* A group that holds two more where the design has them. */
static void
add_with (JsonObject *root, const BwDocument *document, BwGroupId id, BwGroupId one,
          BwGroupId other)
{
  JsonObject *object = json_object_new ();

  add_keys (object, document, id);
  add_if_given (object, document, one);
  add_if_given (object, document, other);
  close_group (root, object, document, id);
}

static void
add_materials (JsonObject *root, const BwDocument *document)
{
  JsonObject *object = json_object_new ();

  add_keys (object, document, BW_GROUP_MATERIALS);
  add_if_given (object, document, BW_GROUP_PRICES);
  close_group (root, object, document, BW_GROUP_MATERIALS);
}

static void
add_cells (JsonObject *object, const BwDrawing *drawing, const BwTray *tray)
{
  JsonArray *list = json_array_sized_new ((guint)bw_drawing_rows (drawing));
  g_autoptr (GString) letters = g_string_new (NULL);

  for (int row = 1; row <= bw_drawing_rows (drawing); row++) {
    const guint8 *cells = bw_drawing_row (drawing, row);

    g_string_truncate (letters, 0);
    for (int bead = 0; bead < bw_drawing_columns (drawing) / 2; bead++)
      g_string_append_unichar (letters, tray->colour[cells[bead]].id);
    json_array_add_string_element (list, letters->str);
  }
  json_object_set_array_member (object, "cells", list);
}

static void
add_drawn_group (JsonObject *root, const BwDocument *document, BwGroupId id,
                 const BwDrawing *drawing)
{
  JsonObject *object = json_object_new ();

  add_keys (object, document, id);
  if (drawing)
    add_cells (object, drawing, &document->head.tray->tray);
  close_group (root, object, document, id);
}

JsonArray *
bw_write_tray (const BwTrayValue *value)
{
  JsonArray *list = json_array_new ();

  for (int i = 0; i < value->tray.n_colours; i++) {
    const BwColour *colour = &value->tray.colour[i];
    JsonObject *object = json_object_new ();
    char id[8] = { 0 }, srgb[8];

    g_unichar_to_utf8 (colour->id, id);
    g_snprintf (srgb, sizeof srgb, "#%06x", colour->srgb & 0xffffff);
    json_object_set_string_member (object, "id", id);
    json_object_set_string_member (object, "name", colour->name);
    json_object_set_string_member (object, "srgb", srgb);
    json_object_set_string_member (object, "finish", bw_finish_word (colour->finish));
    if (*colour->article)
      json_object_set_string_member (object, "article", colour->article);
    if (colour->in_hand_g > 0)
      json_object_set_member (object, "in_hand_g", bw_json_number (colour->in_hand_g));
    add_unknown (object, value->extra[i]);
    json_array_add_object_element (list, object);
  }
  return list;
}

static void
add_tried (JsonObject *object, const BwProgress *progress)
{
  const BwTried *tried = &progress->tried;
  JsonObject *inner;

  if (tried->rows == 0)
    return;
  inner = json_object_new ();
  json_object_set_member (inner, "rows", bw_json_number (tried->rows));
  json_object_set_member (inner, "short_mm", bw_json_number (tried->reading.short_mm));
  json_object_set_string_member (inner, "how",
                                 bw_tried_how_words[tried->reading.how - BW_TRIED_SLACK]);
  json_object_set_string_member (inner, "tool",
                                 bw_tried_tool_words[tried->reading.tool - BW_TRIED_BY_EYE]);
  add_unknown (inner, progress->tried_extra);
  json_object_set_object_member (object, "tried", inner);
}

static void
add_progress (JsonObject *root, const BwDocument *document)
{
  const BwProgress *progress = document->head.progress;
  JsonObject *object = json_object_new ();
  JsonArray *list = json_array_new ();

  for (int i = 0; i < progress->n_checks; i++) {
    JsonObject *check = json_object_new ();

    json_object_set_member (check, "rows", bw_json_number (progress->check[i].rows));
    json_object_set_member (check, "length_mm", bw_json_number (progress->check[i].length_mm));
    add_unknown (check, progress->extra[i]);
    json_array_add_object_element (list, check);
  }
  json_object_set_member (object, "rows_done", bw_json_number (progress->rows_done));
  if (progress->join_done > 0)
    json_object_set_member (object, "join_done", bw_json_number (progress->join_done));
  if (progress->bail_rows_done > 0)
    json_object_set_member (object, "bail_rows_done", bw_json_number (progress->bail_rows_done));
  add_tried (object, progress);
  json_object_set_array_member (object, "checks", list);
  add_unknown (object, g_hash_table_lookup (document->extras, "/progress"));
  add_object (root, "progress", object);
}

static void
add_done (JsonObject *root, const BwProgress *progress)
{
  JsonObject *object;

  if (progress->done.rows == 0)
    return;
  object = json_object_new ();
  bw_write_done (&progress->done, object);
  add_unknown (object, progress->done_extra);
  json_object_set_object_member (root, "finished", object);
}

/* A file without motifs says nothing of them, as before there were any. */
static void
add_motifs (JsonObject *root, const BwDocument *document)
{
  const BwMotifs *motifs = document->head.motifs;
  JsonArray *list;

  if (motifs->n == 0)
    return;
  list = json_array_new ();
  for (int i = 0; i < motifs->n; i++) {
    JsonObject *object = bw_write_motif (&motifs->made[i], &document->head.tray->tray);

    add_unknown (object, motifs->extra[i]);
    json_array_add_object_element (list, object);
  }
  json_object_set_array_member (root, "motifs", list);
}

/* What the cover does not tell is not written. */
static void
add_about (JsonObject *root, const BwDocument *document)
{
  g_autoptr (JsonObject) object = json_object_new ();

  for (BwAbout about = 0; about < BW_N_ABOUT; about++)
    if (*document->head.text->about[about])
      json_object_set_string_member (object, bw_about_key (about),
                                     document->head.text->about[about]);
  add_unknown (object, g_hash_table_lookup (document->extras, "/about"));
  if (json_object_get_size (object) > 0)
    add_object (root, "about", g_steal_pointer (&object));
}

JsonNode *
bw_document_to_json (const BwDocument *document)
{
  gboolean has_bail = document->head.frame->design.bail.style != BW_BAIL_NONE;
  g_autoptr (JsonObject) root = json_object_new ();

  json_object_set_string_member (root, "format", "bandwright-project");
  json_object_set_member (root, "version", bw_json_number (1));
  json_object_set_string_member (root, "title", document->head.text->title);
  if (document->id)
    json_object_set_string_member (root, "id", document->id);
  add_about (root, document);
  add_stone (root, document);
  add_group (root, document, BW_GROUP_BEAD);
  add_with (root, document, BW_GROUP_GAUGE, BW_GROUP_HANDS, BW_GROUP_SWATCH);
  add_with (root, document, BW_GROUP_BED, BW_GROUP_BED_HANDS, BW_GROUP_BED_PULLED);
  add_drawn_group (root, document, BW_GROUP_BAND, document->drawing[BW_CANVAS_BAND]);
  json_object_set_array_member (root, "tray", bw_write_tray (document->head.tray));
  add_motifs (root, document);
  add_drawn_group (root, document, BW_GROUP_BAIL,
                   has_bail ? document->drawing[BW_CANVAS_BAIL] : NULL);
  add_with (root, document, BW_GROUP_THREAD, BW_GROUP_THREAD_HANDS, BW_GROUP_THREAD_PULLED);
  add_group (root, document, BW_GROUP_FIT);
  add_materials (root, document);
  add_progress (root, document);
  add_done (root, document->head.progress);
  add_unknown (root, g_hash_table_lookup (document->extras, ""));
  return json_node_init_object (json_node_alloc (), root);
}
