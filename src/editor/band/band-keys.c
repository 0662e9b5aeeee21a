/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole editor by keyboard: arrows walk the lattice, Space presses, Enter finishes, letters are
 * colours, digits are tools. */
#include "editor/band/band-keys.h"

#include "core/base/lattice.h"
#include "editor/band/band-deeds.h"

/* A tool begun with a key follows the cursor. */
static void
lead_tool (BwBandWork *work)
{
  if (work->by_keyboard && bw_hand_busy (work->hand))
    bw_hand_update (work->hand, bw_band_cursor_lead (&work->cursor, &work->view->layout));
}

static void
walk_to (BwBandWork *work, BwBeadAt bead)
{
  bw_band_work_set_cursor (work, bead, TRUE);
  bw_band_roll_reveal (&work->roll, bead);
  lead_tool (work);
}

/* Shift and the arrows: the box from where it began to the cursor is selected. */
static void
extend_selection (BwBandWork *work)
{
  BwShapeBox box = bw_band_cursor_box (&work->cursor, &work->view->layout);
  bw_band_cursor_lead (&work->cursor, &work->view->layout);
  BwRegion *region = bw_region_new (work->view->layout.columns, work->view->layout.rows);
  bw_region_add_box (region, box.first_row, box.last_row, box.first_column, box.last_column);
  bw_session_take_selection (work->view->session, region);
}

static void
walk_selecting (BwBandWork *work, int along, int up)
{
  bw_band_cursor_anchor (&work->cursor, &work->view->layout);
  walk_to (work, bw_band_layout_walk (&work->view->layout, work->cursor.at, along, up));
  extend_selection (work);
}

static void
walk (BwBandWork *work, int along, int up, gboolean shift)
{
  if (work->air.piece != NULL) {
    bw_band_air_walk (&work->air, along, up);
    return;
  }
  if (shift && !bw_hand_busy (work->hand)) {
    walk_selecting (work, along, up);
    return;
  }
  work->cursor.extending = FALSE;
  walk_to (work, work->cursor.shown
                     ? bw_band_layout_walk (&work->view->layout, work->cursor.at, along, up)
                     : work->cursor.at);
}

static void
walk_to_row (BwBandWork *work, int row)
{
  int column = work->cursor.at.column;
  if (!bw_lattice_has (row, column))
    column += column < work->view->layout.columns ? 1 : -1;
  walk_to (work, (BwBeadAt){ row, column });
}

/* Space is a press; for a tool that wants two places the next Space lets go. */
static void
use_tool_at_cursor (BwBandWork *work)
{
  const BwTool *tool = bw_tool_get (bw_session_get_tool (work->view->session));
  if (bw_band_work_is_drawing (work))
    return;

  bw_band_air_lay_down (&work->air);
  bw_band_work_set_cursor (work, work->cursor.at, TRUE);
  if (bw_hand_busy (work->hand)) {
    bw_hand_end (work->hand,
                 bw_band_cursor_point (&work->cursor, &work->view->layout, work->cursor.u));
    return;
  }
  BwBandPoint at
      = bw_band_cursor_point (&work->cursor, &work->view->layout, work->view->layout.roll);
  work->by_keyboard = TRUE;
  work->cursor.u = at.u;
  bw_hand_begin (work->hand, tool, &work->view->layout, at);
  if (!tool->spans)
    bw_hand_end (work->hand, at);
}

static void
pick_at_cursor (BwBandWork *work)
{
  bw_band_work_pick_up (work, work->cursor.at);
  bw_band_work_set_cursor (work, work->cursor.at, TRUE);
}

/* To the next face: its middle comes to the middle of the view, and the cursor with it. */
static void
roll_by_face (BwBandWork *work, int dir)
{
  const BwBandFaces *faces = bw_band_view_faces (work->view);
  int column = work->cursor.at.column;
  double from = bw_band_roll_goal (&work->roll);
  double to = faces->faces ? bw_band_faces_next (faces, column, from, dir) : from + dir;
  BwBeadAt bead;

  if (bw_band_layout_bead (&work->view->layout, (BwBandPoint){ to, column - 0.5 }, &bead))
    bw_band_work_set_cursor (work, bead, TRUE);
  lead_tool (work);
  bw_band_roll_glide_to (&work->roll, to);
}

static gboolean
on_zoom_key (BwBandWork *work, guint key)
{
  switch (key) {
  case GDK_KEY_plus:
  case GDK_KEY_equal:
  case GDK_KEY_KP_Add:
    bw_band_work_zoom (work, work->view->layout.zoom * BW_ZOOM_NOTCH);
    return TRUE;
  case GDK_KEY_minus:
  case GDK_KEY_KP_Subtract:
    bw_band_work_zoom (work, work->view->layout.zoom / BW_ZOOM_NOTCH);
    return TRUE;
  case GDK_KEY_0:
  case GDK_KEY_KP_0:
    bw_band_roll_fit (&work->roll, BW_FIT_WHOLE);
    return TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_walk_key (BwBandWork *work, guint key, gboolean shift)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_KP_Left:
    walk (work, -1, 0, shift);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_KP_Right:
    walk (work, 1, 0, shift);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    walk (work, 0, 1, shift);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    walk (work, 0, -1, shift);
    return TRUE;
  case GDK_KEY_Home:
  case GDK_KEY_KP_Home:
    walk_to_row (work, 1);
    return TRUE;
  case GDK_KEY_End:
  case GDK_KEY_KP_End:
    walk_to_row (work, work->view->layout.rows);
    return TRUE;
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    roll_by_face (work, -1);
    return TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    roll_by_face (work, 1);
    return TRUE;
  default:
    return FALSE;
  }
}

/* The tray's letters choose a colour. P picks up, unless a colour is called p; Shift+Space always
 * does. */
static gboolean
on_letter_key (BwBandWork *work, guint key)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  int index = letter ? bw_tray_find (bw_project_get_tray (work->view->project), letter) : -1;

  if (index >= 0)
    bw_session_set_colour (work->view->session, index);
  else if (key == GDK_KEY_p || key == GDK_KEY_P)
    pick_at_cursor (work);
  else
    return FALSE;
  return TRUE;
}

/* The digits are the tools, in the order of the toolbar. */
static gboolean
on_tool_key (BwBandWork *work, guint key)
{
  static const BwToolKind tools[10]
      = { BW_TOOL_PICK,  BW_TOOL_BEAD, BW_TOOL_LINE,  BW_TOOL_RECTANGLE, BW_TOOL_FRAME,
          BW_TOOL_FLOOD, BW_TOOL_SWAP, BW_TOOL_ERASE, BW_TOOL_SELECT,    BW_TOOL_SELECT_COLOUR };
  gunichar digit = gdk_keyval_to_unicode (key);
  if (digit < '0' || digit > '9')
    return FALSE;
  bw_session_set_tool (work->view->session, tools[digit - '0']);
  return TRUE;
}

/* What is under way is taken back; else nothing is selected any more. */
static gboolean
on_escape (BwBandWork *work)
{
  work->cursor.extending = FALSE;
  if (bw_hand_busy (work->hand))
    bw_hand_revert (work->hand);
  else if (work->air.piece != NULL)
    bw_band_air_drop (&work->air);
  else if (bw_band_work_take_up (work))
    return TRUE;
  else if (bw_session_get_selection (work->view->session) != NULL)
    bw_session_take_selection (work->view->session, NULL);
  else
    return FALSE;
  return TRUE;
}

/* Enter finishes what is under way; else it lifts what is selected, with Control a copy of it. */
static gboolean
on_enter (BwBandWork *work, gboolean control)
{
  if (work->air.piece != NULL)
    bw_band_air_lay_down (&work->air);
  else if (work->by_keyboard && bw_hand_busy (work->hand))
    bw_hand_end (work->hand,
                 bw_band_cursor_point (&work->cursor, &work->view->layout, work->cursor.u));
  else if (bw_session_get_selection (work->view->session) != NULL)
    bw_band_deeds_do (work, control ? BW_BAND_LIFT_COPY : BW_BAND_LIFT);
  else
    return FALSE;
  return TRUE;
}

static gboolean
on_control_key (BwBandWork *work, guint key, gboolean shift)
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
    { GDK_KEY_k, FALSE, BW_BAND_LOCK },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++)
    if (gdk_keyval_to_lower (key) == deeds[i].key && shift == deeds[i].shift) {
      bw_band_deeds_do (work, deeds[i].deed);
      return TRUE;
    }
  return on_zoom_key (work, key);
}

static gboolean
is_enter (guint key)
{
  return key == GDK_KEY_Return || key == GDK_KEY_KP_Enter || key == GDK_KEY_ISO_Enter;
}

static gboolean
on_plain_key (BwBandWork *work, guint key, gboolean shift)
{
  if (key == GDK_KEY_space || key == GDK_KEY_KP_Space) {
    if (shift && !work->by_keyboard)
      pick_at_cursor (work);
    else
      use_tool_at_cursor (work);
    return TRUE;
  }
  if (key == GDK_KEY_Delete || key == GDK_KEY_KP_Delete || key == GDK_KEY_BackSpace) {
    bw_band_deeds_do (work, BW_BAND_ERASE);
    return TRUE;
  }
  return on_walk_key (work, key, shift) || on_letter_key (work, key) || on_tool_key (work, key);
}

/* The menu opens at the keyboard's bead. */
static gboolean
on_menu_key (BwBandWork *work)
{
  BwBandPoint middle
      = bw_band_cursor_point (&work->cursor, &work->view->layout, work->view->layout.roll);
  bw_band_work_settle (work);
  bw_band_work_set_cursor (work, work->cursor.at, TRUE);
  bw_band_work_open_menu (work, bw_band_layout_x (&work->view->layout, middle.u),
                          bw_band_layout_y (&work->view->layout, middle.v), work->cursor.at);
  return TRUE;
}

static gboolean
take_key (BwBandWork *work, guint key, GdkModifierType state)
{
  GdkModifierType held = state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK);
  gboolean shift = (state & GDK_SHIFT_MASK) != 0;

  if (key == GDK_KEY_Escape)
    return on_escape (work);
  if (key == GDK_KEY_Menu || (key == GDK_KEY_F10 && shift))
    return on_menu_key (work);
  if (is_enter (key) && (held == 0 || held == GDK_CONTROL_MASK))
    return on_enter (work, held != 0);
  if (held == GDK_CONTROL_MASK && key != GDK_KEY_space)
    return on_control_key (work, key, shift);
  if (held != 0 && key != GDK_KEY_space)
    return FALSE;
  return on_plain_key (work, key, shift);
}

gboolean
bw_band_keys_press (BwBandWork *work, guint key, GdkModifierType state)
{
  bw_band_work_say (work, NULL);
  gboolean taken = take_key (work, key, state);
  bw_band_work_tell (work);
  return taken;
}

void
bw_band_keys_hold (BwBandWork *work, GdkModifierType state)
{
  bw_hand_set_held (work->hand, (state & GDK_SHIFT_MASK ? BW_HELD_SHIFT : 0)
                                    | (state & GDK_CONTROL_MASK ? BW_HELD_CONTROL : 0));
}
