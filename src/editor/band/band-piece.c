/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is done with a selection: copied, cut, pasted, flipped, turned, rubbed out, and moved about
 * as a piece that lies on top until it is laid down. While it does, its step of undo is open. */
#include "config.h"

#include "editor/band/band-canvas-private.h"

#include <glib/gi18n-lib.h>

/* --- The piece in the air ----------------------------------------------------------------------
 */

gboolean
bw_band_canvas_has_piece (BwBandCanvas *self)
{
  return self->piece != NULL;
}

static void
show_piece (BwBandCanvas *self)
{
  const BwDrawing *before = bw_paint_before (self->piece_paint);
  bw_piece_lay (self->piece, self->piece_paint, bw_drawing_ground (before));
  bw_paint_show (self->piece_paint);
  if (self->piece != NULL)
    bw_session_take_selection (
        self->session,
        bw_piece_region (self->piece, bw_drawing_columns (before), bw_drawing_rows (before)));
}

static void
forget_piece (BwBandCanvas *self)
{
  g_clear_pointer (&self->piece, bw_piece_free);
  g_clear_pointer (&self->piece_paint, bw_paint_free);
  self->piece_held = FALSE;
}

/* Takes piece. */
static void
take_piece (BwBandCanvas *self, BwPiece *piece, const char *label)
{
  bw_band_canvas_settle (self);
  self->piece = piece;
  self->piece_paint = bw_paint_new (self->session);
  bw_project_begin (self->project, label);
  show_piece (self);
}

void
bw_band_canvas_lay_down (BwBandCanvas *self)
{
  if (self->piece == NULL)
    return;
  forget_piece (self);
  bw_project_commit (self->project);
}

void
bw_band_canvas_drop_piece (BwBandCanvas *self)
{
  if (self->piece == NULL)
    return;
  forget_piece (self);
  bw_project_revert (self->project);
  bw_session_take_selection (self->session, NULL);
}

void
bw_band_canvas_settle (BwBandCanvas *self)
{
  bw_band_canvas_lay_down (self);
  if (self->by_keyboard)
    bw_hand_commit (self->hand);
}

void
bw_band_canvas_walk_piece (BwBandCanvas *self, int along, int up)
{
  bw_piece_walk (self->piece, along, up);
  show_piece (self);
}

gboolean
bw_band_canvas_hold_piece (BwBandCanvas *self, BwBandPoint at)
{
  const BwRegion *region = bw_session_get_selection (self->session);
  BwBeadAt bead;
  if (region == NULL || !bw_band_layout_bead (&self->layout, at, &bead)
      || !bw_region_has (region, bead.row, bead.column))
    return FALSE;
  self->piece_held = TRUE;
  self->piece_from = bw_band_brick (at);
  bw_piece_place (self->piece, &self->piece_row, &self->piece_column);
  return TRUE;
}

void
bw_band_canvas_pull_piece (BwBandCanvas *self, BwBandPoint at)
{
  BwBeadAt to = bw_band_brick (at);
  if (self->piece == NULL || !self->piece_held)
    return;
  bw_piece_put (self->piece, self->piece_row + to.row - self->piece_from.row,
                self->piece_column + to.column - self->piece_from.column);
  show_piece (self);
}

/* --- The clipboard -----------------------------------------------------------------------------
 */

static const BwRegion *
selected (BwBandCanvas *self)
{
  const BwRegion *region = bw_session_get_selection (self->session);
  if (region == NULL)
    bw_band_canvas_say (self, _ ("Nothing is selected."));
  return region;
}

static gboolean
copy (BwBandCanvas *self)
{
  const BwRegion *region = selected (self);
  int row, column;
  if (region == NULL)
    return FALSE;

  g_autoptr (BwClip) clip
      = bw_clip_lift (bw_project_get_drawing (self->project), region, &row, &column);
  g_autofree char *text = bw_clip_print (clip, bw_project_get_tray (self->project));
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
  int n = bw_clip_count (clip);
  g_autofree char *words
      = g_strdup_printf (ngettext ("%d bead copied.", "%d beads copied.", (gulong)n), n);
  bw_band_canvas_say (self, words);
  return TRUE;
}

static void
erase_selected (BwBandCanvas *self, const char *label)
{
  g_autoptr (BwPaint) paint = bw_paint_new (self->session);
  const BwDrawing *before = bw_paint_before (paint);
  bw_project_begin (self->project, label);
  bw_paint_lay_region (paint, bw_session_get_selection (self->session), bw_drawing_ground (before));
  bw_paint_show (paint);
  bw_project_commit (self->project);
}

static void
erase_cursor (BwBandCanvas *self)
{
  g_autoptr (BwPaint) paint = bw_paint_new (self->session);
  bw_project_begin (self->project, _ ("Rub out"));
  bw_paint_lay (paint, self->cursor.row, self->cursor.column,
                bw_drawing_ground (bw_paint_before (paint)));
  bw_paint_show (paint);
  bw_project_commit (self->project);
}

/* Where a paste goes: the keyboard's bead, else the bead pointed at, else the middle of the view.
 */
static BwBeadAt
landing_place (BwBandCanvas *self)
{
  BwBeadAt bead;
  BwBandPoint middle = { self->layout.roll, self->layout.rise };
  if (!self->cursor_shown && self->pointer_inside
      && bw_band_canvas_bead_at (self, self->pointer_x, self->pointer_y, &bead.row, &bead.column))
    return bead;
  if (!self->cursor_shown && bw_band_layout_bead (&self->layout, middle, &bead))
    return bead;
  return self->cursor;
}

static void
say_landing (BwBandCanvas *self, gboolean beside)
{
  if (beside)
    bw_band_canvas_say (self, _ ("Moved by one row, so that the half-drop holds."));
}

/* Takes clip. */
static void
paste_clip (BwBandCanvas *self, BwClip *clip)
{
  BwBeadAt at = landing_place (self);
  int columns = bw_clip_columns (clip), ring = 2 * bw_band_layout_around (&self->layout);
  if (bw_clip_rows (clip) > ring) {
    bw_band_canvas_say (self, _ ("The beads to paste go more than once round this band."));
    bw_clip_free (clip);
    return;
  }
  at.column = CLAMP (at.column, 1, MAX (1, self->layout.columns - columns + 1));
  BwPiece *piece = bw_piece_new (clip, at.row, at.column);
  int row, column;
  bw_piece_place (piece, &row, &column);
  take_piece (self, piece, _ ("Paste"));
  if (columns > self->layout.columns)
    bw_band_canvas_say (self, _ ("The beads beyond the band’s edge are left out."));
  else if (row != at.row)
    say_landing (self, TRUE);
  else
    bw_band_canvas_say (self, _ ("Drag it or walk it into place; Enter lays it down."));
}

void
bw_band_canvas_paste_text (BwBandCanvas *self, const char *text)
{
  g_autoptr (GError) error = NULL;
  BwClip *clip = bw_clip_parse (text, bw_project_get_tray (self->project), &error);
  if (clip != NULL)
    paste_clip (self, clip);
  else
    bw_band_canvas_say (self, error->message);
}

static void
on_clipboard_text (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwBandCanvas) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
  if (self->project != NULL)
    bw_band_canvas_paste_text (self, text ? text : "");
}

static void
paste (BwBandCanvas *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL,
                                 on_clipboard_text, g_object_ref (self));
}

/* --- Deeds -------------------------------------------------------------------------------------
 */

static void
lift (BwBandCanvas *self, gboolean as_copy)
{
  const BwRegion *region = selected (self);
  if (region == NULL)
    return;
  BwPiece *piece = bw_piece_lift (bw_project_get_drawing (self->project), region);
  bw_piece_set_copy (piece, as_copy);
  take_piece (self, piece, as_copy ? _ ("Copy beads") : _ ("Move beads"));
  bw_band_canvas_say (self, _ ("Drag it or walk it into place; Enter lays it down."));
}

/* In the air a piece turns as it is; on the band what is selected is lifted, turned and laid down.
 */
static void
turn (BwBandCanvas *self, BwPieceDeed deed)
{
  gboolean in_the_air = self->piece != NULL;
  const BwRegion *region = in_the_air ? NULL : selected (self);
  if (!in_the_air && region == NULL)
    return;
  if (!in_the_air)
    take_piece (self, bw_piece_lift (bw_project_get_drawing (self->project), region),
                deed == BW_PIECE_TURN ? _ ("Turn beads") : _ ("Flip beads"));
  gboolean beside = bw_piece_do (self->piece, deed);
  show_piece (self);
  if (!in_the_air)
    bw_band_canvas_lay_down (self);
  say_landing (self, beside);
}

static void
erase (BwBandCanvas *self)
{
  if (bw_session_get_selection (self->session) != NULL)
    erase_selected (self, _ ("Rub out"));
  else
    erase_cursor (self);
}

static void
select_all (BwBandCanvas *self)
{
  BwRegion *region = bw_region_new (self->layout.columns, self->layout.rows);
  bw_region_add_box (region, 1, self->layout.rows, 1, self->layout.columns);
  bw_session_take_selection (self->session, region);
}

void
bw_band_canvas_do (BwBandCanvas *self, BwBandDeed deed)
{
  gboolean turns = deed == BW_BAND_FLIP_ROUND || deed == BW_BAND_FLIP_UP || deed == BW_BAND_TURN;
  if (bw_hand_busy (self->hand) && !self->by_keyboard)
    return;
  if (!turns)
    bw_band_canvas_settle (self);
  switch (deed) {
  case BW_BAND_COPY:
    copy (self);
    break;
  case BW_BAND_CUT:
    if (copy (self))
      erase_selected (self, _ ("Cut"));
    break;
  case BW_BAND_PASTE:
    paste (self);
    break;
  case BW_BAND_ERASE:
    erase (self);
    break;
  case BW_BAND_SELECT_ALL:
    select_all (self);
    break;
  case BW_BAND_SELECT_NONE:
    bw_session_take_selection (self->session, NULL);
    break;
  case BW_BAND_LIFT:
  case BW_BAND_LIFT_COPY:
    lift (self, deed == BW_BAND_LIFT_COPY);
    break;
  case BW_BAND_FLIP_ROUND:
    turn (self, BW_PIECE_FLIP_ROUND);
    break;
  case BW_BAND_FLIP_UP:
    turn (self, BW_PIECE_FLIP_UP);
    break;
  case BW_BAND_TURN:
  default:
    turn (self, BW_PIECE_TURN);
    break;
  }
}
