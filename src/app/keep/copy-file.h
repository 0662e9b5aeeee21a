/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One safety copy on the disk: the document and what is told of it. Used by the main thread and by
 * one that writes; calls wait for each other. Reference counted. */
#pragma once

#include <glib.h>

typedef struct _BwCopyFile BwCopyFile;

/* What is told of the document. Texts are owned by the label. */
typedef struct {
  char *title;
  char *uri;      /* where it was saved last; NULL for never */
  char *stamp;    /* what that file was then, as of bw_stamp_to_text(); may be NULL */
  char *examples; /* which measurements are made up, as of bw_examples_to_text(); may be NULL */
} BwCopyLabel;

void bw_copy_label_clear (BwCopyLabel *label);

/* A new one, which is on the disk once it is written. */
BwCopyFile *bw_copy_file_new (void);
/* One that is there already, and the descriptor that holds its lock (−1: none), which is taken. */
BwCopyFile *bw_copy_file_adopt (const char *copy, int lock);
BwCopyFile *bw_copy_file_ref (BwCopyFile *self);
/* The last reference gives the lock up; the copy stays. */
void bw_copy_file_unref (BwCopyFile *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwCopyFile, bw_copy_file_unref)

/* Writes the document, unless something of a higher serial was done before: then it comes too late,
 * and TRUE is returned. */
gboolean bw_copy_file_write (BwCopyFile *self, guint serial, const BwCopyLabel *label,
                             const char *data, gsize length, GError **error);
/* Takes it away, and all that would be written with a lower serial. */
void bw_copy_file_remove (BwCopyFile *self, guint serial);
/* The same, but that the document is kept among the discarded ones. FALSE when it could not be, and
 * then it stays where it was. */
gboolean bw_copy_file_lay_aside (BwCopyFile *self, guint serial);
