/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pointer and keys do different things to the same parts; what must be kept in step whichever of
 * them it was is kept here. */
#include "config.h"

#include "editor/band/band-work.h"

#include "editor/band/band-words.h"
#include "editor/cloth/unrolled.h"

#include <glib/gi18n-lib.h>

void
bw_band_work_init (BwBandWork *work, BwBandView *view, BwSession *session)
{
  *work = (BwBandWork){ .view = view, .hand = bw_hand_new (session) };
  work->air.view = view;
  work->cursor.at = (BwBeadAt){ 1, 2 };
  bw_band_roll_init (&work->roll, view, work->hand);
}

void
bw_band_work_clear (BwBandWork *work)
{
  g_clear_pointer (&work->hand, bw_hand_free);
  g_clear_pointer (&work->note, g_free);
}

gboolean
bw_band_work_is_drawing (const BwBandWork *work)
{
  return bw_hand_busy (work->hand) && !work->by_keyboard;
}

void
bw_band_work_lay_down (BwBandWork *work)
{
  if (work->air.piece == NULL)
    return;
  bw_band_air_lay_down (&work->air);
  work->laid = TRUE;
  bw_band_work_say (work, _ ("Laid on the band where it was: Escape takes it back."));
}

gboolean
bw_band_work_take_up (BwBandWork *work)
{
  if (!work->laid)
    return FALSE;
  work->laid = FALSE;
  bw_project_undo (work->view->project);
  bw_session_take_selection (work->view->session, NULL);
  bw_band_work_say (work, _ ("Taken back."));
  return TRUE;
}

void
bw_band_work_settle (BwBandWork *work)
{
  bw_band_work_lay_down (work);
  if (work->by_keyboard)
    bw_hand_commit (work->hand);
}

void
bw_band_work_drop (BwBandWork *work)
{
  bw_hand_revert (work->hand);
  bw_band_air_drop (&work->air);
}

/* --- Words -------------------------------------------------------------------------------------
 */

static char *
words_under_hover (BwBandWork *work)
{
  gboolean in_bail;
  int row, column;
  bw_session_get_hover (work->view->session, &in_bail, &row, &column);
  return in_bail ? NULL : bw_band_words (work->view->project, row, column);
}

/* A shape being pulled tells how large it is before the bead its end is at. */
static char *
words_of_size (BwBandWork *work)
{
  if (!work->cursor.extending)
    return bw_hand_words (work->hand);
  return bw_tool_box_words (bw_band_cursor_box (&work->cursor, &work->view->layout), FALSE);
}

static char *
all_words (BwBandWork *work)
{
  g_autofree char *size = words_of_size (work);
  g_autofree char *bead = words_under_hover (work);
  if (size != NULL && bead != NULL)
    return g_strdup_printf ("%s — %s", size, bead);
  return size != NULL ? g_steal_pointer (&size) : g_steal_pointer (&bead);
}

/* What is shown without being laid is never told like what is. Owned. */
static char *
told_words (BwBandWork *work)
{
  g_autofree char *words = all_words (work);
  if (!bw_project_has_trial (work->view->project))
    return g_steal_pointer (&words);
  return words ? g_strdup_printf (_ ("%s (only tried)"), words)
               : g_strdup (_ ("Only tried: “Lay on the Band” keeps it, “Leave It” takes it away."));
}

/* The status line tells the bead pointed at, by pointer, by keyboard or in the stone view; a screen
 * reader hears the cursor's bead. */
void
bw_band_work_tell (BwBandWork *work)
{
  BwBeadAt cursor = work->cursor.at;
  GtkWidget *widget = work->view->widget;
  g_autofree char *at_cursor = bw_band_words (work->view->project, cursor.row, cursor.column);
  g_autofree char *at_hover = work->note ? NULL : told_words (work);

  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  at_cursor ? at_cursor : "", -1);
  bw_unrolled_tell (BW_UNROLLED (widget), work->note ? work->note : at_hover ? at_hover : "");
}

void
bw_band_work_say (BwBandWork *work, const char *note)
{
  if (g_strcmp0 (work->note, note) == 0)
    return;
  g_free (work->note);
  work->note = g_strdup (note);
  bw_band_work_tell (work);
}

void
bw_band_work_pick_up (BwBandWork *work, BwBeadAt bead)
{
  if (!bw_tool_pick_up (work->view->session, bead))
    bw_band_work_say (work, _ ("This colour is only tried: lay it first."));
}

/* --- Pointer and cursor ------------------------------------------------------------------------
 */

/* Pointing at nothing with the mouse leaves the keyboard's bead pointed at. */
static void
point_at_cursor (BwBandWork *work)
{
  gboolean keyboard = work->cursor.shown && gtk_widget_has_focus (work->view->widget);
  bw_session_set_hover (work->view->session, FALSE, keyboard ? work->cursor.at.row : 0,
                        keyboard ? work->cursor.at.column : 0);
}

void
bw_band_work_hover_at (BwBandWork *work, double x, double y)
{
  BwBeadAt bead;
  work->pointer_x = x;
  work->pointer_y = y;
  work->pointer_inside = TRUE;
  if (bw_band_view_bead (work->view, x, y, &bead))
    bw_session_set_hover (work->view->session, FALSE, bead.row, bead.column);
  else
    point_at_cursor (work);
}

void
bw_band_work_unhover (BwBandWork *work)
{
  work->pointer_inside = FALSE;
  point_at_cursor (work);
}

void
bw_band_work_set_cursor (BwBandWork *work, BwBeadAt bead, gboolean shown)
{
  work->cursor.at = bead;
  work->cursor.shown = shown;
  if (shown)
    bw_session_set_hover (work->view->session, FALSE, bead.row, bead.column);
  bw_band_work_tell (work);
  gtk_widget_queue_draw (work->view->widget);
}

void
bw_band_work_moved (BwBandWork *work)
{
  bw_band_roll_moved (&work->roll);
  if (work->pointer_inside)
    bw_band_work_hover_at (work, work->pointer_x, work->pointer_y);
}

void
bw_band_work_zoom (BwBandWork *work, double zoom)
{
  BwBandLayout *layout = &work->view->layout;
  double x = layout->x + layout->width / 2, y = layout->y + layout->height / 2;
  if (work->pointer_inside) {
    x = work->pointer_x;
    y = work->pointer_y;
  }
  bw_band_layout_zoom_about (layout, zoom, x, y);
  bw_band_work_moved (work);
}

void
bw_band_work_open_menu (BwBandWork *work, double x, double y, BwBeadAt bead)
{
  g_signal_emit_by_name (work->view->widget, "menu", x, y, bead.row, bead.column);
}
