/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole editor by keyboard: arrows walk the lattice, Space presses, Enter finishes, letters are
 * colours, digits are tools. */
#include "config.h"

#include "editor/band/band-canvas-private.h"
#include "editor/tool/shape.h"

#include <math.h>

/* The cursor's bead where the tool under way left off: the image nearest to that. */
static BwBandPoint
cursor_point (BwBandCanvas *self, double near)
{
  int n = bw_band_layout_around (&self->layout);
  BwBandPoint point = bw_band_middle (self->cursor.row, self->cursor.column);
  point.u += n * round ((near - point.u) / n);
  return point;
}

static gboolean
is_drawing_by_pointer (BwBandCanvas *self)
{
  return bw_hand_busy (self->hand) && !self->by_keyboard;
}

/* A tool begun with a key follows the cursor. */
static void
lead_tool (BwBandCanvas *self)
{
  if (!self->by_keyboard || !bw_hand_busy (self->hand))
    return;
  BwBandPoint point = cursor_point (self, self->key_u);
  self->key_u = point.u;
  bw_hand_update (self->hand, point);
}

static void
walk_to (BwBandCanvas *self, BwBeadAt bead)
{
  bw_band_canvas_set_cursor_bead (self, bead, TRUE);
  bw_band_canvas_reveal_cursor (self);
  lead_tool (self);
}

static BwShapeBox
extended_box (BwBandCanvas *self)
{
  return bw_shape_box (self->anchor, bw_band_brick (cursor_point (self, self->key_u)),
                       bw_band_layout_around (&self->layout));
}

char *
bw_band_canvas_extent (BwBandCanvas *self)
{
  return bw_tool_box_words (extended_box (self), FALSE);
}

/* Shift and the arrows: the box from where it began to the cursor is selected. */
static void
extend_selection (BwBandCanvas *self)
{
  BwShapeBox box = extended_box (self);
  self->key_u = cursor_point (self, self->key_u).u;
  BwRegion *region = bw_region_new (self->layout.columns, self->layout.rows);
  bw_region_add_box (region, box.first_row, box.last_row, box.first_column, box.last_column);
  bw_session_take_selection (self->session, region);
}

static void
walk_selecting (BwBandCanvas *self, int along, int up)
{
  if (!self->extending) {
    BwBandPoint from = cursor_point (self, self->layout.roll);
    self->anchor = bw_band_brick (from);
    self->key_u = from.u;
    self->extending = TRUE;
  }
  walk_to (self, bw_band_layout_walk (&self->layout, self->cursor, along, up));
  extend_selection (self);
}

static void
walk (BwBandCanvas *self, int along, int up, gboolean shift)
{
  if (self->piece != NULL) {
    bw_band_canvas_walk_piece (self, along, up);
    return;
  }
  if (shift && !bw_hand_busy (self->hand)) {
    walk_selecting (self, along, up);
    return;
  }
  self->extending = FALSE;
  walk_to (self, self->cursor_shown ? bw_band_layout_walk (&self->layout, self->cursor, along, up)
                                    : self->cursor);
}

static void
walk_to_row (BwBandCanvas *self, int row)
{
  int column = self->cursor.column;
  if (!bw_lattice_has (row, column))
    column += column < self->layout.columns ? 1 : -1;
  walk_to (self, (BwBeadAt){ row, column });
}

/* Space is a press; for a tool that wants two places the next Space lets go. */
static void
use_tool_at_cursor (BwBandCanvas *self)
{
  const BwTool *tool = bw_tool_get (bw_session_get_tool (self->session));
  if (is_drawing_by_pointer (self))
    return;

  bw_band_canvas_lay_down (self);
  bw_band_canvas_set_cursor_bead (self, self->cursor, TRUE);
  if (bw_hand_busy (self->hand)) {
    bw_hand_end (self->hand, cursor_point (self, self->key_u));
    return;
  }
  BwBandPoint at = cursor_point (self, self->layout.roll);
  self->by_keyboard = TRUE;
  self->key_u = at.u;
  bw_hand_begin (self->hand, tool, &self->layout, at);
  if (!tool->spans)
    bw_hand_end (self->hand, at);
}

static void
pick_at_cursor (BwBandCanvas *self)
{
  bw_tool_pick_up (self->session, self->cursor);
  bw_band_canvas_set_cursor_bead (self, self->cursor, TRUE);
}

/* To the next face: its middle comes to the middle of the view, and the cursor with it. */
static void
roll_by_face (BwBandCanvas *self, int dir)
{
  const BwBandFaces *faces = bw_band_canvas_faces (self);
  int column = self->cursor.column;
  double from = self->glide ? self->glide_to : self->layout.roll;
  double to = faces->faces ? bw_band_faces_next (faces, column, from, dir) : from + dir;
  BwBeadAt bead;

  if (bw_band_layout_bead (&self->layout, (BwBandPoint){ to, column - 0.5 }, &bead))
    bw_band_canvas_set_cursor_bead (self, bead, TRUE);
  lead_tool (self);
  bw_band_canvas_glide_to (self, to);
}

static gboolean
on_zoom_key (BwBandCanvas *self, guint key)
{
  switch (key) {
  case GDK_KEY_plus:
  case GDK_KEY_equal:
  case GDK_KEY_KP_Add:
    bw_band_canvas_set_zoom (self, self->layout.zoom * ZOOM_NOTCH);
    return TRUE;
  case GDK_KEY_minus:
  case GDK_KEY_KP_Subtract:
    bw_band_canvas_set_zoom (self, self->layout.zoom / ZOOM_NOTCH);
    return TRUE;
  case GDK_KEY_0:
  case GDK_KEY_KP_0:
    bw_band_canvas_fit (self);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_walk_key (BwBandCanvas *self, guint key, gboolean shift)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    walk (self, -1, 0, shift);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    walk (self, 1, 0, shift);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    walk (self, 0, 1, shift);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    walk (self, 0, -1, shift);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    walk_to_row (self, 1);
    return TRUE;
  case GDK_KEY_End:
  case GDK_KEY_KP_End:
    walk_to_row (self, self->layout.rows);
    return TRUE;
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    roll_by_face (self, -1);
    return TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    roll_by_face (self, 1);
    return TRUE;
  default:
    return FALSE;
  }
}

/* The tray's letters choose a colour. P picks up, unless a colour is called p; Shift+Space always
 * does. */
static gboolean
on_letter_key (BwBandCanvas *self, guint key)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  int index = letter ? bw_tray_find (bw_project_get_tray (self->project), letter) : -1;

  if (index >= 0)
    bw_session_set_colour (self->session, index);
  else if (key == GDK_KEY_p || key == GDK_KEY_P)
    pick_at_cursor (self);
  else
    return FALSE;
  return TRUE;
}

/* The digits are the tools, in the order of the toolbar. */
static gboolean
on_tool_key (BwBandCanvas *self, guint key)
{
  static const BwToolKind tools[10]
      = { BW_TOOL_PICK,  BW_TOOL_BEAD, BW_TOOL_LINE,  BW_TOOL_RECTANGLE, BW_TOOL_FRAME,
          BW_TOOL_FLOOD, BW_TOOL_SWAP, BW_TOOL_ERASE, BW_TOOL_SELECT,    BW_TOOL_SELECT_COLOUR };
  gunichar digit = gdk_keyval_to_unicode (key);
  if (digit < '0' || digit > '9')
    return FALSE;
  bw_session_set_tool (self->session, tools[digit - '0']);
  return TRUE;
}

/* What is under way is taken back; else nothing is selected any more. */
static gboolean
on_escape (BwBandCanvas *self)
{
  self->extending = FALSE;
  if (bw_hand_busy (self->hand))
    bw_hand_revert (self->hand);
  else if (self->piece != NULL)
    bw_band_canvas_drop_piece (self);
  else if (bw_session_get_selection (self->session) != NULL)
    bw_session_take_selection (self->session, NULL);
  else
    return FALSE;
  return TRUE;
}

/* Enter finishes what is under way; else it lifts what is selected, with Control a copy of it. */
static gboolean
on_enter (BwBandCanvas *self, gboolean control)
{
  if (self->piece != NULL)
    bw_band_canvas_lay_down (self);
  else if (self->by_keyboard && bw_hand_busy (self->hand))
    bw_hand_end (self->hand, cursor_point (self, self->key_u));
  else if (bw_session_get_selection (self->session) != NULL)
    bw_band_canvas_do (self, control ? BW_BAND_LIFT_COPY : BW_BAND_LIFT);
  else
    return FALSE;
  return TRUE;
}

static gboolean
on_control_key (BwBandCanvas *self, guint key, gboolean shift)
{
  static const struct {
    guint key;
    gboolean shift;
    BwBandDeed deed;
  } deeds[] = {
    { GDK_KEY_c, FALSE, BW_BAND_COPY },       { GDK_KEY_x, FALSE, BW_BAND_CUT },
    { GDK_KEY_v, FALSE, BW_BAND_PASTE },      { GDK_KEY_a, FALSE, BW_BAND_SELECT_ALL },
    { GDK_KEY_a, TRUE, BW_BAND_SELECT_NONE }, { GDK_KEY_r, FALSE, BW_BAND_FLIP_ROUND },
    { GDK_KEY_u, FALSE, BW_BAND_FLIP_UP },    { GDK_KEY_t, FALSE, BW_BAND_TURN },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++)
    if (gdk_keyval_to_lower (key) == deeds[i].key && shift == deeds[i].shift) {
      bw_band_canvas_do (self, deeds[i].deed);
      return TRUE;
    }
  return on_zoom_key (self, key);
}

static gboolean
is_enter (guint key)
{
  return key == GDK_KEY_Return || key == GDK_KEY_KP_Enter || key == GDK_KEY_ISO_Enter;
}

static gboolean
on_plain_key (BwBandCanvas *self, guint key, gboolean shift)
{
  if (key == GDK_KEY_space || key == GDK_KEY_KP_Space) {
    if (shift && !self->by_keyboard)
      pick_at_cursor (self);
    else
      use_tool_at_cursor (self);
    return TRUE;
  }
  if (key == GDK_KEY_Delete || key == GDK_KEY_KP_Delete || key == GDK_KEY_BackSpace) {
    bw_band_canvas_do (self, BW_BAND_ERASE);
    return TRUE;
  }
  return on_walk_key (self, key, shift) || on_letter_key (self, key) || on_tool_key (self, key);
}

static gboolean
take_key (BwBandCanvas *self, guint key, GdkModifierType state)
{
  GdkModifierType held = state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK);
  gboolean shift = (state & GDK_SHIFT_MASK) != 0;

  if (key == GDK_KEY_Escape)
    return on_escape (self);
  if (is_enter (key) && (held == 0 || held == GDK_CONTROL_MASK))
    return on_enter (self, held != 0);
  if (held == GDK_CONTROL_MASK && key != GDK_KEY_space)
    return on_control_key (self, key, shift);
  if (held != 0 && key != GDK_KEY_space)
    return FALSE;
  return on_plain_key (self, key, shift);
}

gboolean
bw_band_canvas_on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       BwBandCanvas *self)
{
  bw_band_canvas_say (self, NULL);
  gboolean taken = take_key (self, key, state);
  bw_band_canvas_tell (self);
  return taken;
}

guint
bw_band_held (GdkModifierType state)
{
  return (state & GDK_SHIFT_MASK ? BW_HELD_SHIFT : 0)
         | (state & GDK_CONTROL_MASK ? BW_HELD_CONTROL : 0);
}

gboolean
bw_band_canvas_on_modifiers (GtkEventControllerKey *keys, GdkModifierType state, BwBandCanvas *self)
{
  bw_hand_set_held (self->hand, bw_band_held (state));
  bw_band_canvas_tell (self);
  return FALSE;
}
