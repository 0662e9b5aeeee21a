/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a design looks on the shelf: what its file says in short, and its picture. Plain data, made
 * on any thread. */
#pragma once

#include "project/project.h"
#include <cairo.h>
#include <gio/gio.h>

/* Points of the longer side of a picture, at most. */
#define BW_SHELF_SIDE 480

typedef enum {
  BW_SHELF_WAITING, /* nothing is known yet */
  BW_SHELF_SOUND,
  BW_SHELF_GONE,   /* no such file */
  BW_SHELF_BROKEN, /* it cannot be read, or is no project */
} BwShelfState;

typedef struct {
  BwShelfState state;
  char *reason;             /* of a broken one: a sentence */
  char *title;              /* "" for none; one line */
  int rows;                 /* of the band */
  int woven;                /* of these, 0..rows */
  double length_mm;         /* of the stone */
  cairo_surface_t *picture; /* ARGB32, no larger than the piece; NULL where none could be made */
} BwShelfLook;

void bw_shelf_look_free (BwShelfLook *look);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwShelfLook, bw_shelf_look_free)

/* Of a project's file, read and painted. Never NULL; waits as long as the disk does. stop ends it
 * between its parts, and what it gives then is of no use. */
BwShelfLook *bw_shelf_look_make (GFile *file, GCancellable *stop);

/* The piece alone, as it stands on the shelf; NULL when it has too many beads, none could be
 * painted, or it was stopped. Waits for its turn. Owned. */
cairo_surface_t *bw_shelf_look_paint (BwProject *project, GCancellable *stop);

/* Pictures are painted one at a time. Waits for the one in hand and lets no other begin: for a
 * program that ends, whose graphics driver goes with it. */
void bw_shelf_look_end (void);
