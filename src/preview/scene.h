/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece as plain data ready to draw: no GL, no widgets. Millimetres, z up the stone. */
#pragma once

#include "project/session.h"

/* One bead: a holed, rounded cylinder. */
typedef struct {
  float at[3];
  float axis[3];   /* unit, along the hole */
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

typedef struct {
  float centre[3]; /* of the whole piece */
  float radius;    /* of a sphere round it */
  float bead_radius, bead_half_length, hole_radius;
  GArray *stone;       /* of BwSceneVertex, triangles, outward */
  GArray *stone_edges; /* of BwSceneVertex, pairs */
  GArray *bed;         /* of BwSceneVertex, triangles */
  GArray *beads;       /* of BwSceneBead: the band row by row (index = (row − 1)·W/2 + j), then the bail */
  GArray *thread;      /* of BwSceneVertex, line strip through the bead centres in the needle's order */
} BwScene;

/* Builds the scene from the project; by_fit colours the band's beads by their column's fit. */
BwScene *bw_scene_new (BwProject *project, gboolean colour_by_fit);
void bw_scene_free (BwScene *scene);
/* Recolours the beads in place after "changed" with cells or tray alone: geometry untouched. */
void bw_scene_recolour (BwScene *scene, BwProject *project, gboolean colour_by_fit);
/* Recolours one bead; returns its index in beads, −1 when there is none. */
int bw_scene_recolour_bead (BwScene *scene, BwProject *project, gboolean in_bail, int row,
                            int column);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwScene, bw_scene_free)
