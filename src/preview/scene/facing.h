/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Face to face with what lies under a pixel. */
#pragma once

#include "preview/scene/camera.h"

/* The face of the stone under a pixel (origin top left), an index of scene->stone_planes; on a bead
 * of the band or the bail the face it lies before. −1 where neither a bead nor the stone is shown.
 */
int bw_face_under (const BwEye *eye, const BwScene *scene, guint layers, double x, double y,
                   int width, int height);

/* Straight at that face in the scene's stance; zoom as in `now`, and turn too where the face looks
 * straight up or down. */
BwCamera bw_camera_facing (const BwScene *scene, int face, BwCamera now);
