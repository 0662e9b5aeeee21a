/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photograph itself: what counts as ground lies under a veil, and a point of it can be marked,
 * by a click or by the arrow keys.
 *
 * Signal "marked" (double x, double y): where, 0..1 from the left and from the top. */
#pragma once

#include "core/pattern/photo-tray.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gtk/gtk.h>

#define BW_TYPE_PHOTO_SIGHT (bw_photo_sight_get_type ())
G_DECLARE_FINAL_TYPE (BwPhotoSight, bw_photo_sight, BW, PHOTO_SIGHT, GtkWidget)

/* photo NULL: none. wish: a ring shows the point where one is marked. */
void bw_photo_sight_show (BwPhotoSight *self, GdkPixbuf *photo, const BwPhotoTray *found,
                          const BwPhotoWish *wish);
