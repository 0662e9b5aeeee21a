/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of a piece as a maker takes them: one thing to do after the other. Read from the text
 * alone; nothing of the program that wrote it is used. */
#pragma once

#include "sample.h"

/* A bead that is passed, as it is called: a row of the band by its number, counted back from the
 * last ('L') or from the bail's own ('F'), or a row of the bail ('B'). */
typedef struct {
  char from; /* '1', 'L', 'F', 'B' */
  int row;   /* the number; for L and F, how many rows on */
  int plan;  /* the number in brackets, 0 without */
  int column;
} ToldBead;

typedef enum {
  TOLD_STRING, /* the first beads; in the bail, the first of a strip */
  TOLD_ROW,
  TOLD_CUT,     /* the first thread */
  TOLD_CHANGE,  /* a fresh thread */
  TOLD_FURTHER, /* if the thread is shorter than this, change it */
  TOLD_MISSED,  /* if it was stopped before this row, change it */
  TOLD_STOPPER, /* comes off */
  TOLD_ZIP,
  TOLD_RETURN,
  TOLD_ANCHOR,
  TOLD_FOOT, /* which row F is */
  TOLD_WALK,
  TOLD_ELSE_WALK, /* with another count than planned: until the thread comes out there */
  TOLD_HANG,      /* the beads of the band the bail's first row is worked into */
  TOLD_SEW,
  TOLD_END, /* of the thread in the needle; of the tail */
  TOLD_TAIL,
} ToldKind;

typedef struct {
  ToldKind kind;
  gboolean in_bail;
  int row;            /* TOLD_ROW, TOLD_MISSED */
  gboolean up;        /* TOLD_ROW, TOLD_ZIP, TOLD_RETURN; TOLD_SEW: beads of the bail */
  char *letters;      /* of the beads picked up */
  double mm, cut_mm;  /* TOLD_FURTHER; and what is cut, where a thread is */
  GArray *beads;      /* of ToldBead, passed */
  gboolean elsewhere; /* TOLD_CHANGE: it comes out of beads[0], and not where the old one ended */
  int ends[4];        /* TOLD_CHANGE: beads and turns of the old end, of the new */
  int count, turns;   /* TOLD_END, TOLD_TAIL */
  GHashTable *foot;   /* TOLD_FOOT: F by the count of rows */
} Told;

/* Everything told, in order. Fails the test at what it does not understand. */
GArray *told_read (const Sample *sample, const char *words);
