/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The joint search beside the window: a first look, then everything there is. */
#pragma once

#include "project/find-ways.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define BW_TYPE_WAY_FINDER (bw_way_finder_get_type ())
/* Signal "changed" (): there are other ways, or it goes on no more. */
G_DECLARE_FINAL_TYPE (BwWayFinder, bw_way_finder, BW, WAY_FINDER, GObject)

BwWayFinder *bw_way_finder_new (void);

/* Searches for the project as it is now; what went on before ends. hands may be NULL. want: how the
 * piece should hang, NULL when it does not matter. */
void bw_way_finder_begin (BwWayFinder *self, BwProject *project, const BwBookHands *hands,
                          const BwWant *want);
/* Ends it: what was found by then is given. */
void bw_way_finder_stop (BwWayFinder *self);
gboolean bw_way_finder_is_busy (BwWayFinder *self);
/* 0..1 of what is to be looked at. */
double bw_way_finder_get_share (BwWayFinder *self);
/* Different good ways (of BwWay), more of them than anybody wants to see at once; borrowed until
 * "changed". */
const GArray *bw_way_finder_get_ways (BwWayFinder *self);

G_END_DECLS
