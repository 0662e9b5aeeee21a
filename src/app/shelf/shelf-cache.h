/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks kept between starts, in the user's cache folder: one picture and one note a file, found by
 * the file's address, time and size. What is not as it was written is made again. Any thread. */
#pragma once

#include "app/shelf/shelf-look.h"

/* Looks kept at most; those that were not wanted longest go first. */
#define BW_SHELF_KEPT_MOST 120

/* What the file is just now. Owned; NULL, with why, when that cannot be told. */
char *bw_shelf_cache_key (GFile *file, GCancellable *stop, GError **error);

/* NULL where none is kept, or none that is whole. Owned. */
BwShelfLook *bw_shelf_cache_find (const char *key);
/* A look without a picture is not kept. */
void bw_shelf_cache_keep (const char *key, const BwShelfLook *look);
