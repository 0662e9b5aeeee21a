/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece as plain data ready to draw: no GL, no widgets. Millimetres, z up the stone.
 */
#pragma once

#include "project/session.h"

/* One bead: a holed, rounded cylinder. */
typedef struct {
  float at[3];
  float axis[3];   /* unit, along the hole, towards the higher column */
  float out[3];    /* unit, away from what it lies on */
  float colour[3]; /* linear light, 0..1 */
  float finish;    /* BwFinish */
  gint32 row, column;
  gint32 in_bail;
} BwSceneBead;

/* A corner of a triangle. */
typedef struct {
  float at[3];
  float normal[3];
} BwSceneVertex;

/* A straight line. */
typedef struct {
  float from[3], to[3];
  float strength; /* 0..1: how much it shows */
} BwSceneLine;

/* The plane of a face: unit outward normal, distance from the origin along it. */
typedef struct {
  float normal[3];
  float distance;
} BwScenePlane;

typedef struct {
  float centre[3]; /* on the stone's axis, at half height of the whole piece: what turning turns
                      about */
  float radius;    /* of a sphere about the centre that holds the piece */
  float breadth;   /* greatest distance of anything from the axis */
  float focus[3];  /* the band's middle: what coming nearer aims at */
  int band_columns, bail_columns; /* 0: no bail */
  int n_band;                     /* beads of the band */
  gboolean colour_by_fit;
  int woven; /* rows of the band shown as woven: dimmed by the next recolouring */
  float bead_radius, bead_half_length, hole_radius;
  float bead_rounding; /* radius of its rims */
  float band_span[2];  /* lower and upper edge of the band */
  float bed_span[2];   /* of the bed; equal when there is none */
  float cord_width;    /* of one turn of the bed's cord */
  float thread_radius;
  float stone_keeps[3]; /* share of red, green and blue left after 10 mm of the stone, 0..1 */
  GArray *stone;        /* of BwSceneVertex, triangles, outward */
  GArray *stone_edges;  /* of BwSceneLine */
  GArray *stone_planes; /* of BwScenePlane */
  GArray *bed;          /* of BwSceneVertex, triangles, a closed sleeve */
  GArray *beads; /* of BwSceneBead: the band row by row (index = (row − 1)·W/2 + j), then the
                    bail in the same way */
  GArray *thread_holes; /* of BwSceneLine: the thread through each hole, in the needle's order */
  GArray *thread_links; /* of BwSceneLine: the thread from each bead to the next */
} BwScene;

/* Builds the scene from the project; by_fit colours the band's beads by their column's fit. */
BwScene *bw_scene_new (BwProject *project, gboolean colour_by_fit);
void bw_scene_free (BwScene *scene);
/* Index of a bead in scene->beads, −1 when there is none at that place. */
int bw_scene_bead_index (const BwScene *scene, gboolean in_bail, int row, int column);

/* Recolours the beads in place after "changed" with cells or tray alone: geometry untouched.
 * Returns how many beads from the first changed one (*first, may be NULL) to the last; 0 when none
 * did. */
int bw_scene_recolour (BwScene *scene, BwProject *project, gboolean colour_by_fit, int *first);
/* Recolours one bead from the drawing, in constant time; returns its index in beads, −1 when there
 * is none. */
int bw_scene_recolour_bead (BwScene *scene, BwProject *project, gboolean in_bail, int row,
                            int column);

/* The colour a column's fit is shown in, sRGB 0..1: pale blue when loose, through green when snug,
 * to dark red when it will not close; lightness falls all the way, so that it reads without hue.
 * slack_mm as in BwFitLimits. */
void bw_scene_fit_colour (const BwFitColumn *column, double slack_mm, float srgb[3]);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwScene, bw_scene_free)
