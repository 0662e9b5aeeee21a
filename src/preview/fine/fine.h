/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fine picture: the same scene as in the stone view, with light followed through glass and
 * stone. It takes a minute or so where the stone view takes a moment. */
#pragma once

#include "preview/picture/still.h"
#include <gio/gio.h>

typedef struct {
  guint seed;
  double lens; /* how far things before and behind are out of focus; 0: sharp all over, 1: usual */
  int looks;   /* at each point, at most; 0: as many as a picture of this size needs */
  int at_a_time; /* points held in memory at once; 0: the usual number */
} BwFineOptions;

#define BW_FINE_USUAL ((BwFineOptions){ .lens = 1 })

/* Told now and then by the thread that makes the picture: the share done, and the picture so far,
 * small; it is valid until told again. */
typedef void (*BwFineTold) (double done, cairo_surface_t *so_far, gpointer data);

/* An ARGB32 surface as bw_still_new() makes it, owned by the caller. The same for the same scene,
 * still and options, however many processors there are; told may be NULL. NULL with *error set
 * where it was stopped, a size is out of range, or Embree is missing. */
cairo_surface_t *bw_fine_new (BwScene *scene, const BwStill *still, const BwFineOptions *options,
                              GCancellable *stop, BwFineTold told, gpointer data, GError **error);
