/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing of the stash as the book has it. Private to this room. */
#pragma once

#include "project/book/stash-item.h"
#include <json-glib/json-glib.h>

/* Checked; *item is filled in either case. */
gboolean bw_stash_read (JsonObject *element, const char *pointer, BwStashItem *item,
                        GError **error);
/* Over what stands there; keys that are not known stay. */
void bw_stash_write (const BwStashItem *item, JsonObject *element);
