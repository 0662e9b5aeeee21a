/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Projects to look at: plain, irregular, tapered, doubly terminated, with every bail. */
#pragma once

#include "preview/scene/scene.h"

/* One of N_PIECES sound projects, owned by the caller; the band wears all finishes in turn. */
#define N_PIECES 6
BwProject *piece_new (int which);

/* A band of about this many beads on a regular stone, owned by the caller. */
BwProject *piece_of_size (int beads);

/* A sound project with a bail of this style, otherwise drawn by lot; owned by the caller. */
BwProject *piece_random (GRand *rand, BwBailStyle style);

/* A camera somewhere round the piece. */
BwCamera piece_camera (GRand *rand);
