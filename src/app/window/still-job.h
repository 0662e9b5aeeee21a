/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture of the piece made beside the window's own work: a large one takes seconds. */
#pragma once

#include "preview/picture/still.h"
#include <gio/gio.h>

/* The piece as the stone view shows it now, so many pixels wide and high, on a clear ground. The
 * scene is owned by the caller, for bw_still_job_run(). */
BwScene *bw_still_as_shown (BwSession *session, int side, BwStill *still);

/* Makes it in a thread and calls done in the main loop. The scene is taken. */
void bw_still_job_run (BwScene *scene, const BwStill *still, GCancellable *stop,
                       GAsyncReadyCallback done, gpointer data);
/* The bytes of a PNG file; NULL with *error set. Owned. */
GBytes *bw_still_job_finish (GAsyncResult *result, GError **error);
