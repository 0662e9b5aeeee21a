/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread as it lies. It is told by the beads it visits, and written down as lines only for
 * whoever shows it: they take more room than the beads. */
#pragma once

#include "preview/scene/scene.h"

/* Appends to holes a BwSceneLine through the hole of each of the first n visits, in the needle's
 * order, and to links one from each to the next, but where one length of thread ends and another
 * begins. Either may be NULL. */
void bw_scene_thread_lines (const BwScene *scene, int n, GArray *holes, GArray *links);
/* The line through the hole of one visit, from 0. */
BwSceneLine bw_scene_thread_hole (const BwScene *scene, int visit);
/* How many links the first n visits have. */
int bw_scene_thread_links (const BwScene *scene, int n);
