/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A binary glTF 2.0 file being put together: the vertices in one buffer, and the JSON that tells
 * what they are. Khronos Group, "glTF 2.0 Specification" (ISO/IEC 12113:2022), sections 3 and 4. */
#pragma once

#include <glib.h>

typedef struct {
  GByteArray *bytes;                                       /* the buffer */
  GString *views, *accessors, *materials, *meshes, *nodes; /* members of their arrays, by commas */
  int n_views, n_accessors, n_materials, n_meshes, n_nodes;
} BwGlb;

typedef struct {
  const char *name;
  float colour[4];           /* linear light and opacity, 0..1 */
  float metallic, roughness; /* 0..1 */
} BwGlbMaterial;

void bw_glb_init (BwGlb *glb);
void bw_glb_clear (BwGlb *glb);

/* Each gives the index of what was added. n > 0. */
int bw_glb_add_points (BwGlb *glb, const float (*xyz)[3], int n);
int bw_glb_add_directions (BwGlb *glb, const float (*xyz)[3], int n); /* unit */
int bw_glb_add_corners (BwGlb *glb, const guint16 *index, int n);     /* of triangles */
int bw_glb_add_material (BwGlb *glb, const BwGlbMaterial *material);
/* Triangles of these accessors, counter-clockwise from outside; corners −1: in their order. */
int bw_glb_add_mesh (BwGlb *glb, const char *name, int points, int directions, int corners,
                     int material);
/* A mesh in its own place, or moved there: the unit quaternion x, y, z, w first. */
int bw_glb_add_node (BwGlb *glb, int mesh);
int bw_glb_add_moved (BwGlb *glb, int mesh, const float turn[4], const float at[3]);
/* A node over those from first to last (before it), by name. */
int bw_glb_add_group (BwGlb *glb, const char *name, int first, int last);

/* The file, its one scene made of the node `root` over all groups given: millimetres and z up
 * become metres and y up, as the format has them. Ends the work: glb is cleared. Owned. */
GBytes *bw_glb_finish (BwGlb *glb, const char *name, const int *groups, int n_groups);
