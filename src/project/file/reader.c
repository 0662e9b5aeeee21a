/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the JSON tree to the document. Every fault names its key; what is absent takes the default
 * the format gives it; what is not known is kept aside and written back. */
#include "config.h"

#include "project/file/reader.h"
#include "project/fault/fault-words.h"
#include "core/base/lattice.h"
#include "core/band/fit.h"
#include "project/json/json.h"
#include "project/file/done-json.h"
#include "project/file/take.h"
#include <glib/gi18n-lib.h>

#define FORMAT "bandwright-project"
#define VERSION 1

static gboolean
read_key (const BwKey *key, JsonNode *node, const char *pointer, BwDesign *design, GError **error)
{
  void *field = bw_key_field (key, design);

  switch (key->kind) {
  case BW_KEY_NUMBER:
    return bw_take_number (node, pointer, field, error);
  case BW_KEY_WHOLE:
    return bw_take_whole (node, pointer, key->lo, key->hi, field, error);
  case BW_KEY_WORD:
    return bw_take_word (node, pointer, key->words, field, error);
  case BW_KEY_TEXT:
    return bw_take_short_text (node, pointer, field, (gsize)key->hi, error);
  case BW_KEY_VALUES:
    /* An odd number of faces across the flats: the check of the stone says it better. */
    if (bw_key_count (key, design) == 0)
      return bw_take_list (node, pointer, error) != NULL;
    return bw_take_numbers (node, pointer, field, bw_key_count (key, design), error);
  case BW_KEY_PAIR:
  default:
    return bw_take_numbers (node, pointer, field, bw_key_count (key, design), error);
  }
}

gboolean
bw_read_group (BwGroupId id, JsonObject *object, const char *pointer, BwDesign *design,
               GError **error)
{
  const BwKeyGroup *group = bw_key_group (id);

  for (int i = 0; i < group->n_keys; i++) {
    const BwKey *key = &group->keys[i];
    g_autofree char *inner = bw_json_pointer (pointer, key->name);
    JsonNode *node = json_object_get_member (object, key->name);

    if (!node && key->required) {
      bw_take_required (object, pointer, key->name, error);
      return FALSE;
    }
    if (node && !read_key (key, node, inner, design, error))
      return FALSE;
    if (key->has)
      *bw_design_flag (design, key->has) = node != NULL;
  }
  return TRUE;
}

static void
keep_unknown (BwDocument *document, const char *pointer, JsonObject *object,
              const char *const *known)
{
  JsonObject *unknown = bw_take_unknown (object, known);

  if (unknown)
    g_hash_table_insert (document->extras, g_strdup (pointer), unknown);
}

/* The keys of a group that say something in this design, and up to two more that are no fields of
 * it. */
static void
keep_unknown_of_group_but (BwDocument *document, BwGroupId id, JsonObject *object, const char *more,
                           const char *and_more)
{
  const BwDesign *design = &document->head.frame->design;
  const BwKeyGroup *group = bw_key_group (id);
  g_autoptr (GPtrArray) known = g_ptr_array_new ();

  for (int i = 0; i < group->n_keys; i++)
    if (bw_key_applies (&group->keys[i], design))
      g_ptr_array_add (known, (char *)group->keys[i].name);
  if (more)
    g_ptr_array_add (known, (char *)more);
  if (and_more)
    g_ptr_array_add (known, (char *)and_more);
  g_ptr_array_add (known, NULL);
  keep_unknown (document, group->pointer, object, (const char *const *)known->pdata);
}

static void
keep_unknown_of_group (BwDocument *document, BwGroupId id, JsonObject *object, const char *more)
{
  keep_unknown_of_group_but (document, id, object, more, NULL);
}

/* The object of a group; an empty one when it is absent and need not be there. */
static JsonObject *
group_object (JsonObject *outer, const char *outer_pointer, const char *name, gboolean required,
              GError **error)
{
  g_autofree char *pointer = bw_json_pointer (outer_pointer, name);
  JsonNode *node = required ? bw_take_required (outer, outer_pointer, name, error)
                            : json_object_get_member (outer, name);
  JsonObject *object;

  if (!node)
    return required ? NULL : json_object_new ();
  object = bw_take_object (node, pointer, error);
  return object ? json_object_ref (object) : NULL;
}

static gboolean
read_group_in (BwDocument *document, JsonObject *outer, const char *outer_pointer, BwGroupId id,
               gboolean required, GError **error)
{
  const BwKeyGroup *group = bw_key_group (id);
  g_autoptr (JsonObject) object = group_object (outer, outer_pointer, group->name, required, error);

  if (!object || !bw_read_group (id, object, group->pointer, &document->head.frame->design, error))
    return FALSE;
  keep_unknown_of_group (document, id, object, NULL);
  return TRUE;
}

static gboolean
read_plain_group (BwDocument *document, JsonObject *root, BwGroupId id, gboolean required,
                  GError **error)
{
  return read_group_in (document, root, "", id, required, error);
}

/* A group inside another that is there or not as a whole. */
static gboolean
read_inner_group (BwDocument *document, JsonObject *outer, BwGroupId id, GError **error)
{
  const BwKeyGroup *group = bw_key_group (id);
  JsonNode *node = json_object_get_member (outer, group->name);
  BwDesign *design = &document->head.frame->design;
  JsonObject *object;

  *bw_design_flag (design, group->has) = node != NULL;
  if (!node)
    return TRUE;
  object = bw_take_object (node, group->pointer, error);
  if (!object || !bw_read_group (id, object, group->pointer, design, error))
    return FALSE;
  keep_unknown_of_group (document, id, object, NULL);
  return TRUE;
}

/* What of the stone only makes sense together. */
static gboolean
check_stone_keys (BwStoneMeasures *stone, JsonObject *object, const char *pointer, GError **error)
{
  g_autofree char *shoulder = bw_json_pointer (pointer, "shoulder_mm");

  if (!stone->has_shoulder && !stone->has_natural_angle) {
    bw_fault_set (error, BW_FAULT_MISSING, shoulder,
                  _ ("this key or natural_angle_deg is needed."));
    return FALSE;
  }
  if (stone->has_second && !bw_take_required (object, pointer, "second_at_mm", error))
    return FALSE;
  if (stone->base == BW_BASE_FLAT)
    stone->has_base_shoulder = FALSE;
  return TRUE;
}

static void
take_text (BwDocument *document, BwText *text)
{
  bw_text_unref (document->head.text);
  document->head.text = text;
}

gboolean
bw_read_stone (JsonObject *object, const char *pointer, BwDesign *design, const char **mineral,
               GError **error)
{
  g_autofree char *inner = bw_json_pointer (pointer, "mineral");
  JsonNode *node = json_object_get_member (object, "mineral");

  return (!node || bw_take_line (node, inner, mineral, error))
         && bw_read_group (BW_GROUP_STONE, object, pointer, design, error)
         && check_stone_keys (&design->stone, object, pointer, error);
}

gboolean
bw_read_look (JsonObject *object, const char *pointer, BwDesign *design, GError **error)
{
  const char *name = bw_key_group (BW_GROUP_LOOK)->name;
  g_autofree char *inner = bw_json_pointer (pointer, name);
  JsonNode *node = json_object_get_member (object, name);
  JsonObject *look = node ? bw_take_object (node, inner, error) : NULL;

  return !node || (look && bw_read_group (BW_GROUP_LOOK, look, inner, design, error));
}

static gboolean
read_stone (BwDocument *document, JsonObject *root, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  g_autoptr (JsonObject) object = group_object (root, "", "stone", TRUE, error);
  const char *name = document->head.text->mineral;

  if (!object || !bw_read_stone (object, "/stone", design, &name, error))
    return FALSE;
  take_text (document, bw_text_with_mineral (document->head.text, name));
  keep_unknown_of_group_but (document, BW_GROUP_STONE, object, "mineral", "look");
  return read_group_in (document, object, "/stone", BW_GROUP_LOOK, FALSE, error);
}

static gboolean
read_gauge (BwDocument *document, JsonObject *root, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  g_autoptr (JsonObject) object = group_object (root, "", "gauge", FALSE, error);

  design->gauge.column_mm = design->bead.length_mm;
  design->gauge.pitch_mm = design->bead.diameter_mm;
  if (!object || !bw_read_group (BW_GROUP_GAUGE, object, "/gauge", design, error)
      || !read_inner_group (document, object, BW_GROUP_HANDS, error)
      || !read_inner_group (document, object, BW_GROUP_SWATCH, error))
    return FALSE;
  keep_unknown_of_group_but (document, BW_GROUP_GAUGE, object, "hands", "swatch");
  return TRUE;
}

/* Bed or thread, with what was learnt of it. */
static gboolean
read_giving_group (BwDocument *document, JsonObject *root, BwGroupId id, BwGroupId hands,
                   BwGroupId pulled, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  const BwKeyGroup *group = bw_key_group (id);
  g_autoptr (JsonObject) object = group_object (root, "", group->name, FALSE, error);

  if (!object || !bw_read_group (id, object, group->pointer, design, error)
      || !read_inner_group (document, object, hands, error)
      || !read_inner_group (document, object, pulled, error))
    return FALSE;
  keep_unknown_of_group_but (document, id, object, "hands", "pulled");
  return TRUE;
}

static gboolean
read_materials (BwDocument *document, JsonObject *root, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  g_autoptr (JsonObject) object = group_object (root, "", "materials", FALSE, error);

  if (!object || !bw_read_group (BW_GROUP_MATERIALS, object, "/materials", design, error)
      || !read_inner_group (document, object, BW_GROUP_PRICES, error))
    return FALSE;
  keep_unknown_of_group (document, BW_GROUP_MATERIALS, object, "prices");
  return TRUE;
}

/* The band's rows stay 0 when absent; complete_band() puts the defaults. */
static gboolean
read_band (BwDocument *document, JsonObject *root, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  g_autoptr (JsonObject) object = group_object (root, "", "band", TRUE, error);

  design->band.rows = 0;
  if (!object || !bw_read_group (BW_GROUP_BAND, object, "/band", design, error))
    return FALSE;
  keep_unknown_of_group (document, BW_GROUP_BAND, object, "cells");
  return TRUE;
}

static gboolean
read_bail (BwDocument *document, JsonObject *root, GError **error)
{
  BwDesign *design = &document->head.frame->design;
  g_autoptr (JsonObject) object = group_object (root, "", "bail", FALSE, error);

  design->bail.at_deg = design->band.seam_deg;
  if (!object || !bw_read_group (BW_GROUP_BAIL, object, "/bail", design, error))
    return FALSE;
  keep_unknown_of_group (document, BW_GROUP_BAIL, object,
                         design->bail.style == BW_BAIL_NONE ? NULL : "cells");
  return TRUE;
}

static gboolean
read_progress (BwDocument *document, JsonObject *root, GError **error)
{
  static const char *const known[]
      = { "rows_done", "join_done", "bail_rows_done", "tried", "checks", NULL };
  g_autoptr (JsonObject) object = group_object (root, "", "progress", FALSE, error);

  if (!object || !bw_read_progress (object, document->head.progress, error))
    return FALSE;
  keep_unknown (document, "/progress", object, known);
  return TRUE;
}

static gboolean
read_done (BwDocument *document, JsonObject *root, GError **error)
{
  JsonNode *node = json_object_get_member (root, "finished");
  JsonObject *object = node ? bw_take_object (node, "/finished", error) : NULL;
  BwProgress *progress = document->head.progress;

  if (!node)
    return TRUE;
  if (!object || !bw_read_done (object, "/finished", &progress->done, error)
      || !bw_done_validate (&progress->done, "/finished", error))
    return FALSE;
  progress->done_extra = bw_take_unknown (object, bw_done_keys);
  return TRUE;
}

static gboolean
read_title (BwDocument *document, JsonObject *root, GError **error)
{
  JsonNode *node = json_object_get_member (root, "title");
  const char *title = "";

  if (node && !bw_take_line (node, "/title", &title, error))
    return FALSE;
  take_text (document, bw_text_with_title (document->head.text, title));
  return TRUE;
}

static gboolean
read_about (BwDocument *document, JsonObject *root, GError **error)
{
  const char *known[BW_N_ABOUT + 1] = { NULL };
  g_autoptr (JsonObject) object = group_object (root, "", "about", FALSE, error);

  if (!object)
    return FALSE;
  for (BwAbout about = 0; about < BW_N_ABOUT; about++) {
    g_autofree char *pointer = bw_json_pointer ("/about", bw_about_key (about));
    JsonNode *node = json_object_get_member (object, bw_about_key (about));
    const char *words = "";

    known[about] = bw_about_key (about);
    if (node && !bw_take_line (node, pointer, &words, error))
      return FALSE;
    take_text (document, bw_text_with_about (document->head.text, about, words));
  }
  keep_unknown (document, "/about", object, known);
  return TRUE;
}

/* An id that says nothing is none. */
static gboolean
read_id (BwDocument *document, JsonObject *root, GError **error)
{
  JsonNode *node = json_object_get_member (root, "id");
  char id[BW_ID_BYTES];

  if (!node)
    return TRUE;
  if (!bw_take_short_text (node, "/id", id, sizeof id, error))
    return FALSE;
  document->id = *id ? g_strdup (id) : NULL;
  return TRUE;
}

/* Of a root whose band was read. */
static gboolean
has_bottom (JsonObject *root)
{
  return json_object_has_member (json_object_get_object_member (root, "band"), "bottom_mm");
}

/* Rows that are not written are those that close; a bottom that is not written is the one that
 * centres the band on the prism. */
static gboolean
complete_band (BwDesign *design, gboolean has_bottom, GError **error)
{
  gboolean has_rows = design->band.rows > 0;
  BwStone stone;
  BwFault fault;

  if (!bw_stone_init (&stone, &design->stone, &fault))
    return bw_fault_tell (&fault, error);
  if (!has_bottom)
    design->band.bottom_mm = bw_design_centred_bottom (design, &stone);
  if (!has_rows)
    design->band.rows = BW_ROWS_MAX;
  if (!bw_design_validate (design, &stone, &fault))
    return bw_fault_tell (&fault, error);
  if (has_rows)
    return TRUE;
  design->band.rows = 2 * bw_fit_recommended (design, &stone);
  return bw_design_validate (design, NULL, &fault) || bw_fault_tell (&fault, error);
}

/* A loop over the tip whose feet are not told goes straight across. Of a root whose bail was read.
 */
static gboolean
complete_bail (BwDesign *design, JsonObject *root)
{
  JsonNode *bail = json_object_get_member (root, "bail");
  if (bail && design->bail.style == BW_BAIL_OVER
      && !json_object_has_member (json_node_get_object (bail), "base_beads"))
    design->bail.base_beads = bw_lattice_beads_around (design->band.rows) / 2.0;
  return TRUE;
}

/* Rows that a file leaves out follow from the measurements alone, and so before this. */
static gboolean
believe (BwDesign *design, const BwProgress *progress, GError **error)
{
  BwStone stone;
  BwFault fault;

  if (!bw_stone_init (&stone, &design->stone, &fault))
    return bw_fault_tell (&fault, error);
  bw_design_believe (design, &stone, progress);
  return TRUE;
}

static gboolean
read_drawing (BwDocument *document, JsonObject *root, BwCanvas canvas, GError **error)
{
  BwFrame *frame = document->head.frame;
  const char *name = canvas == BW_CANVAS_BAIL ? "bail" : "band";
  const char *pointer = canvas == BW_CANVAS_BAIL ? "/bail/cells" : "/band/cells";
  JsonNode *cells
      = json_object_has_member (root, name)
            ? json_object_get_member (json_object_get_object_member (root, name), "cells")
            : NULL;
  int columns, rows;

  bw_document_canvas_size (&frame->design, canvas, &columns, &rows);
  document->drawing[canvas]
      = bw_read_cells (cells, pointer, columns, rows, &document->head.tray->tray, error);
  frame->seen[canvas] = (BwSeen){ .columns = columns, .rows = rows };
  return document->drawing[canvas] != NULL;
}

static gboolean
read_drawings (BwDocument *document, JsonObject *root, GError **error)
{
  return read_drawing (document, root, BW_CANVAS_BAND, error)
         && (document->head.frame->design.bail.style == BW_BAIL_NONE
             || read_drawing (document, root, BW_CANVAS_BAIL, error));
}

/* Whether this is a file of ours, of a version this program knows. */
static gboolean
check_format (JsonObject *root, GError **error)
{
  JsonNode *format = bw_take_required (root, "", "format", error), *version;
  const char *text;
  double number;

  if (!format || !bw_take_text (format, "/format", &text, error))
    return FALSE;
  if (!g_str_equal (text, FORMAT)) {
    bw_fault_set (error, BW_FAULT_RANGE, "/format",
                  _ ("this is not a Bandwright project; “%s” must stand here."), FORMAT);
    return FALSE;
  }
  version = bw_take_required (root, "", "version", error);
  if (!version || !bw_take_number (version, "/version", &number, error))
    return FALSE;
  if (number > VERSION) {
    bw_fault_set (error, BW_FAULT_VERSION, "/version",
                  _ ("this project was written by a newer program (version %g; this program reads "
                     "version %d). Nothing was changed."),
                  number, VERSION);
    return FALSE;
  }
  return bw_take_whole (version, "/version", VERSION, VERSION, &(int){ 0 }, error);
}

static gboolean
read_root (BwDocument *document, JsonObject *root, GError **error)
{
  static const char *const known[]
      = { "format",   "version", "id",    "title",    "stone",  "bead", "gauge",
          "bed",      "band",    "tray",  "bail",     "thread", "fit",  "materials",
          "progress", "motifs",  "about", "finished", NULL };
  BwDesign *design = &document->head.frame->design;

  if (!check_format (root, error) || !read_title (document, root, error)
      || !read_id (document, root, error) || !read_about (document, root, error)
      || !read_stone (document, root, error)
      || !read_plain_group (document, root, BW_GROUP_BEAD, TRUE, error)
      || !read_gauge (document, root, error)
      || !read_giving_group (document, root, BW_GROUP_BED, BW_GROUP_BED_HANDS, BW_GROUP_BED_PULLED,
                             error)
      || !read_band (document, root, error)
      || !bw_read_tray (json_object_get_member (root, "tray"), "/tray", document->head.tray, error)
      || !bw_read_motifs (json_object_get_member (root, "motifs"), &document->head.tray->tray,
                          document->head.motifs, error)
      || !read_bail (document, root, error)
      || !read_giving_group (document, root, BW_GROUP_THREAD, BW_GROUP_THREAD_HANDS,
                             BW_GROUP_THREAD_PULLED, error)
      || !read_plain_group (document, root, BW_GROUP_FIT, FALSE, error)
      || !read_materials (document, root, error) || !read_progress (document, root, error)
      || !read_done (document, root, error)
      || !bw_design_settle (design, document->head.progress, error)
      || !complete_band (design, has_bottom (root), error) || !complete_bail (design, root)
      || !believe (design, document->head.progress, error)
      || !read_drawings (document, root, error))
    return FALSE;
  keep_unknown (document, "", root, known);
  return TRUE;
}

BwDocument *
bw_document_from_json (JsonNode *node, GError **error)
{
  g_autoptr (BwDocument) document = bw_document_new ();
  JsonObject *root = bw_take_object (node, "", error);

  if (!root || !read_root (document, root, error))
    return NULL;
  return g_steal_pointer (&document);
}
