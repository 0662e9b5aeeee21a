/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where one looks at the piece from, by name. */
#pragma once

#include "preview/scene/scene.h"

typedef enum {
  BW_SEEN_FROM_FRONT, /* the side that shows the drawing best: away from bail or join */
  BW_SEEN_FROM_JOIN,  /* straight at the join */
  BW_SEEN_FROM_ABOVE, /* down the axis, or down the plumb line at rest */
  BW_SEEN_FROM_FACE,  /* straight at the next face of the stone, counting on round it */
} BwSeenFrom;

/* The camera for it; at_rest: of the piece hanging. What the name leaves open is as in `now`, which
 * also says which face is the next. */
BwCamera bw_seen_from (BwSeenFrom where, BwProject *project, gboolean at_rest, BwCamera now);
/* Straight at where the needle is after so many visits of the thread's path, the stone upright; tip
 * and zoom stay. It turns along bead by bead, not by jerks at each row; a bail, which may run over
 * the tip, turns nothing. */
BwCamera bw_seen_from_needle (BwProject *project, int visits, BwCamera now);
/* "front", "join", "above", "face"; FALSE when it is none of them. */
gboolean bw_seen_from_parse (const char *word, BwSeenFrom *where);
