/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the views know together and the document does not: the tool and colour in hand, the bead
 * under the pointer, the camera, the layers shown. Undo never touches it. */
#pragma once

#include "core/pattern/region.h"
#include "core/pattern/symmetry.h"
#include "project/project.h"

G_BEGIN_DECLS

#define BW_TYPE_SESSION (bw_session_get_type ())
G_DECLARE_FINAL_TYPE (BwSession, bw_session, BW, SESSION, GObject)

/* The values are no order of their own; more tools are added at the end. */
typedef enum {
  BW_TOOL_BEAD,
  BW_TOOL_PICK,
  BW_TOOL_LINE,
  BW_TOOL_RECTANGLE,
  BW_TOOL_FLOOD,
  BW_TOOL_FRAME,
  BW_TOOL_SWAP,
  BW_TOOL_ERASE,
  BW_TOOL_SELECT,
  BW_TOOL_SELECT_COLOUR,
  BW_TOOL_MOVE, /* what the two select tools do inside a selection */
  BW_N_TOOLS,
} BwToolKind;

/* The symmetry that every stroke is drawn with. each_face: strokes are repeated about the middle of
 * every face instead; of the frieze only BW_FRIEZE_P1M1 counts then, and mirrors each. */
typedef struct {
  BwSymmetry frieze;
  gboolean each_face;
} BwLiveSymmetry;

typedef enum {
  BW_LAYER_STONE = 1 << 0,
  BW_LAYER_BED = 1 << 1,
  BW_LAYER_BAND = 1 << 2,
  BW_LAYER_BAIL = 1 << 3,
  BW_LAYER_THREAD = 1 << 4,
  BW_LAYER_CORD = 1 << 5,    /* what it hangs by, and the ring of a ring bail */
  BW_LAYER_BALANCE = 1 << 6, /* balance point and plumb line, while the piece hangs at rest */
  BW_LAYER_ALL = 127,
} BwLayers;

typedef enum { BW_LIGHT_DAY, BW_LIGHT_LAMP } BwLight;

/* How the stone is looked at. turn: about the stone's axis, degrees, 0 looks at azimuth 0 (the
 * viewer stands at +x); tip: the eye's elevation, −90..90; zoom: 1 = the piece fills the view. */
typedef struct {
  double turn_deg, tip_deg, zoom;
} BwCamera;

/* Signals: "project-changed" () when another project is set; "view-changed" () when camera, layers,
 * light or colour-by-fit change; "hover-changed" (); "hand-changed" () when tool or colour change;
 * "symmetry-changed" (); "selection-changed" (); "locks-changed" (); "settle" (): what a view holds
 * half done should be finished now. */
BwSession *bw_session_new (BwProject *project);

BwProject *bw_session_get_project (BwSession *self); /* borrowed, never NULL */
void bw_session_set_project (BwSession *self, BwProject *project);

BwToolKind bw_session_get_tool (BwSession *self);
void bw_session_set_tool (BwSession *self, BwToolKind tool);
int bw_session_get_colour (BwSession *self); /* tray index, always in range */
void bw_session_set_colour (BwSession *self, int colour);

/* To be called before anything that undoes, saves or edits from elsewhere: a piece that is being
 * moved about is laid down. */
void bw_session_settle (BwSession *self);

BwLiveSymmetry bw_session_get_symmetry (BwSession *self);
void bw_session_set_symmetry (BwSession *self, BwLiveSymmetry symmetry);

/* The beads of the band selected, NULL for none; borrowed until "selection-changed". It has the
 * band's size: where that changes, nothing is selected. */
const BwRegion *bw_session_get_selection (BwSession *self);
void bw_session_take_selection (BwSession *self,
                                BwRegion *region); /* an empty one counts as NULL */

/* Columns of the band that the maker has locked: nothing that draws changes a bead there. Those of
 * a column the band no longer has are forgotten, and all of them with the project. "locks-changed"
 * (). */
gboolean bw_session_is_locked (BwSession *self, int column);
int bw_session_count_locked (BwSession *self);
void bw_session_set_locked (BwSession *self, int column, gboolean locked);
void bw_session_unlock_all (BwSession *self);
/* Gives a drawing of the band's size the project's own beads in every locked column. */
void bw_session_keep_locked (BwSession *self, BwDrawing *drawing);

/* The bead pointed at, in either view; row 0 = none. */
void bw_session_get_hover (BwSession *self, gboolean *in_bail, int *row, int *column);
void bw_session_set_hover (BwSession *self, gboolean in_bail, int row, int column);

/* TRUE while the piece is shown hanging at rest and not upright. Each way has a camera of its own,
 * which the camera calls below then mean; at rest turn is about the plumb line, and 0 looks at the
 * side that the bail's azimuth would show if the stone stood upright. "view-changed". */
gboolean bw_session_get_at_rest (BwSession *self);
void bw_session_set_at_rest (BwSession *self, gboolean at_rest);
/* Where the piece at rest is looked at from at first: a little from the side, so that both the
 * stone's length and what it hangs by are seen. */
extern const BwCamera bw_session_camera_at_rest;

BwCamera bw_session_get_camera (BwSession *self);
void bw_session_set_camera (BwSession *self, BwCamera camera); /* clamps; turn wraps to 0..360 */
guint bw_session_get_layers (BwSession *self);
void bw_session_set_layers (BwSession *self, guint layers);
BwLight bw_session_get_light (BwSession *self);
void bw_session_set_light (BwSession *self, BwLight light);
/* How many rows of the band are shown as woven, dimmed; 0 for none. "view-changed". */
int bw_session_get_woven (BwSession *self);
void bw_session_set_woven (BwSession *self, int rows);
/* How far the piece is shown woven: so many visits of the thread's path are made; −1, as at first:
 * it is finished. Another project is shown finished. "view-changed". */
int bw_session_get_played (BwSession *self);
void bw_session_set_played (BwSession *self, int visits);
gboolean bw_session_get_colour_by_fit (BwSession *self);
void bw_session_set_colour_by_fit (BwSession *self, gboolean by_fit);

G_END_DECLS
