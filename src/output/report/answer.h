/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One JSON object (RFC 8259), written key by key: never in the user's locale, every number in the
 * fewest digits that read back to the same double, never NaN or an infinity (null stands there). */
#pragma once

#include <glib.h>

typedef struct {
  GString *text;
  GString *closers; /* what closes each open container, innermost last */
  gboolean empty;   /* nothing in the innermost container yet */
} BwAnswer;

/* Opens the object. Every later call takes the member's key, or NULL inside an array. */
void bw_answer_init (BwAnswer *json);

/* Closes what is still open; returns the text with a newline at its end, owned by the caller. */
char *bw_answer_finish (BwAnswer *json);

void bw_answer_open_object (BwAnswer *json, const char *key);
void bw_answer_open_array (BwAnswer *json, const char *key);
void bw_answer_close (BwAnswer *json);

void bw_answer_number (BwAnswer *json, const char *key, double value);
/* The number when it is there, else null. */
void bw_answer_number_if (BwAnswer *json, gboolean there, const char *key, double value);
void bw_answer_count (BwAnswer *json, const char *key, guint64 value);
void bw_answer_boolean (BwAnswer *json, const char *key, gboolean value);
void bw_answer_null (BwAnswer *json, const char *key);
/* value NULL writes null; else it must be UTF-8. */
void bw_answer_string (BwAnswer *json, const char *key, const char *value);
/* A flat array on one line. */
void bw_answer_numbers (BwAnswer *json, const char *key, const double *values, int n_values);
