/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a way to set the stone comes to, told of the project as it would be, and how it looks. */
#pragma once

#include "core/workshop/ways.h"
#include <cairo.h>
#include <gio/gio.h>

typedef struct {
  BwVerdict verdict;
  guint64 beads;    /* to buy, spare included, what the stash has taken off */
  double stash_g;   /* of its beads that the stash has */
  gboolean covered; /* the stash has all its beads */
  double hours;     /* at the project's pace */
  gboolean has_cost;
  double cost;              /* of all pieces, in the project's currency */
  cairo_surface_t *picture; /* NULL when none could be painted */
} BwWayLook;

void bw_way_look_free (BwWayLook *look);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwWayLook, bw_way_look_free)

/* Works it out on a thread, one way after the other in the order asked. project: the text of a
 * project's file. done comes on the main thread, a stop or not. */
void bw_way_look_ask (GBytes *project, const BwWay *way, GCancellable *stop,
                      GAsyncReadyCallback done, gpointer data);
/* NULL with an error when it was stopped or the way does not stand. Owned. */
BwWayLook *bw_way_look_finish (GAsyncResult *result, GError **error);
