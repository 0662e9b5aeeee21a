/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A piece that is done, as the project's and the book's "finished" have it. */
#pragma once

#include "project/document/done.h"
#include <json-glib/json-glib.h>

/* { "rows": 114, "planned": 112, "told": 0.7, "hours": 6.5, "price": 120, "picture": "…", "sold":
 * "kept", "sold" or "given" }: rows is required, told with planned, and kept may go without saying.
 * Not yet validated. */
gboolean bw_read_done (JsonObject *object, const char *pointer, BwDone *done, GError **error);
/* Writes what is known over what stands there, and takes out what is not. */
void bw_write_done (const BwDone *done, JsonObject *object);
/* The keys of it, ended by NULL. */
extern const char *const bw_done_keys[];
