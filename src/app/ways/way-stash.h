/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the beads of a way are in the stash, before it is worked out to the bead. */
#pragma once

#include "core/workshop/ways.h"
#include "project/project.h"

/* With the colours in the shares they have in the project now. FALSE where no stash is known. */
gboolean bw_way_in_stash (BwProject *project, const BwWay *way);
