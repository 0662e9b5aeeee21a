/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking plain values out of a JSON tree: each either has the kind and range wanted, or is a fault
 * that names its pointer, what was found and what is allowed. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

/* What stands there, in plain words; numbers and short texts as they stand. Owned. */
char *bw_take_describe (JsonNode *node);

gboolean bw_take_number (JsonNode *node, const char *pointer, double *number, GError **error);
/* A number without fraction, lo..hi; 14.0 is one. */
gboolean bw_take_whole (JsonNode *node, const char *pointer, int lo, int hi, int *number,
                        GError **error);
/* A text; borrowed from the node. */
gboolean bw_take_text (JsonNode *node, const char *pointer, const char **text, GError **error);
/* One line of at most BW_LINE_MAX characters; borrowed from the node. */
gboolean bw_take_line (JsonNode *node, const char *pointer, const char **text, GError **error);
/* One line that fits a buffer. */
gboolean bw_take_short_text (JsonNode *node, const char *pointer, char *buffer, gsize bytes,
                             GError **error);
/* One of the words; *index is its place in the NULL-terminated list. */
gboolean bw_take_word (JsonNode *node, const char *pointer, const char *const *words, int *index,
                       GError **error);
/* Exactly n numbers. */
gboolean bw_take_numbers (JsonNode *node, const char *pointer, double *numbers, int n,
                          GError **error);
/* Borrowed from the node; NULL with an error. */
JsonArray *bw_take_list (JsonNode *node, const char *pointer, GError **error);
JsonObject *bw_take_object (JsonNode *node, const char *pointer, GError **error);

/* The member's node, NULL with a BW_FAULT_MISSING when it is absent. */
JsonNode *bw_take_required (JsonObject *object, const char *pointer, const char *key,
                            GError **error);

/* The members of object that `known` (NULL-terminated) does not list; NULL when there are none. */
JsonObject *bw_take_unknown (JsonObject *object, const char *const *known);
