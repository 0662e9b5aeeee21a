/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file that is written beside the one it is to replace. Its name says that it is ours and its
 * lock that its writer is alive, so that what a killed program left is told from what another is
 * writing just now. Private to saving. */
#pragma once

#include <glib.h>

struct stat;

#define BW_BESIDE_PREFIX ".bandwright-save-" /* followed by eight characters */

typedef struct {
  int fd; /* −1: not open */
  char *path;
} BwBeside;

#define BW_BESIDE_NONE ((BwBeside){ .fd = -1 })

/* own: readable by its owner alone; otherwise as the user's mask and the folder say. */
gboolean bw_beside_open (BwBeside *beside, const char *folder, gboolean own, GError **error);
gboolean bw_beside_write (BwBeside *beside, const char *data, gsize length, GError **error);
/* Brings it to the disk and renames it to path; *now tells of the file then there. */
gboolean bw_beside_put (BwBeside *beside, const char *path, struct stat *now, GError **error);
/* Closes it and, unless it was put, removes it. */
void bw_beside_clear (BwBeside *beside);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwBeside, bw_beside_clear)

/* A second name for path's file, in the same folder. Owned; NULL where the disk has none. */
char *bw_beside_link (const char *path);

/* Removes what killed writers left in a folder. */
void bw_beside_sweep (const char *folder);
