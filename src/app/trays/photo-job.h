/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a photograph and looking its colours out, beside the main loop. */
#pragma once

#include "core/pattern/photo-tray.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

typedef struct {
  GFile *file;      /* to be read; NULL: photo is there */
  GdkPixbuf *photo; /* in or out */
  BwPhotoWish wish;
  BwPhotoTray found; /* out */
  int per_mille;     /* of the looking; −1 while it is read. Read and written atomically */
} BwPhotoJob;

void bw_photo_job_free (BwPhotoJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPhotoJob, bw_photo_job_free)

/* Takes job; finish gives it back, NULL with an error of one sentence, or G_IO_ERROR_CANCELLED.
 * While it runs only per_mille may be looked at. */
void bw_photo_job_start (BwPhotoJob *job, GCancellable *stop, GAsyncReadyCallback done,
                         gpointer data);
BwPhotoJob *bw_photo_job_finish (GAsyncResult *result, GError **error);
