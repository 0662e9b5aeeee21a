/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece as a model for other programs: binary glTF 2.0. */
#pragma once

#include "project/project.h"

/* Stone, bed, band, bail and its metal ring, each a group of its own by name; one mesh for every
 * colour of bead in use, placed as often as it is strung. Metres, y up the stone. Owned by the
 * caller. */
GBytes *bw_model_new (BwProject *project);
