/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs worked out by rule: stripes, steps, chevrons, diamonds, waves, spirals, blends, scattered
 * beads, borders and letters, each made for a closed half-drop band so that it meets itself at the
 * join. All shapes and the alphabet are our own.
 *
 * A motif is worked on the columns first..last. Round the ring it repeats `repeats` times; the
 * middle of a repeat lies at `centre`; or, where faces are given, each face is a repeat of its own,
 * as wide as the face and centred on it, so that an irregular stone keeps its motif face by face.
 * Lengths are in beads of the lattice: one column across, one
 * half pitch along, so that a slope of 1 runs through touching beads. */
#pragma once

#include "core/base/fault.h"
#include "core/base/limits.h"
#include "core/pattern/drawing.h"

typedef enum {
  BW_MOTIF_STRIPES,  /* rings round the stone, `size` columns each */
  BW_MOTIF_BARS,     /* bars along the stone, each colour an equal share of a repeat */
  BW_MOTIF_STEPS,    /* stairs up and down, `size` columns a tread, `reach` columns high */
  BW_MOTIF_CHEVRONS, /* V shapes, `size` columns thick, rising by `slope` */
  BW_MOTIF_DIAMONDS, /* nested diamonds, `size` beads a ring; the last colour fills the rest */
  BW_MOTIF_WAVES,    /* bands of `size` columns that swing by `reach` columns */
  BW_MOTIF_SPIRAL,   /* bands of `size` columns that wind up the stone and close */
  BW_MOTIF_BLEND,    /* from colour 0 at the lower edge to the last colour at the upper */
  BW_MOTIF_SCATTER,  /* single beads, a share of `density`, the same for the same seed */
  BW_MOTIF_BORDER,   /* `size` columns along each edge */
  BW_MOTIF_LETTERS,  /* `text`, upright, read round the stone; colour 1, if given, is its ground */
  BW_N_MOTIFS,
} BwMotifKind;

typedef enum { BW_DITHER_NONE, BW_DITHER_ORDERED, BW_DITHER_DIFFUSED } BwDither;

#define BW_MOTIF_COLOURS 8
#define BW_MOTIF_TEXT 64
#define BW_MOTIF_LEAVE (-1) /* the bead keeps the colour it has */

/* Plain data, copied by assignment. */
typedef struct {
  BwMotifKind kind;
  int n_colours; /* 1..BW_MOTIF_COLOURS; blend wants 2 or more */
  guint8 colour[BW_MOTIF_COLOURS];
  gboolean leaves_ground; /* the last of several colours is left out, where the kind has a ground */
  int first_column, last_column; /* 1 ≤ first ≤ last ≤ columns */
  int repeats;                   /* ≥ 1 */
  double centre;                 /* pitches from row 1 */
  int n_faces; /* 0: repeats count; else the faces' middles and far ends follow, */
  double face_middle[BW_FACES_MAX],
      face_end[BW_FACES_MAX]; /* pitches from row 1, cyclic, in order */
  double size;                /* > 0 */
  double reach;               /* columns, ≥ 0 */
  double slope;               /* columns a half pitch */
  double density;             /* 0..1 */
  guint32 seed;
  BwDither dither;          /* blend */
  char text[BW_MOTIF_TEXT]; /* UTF-8 */
} BwMotif;

/* Sensible values of a kind for a band of this size. Colours 0 and 1. */
void bw_motif_init (BwMotif *motif, BwMotifKind kind, int columns, int rows);

/* Takes the faces, as bw_places_faces() gives them, for repeats. A middle is moved to the nearest
 * half pitch, so that what is symmetrical stays so bead for bead. n_faces 0: back to repeats. */
void bw_motif_set_faces (BwMotif *motif, int n_faces, const double *middle, const double *corner);

/* FALSE with a fault at the member (BW_AT_MOTIF_SIZE, BW_AT_MOTIF_TEXT …) when the motif
 * cannot be drawn on a band of this size. Letters that the alphabet lacks are named, and a text for
 * which columns or rows do not suffice is refused: nothing is cut. */
gboolean bw_motif_validate (const BwMotif *motif, int columns, int rows, BwFault *fault);

/* Whether the last colour of this kind is what its figure stands on: not of a blend, which has no
 * figure, nor of a kind that leaves beads by itself. */
gboolean bw_motif_has_ground (BwMotifKind kind);
/* Whether every bead of its columns gets a colour. */
gboolean bw_motif_covers (const BwMotif *motif);

/* Works the motif onto the drawing. The motif must be valid for its size. */
void bw_motif_draw (const BwMotif *motif, BwDrawing *drawing);

/* Room for a text round the ring, in rows. */
typedef struct {
  int height; /* of its letters, in columns */
  int needs;  /* rows it takes, with the free beads beside it */
  int has;    /* rows there are for it: a repeat's, or the narrowest face's */
} BwMotifRoom;

/* Of letters; their text and columns must be such as bw_motif_validate() lets pass, their length
 * may be any. */
BwMotifRoom bw_motif_room (const BwMotif *motif, int rows);
