/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copied, cut, pasted, flipped, turned, rubbed out, lifted: what is done with a selection is done
 * to the project's own beads, one step each. */
#include "config.h"

#include "editor/band/band-deeds.h"

#include <glib/gi18n-lib.h>

/* Takes piece. */
static void
take_up (BwBandWork *work, BwPiece *piece, const char *label)
{
  bw_band_work_settle (work);
  bw_band_air_take (&work->air, piece, label);
}

/* --- The clipboard -----------------------------------------------------------------------------
 */

static const BwRegion *
selected (BwBandWork *work)
{
  const BwRegion *region = bw_session_get_selection (work->view->session);
  if (region == NULL)
    bw_band_work_say (work, _ ("Nothing is selected."));
  return region;
}

static gboolean
copy (BwBandWork *work)
{
  const BwRegion *region = selected (work);
  int row, column;
  if (region == NULL)
    return FALSE;

  g_autoptr (BwClip) clip
      = bw_clip_lift (bw_project_get_drawing (work->view->project), region, &row, &column);
  g_autofree char *text = bw_clip_print (clip, bw_project_get_tray (work->view->project));
  gdk_clipboard_set_text (gtk_widget_get_clipboard (work->view->widget), text);
  int n = bw_clip_count (clip);
  g_autofree char *words
      = g_strdup_printf (ngettext ("%d bead copied.", "%d beads copied.", (gulong)n), n);
  bw_band_work_say (work, words);
  return TRUE;
}

static void
lay_region (BwBandWork *work, const BwRegion *region, int colour, const char *label)
{
  bw_project_begin (work->view->project, label);
  g_autoptr (BwPaint) paint = bw_paint_new (work->view->session);
  bw_paint_lay_region (paint, region, (guint8)colour);
  bw_paint_show (paint);
  bw_project_commit (work->view->project);
}

static void
erase_selected (BwBandWork *work, const char *label)
{
  const BwDrawing *drawing = bw_project_get_drawing (work->view->project);
  lay_region (work, bw_session_get_selection (work->view->session), bw_drawing_ground (drawing),
              label);
}

void
bw_band_deeds_fill (BwBandWork *work, const BwRegion *region)
{
  bw_band_work_settle (work);
  lay_region (work, region, bw_session_get_colour (work->view->session), _ ("Fill"));
}

static void
erase_cursor (BwBandWork *work)
{
  bw_project_begin (work->view->project, _ ("Rub out"));
  g_autoptr (BwPaint) paint = bw_paint_new (work->view->session);
  bw_paint_lay (paint, work->cursor.at.row, work->cursor.at.column,
                bw_drawing_ground (bw_paint_before (paint)));
  bw_paint_show (paint);
  bw_project_commit (work->view->project);
}

/* Where a paste goes: the keyboard's bead, else the bead pointed at, else the middle of the view.
 */
static BwBeadAt
landing_place (BwBandWork *work)
{
  BwBeadAt bead;
  BwBandPoint middle = { work->view->layout.roll, work->view->layout.rise };
  if (!work->cursor.shown && work->pointer_inside
      && bw_band_view_bead (work->view, work->pointer_x, work->pointer_y, &bead))
    return bead;
  if (!work->cursor.shown && bw_band_layout_bead (&work->view->layout, middle, &bead))
    return bead;
  return work->cursor.at;
}

static void
say_landing (BwBandWork *work, gboolean beside)
{
  if (beside)
    bw_band_work_say (work, _ ("Moved by one row, so that the beads interlock."));
}

/* Takes clip. */
static void
paste_clip (BwBandWork *work, BwClip *clip)
{
  BwBeadAt at = landing_place (work);
  int columns = bw_clip_columns (clip), ring = 2 * bw_band_layout_around (&work->view->layout);
  if (bw_clip_rows (clip) > ring) {
    bw_band_work_say (work, _ ("The beads to paste go more than once round this band."));
    bw_clip_free (clip);
    return;
  }
  at.column = CLAMP (at.column, 1, MAX (1, work->view->layout.columns - columns + 1));
  BwPiece *piece = bw_piece_new (clip, at.row, at.column);
  int row, column;
  bw_piece_place (piece, &row, &column);
  take_up (work, piece, _ ("Paste"));
  if (columns > work->view->layout.columns)
    bw_band_work_say (work, _ ("The beads beyond the band’s edge are left out."));
  else if (row != at.row)
    say_landing (work, TRUE);
  else
    bw_band_work_say (work, _ ("Drag it or walk it into place; Enter lays it down."));
}

void
bw_band_deeds_paste_text (BwBandWork *work, const char *text)
{
  g_autoptr (GError) error = NULL;
  BwClip *clip = bw_clip_parse (text, bw_project_get_tray (work->view->project), &error);
  if (clip != NULL)
    paste_clip (work, clip);
  else
    bw_band_work_say (work, error->message);
}

/* The widget that asked, kept until the answer comes. */
typedef struct {
  GtkWidget *widget;
  BwBandWork *work;
} Asked;

static void
on_clipboard_text (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Asked *asked = data;
  g_autoptr (GtkWidget) widget = asked->widget;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
  if (asked->work->view->project != NULL)
    bw_band_deeds_paste_text (asked->work, text ? text : "");
}

static void
paste (BwBandWork *work)
{
  Asked *asked = g_new (Asked, 1);
  *asked = (Asked){ g_object_ref (work->view->widget), work };
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (asked->widget), NULL, on_clipboard_text,
                                 asked);
}

/* --- Deeds -------------------------------------------------------------------------------------
 */

static void
lift (BwBandWork *work, gboolean as_copy)
{
  const BwRegion *region = selected (work);
  if (region == NULL)
    return;
  BwPiece *piece = bw_piece_lift (bw_project_get_drawing (work->view->project), region);
  bw_piece_set_copy (piece, as_copy);
  take_up (work, piece, as_copy ? _ ("Copy beads") : _ ("Move beads"));
  bw_band_work_say (work, _ ("Drag it or walk it into place; Enter lays it down."));
}

/* In the air a piece turns as it is; on the band what is selected is lifted, turned and laid down.
 */
static void
turn (BwBandWork *work, BwPieceDeed deed)
{
  gboolean in_the_air = work->air.piece != NULL;
  const BwRegion *region = in_the_air ? NULL : selected (work);
  if (!in_the_air && region == NULL)
    return;
  if (!in_the_air)
    take_up (work, bw_piece_lift (bw_project_get_drawing (work->view->project), region),
             deed == BW_PIECE_TURN ? _ ("Turn beads") : _ ("Flip beads"));
  gboolean beside = bw_band_air_do (&work->air, deed);
  if (!in_the_air)
    bw_band_air_lay_down (&work->air);
  say_landing (work, beside);
}

static void
erase (BwBandWork *work)
{
  if (bw_session_get_selection (work->view->session) != NULL)
    erase_selected (work, _ ("Rub out"));
  else
    erase_cursor (work);
}

static void
select_all (BwBandWork *work)
{
  BwRegion *region = bw_region_new (work->view->layout.columns, work->view->layout.rows);
  bw_region_add_box (region, 1, work->view->layout.rows, 1, work->view->layout.columns);
  bw_session_take_selection (work->view->session, region);
}

void
bw_band_deeds_lock (BwBandWork *work, int column)
{
  BwSession *session = work->view->session;
  gboolean locked = !bw_session_is_locked (session, column);
  g_autofree char *words
      = locked ? g_strdup_printf (_ ("Column %d is locked: nothing changes its beads."), column)
               : g_strdup_printf (_ ("Column %d is no longer locked."), column);
  bw_session_set_locked (session, column, locked);
  bw_band_work_say (work, words);
}

void
bw_band_deeds_do (BwBandWork *work, BwBandDeed deed)
{
  gboolean turns = deed == BW_BAND_FLIP_ROUND || deed == BW_BAND_FLIP_UP || deed == BW_BAND_TURN;
  if (bw_band_work_is_drawing (work)) {
    bw_band_work_say (work, _ ("Let go of the mouse first."));
    return;
  }
  if (!turns)
    bw_band_work_settle (work);
  switch (deed) {
  case BW_BAND_COPY:
    copy (work);
    break;
  case BW_BAND_CUT:
    if (copy (work))
      erase_selected (work, _ ("Cut"));
    break;
  case BW_BAND_PASTE:
    paste (work);
    break;
  case BW_BAND_ERASE:
    erase (work);
    break;
  case BW_BAND_SELECT_ALL:
    select_all (work);
    break;
  case BW_BAND_SELECT_NONE:
    bw_session_take_selection (work->view->session, NULL);
    break;
  case BW_BAND_LIFT:
  case BW_BAND_LIFT_COPY:
    lift (work, deed == BW_BAND_LIFT_COPY);
    break;
  case BW_BAND_LOCK:
    bw_band_deeds_lock (work, landing_place (work).column);
    break;
  case BW_BAND_FLIP_ROUND:
    turn (work, BW_PIECE_FLIP_ROUND);
    break;
  case BW_BAND_FLIP_UP:
    turn (work, BW_PIECE_FLIP_UP);
    break;
  case BW_BAND_TURN:
  default:
    turn (work, BW_PIECE_TURN);
    break;
  }
}
