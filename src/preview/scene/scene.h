/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished piece as plain data ready to draw: no GL, no widgets. Millimetres, z up the stone.
 */
#pragma once

#include "core/stone/mineral-optics.h"
#include "core/stone/mineral-striae.h"
#include "preview/scene/pose.h"
#include "project/session.h"

/* One bead: a holed, rounded cylinder. There may be very many: what its index tells, or is rarely
 * asked, is not kept here, and the rest is packed; see scene-bead.h. */
typedef struct {
  float at[3];
  gint16 axis[3]; /* unit, along the hole, towards the higher column, in shares of BW_UNIT */
  gint16 out[3];  /* unit, away from what it lies on, likewise */
  guint8 srgb[3]; /* colour */
  guint8 finish;  /* BwFinish */
} BwSceneBead;

#define BW_UNIT 32767

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

/* A place on the middle line of a tube. */
typedef struct {
  float at[3];
  float tangent[3]; /* unit, towards the next station */
  float along;      /* way along the middle line, mm */
  float shown;      /* 0..1: how much it shows */
} BwSceneStation;

/* A round tube whose middle line lies in a plane: the cord, the metal ring. Without stations it is
 * not there. */
typedef struct {
  GArray *stations; /* of BwSceneStation; of a closed one the last is the first again */
  float radius;
  float binormal[3]; /* unit, across the plane */
} BwSceneTube;

/* Where the cord lies in what rests on it; radius 0: there is no cord. */
typedef struct {
  BwVec3 at;    /* its middle */
  BwVec3 along; /* unit, through the opening */
  BwVec3 over;  /* unit, at right angles to it, towards what rests on it */
  double half;  /* half the length that lies straight */
  double radius;
  double bend; /* the radius its middle line bends with beyond that */
} BwSceneSeat;

/* What the eye frames: the piece in a pose, the middle of the picture and how far things reach. */
typedef struct {
  BwPose pose;
  BwVec3 centre;   /* in the piece's axes: what turning turns about */
  double radius;   /* of a sphere about the centre that holds the piece, and at rest some cord */
  double breadth;  /* greatest distance of the piece from the vertical through the centre */
  gboolean stands; /* on its base: it throws a shadow where it stands */
} BwStance;

/* The piece at rest, as the core has it. */
typedef struct {
  gboolean hangs; /* FALSE: nothing to hang by, and stance is the upright one */
  BwStance stance;
  BwVec3 hold, centroid; /* the point of the cord, and the balance point under it */
  double drop;           /* from the point of the cord down to the lowest part, mm */
  double tilt_deg;
  BwUp up;
} BwSceneRest;

typedef struct {
  float centre[3]; /* on the stone's axis, at half height of the whole piece: what turning turns
                      about */
  float radius;    /* of a sphere about the centre that holds the piece */
  float breadth;   /* greatest distance of anything from the axis */
  float focus[3];  /* the band's middle: what coming nearer aims at */
  int band_columns, bail_columns; /* 0: no bail */
  int n_band;                     /* beads of the band */
  gboolean colour_by_fit;
  gboolean
      shown; /* the next recolouring takes a trial's colours, as views do; else the project's */
  guint64 looked; /* beads whose colour was looked up so far: what a test counts */
  int woven;      /* rows of the band shown as woven: dimmed by the next recolouring */
  int played;     /* so many visits of the thread's path are made, see scene/played.h; −1, as at
                     first: the piece is finished */
  gint32 *born;   /* of each bead, once played: see there */
  float bead_radius, bead_half_length, hole_radius;
  float bead_rounding; /* radius of its rims */
  float band_span[2];  /* lower and upper edge of the band */
  float bed_span[2];   /* of the bed; equal when there is none */
  float cord_width;    /* of one turn of the bed's cord */
  float thread_radius;
  float thread_colour[3]; /* linear; after the ground when the scene was made */
  float stone_keeps[3];   /* share of red, green and blue left after 10 mm of the stone, 0..1 */
  BwMineralOptics stone_optics; /* with the veils of its look */
  BwStriae stone_striae;        /* of its mineral */
  BwStoneLook look;
  BwNature nature;
  GArray *stone;        /* of BwSceneVertex, triangles, outward */
  GArray *stone_edges;  /* of BwSceneLine */
  GArray *stone_planes; /* of BwScenePlane */
  GArray *bed;          /* of BwSceneVertex, triangles, a closed sleeve */
  GArray *beads;  /* of BwSceneBead: the band row by row (index = (row − 1)·W/2 + j), then the
                     bail in the same way */
  GArray *visits; /* of BwVisit, borrowed from the path: the thread, see scene-thread.h */
  int n_visits;   /* of these are shown */
  GArray *thread_gaps; /* of guint, rising: the visits that no link leads to, the first left out */
  gboolean lacks_thread; /* that of the bail, see bw_scene_follow_bail() */
  BwDesign made_for;
  BwSceneSeat seat;
  BwSceneTube cord; /* as it lies in the present stance */
  BwSceneTube ring; /* the metal ring of a ring bail */
  BwSceneRest rest;
  BwStance stance; /* the present one; upright at first */
  /* What the picture is made for; 0 and FALSE in a new scene. */
  float
      free_below; /* share of the picture's height, below, that the piece keeps clear of, 0..0.6 */
  gboolean on_dark; /* what lies behind it is dark: its edges gleam in the stone's own colour */
} BwScene;

/* Builds the scene from the project; by_fit colours the band's beads by their column's fit. */
BwScene *bw_scene_new (BwProject *project, gboolean colour_by_fit);
void bw_scene_free (BwScene *scene);
/* Takes over a change of the bail alone, while it is dragged: all but the bail and what hangs by it
 * stays as it is. The thread is left out from the bail on, since finding its way takes long, and
 * comes with the next new scene. FALSE, and nothing done, when more than the bail has changed since
 * the scene was made, or when its thread is being played. The stance is upright. */
gboolean bw_scene_follow_bail (BwScene *scene, BwProject *project);

/* The stone upright, as in every drawing of the core; there is no cord then. */
void bw_scene_stand_upright (BwScene *scene);
/* Hanging; upright when nothing hangs. */
void bw_scene_stand_at_rest (BwScene *scene);
/* On the way to rest: leaning so far (radians, see BwPose) about the point it hangs by. arrived:
 * 0..1, how much of the picture's framing and of the cord's direction is that of rest already. */
void bw_scene_stand_swinging (BwScene *scene, double lean, double arrived);

/* Index of a bead in scene->beads, −1 when there is none at that place. */
int bw_scene_bead_index (const BwScene *scene, gboolean in_bail, int row, int column);
/* And the place of the bead at an index. */
BwBeadOf bw_scene_bead_of (const BwScene *scene, int index);

/* Recolours the beads in place after "changed" with cells or tray alone: geometry untouched. The
 * indices in beads (int) of those that look otherwise now are appended to changed, which may be
 * NULL. Looks at every bead. */
void bw_scene_recolour (BwScene *scene, BwProject *project, gboolean colour_by_fit,
                        GArray *changed);
/* The same for the beads (BwBeadOf) alone that the project says were set. */
void bw_scene_recolour_beads (BwScene *scene, BwProject *project, const GArray *beads,
                              GArray *changed);

/* By its look's seed, where in the noise its veils lie: three shares of a period; 0 for seed 0. */
void bw_scene_veil_shift (const BwScene *scene, float shift[3]);

/* The light on the stone's edges, linear: cool white by day, where a dark seam beside them parts
 * them from a pale ground; on a dark ground the mineral's own colour. */
void bw_scene_edge_light (const BwScene *scene, float light[3]);

/* The colour a column's fit is shown in, sRGB 0..1: pale blue when loose, through green when snug,
 * to dark red when it will not close; lightness falls all the way, so that it reads without hue.
 * slack_mm as in BwFitLimits. */
void bw_scene_fit_colour (const BwFitColumn *column, double slack_mm, float srgb[3]);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwScene, bw_scene_free)
