/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks asked for beside the main loop: from the cache where it has them, else made and kept. A few
 * threads do it, so that a disk that gives nothing holds up no other design but its own. */
#pragma once

#include "app/shelf/shelf-look.h"

/* done is called in the main loop, in no order. stop: whoever asks is gone. */
void bw_shelf_pictures_ask (GFile *file, GCancellable *stop, GAsyncReadyCallback done,
                            gpointer data);
/* Owned; NULL when it was stopped. */
BwShelfLook *bw_shelf_pictures_finish (GAsyncResult *result);
