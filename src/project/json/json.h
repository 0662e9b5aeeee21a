/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON text in and out (RFC 8259), strict, as json-glib's tree. Private to this room.
 *
 * A number stays as it is written: 12345678901234567890 and 1e400 are no doubles and must come back
 * digit by digit where the program does not know the key. json-glib has no node for that, so only
 * the functions below make, tell and read a number. */
#pragma once

#include <json-glib/json-glib.h>

#define BW_JSON_DEPTH_MAX 100
/* Each four times what the largest project there can be has; json-glib takes some 300 bytes for a
 * value, so that they bound memory too. */
#define BW_JSON_BYTES_MAX (64 * 1024 * 1024)
#define BW_JSON_VALUES_MAX 200000
/* Many more than any object of a project has; they bound the time to find a key that stands twice,
 * and how long a pointer can get. */
#define BW_JSON_KEYS_MAX 1000
#define BW_JSON_POINTER_MAX 500 /* bytes */

/* Reads exactly one value. Faults (BW_FAULT_SYNTAX with line and column) bear the pointer of the
 * value they lie in, or of one round it where that would be longer than BW_JSON_POINTER_MAX. Beyond
 * the grammar it refuses what this program could not write back as it found it: a key that stands
 * twice, text with the character U+0000 or half a surrogate pair; and more bytes, values, keys in
 * one object or levels than are set above. */
JsonNode *bw_json_parse (const char *data, gsize length, GError **error);
/* The same with another bound of values. */
JsonNode *bw_json_parse_up_to (const char *data, gsize length, guint values_max, GError **error);

/* The value as text with a line feed at its end, indented by two spaces; a list of numbers, and an
 * object of plain values in a list, take one line. The same in every locale. Owned. */
char *bw_json_print (JsonNode *root, gsize *length);

/* A number as a node: a finite one in the fewest digits, or as it is written. */
JsonNode *bw_json_number (double number);
JsonNode *bw_json_number_as (const char *text, gsize length);

gboolean bw_json_is_number (JsonNode *node);
gboolean bw_json_is_text (JsonNode *node);
/* Of a number: as it is written, borrowed; the nearest double, infinite when there is none. */
const char *bw_json_number_text (JsonNode *node);
double bw_json_get_number (JsonNode *node);

/* pointer + "/" + key, with the key's "~" and "/" escaped (RFC 6901). Owned. */
char *bw_json_pointer (const char *pointer, const char *key);
