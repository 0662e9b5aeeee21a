/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of the piece made beside the window's own work: a large one takes seconds, a fine one a
 * minute, a fine turntable the better part of an hour. */
#pragma once

#include "preview/fine/weaving.h"
#include <gtk/gtk.h>

typedef enum {
  BW_STILL_ONE,      /* a PNG file */
  BW_STILL_MOVING,   /* a WebP file in which the piece turns once round */
  BW_STILL_NUMBERED, /* the same as so many PNG files */
  BW_STILL_WOVEN,    /* the piece being woven, as so many PNG files */
} BwStillKind;

typedef struct {
  BwStill still;
  gboolean fine;
  BwStillKind kind;
  int frames;        /* of a piece that turns or is woven */
  BwWeaving weaving; /* filled for BW_STILL_WOVEN */
} BwStillOrder;

/* Told in the main loop: the share done, and the picture so far, small. */
typedef void (*BwStillTold) (gpointer watcher, double done, GdkTexture *so_far);

/* The piece as the stone view shows it now, so many pixels wide and high, on a clear ground. The
 * scene is owned by the caller, for bw_still_job_run(). */
BwScene *bw_still_as_shown (BwSession *session, int side, BwStill *still);

/* Makes it in a thread and calls done in the main loop. The scene is taken. told is told as long as
 * the watcher lives; both may be NULL. */
void bw_still_job_run (BwScene *scene, const BwStillOrder *order, GObject *watcher,
                       BwStillTold told, GCancellable *stop, GAsyncReadyCallback done,
                       gpointer data);
/* The files' bytes (GBytes), one but for numbered pictures; NULL with *error set. Owned. */
GPtrArray *bw_still_job_finish (GAsyncResult *result, GError **error);
