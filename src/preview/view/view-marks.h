/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is marked over the picture of a piece that hangs. */
#pragma once

#include "preview/scene/camera.h"
#include <gtk/gtk.h>

/* By how many pixels more the words under the piece need the foot of a picture of this width than
 * they have it anyway: with large text, or wrapped. */
int bw_view_marks_extra (GtkWidget *widget, const BwScene *scene, int width);

/* Balance point, plumb line and tilt of the scene as this camera sees it, over a picture of
 * width × height logical pixels; the widget gives the type. */
void bw_view_marks_draw (GtkWidget *widget, GtkSnapshot *snapshot, const BwScene *scene,
                         BwCamera camera, int width, int height);
