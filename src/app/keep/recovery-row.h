/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One crashed design in the question: what it looks like, where it was saved, when the copy was
 * made, and the two things that can be done with it. */
#pragma once

#include "app/keep/leftover.h"
#include <gtk/gtk.h>

/* What is known of a copy before the question is asked. */
typedef struct {
  BwLeftover *leftover;
  BwProject *project;       /* NULL when it cannot be read */
  char *fault;              /* why not */
  cairo_surface_t *picture; /* NULL with project */
} BwFound;

/* All copies there are. On any thread; owned array of BwFound. */
GPtrArray *bw_found_all (void);

/* found is borrowed for this call alone. Activates the action "row.recover" or "row.discard" of the
 * group that the caller puts into it. */
GtkWidget *bw_recovery_row_new (const BwFound *found);
