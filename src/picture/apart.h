/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decoding a foreign picture apart from the program: in a process that has limits of its own and
 * may die of it. */
#pragma once

#include "picture/answer.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

/* Safe on any thread; waits at most `seconds` by the clock, then ends the decoder by force, as it
 * does at once when cancelled. Gives the points, owned, with DONE in the answer; or NULL, and the
 * answer says why not (when cancelled it says nothing of use). */
GdkPixbuf *bw_picture_decode_apart (GBytes *file, int seconds, GCancellable *cancellable,
                                    BwPictureAnswer *answer);
