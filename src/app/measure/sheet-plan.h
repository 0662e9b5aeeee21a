/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where everything stands on the measuring sheet: the stone looked down on and from the side, and
 * every dimension beside it. Plain arithmetic: no two dimensions lie on one another, none leaves
 * the sheet, and what is measured does not move the rest about. Pixels, y downwards; heights on the
 * stone in mm. */
#pragma once

#include "app/form/field.h"

/* How a dimension is drawn. */
typedef enum {
  BW_NOTE_ACROSS, /* between two opposite faces */
  BW_NOTE_WIDTH,  /* along one face */
  BW_NOTE_GIRTH,  /* once round */
  BW_NOTE_MARK,   /* a place round the stone: join, bail */
  BW_NOTE_TALL,   /* from the base up, on a line of its own left of the stone */
  BW_NOTE_HEIGHT, /* at a height, right of the stone */
} BwNoteKind;

/* One dimension: a field, and where its entry stands. */
typedef struct {
  char pointer[BW_POINTER_BYTES];
  BwNoteKind kind;
  int index;             /* of the measured value; else 0 */
  double azimuth;        /* radians, for what stands round the section */
  double z_mm;           /* for what stands beside the profile */
  double mid;            /* how far below its top its figure's middle is; with w and h */
  double w, h;           /* room its entry asks for: to be filled in before it is placed */
  double x, y;           /* where the entry's upper left corner stands */
  double from_x, from_y; /* where its hairline begins, at the stone or at the line it tells */
  double to_x, to_y;     /* and ends, at the entry */
} BwSheetNote;

/* More dimensions than this round one section are told in a list and not on the sheet. */
#define BW_SHEET_VALUES_MOST 16
#define BW_SHEET_NOTES_MOST (BW_SHEET_VALUES_MOST + 12)

typedef struct {
  double x, y, w, h;
} BwSheetBox;

typedef struct {
  /* Asked for. */
  double width; /* of the sheet */
  double line;  /* height of a line of writing */
  double head;  /* height of what stands above each view */
  double foot;  /* and of what stands below it; less than a line: a line */
  /* Planned. */
  gboolean beside;                /* the two views stand side by side, not one under the other */
  gboolean slim;                  /* no room left of the profile: every height stands right of it */
  double height;                  /* of the sheet */
  BwSheetBox section, profile;    /* the views, their dimensions included, head and foot left out */
  double cx, cy, section_scale;   /* the section's axis; pixels per mm */
  double outer_mm;                /* from the axis to the outside of the beads */
  double px, base, profile_scale; /* the profile's axis and where its height 0 lies */
  double reach_mm; /* from the axis to the outside of stone and beads, seen from the side */
  BwSheetNote note[BW_SHEET_NOTES_MOST];
  int n_notes;
} BwSheetPlan;

/* Fills in which dimensions this design has, in the order Tab goes through them. */
void bw_sheet_plan_list (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone);
/* Places all of it; width, line, head and every note's size must be given. */
void bw_sheet_plan_place (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone);
/* The least width at which everything has room. */
double bw_sheet_plan_least_width (const BwSheetPlan *plan);
