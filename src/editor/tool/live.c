/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faces of a grown stone differ in width, so "the same on every face" is no frieze: each stroke
 * keeps its distance from the middle of its face, and ends where a narrower face ends. */
#include "editor/tool/live.h"

#include <math.h>

static int
ring_of (const BwLive *live)
{
  return live->rows + live->rows % 2;
}

static int
modulo (int x, int m)
{
  int r = x % m;
  return r < 0 ? r + m : r;
}

/* Middles lie on even places, so that what is shifted or mirrored falls on beads again. */
static void
find_faces (BwLive *live, BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);
  double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
  int n = ring_of (live) / 2;

  bw_places_faces (bw_project_get_design (project), stone, (live->columns + 1) / 2, n, middle,
                   corner);
  live->n_faces = stone->faces;
  for (int i = 0; i < stone->faces; i++) {
    double before = corner[(i + stone->faces - 1) % stone->faces];
    double left = before - n * ceil ((before - middle[i]) / n);
    double right = corner[i] + n * ceil ((middle[i] - corner[i]) / n);
    int at = 2 * (int)lround (middle[i]);
    live->face[i] = (BwFaceRows){
      .middle = at,
      .first = (int)ceil (2 * left) - at,
      .last = (int)ceil (2 * right) - at,
    };
  }
}

void
bw_live_init (BwLive *live, BwSession *session)
{
  BwProject *project = bw_session_get_project (session);
  const BwDrawing *drawing = bw_project_get_drawing (project);

  *live = (BwLive){
    .want = bw_session_get_symmetry (session),
    .columns = bw_drawing_columns (drawing),
    .rows = bw_drawing_rows (drawing),
  };
  if (live->want.each_face && live->rows >= 6)
    find_faces (live, project);
}

gboolean
bw_live_is_none (const BwLive *live)
{
  const BwSymmetry *frieze = &live->want.frieze;
  if (live->want.each_face)
    return live->n_faces == 0;
  return frieze->frieze == BW_FRIEZE_P1 && frieze->repeat_rows == 0;
}

/* The face a row lies on, −1 for none, and the distance from its middle. */
static int
face_of (const BwLive *live, int row, int *off)
{
  int ring = ring_of (live);
  for (int i = 0; i < live->n_faces; i++) {
    const BwFaceRows *face = &live->face[i];
    *off = modulo (row - 1 - face->middle - face->first, ring) + face->first;
    if (*off < face->last)
      return i;
  }
  return -1;
}

static void
visit_face (const BwLive *live, const BwFaceRows *face, int off, int column, BwBeadVisit visit,
            gpointer data)
{
  int row = modulo (face->middle + off, ring_of (live)) + 1;
  if (off >= face->first && off < face->last && row <= live->rows)
    visit (row, column, data);
}

static void
each_face (const BwLive *live, int row, int column, BwBeadVisit visit, gpointer data)
{
  gboolean mirror = live->want.frieze.frieze == BW_FRIEZE_P1M1;
  int off;

  visit (row, column, data);
  if (face_of (live, row, &off) < 0)
    return;
  for (int i = 0; i < live->n_faces; i++) {
    visit_face (live, &live->face[i], off, column, visit, data);
    if (mirror)
      visit_face (live, &live->face[i], -off, column, visit, data);
  }
}

void
bw_live_each (const BwLive *live, int row, int column, BwBeadVisit visit, gpointer data)
{
  if (live->want.each_face)
    each_face (live, row, column, visit, data);
  else
    bw_symmetry_each (&live->want.frieze, live->columns, live->rows, row, column, visit, data);
}
