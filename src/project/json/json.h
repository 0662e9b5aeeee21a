/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON text in and out (RFC 8259), strict, as json-glib's tree. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

#define BW_JSON_DEPTH_MAX 100
#define BW_JSON_BYTES_MAX (64 * 1024 * 1024) /* four times the largest project there can be */

/* Reads exactly one value. Faults (BW_FAULT_SYNTAX with line and column, BW_FAULT_RANGE for a
 * number no double can hold) bear the pointer of the value they lie in. Beyond the grammar it
 * refuses what this program could not write back as it found it: a key that stands twice, text with
 * the character U+0000 or half a surrogate pair, more than BW_JSON_DEPTH_MAX levels. */
JsonNode *bw_json_parse (const char *data, gsize length, GError **error);

/* The value as text with a line feed at its end, indented by two spaces; a list of numbers, and an
 * object of plain values in a list, take one line. The same in every locale. Owned. */
char *bw_json_print (JsonNode *root, gsize *length);

/* A number as a node: whole ones as an integer, so that 12 is written 12 and not 12.0. */
JsonNode *bw_json_number (double number);

/* pointer + "/" + key, with the key's "~" and "/" escaped (RFC 6901). Owned. */
char *bw_json_pointer (const char *pointer, const char *key);
