/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keys of an entry of the book, read and written. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

/* What is not there leaves the buffer and the number as they are. FALSE with a fault. */
gboolean bw_key_read_text (JsonObject *object, const char *pointer, const char *key, char *buffer,
                           gsize bytes, GError **error);
gboolean bw_key_read_number (JsonObject *object, const char *pointer, const char *key,
                             double *number, GError **error);
/* The same of one that must be there. */
gboolean bw_key_need_number (JsonObject *object, const char *pointer, const char *key,
                             double *number, GError **error);

void bw_key_write_number (JsonObject *object, const char *key, double number);
/* What is not known, a number of 0 or a text of nothing, has no key. */
void bw_key_write_known (JsonObject *object, const char *key, double number);
void bw_key_write_text (JsonObject *object, const char *key, const char *text);
void bw_key_drop (JsonObject *object, const char *key);
/* Whether both, which are taken, say the same. */
gboolean bw_key_same_objects (JsonObject *a, JsonObject *b);
