/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one way in which this program writes a file: whole or not at all. */
#pragma once

#include "project/file/stamp.h"
#include <gio/gio.h>

/* How a save goes about it. Flags. */
typedef enum {
  BW_SAVE_PLAIN = 0,
  BW_SAVE_BACKUP = 1 << 0,  /* what was there stays beside it, as NAME~ */
  BW_SAVE_PRIVATE = 1 << 1, /* a new file is for its owner alone */
  BW_SAVE_OVER = 1 << 2,    /* also where another program has changed the file; for projects */
} BwSaveHow;

/* What a save that succeeded could not keep of the old file. Flags. */
typedef enum {
  BW_LOST_LINKS = 1 << 0, /* its other names (hard links) still hold what was there before */
  BW_LOST_OWNER = 1 << 1, /* it belongs to another user or group than before */
  BW_LOST_PERMISSIONS = 1 << 2,
  BW_LOST_ATTRIBUTES = 1 << 3, /* access lists and extended attributes */
  BW_LOST_BACKUP = 1 << 4,     /* a backup was wanted and could not be made */
} BwSaveLost;

typedef struct {
  guint lost;    /* flags of BwSaveLost */
  BwStamp stamp; /* of the file as it is now */
} BwSaved;

/* Replaces the file, or the one that symbolic links lead to, by these bytes. FALSE with a
 * G_IO_ERROR when it cannot: what was there is there still, and nothing else is. The message is a
 * sentence without the file's name. A file that the user may not write is not replaced either,
 * though its folder might allow it, and nothing but a regular file is: a folder is
 * G_IO_ERROR_IS_DIRECTORY, a device or pipe G_IO_ERROR_NOT_REGULAR_FILE. Owner, permissions, access
 * lists and extended attributes of an old file stay; saved, which may be NULL, tells what did not.
 * how: flags of BwSaveHow. What earlier saves into this folder left when they were killed is swept
 * away. */
gboolean bw_save_whole (const char *path, const char *data, gsize length, guint how, BwSaved *saved,
                        GError **error);

/* The same for any place that GIO knows. One that is no path of this computer is left to the
 * system; etag, when not NULL, must then be the file's still (else G_IO_ERROR_WRONG_ETAG). */
gboolean bw_save_file (GFile *file, const char *data, gsize length, guint how, const char *etag,
                       BwSaved *saved, GError **error);

/* A sentence on what was lost, NULL when nothing was. Owned. */
char *bw_save_lost_words (guint lost);

/* The path of the backup of a file: NAME~, cut where that would be too long a name. Owned. */
char *bw_save_backup_path (const char *path);
