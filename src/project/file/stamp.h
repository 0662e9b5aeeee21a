/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file was when it was read or written last, so that a save can tell whether another program
 * has changed it since. A plain value, copied by assignment. */
#pragma once

#include <glib.h>

struct stat;

typedef struct {
  gboolean known;
  guint64 device, inode, size;
  gint64 seconds; /* when it was written last, since 1970 */
  gint64 nanoseconds;
  char digest[65]; /* SHA-256 of its bytes, in hexadecimal; "" when not known */
  char etag[128];  /* for a file that is no path of this computer; "" otherwise */
} BwStamp;

typedef enum {
  BW_FILE_SAME,
  BW_FILE_CHANGED, /* other bytes are in it */
  BW_FILE_GONE,    /* nothing of that name is there */
} BwFileState;

/* Of a file of this computer with these bytes. */
BwStamp bw_stamp_of (const struct stat *status, const char *data, gsize length);

/* What has become of the file. One that was only touched, or put there again as it was, is the
 * same. An unknown stamp is told as BW_FILE_SAME. Reads the file where its time or place differ. */
BwFileState bw_stamp_look (const BwStamp *stamp, const char *path);

/* Both are known and mean one file of this computer, whatever it is called. */
gboolean bw_stamp_same_file (const BwStamp *a, const BwStamp *b);

/* One line of text and back; FALSE, and unknown, when it is no such line. text: owned. */
char *bw_stamp_to_text (const BwStamp *stamp);
gboolean bw_stamp_from_text (const char *text, BwStamp *stamp);
