/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas on a desk of its own, with three colours to draw in. */
#pragma once

#include "editor/band/band-canvas.h"

typedef struct {
  BwProject *project;
  BwSession *session;
  GtkWidget *window;
  BwBandCanvas *canvas;
  char *status; /* what the canvas told last */
} Bench;

/* The set-up and tear-down of a test: *state is a Bench. */
int bench_set_up (void **state);
int bench_tear_down (void **state);

/* The colour of a bead, and how many beads of the band have a colour. */
guint8 bench_cell (Bench *bench, int row, int column);
int bench_count (Bench *bench, guint8 colour);
