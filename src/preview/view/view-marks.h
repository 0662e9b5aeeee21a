/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is marked over the picture of a piece that hangs. */
#pragma once

#include "preview/scene/camera.h"
#include <gtk/gtk.h>

/* Balance point, plumb line and tilt of the scene as this camera sees it, over a picture of
 * width × height logical pixels; the widget gives the type. */
void bw_view_marks_draw (GtkWidget *widget, GtkSnapshot *snapshot, const BwScene *scene,
                         BwCamera camera, int width, int height);
