/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The live symmetry on one band: a frieze of the lattice, or the same on every face of the stone,
 * however unlike the faces are. */
#pragma once

#include "project/session.h"

/* A face along the band's middle column, in rows from row 1: its middle, on a bead of the odd rows,
 * and how far its own beads reach from there, first included, last not. */
typedef struct {
  int middle, first, last;
} BwFaceRows;

typedef struct {
  BwLiveSymmetry want;
  int columns, rows;
  int n_faces; /* 0 unless each_face is wanted */
  BwFaceRows face[BW_FACES_MAX];
} BwLive;

void bw_live_init (BwLive *live, BwSession *session);

/* Whether a stroke is carried anywhere at all. */
gboolean bw_live_is_none (const BwLive *live);

/* Visits every bead that this one is carried to, itself first, some perhaps twice. */
void bw_live_each (const BwLive *live, int row, int column, BwBeadVisit visit, gpointer data);
