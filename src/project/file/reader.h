/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON tree to document and back. Private to this room. */
#pragma once

#include "project/document/document.h"

/* The whole document, or NULL with a fault; nothing is half-read. */
BwDocument *bw_document_from_json (JsonNode *root, GError **error);

/* Every key explicit, in a fixed order, then the keys that are not known in the order found. */
JsonNode *bw_document_to_json (const BwDocument *document);

/* One remembered motif as it stands in the file, without the keys that are not known. */
JsonObject *bw_write_motif (const BwMade *made, const BwTray *tray);

/* The list of colours, each with its keys that are not known. Owned. */
JsonArray *bw_write_tray (const BwTrayValue *value);

/* Reads the keys of one group that stand in object (at pointer) into the design; absent ones are
 * left as they are or, when required, are a fault. */
gboolean bw_read_group (BwGroupId id, JsonObject *object, const char *pointer, BwDesign *design,
                        GError **error);

/* The same of the stone, checked as a whole but for its geometry; *mineral, borrowed from object,
 * is left as it is where none stands there. */
/* What the stone looks like, of the object of a stone: that stays as it is where nothing tells it.
 */
gboolean bw_read_look (JsonObject *object, const char *pointer, BwDesign *design, GError **error);
gboolean bw_read_stone (JsonObject *object, const char *pointer, BwDesign *design,
                        const char **mineral, GError **error);
/* Writes the keys of a group that are given in the design over what stands in object. */
void bw_write_group (JsonObject *object, const BwDesign *design, BwGroupId id);

/* The parts that are lists: each NULL or FALSE with a fault. node may be NULL: the default. */
gboolean bw_read_tray (JsonNode *node, const char *pointer, BwTrayValue *tray, GError **error);
/* Of a colour: "srgb" and "finish", which stay as they are where nothing is said. */
gboolean bw_read_srgb (JsonObject *object, const char *pointer, guint32 *srgb, GError **error);
gboolean bw_read_finish (JsonObject *object, const char *pointer, BwFinish *finish, GError **error);
gboolean bw_take_finish (JsonNode *node, const char *pointer, BwFinish *finish, GError **error);
gboolean bw_read_motifs (JsonNode *node, const BwTray *tray, BwMotifs *motifs, GError **error);
gboolean bw_read_progress (JsonObject *object, BwProgress *progress, GError **error);
BwDrawing *bw_read_cells (JsonNode *node, const char *pointer, int columns, int rows,
                          const BwTray *tray, GError **error);
