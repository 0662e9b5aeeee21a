/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of the file that are lists: the tray, the cells, the strip lengths written down. */
#include "config.h"

#include "project/fault/fault-error.h"
#include "core/base/lattice.h"
#include "project/json/json.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* A colour without a letter takes the next free one, as the tray does everywhere. */
static gboolean
read_letter (JsonObject *object, const char *pointer, const BwTray *tray, gunichar *id,
             GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "id");
  JsonNode *node = json_object_get_member (object, "id");
  const char *text;

  *id = bw_tray_free_letter (tray);
  if (!node)
    return TRUE;
  if (!bw_take_text (node, inner, &text, error))
    return FALSE;
  *id = g_utf8_get_char (text);
  if (g_utf8_strlen (text, -1) != 1 || !bw_tray_is_letter (*id)) {
    g_autofree char *found = bw_take_describe (node);

    bw_fault_set (error, BW_FAULT_RANGE, inner,
                  _ ("%s was found; a colour's letter must be one visible character."), found);
    return FALSE;
  }
  return TRUE;
}

gboolean
bw_read_srgb (JsonObject *object, const char *pointer, guint32 *srgb, GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "srgb");
  JsonNode *node = json_object_get_member (object, "srgb");
  const char *text;

  if (!node)
    return TRUE;
  if (!bw_take_text (node, inner, &text, error))
    return FALSE;
  if (*text != '#' || strlen (text) != 7 || strspn (text + 1, "0123456789abcdefABCDEF") != 6) {
    g_autofree char *found = bw_take_describe (node);

    bw_fault_set (error, BW_FAULT_RANGE, inner,
                  _ ("%s was found; a colour is written like #1b2a41."), found);
    return FALSE;
  }
  *srgb = (guint32)g_ascii_strtoull (text + 1, NULL, 16);
  return TRUE;
}

gboolean
bw_take_finish (JsonNode *node, const char *pointer, BwFinish *finish, GError **error)
{
  const char *words[BW_N_FINISHES + 1] = { NULL };
  int index;

  for (int i = 0; i < BW_N_FINISHES; i++)
    words[i] = bw_finish_word ((BwFinish)i);
  if (!bw_take_word (node, pointer, words, &index, error))
    return FALSE;
  *finish = (BwFinish)index;
  return TRUE;
}

gboolean
bw_read_finish (JsonObject *object, const char *pointer, BwFinish *finish, GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "finish");
  JsonNode *node = json_object_get_member (object, "finish");

  return !node || bw_take_finish (node, inner, finish, error);
}

static gboolean
read_text (JsonObject *object, const char *pointer, const char *key, char *buffer, gsize bytes,
           GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, key);
  JsonNode *node = json_object_get_member (object, key);

  return !node || bw_take_short_text (node, inner, buffer, bytes, error);
}

static gboolean
read_in_hand (JsonObject *object, const char *pointer, double *grams, GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "in_hand_g");
  JsonNode *node = json_object_get_member (object, "in_hand_g");

  return !node || bw_take_number (node, inner, grams, error);
}

/* Fills the next colour of the tray; what it does not say is as in the plain tray. */
static gboolean
read_colour (JsonNode *node, const char *pointer, BwTrayValue *value, GError **error)
{
  static const char *const known[]
      = { "id", "name", "srgb", "finish", "article", "in_hand_g", NULL };
  BwTray *tray = &value->tray;
  JsonObject *object = bw_take_object (node, pointer, error);
  BwTray plain;
  BwColour colour;

  bw_tray_init (&plain);
  colour = plain.colour[0];
  if (!object || !read_letter (object, pointer, tray, &colour.id, error)
      || !read_text (object, pointer, "name", colour.name, sizeof colour.name, error)
      || !bw_read_srgb (object, pointer, &colour.srgb, error)
      || !bw_read_finish (object, pointer, &colour.finish, error)
      || !read_text (object, pointer, "article", colour.article, sizeof colour.article, error)
      || !read_in_hand (object, pointer, &colour.in_hand_g, error))
    return FALSE;
  value->extra[tray->n_colours] = bw_take_unknown (object, known);
  tray->colour[tray->n_colours++] = colour;
  return TRUE;
}

/* The checks know a tray as the project's own. */
static void
move_fault (GError **error, const char *pointer)
{
  g_autofree char *from = error && *error ? bw_fault_dup_pointer (*error) : NULL;
  g_autofree char *to = NULL, *sentence = NULL;
  int code;

  if (!from || g_str_equal (pointer, "/tray"))
    return;
  to = g_strconcat (pointer, from + strlen ("/tray"), NULL);
  sentence = g_strdup (bw_fault_sentence (*error));
  code = (*error)->code;
  g_clear_error (error);
  bw_fault_set (error, (BwFaultCode)code, to, "%s", sentence);
}

static gboolean
validate_tray (const BwTray *tray, const char *pointer, GError **error)
{
  if (bw_tray_validate (tray, error))
    return TRUE;
  move_fault (error, pointer);
  return FALSE;
}

gboolean
bw_read_tray (JsonNode *node, const char *pointer, BwTrayValue *value, GError **error)
{
  JsonArray *list = node ? bw_take_list (node, pointer, error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if (!node)
    return TRUE;
  if (!list)
    return FALSE;
  value->tray.n_colours = 0;
  for (guint i = 0; i < MIN (n, BW_TRAY_MAX); i++) {
    g_autofree char *inner = g_strdup_printf ("%s/%u", pointer, i);

    if (!read_colour (json_array_get_element (list, i), inner, value, error))
      return FALSE;
  }
  if (n > BW_TRAY_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a list of length %u was found; a tray holds 1 to %d colours."), n,
                  BW_TRAY_MAX);
    return FALSE;
  }
  return validate_tray (&value->tray, pointer, error);
}

/* The letter's colour; *last is a guess that is right for runs of one colour. */
static int
colour_of (const BwTray *tray, gunichar letter, int *last)
{
  if (tray->colour[*last].id != letter) {
    int found = bw_tray_find (tray, letter);

    if (found < 0)
      return -1;
    *last = found;
  }
  return *last;
}

static gboolean
read_row (BwDrawing *drawing, int row, const char *letters, const char *pointer, const BwTray *tray,
          GError **error)
{
  int beads = bw_drawing_columns (drawing) / 2, last = 0;

  if (g_utf8_strlen (letters, -1) != beads) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a text of length %d was found; one letter a bead makes %d."),
                  (int)g_utf8_strlen (letters, -1), beads);
    return FALSE;
  }
  for (int bead = 0; bead < beads; bead++, letters = g_utf8_next_char (letters)) {
    int colour = colour_of (tray, g_utf8_get_char (letters), &last);

    if (colour < 0) {
      bw_fault_set (error, BW_FAULT_RANGE, pointer,
                    _ ("“%.*s” was found, which is the letter of no colour in the tray."),
                    (int)(g_utf8_next_char (letters) - letters), letters);
      return FALSE;
    }
    bw_drawing_set (drawing, row, bw_lattice_column (row, bead), (guint8)colour);
  }
  return TRUE;
}

BwDrawing *
bw_read_cells (JsonNode *node, const char *pointer, int columns, int rows, const BwTray *tray,
               GError **error)
{
  g_autoptr (BwDrawing) drawing = bw_drawing_new (columns, rows, 0);
  JsonArray *list = node ? bw_take_list (node, pointer, error) : NULL;

  if (!node)
    return g_steal_pointer (&drawing);
  if (!list)
    return NULL;
  if (json_array_get_length (list) != (guint)rows) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a list of length %u was found; one text a row makes %d."),
                  json_array_get_length (list), rows);
    return NULL;
  }
  for (int row = 1; row <= rows; row++) {
    g_autofree char *inner = g_strdup_printf ("%s/%d", pointer, row - 1);
    const char *letters;

    if (!bw_take_text (json_array_get_element (list, (guint)row - 1), inner, &letters, error)
        || !read_row (drawing, row, letters, inner, tray, error))
      return NULL;
  }
  return g_steal_pointer (&drawing);
}

static gboolean
read_check (JsonNode *node, const char *pointer, BwProgress *progress, GError **error)
{
  static const char *const known[] = { "rows", "length_mm", NULL };
  JsonObject *object = bw_take_object (node, pointer, error);
  g_autofree char *rows_pointer = bw_json_pointer (pointer, "rows");
  g_autofree char *length_pointer = bw_json_pointer (pointer, "length_mm");
  BwCheck *check = &progress->check[progress->n_checks];
  JsonNode *rows, *length;

  if (!object || !(rows = bw_take_required (object, pointer, "rows", error))
      || !bw_take_whole (rows, rows_pointer, 1, BW_ROWS_MAX, &check->rows, error)
      || !(length = bw_take_required (object, pointer, "length_mm", error))
      || !bw_take_number (length, length_pointer, &check->length_mm, error))
    return FALSE;
  progress->extra[progress->n_checks++] = bw_take_unknown (object, known);
  return TRUE;
}

static int
word_at (const char *const *words, const char *word)
{
  int i = 0;
  while (words[i] && !g_str_equal (words[i], word))
    i++;
  return words[i] ? i : -1;
}

/* One of the words, by its place. */
static gboolean
read_choice (JsonObject *object, const char *name, const char *const *words, int *choice,
             GError **error)
{
  g_autofree char *pointer = bw_json_pointer ("/progress/tried", name);
  JsonNode *node = bw_take_required (object, "/progress/tried", name, error);
  const char *word;

  if (!node || !bw_take_text (node, pointer, &word, error))
    return FALSE;
  *choice = word_at (words, word);
  if (*choice >= 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("“%s” was found; “%s” or “%s” can stand here."),
                word, words[0], words[1]);
  return FALSE;
}

static gboolean
read_tried (JsonNode *node, BwProgress *progress, GError **error)
{
  static const char *const known[] = { "rows", "short_mm", "how", "tool", NULL };
  JsonObject *object = bw_take_object (node, "/progress/tried", error);
  BwTried *tried = &progress->tried;
  JsonNode *rows, *length;
  int how, tool;

  if (!object || !(rows = bw_take_required (object, "/progress/tried", "rows", error))
      || !bw_take_whole (rows, "/progress/tried/rows", 2, BW_ROWS_MAX, &tried->rows, error)
      || !(length = bw_take_required (object, "/progress/tried", "short_mm", error))
      || !bw_take_number (length, "/progress/tried/short_mm", &tried->reading.short_mm, error)
      || !read_choice (object, "how", bw_tried_how_words, &how, error)
      || !read_choice (object, "tool", bw_tried_tool_words, &tool, error))
    return FALSE;
  tried->reading.how = (BwTriedHow)(BW_TRIED_SLACK + how);
  tried->reading.tool = (BwTriedTool)(BW_TRIED_BY_EYE + tool);
  progress->tried_extra = bw_take_unknown (object, known);
  return TRUE;
}

gboolean
bw_read_progress (JsonObject *object, BwProgress *progress, GError **error)
{
  JsonNode *rows_done = json_object_get_member (object, "rows_done");
  JsonNode *join_done = json_object_get_member (object, "join_done");
  JsonNode *bail_done = json_object_get_member (object, "bail_rows_done");
  JsonNode *tried = json_object_get_member (object, "tried");
  JsonNode *checks = json_object_get_member (object, "checks");
  JsonArray *list = checks ? bw_take_list (checks, "/progress/checks", error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if ((checks && !list)
      || (rows_done
          && !bw_take_whole (rows_done, "/progress/rows_done", 0, BW_ROWS_MAX, &progress->rows_done,
                             error))
      || (join_done
          && !bw_take_whole (join_done, "/progress/join_done", 0, BW_ROWS_MAX, &progress->join_done,
                             error))
      || (bail_done
          && !bw_take_whole (bail_done, "/progress/bail_rows_done", 0, BW_ROWS_MAX,
                             &progress->bail_rows_done, error))
      || (tried && !read_tried (tried, progress, error)))
    return FALSE;
  if (n > BW_CHECKS_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, "/progress/checks",
                  _ ("a list of length %u was found; at most %d can be kept."), n, BW_CHECKS_MAX);
    return FALSE;
  }
  for (guint i = 0; i < n; i++) {
    g_autofree char *pointer = g_strdup_printf ("/progress/checks/%u", i);

    if (!read_check (json_array_get_element (list, i), pointer, progress, error))
      return FALSE;
  }
  return bw_progress_validate (progress, error);
}
