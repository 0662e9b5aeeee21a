/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file remembers of a motif: its own numbers, the band it was laid on, and its colours by
 * their letters. */
#include "config.h"

#include "core/base/lattice.h"
#include "project/fault/fault-words.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"
#include <glib/gi18n-lib.h>
#include <stddef.h>

static const char *const kind_words[]
    = { "stripes", "bars",  "steps",   "chevrons", "diamonds", "waves",
        "spiral",  "blend", "scatter", "border",   "letters",  NULL };
static const char *const dither_words[] = { "none", "ordered", "diffused", NULL };
static const char *const ground_words[] = { "laid", "left", NULL }; /* by `leaves_ground` */

G_STATIC_ASSERT (G_N_ELEMENTS (kind_words) == BW_N_MOTIFS + 1);

/* The whole numbers and the others; what is not written is as in a new motif of its kind. */
static const struct {
  const char *key;
  gsize field;
  int lo, hi;
} wholes[] = {
  { "stone_faces", offsetof (BwMade, stone_faces), BW_FACES_MIN, BW_FACES_MAX },
  { "first_column", offsetof (BwMade, motif.first_column), 1, BW_COLUMNS_MAX },
  { "last_column", offsetof (BwMade, motif.last_column), 1, BW_COLUMNS_MAX },
  { "repeats", offsetof (BwMade, motif.repeats), 1, BW_ROWS_MAX },
};

static const struct {
  const char *key;
  gsize field;
} numbers[] = {
  { "centre", offsetof (BwMade, motif.centre) },   { "size", offsetof (BwMade, motif.size) },
  { "reach", offsetof (BwMade, motif.reach) },     { "slope", offsetof (BwMade, motif.slope) },
  { "density", offsetof (BwMade, motif.density) },
};

static const char *const known[]
    = { "kind",         "colours",     "columns",     "rows",   "stone_faces",
        "first_column", "last_column", "repeats",     "centre", "size",
        "reach",        "slope",       "density",     "seed",   "dither",
        "text",         "faces",       "middle_face", "ground", NULL };

static void *
field_of (BwMade *made, gsize field)
{
  return (char *)made + field;
}

/* --- Reading ----------------------------------------------------------------------------------
 */

/* The value of a key that need not be there; FALSE when it is not. pointer: owned. */
static gboolean
has (JsonObject *object, const char *at, const char *key, JsonNode **node, char **pointer)
{
  *node = json_object_get_member (object, key);
  *pointer = bw_json_pointer (at, key);
  return *node != NULL;
}

static gboolean
read_colour (JsonNode *node, const char *pointer, const BwTray *tray, guint8 *colour,
             GError **error)
{
  const char *letter;

  if (!bw_take_text (node, pointer, &letter, error))
    return FALSE;
  int found = g_utf8_strlen (letter, -1) == 1 ? bw_tray_find (tray, g_utf8_get_char (letter)) : -1;
  if (found >= 0) {
    *colour = (guint8)found;
    return TRUE;
  }
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("“%s” was found, which is the letter of no colour in the tray."), letter);
  return FALSE;
}

static gboolean
read_colours (JsonObject *object, const char *at, const BwTray *tray, BwMotif *motif,
              GError **error)
{
  JsonNode *node = bw_take_required (object, at, "colours", error);
  g_autofree char *pointer = bw_json_pointer (at, "colours");
  JsonArray *list = node ? bw_take_list (node, pointer, error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if (!list)
    return FALSE;
  if (n < 1 || n > BW_MOTIF_COLOURS) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a list of length %u was found; a motif has 1 to %d colours."), n,
                  BW_MOTIF_COLOURS);
    return FALSE;
  }
  motif->n_colours = (int)n;
  for (guint i = 0; i < n; i++) {
    g_autofree char *inner = g_strdup_printf ("%s/%u", pointer, i);

    if (!read_colour (json_array_get_element (list, i), inner, tray, &motif->colour[i], error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
read_required_whole (JsonObject *object, const char *at, const char *key, int lo, int hi,
                     int *number, GError **error)
{
  JsonNode *node = bw_take_required (object, at, key, error);
  g_autofree char *pointer = bw_json_pointer (at, key);

  return node && bw_take_whole (node, pointer, lo, hi, number, error);
}

/* What says on which band it was laid. */
static gboolean
read_band (JsonObject *object, const char *at, BwMade *made, GError **error)
{
  if (!read_required_whole (object, at, "columns", BW_COLUMNS_MIN, BW_COLUMNS_MAX, &made->columns,
                            error)
      || !read_required_whole (object, at, "rows", BW_ROWS_MIN, BW_ROWS_MAX, &made->rows, error))
    return FALSE;
  if (made->columns % 2 == 0)
    return TRUE;
  g_autofree char *pointer = bw_json_pointer (at, "columns");
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                _ ("%d was found; a band has an even number of columns."), made->columns);
  return FALSE;
}

static gboolean
read_kind (JsonObject *object, const char *at, int *kind, GError **error)
{
  JsonNode *node = bw_take_required (object, at, "kind", error);
  g_autofree char *pointer = bw_json_pointer (at, "kind");

  return node && bw_take_word (node, pointer, kind_words, kind, error);
}

static gboolean
read_numbers (JsonObject *object, const char *at, BwMade *made, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (wholes); i++) {
    JsonNode *node;
    g_autofree char *pointer = NULL;

    if (has (object, at, wholes[i].key, &node, &pointer)
        && !bw_take_whole (node, pointer, wholes[i].lo, wholes[i].hi,
                           field_of (made, wholes[i].field), error))
      return FALSE;
  }
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++) {
    JsonNode *node;
    g_autofree char *pointer = NULL;

    if (has (object, at, numbers[i].key, &node, &pointer)
        && !bw_take_number (node, pointer, field_of (made, numbers[i].field), error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
read_seed (JsonObject *object, const char *at, BwMotif *motif, GError **error)
{
  JsonNode *node;
  g_autofree char *pointer = NULL;
  double seed;

  if (!has (object, at, "seed", &node, &pointer))
    return TRUE;
  if (!bw_take_number (node, pointer, &seed, error)
      || !bw_fault_check_range (seed, 0, G_MAXUINT32, pointer, error))
    return FALSE;
  motif->seed = (guint32)seed;
  return TRUE;
}

static gboolean
read_words (JsonObject *object, const char *at, BwMade *made, GError **error)
{
  JsonNode *dither, *ground, *text, *middle;
  g_autofree char *dither_at = NULL, *ground_at = NULL, *text_at = NULL, *middle_at = NULL;
  int word = (int)made->motif.dither;

  if ((has (object, at, "dither", &dither, &dither_at)
       && !bw_take_word (dither, dither_at, dither_words, &word, error))
      || (has (object, at, "ground", &ground, &ground_at)
          && !bw_take_word (ground, ground_at, ground_words, &made->motif.leaves_ground, error))
      || (has (object, at, "text", &text, &text_at)
          && !bw_take_short_text (text, text_at, made->motif.text, BW_MOTIF_TEXT, error))
      || (has (object, at, "middle_face", &middle, &middle_at)
          && !bw_take_whole (middle, middle_at, 0, BW_FACES_MAX, &made->middle, error)))
    return FALSE;
  made->motif.dither = (BwDither)word;
  return TRUE;
}

static gboolean
read_faces (JsonObject *object, const char *at, BwMotif *motif, GError **error)
{
  JsonNode *node;
  g_autofree char *pointer = NULL;
  JsonArray *list;

  if (!has (object, at, "faces", &node, &pointer))
    return TRUE;
  if (!(list = bw_take_list (node, pointer, error)))
    return FALSE;
  guint n = json_array_get_length (list);
  if (n < BW_FACES_MIN || n > BW_FACES_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer,
                  _ ("a list of length %u was found; a stone has %d to %d faces."), n, BW_FACES_MIN,
                  BW_FACES_MAX);
    return FALSE;
  }
  for (guint i = 0; i < n; i++) {
    g_autofree char *inner = g_strdup_printf ("%s/%u", pointer, i);
    double pair[2];

    if (!bw_take_numbers (json_array_get_element (list, i), inner, pair, 2, error))
      return FALSE;
    motif->face_middle[i] = pair[0];
    motif->face_end[i] = pair[1];
  }
  motif->n_faces = (int)n;
  return TRUE;
}

/* The trade's own check, told at this place of the file. */
static gboolean
check_drawable (const BwMade *made, const char *at, GError **error)
{
  g_autoptr (GError) own = NULL;
  BwFault fault;

  if (bw_motif_validate (&made->motif, made->columns, made->rows, &fault))
    return TRUE;
  bw_fault_tell (&fault, &own);
  bw_fault_set (error, BW_FAULT_RANGE, at, "%s", bw_fault_sentence (own));
  return FALSE;
}

static gboolean
read_motif (JsonNode *node, const char *at, const BwTray *tray, BwMotifs *motifs, GError **error)
{
  JsonObject *object = bw_take_object (node, at, error);
  BwMade *made = &motifs->made[motifs->n];
  int kind;

  *made = (BwMade){ .middle = BW_MADE_ELSEWHERE, .stone_faces = 6 };
  if (!object || !read_kind (object, at, &kind, error) || !read_band (object, at, made, error))
    return FALSE;
  bw_motif_init (&made->motif, (BwMotifKind)kind, made->columns, made->rows);
  if (!read_colours (object, at, tray, &made->motif, error)
      || !read_numbers (object, at, made, error) || !read_seed (object, at, &made->motif, error)
      || !read_words (object, at, made, error) || !read_faces (object, at, &made->motif, error)
      || !check_drawable (made, at, error))
    return FALSE;
  motifs->extra[motifs->n++] = bw_take_unknown (object, known);
  return TRUE;
}

gboolean
bw_read_motifs (JsonNode *node, const BwTray *tray, BwMotifs *motifs, GError **error)
{
  JsonArray *list = node ? bw_take_list (node, "/motifs", error) : NULL;
  guint n = list ? json_array_get_length (list) : 0;

  if (!node || !list)
    return !node;
  if (n > BW_MADE_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, "/motifs",
                  _ ("a list of length %u was found; at most %d can be kept."), n, BW_MADE_MAX);
    return FALSE;
  }
  for (guint i = 0; i < n; i++) {
    g_autofree char *at = g_strdup_printf ("/motifs/%u", i);

    if (!read_motif (json_array_get_element (list, i), at, tray, motifs, error))
      return FALSE;
  }
  return TRUE;
}

/* --- Writing ----------------------------------------------------------------------------------
 */

static void
add_number (JsonObject *object, const char *key, double number)
{
  json_object_set_member (object, key, bw_json_number (number));
}

static void
add_colours (JsonObject *object, const BwMotif *motif, const BwTray *tray)
{
  JsonArray *list = json_array_new ();

  for (int i = 0; i < motif->n_colours; i++) {
    char letter[8] = { 0 };

    g_unichar_to_utf8 (tray->colour[motif->colour[i]].id, letter);
    json_array_add_string_element (list, letter);
  }
  json_object_set_array_member (object, "colours", list);
}

static void
add_faces (JsonObject *object, const BwMotif *motif)
{
  JsonArray *list = json_array_new ();

  for (int i = 0; i < motif->n_faces; i++) {
    JsonArray *pair = json_array_new ();

    json_array_add_element (pair, bw_json_number (motif->face_middle[i]));
    json_array_add_element (pair, bw_json_number (motif->face_end[i]));
    json_array_add_array_element (list, pair);
  }
  json_object_set_array_member (object, "faces", list);
}

JsonObject *
bw_write_motif (const BwMade *made, const BwTray *tray)
{
  BwMade copy = *made;
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "kind", kind_words[made->motif.kind]);
  add_colours (object, &made->motif, tray);
  add_number (object, "columns", made->columns);
  add_number (object, "rows", made->rows);
  for (gsize i = 0; i < G_N_ELEMENTS (wholes); i++)
    add_number (object, wholes[i].key, *(int *)field_of (&copy, wholes[i].field));
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    add_number (object, numbers[i].key, *(double *)field_of (&copy, numbers[i].field));
  add_number (object, "seed", made->motif.seed);
  json_object_set_string_member (object, "dither", dither_words[made->motif.dither]);
  if (made->motif.leaves_ground)
    json_object_set_string_member (object, "ground", ground_words[made->motif.leaves_ground]);
  json_object_set_string_member (object, "text", made->motif.text);
  if (made->motif.n_faces > 0)
    add_faces (object, &made->motif);
  if (made->middle != BW_MADE_ELSEWHERE)
    add_number (object, "middle_face", made->middle);
  return object;
}
