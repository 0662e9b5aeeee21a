/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the looks at each point of a picture, or of a strip of it, have brought so far. */
#pragma once

#include "preview/fine/world.h"
#include <cairo.h>

/* Sums over n looks. */
typedef struct {
  float found[3], ground[3], cover;
  float colour[3], normal[3];
  float bright, square; /* lightness as it will be shown, and its square */
  float n;
} BwFilmCell;

typedef struct {
  int width, height;
  BwFilmCell *cell; /* row by row */
} BwFilm;

void bw_film_init (BwFilm *film, int width, int height);
void bw_film_clear (BwFilm *film);

void bw_film_add (BwFilmCell *cell, const BwGlance *glance);
/* How far the mean lightness of a cell may still be off (one standard error), 0..1. */
double bw_film_unsure (const BwFilmCell *cell);
/* A smaller film whose cells hold what `by` × `by` of this one hold. */
void bw_film_shrink (const BwFilm *film, int by, BwFilm *small);

/* Evens out noise by what lies beside it and looks alike: what is seen first there, how it faces,
 * and how light it is, so far as that is sure. */
void bw_film_smooth (BwFilm *film);

/* Light as it is shown: bright light rolls off instead of being cut, so that white keeps its shape.
 * Linear, 0..1. */
double bw_film_shown (double light);
/* Lays rows first_row up to end_row of the film over the ground that is painted in the surface
 * (ARGB32) already, `at` being the surface's row for first_row. */
void bw_film_develop (const BwFilm *film, int first_row, int end_row, cairo_surface_t *surface,
                      int at);
