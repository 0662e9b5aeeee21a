/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turning a picture into beads beside the main loop: plain data in, plain data out. */
#pragma once

#include "core/pattern/mapping.h"
#include "project/document/tray.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

typedef struct {
  GdkPixbuf *pixbuf;
  BwPlacement placement;
  BwBandGrid grid;
  gboolean dither;
  int n_new;          /* colours to propose and add to the tray; 0: those of the tray */
  BwTray tray;        /* in and out */
  BwDrawing *base;    /* the band as it is */
  BwDrawing *drawing; /* out: the band with the picture */
  int per_mille;      /* done so far; read and written atomically */
} BwPictureJob;

/* Takes base, keeps pixbuf. */
BwPictureJob *bw_picture_job_new (GdkPixbuf *pixbuf, const BwPlacement *placement,
                                  const BwBandGrid *grid, const BwTray *tray, BwDrawing *base);
void bw_picture_job_free (BwPictureJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPictureJob, bw_picture_job_free)

/* Does the work where it is called. FALSE with *error: stopped, or the tray is full. */
gboolean bw_picture_job_run (BwPictureJob *job, GCancellable *cancellable, GError **error);

/* The same on a thread. Takes job; finish gives it back, NULL with *error. While it runs only
 * per_mille may be looked at. */
void bw_picture_job_start (BwPictureJob *job, GCancellable *cancellable, GAsyncReadyCallback done,
                           gpointer data);
BwPictureJob *bw_picture_job_finish (GAsyncResult *result, GError **error);
