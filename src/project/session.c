/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the views share and the document does not know. It is one object so that the unrolled band
 * and the stone view light up the same bead, and so that undo cannot move the camera. */
#include "config.h"

#include "project/session.h"

#include "core/base/lattice.h"
#include <math.h>
#include <string.h>

#define ZOOM_MIN 0.2
#define ZOOM_MAX 40.0

struct _BwSession {
  GObject parent_instance;
  BwProject *project;
  BwToolKind tool;
  int colour;
  BwLiveSymmetry symmetry;
  BwRegion *selection;
  gboolean locked[BW_COLUMNS_MAX + 1]; /* by column */
  gboolean hover_in_bail;
  int hover_row, hover_column;
  BwCamera camera, camera_at_rest;
  gboolean at_rest;
  guint layers;
  BwLight light;
  gboolean colour_by_fit;
  int woven;
  int played;
};

enum {
  PROJECT_CHANGED,
  VIEW_CHANGED,
  HOVER_CHANGED,
  HAND_CHANGED,
  SYMMETRY_CHANGED,
  SELECTION_CHANGED,
  LOCKS_CHANGED,
  SETTLE,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwSession, bw_session, G_TYPE_OBJECT)

const BwCamera bw_session_camera_at_rest = { .turn_deg = 298, .tip_deg = 0, .zoom = 1 };

static void project_changed_cb (BwSession *self, guint what);

static void
bw_session_dispose (GObject *object)
{
  BwSession *self = BW_SESSION (object);

  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, project_changed_cb, self);
  g_clear_object (&self->project);
  g_clear_pointer (&self->selection, bw_region_free);
  G_OBJECT_CLASS (bw_session_parent_class)->dispose (object);
}

static void
bw_session_class_init (BwSessionClass *klass)
{
  static const char *const names[N_SIGNALS]
      = { "project-changed",  "view-changed",      "hover-changed", "hand-changed",
          "symmetry-changed", "selection-changed", "locks-changed", "settle" };

  G_OBJECT_CLASS (klass)->dispose = bw_session_dispose;
  for (int i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                               NULL, NULL, G_TYPE_NONE, 0);
}

static void
bw_session_init (BwSession *self)
{
  self->camera = (BwCamera){ .turn_deg = 30, .tip_deg = 12, .zoom = 1 };
  self->camera_at_rest = bw_session_camera_at_rest;
  self->layers = BW_LAYER_ALL;
  self->played = -1;
}

static void
emit (BwSession *self, int which)
{
  g_signal_emit (self, signals[which], 0);
}

BwSession *
bw_session_new (BwProject *project)
{
  BwSession *self = g_object_new (BW_TYPE_SESSION, NULL);

  bw_session_set_project (self, project);
  return self;
}

BwProject *
bw_session_get_project (BwSession *self)
{
  return self->project;
}

/* A bead that is no longer there cannot stay lit. */
static gboolean
hover_is_on_a_bead (BwSession *self)
{
  const BwDrawing *drawing = self->hover_in_bail ? bw_project_get_bail_drawing (self->project)
                                                 : bw_project_get_drawing (self->project);

  return drawing && self->hover_row <= bw_drawing_rows (drawing)
         && self->hover_column <= bw_drawing_columns (drawing);
}

static gboolean
selection_fits (BwSession *self)
{
  const BwDrawing *drawing = bw_project_get_drawing (self->project);

  return !self->selection
         || (bw_region_columns (self->selection) == bw_drawing_columns (drawing)
             && bw_region_rows (self->selection) == bw_drawing_rows (drawing));
}

static int
last_column (BwSession *self)
{
  return bw_drawing_columns (bw_project_get_drawing (self->project));
}

static void
project_changed_cb (BwSession *self, guint what)
{
  int last = bw_project_get_tray (self->project)->n_colours - 1;

  if (self->colour > last)
    bw_session_set_colour (self, last);
  if (self->hover_row > 0 && !hover_is_on_a_bead (self))
    bw_session_set_hover (self, FALSE, 0, 0);
  if (!selection_fits (self))
    bw_session_take_selection (self, NULL);
  for (int column = last_column (self) + 1; column <= BW_COLUMNS_MAX; column++)
    self->locked[column] = FALSE;
}

void
bw_session_set_project (BwSession *self, BwProject *project)
{
  g_return_if_fail (BW_IS_PROJECT (project));
  if (self->project == project)
    return;
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, project_changed_cb, self);
  g_set_object (&self->project, project);
  g_signal_connect_object (project, "changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  bw_session_set_hover (self, FALSE, 0, 0);
  bw_session_set_symmetry (self, (BwLiveSymmetry){ .each_face = FALSE });
  bw_session_take_selection (self, NULL);
  bw_session_unlock_all (self);
  bw_session_set_played (self, -1);
  project_changed_cb (self, BW_CHANGED_ALL);
  emit (self, PROJECT_CHANGED);
}

BwToolKind
bw_session_get_tool (BwSession *self)
{
  return self->tool;
}

void
bw_session_set_tool (BwSession *self, BwToolKind tool)
{
  if (self->tool == tool)
    return;
  self->tool = tool;
  emit (self, HAND_CHANGED);
}

int
bw_session_get_colour (BwSession *self)
{
  return self->colour;
}

void
bw_session_set_colour (BwSession *self, int colour)
{
  colour = CLAMP (colour, 0, bw_project_get_tray (self->project)->n_colours - 1);
  if (self->colour == colour)
    return;
  self->colour = colour;
  emit (self, HAND_CHANGED);
}

void
bw_session_settle (BwSession *self)
{
  emit (self, SETTLE);
}

BwLiveSymmetry
bw_session_get_symmetry (BwSession *self)
{
  return self->symmetry;
}

void
bw_session_set_symmetry (BwSession *self, BwLiveSymmetry symmetry)
{
  const BwSymmetry *a = &self->symmetry.frieze, *b = &symmetry.frieze;

  symmetry.each_face = !!symmetry.each_face;
  if (a->frieze == b->frieze && a->repeat_rows == b->repeat_rows && a->centre == b->centre
      && self->symmetry.each_face == symmetry.each_face)
    return;
  self->symmetry = symmetry;
  emit (self, SYMMETRY_CHANGED);
}

const BwRegion *
bw_session_get_selection (BwSession *self)
{
  return self->selection;
}

void
bw_session_take_selection (BwSession *self, BwRegion *region)
{
  if (region && bw_region_count (region) == 0)
    g_clear_pointer (&region, bw_region_free);
  if (!region && !self->selection)
    return;
  g_clear_pointer (&self->selection, bw_region_free);
  self->selection = region;
  emit (self, SELECTION_CHANGED);
}

void
bw_session_get_hover (BwSession *self, gboolean *in_bail, int *row, int *column)
{
  *in_bail = self->hover_in_bail;
  *row = self->hover_row;
  *column = self->hover_column;
}

void
bw_session_set_hover (BwSession *self, gboolean in_bail, int row, int column)
{
  if (row <= 0) {
    in_bail = FALSE;
    row = column = 0;
  }
  if (self->hover_in_bail == in_bail && self->hover_row == row && self->hover_column == column)
    return;
  self->hover_in_bail = in_bail;
  self->hover_row = row;
  self->hover_column = column;
  emit (self, HOVER_CHANGED);
}

gboolean
bw_session_get_at_rest (BwSession *self)
{
  return self->at_rest;
}

void
bw_session_set_at_rest (BwSession *self, gboolean at_rest)
{
  at_rest = !!at_rest;
  if (self->at_rest == at_rest)
    return;
  self->at_rest = at_rest;
  emit (self, VIEW_CHANGED);
}

static BwCamera *
camera_in_use (BwSession *self)
{
  return self->at_rest ? &self->camera_at_rest : &self->camera;
}

BwCamera
bw_session_get_camera (BwSession *self)
{
  return *camera_in_use (self);
}

/* 0 ≤ angle < 360; the second step catches a tiny negative angle that rounds up to 360. */
static double
wrap_turn (double degrees)
{
  double turn = degrees - 360 * floor (degrees / 360);

  return turn < 360 ? turn : 0;
}

void
bw_session_set_camera (BwSession *self, BwCamera camera)
{
  if (!isfinite (camera.turn_deg) || !isfinite (camera.tip_deg) || isnan (camera.zoom))
    return;
  camera.turn_deg = wrap_turn (camera.turn_deg);
  camera.tip_deg = CLAMP (camera.tip_deg, -90, 90);
  camera.zoom = CLAMP (camera.zoom, ZOOM_MIN, ZOOM_MAX);
  BwCamera *own = camera_in_use (self);
  if (camera.turn_deg == own->turn_deg && camera.tip_deg == own->tip_deg
      && camera.zoom == own->zoom)
    return;
  *own = camera;
  emit (self, VIEW_CHANGED);
}

guint
bw_session_get_layers (BwSession *self)
{
  return self->layers;
}

void
bw_session_set_layers (BwSession *self, guint layers)
{
  layers &= BW_LAYER_ALL;
  if (self->layers == layers)
    return;
  self->layers = layers;
  emit (self, VIEW_CHANGED);
}

BwLight
bw_session_get_light (BwSession *self)
{
  return self->light;
}

void
bw_session_set_light (BwSession *self, BwLight light)
{
  if (self->light == light)
    return;
  self->light = light;
  emit (self, VIEW_CHANGED);
}

gboolean
bw_session_get_colour_by_fit (BwSession *self)
{
  return self->colour_by_fit;
}

void
bw_session_set_colour_by_fit (BwSession *self, gboolean by_fit)
{
  by_fit = !!by_fit;
  if (self->colour_by_fit == by_fit)
    return;
  self->colour_by_fit = by_fit;
  emit (self, VIEW_CHANGED);
}

int
bw_session_get_woven (BwSession *self)
{
  return self->woven;
}

void
bw_session_set_woven (BwSession *self, int rows)
{
  rows = MAX (rows, 0);
  if (self->woven == rows)
    return;
  self->woven = rows;
  emit (self, VIEW_CHANGED);
}

int
bw_session_get_played (BwSession *self)
{
  return self->played;
}

void
bw_session_set_played (BwSession *self, int visits)
{
  visits = MAX (visits, -1);
  if (self->played == visits)
    return;
  self->played = visits;
  emit (self, VIEW_CHANGED);
}

/* --- Locked columns ----------------------------------------------------------------------------
 */

gboolean
bw_session_is_locked (BwSession *self, int column)
{
  return column >= 1 && column <= BW_COLUMNS_MAX && self->locked[column];
}

int
bw_session_count_locked (BwSession *self)
{
  int n = 0;
  for (int column = 1; column <= BW_COLUMNS_MAX; column++)
    n += self->locked[column];
  return n;
}

void
bw_session_set_locked (BwSession *self, int column, gboolean locked)
{
  g_return_if_fail (column >= 1 && column <= last_column (self));
  locked = !!locked;
  if (self->locked[column] == locked)
    return;
  self->locked[column] = locked;
  emit (self, LOCKS_CHANGED);
}

void
bw_session_unlock_all (BwSession *self)
{
  if (bw_session_count_locked (self) == 0)
    return;
  memset (self->locked, 0, sizeof self->locked);
  emit (self, LOCKS_CHANGED);
}

void
bw_session_keep_locked (BwSession *self, BwDrawing *drawing)
{
  const BwDrawing *own = bw_project_get_drawing (self->project);
  for (int column = 1; column <= last_column (self); column++)
    for (int row = 1; self->locked[column] && row <= bw_drawing_rows (own); row++)
      if (bw_lattice_has (row, column))
        bw_drawing_set (drawing, row, column, bw_drawing_get (own, row, column));
}
