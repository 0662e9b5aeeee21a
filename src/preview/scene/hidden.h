/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What need not be drawn. */
#pragma once

#include "preview/scene/scene.h"

/* TRUE when the stone surely hides from the eye all that lies within `reach` of a place, all in
 * millimetres and the piece's own axes; FALSE tells nothing. */
gboolean bw_hidden_by_stone (const BwScene *scene, const float eye[3], const float at[3],
                             float reach);
