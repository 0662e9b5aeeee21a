/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the piece hangs, in a maker's words. */
#pragma once

#include "preview/scene/scene.h"

/* One sentence. Owned. */
char *bw_tilt_words (const BwSceneRest *rest);
