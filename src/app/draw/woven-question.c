/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The question comes after the step, whatever made it, and taking back is undo: so every way to
 * change a bead is asked about in one place, and nothing is lost by either answer. */
#include "config.h"

#include "app/draw/woven-question.h"
#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>

typedef struct {
  GtkWidget *widget;
  BwSession *session;
  BwProject *project;
  BwDrawing *drawing; /* as it was after the last step, */
  BwTray tray;        /* with its colours */
  int rows;
  guint position;
  gboolean agreed; /* the maker has said yes to other colours for this piece */
} Watch;

static void
remember (Watch *watch)
{
  g_clear_pointer (&watch->drawing, bw_drawing_free);
  watch->drawing = bw_drawing_copy (bw_project_get_drawing (watch->project));
  watch->tray = *bw_project_get_tray (watch->project);
  watch->rows = bw_drawing_rows (watch->drawing);
  watch->position = bw_project_get_position (watch->project);
}

/* A colour that has another letter or another tint alone is the same glass still. */
static gboolean
is_other_glass (const BwColour *a, const BwColour *b)
{
  return a->id != b->id && a->srgb != b->srgb;
}

/* The first woven row of which a bead has become another; 0 for none. */
static int
first_changed (Watch *watch)
{
  const BwDrawing *now = bw_project_get_drawing (watch->project);
  const BwTray *tray = bw_project_get_tray (watch->project);
  int rows = MIN (bw_project_get_rows_done (watch->project), bw_drawing_rows (now));
  if (bw_drawing_rows (now) != bw_drawing_rows (watch->drawing)
      || bw_drawing_columns (now) != bw_drawing_columns (watch->drawing))
    return 0;
  for (int row = 1; row <= rows; row++)
    for (int j = 0; j < bw_drawing_columns (now) / 2; j++) {
      int column = bw_lattice_column (row, j);
      if (is_other_glass (&watch->tray.colour[bw_drawing_get (watch->drawing, row, column)],
                          &tray->colour[bw_drawing_get (now, row, column)]))
        return row;
    }
  return 0;
}

/* Whether the step has made the band end before the last woven row. */
static gboolean
cuts_woven_rows (Watch *watch)
{
  int rows = bw_drawing_rows (bw_project_get_drawing (watch->project));
  return rows < watch->rows && rows < bw_project_get_rows_done (watch->project);
}

/* The answer that leaves things is undo; gives whether that was it. */
static gboolean
leave_it (Watch *watch, GtkDialog *dialog, int answer)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer == GTK_RESPONSE_ACCEPT)
    return FALSE;
  bw_project_undo (watch->project);
  return TRUE;
}

static void
answered_beads (GtkDialog *dialog, int answer, Watch *watch)
{
  watch->agreed = !leave_it (watch, dialog, answer);
}

static void
answered_rows (GtkDialog *dialog, int answer, Watch *watch)
{
  leave_it (watch, dialog, answer);
}

typedef void (*Answered) (GtkDialog *dialog, int answer, Watch *watch);

static void
ask (Watch *watch, const char *question, const char *note, Answered answered)
{
  GtkRoot *root = gtk_widget_get_root (watch->widget);
  if (!GTK_IS_WINDOW (root))
    return;
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (root), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, "%s", question);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", note);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Leave It as It Was"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Change It"), GTK_RESPONSE_ACCEPT);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_CANCEL);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), watch);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
ask_of_bead (Watch *watch, int row)
{
  g_autofree char *question
      = g_strdup_printf (_ ("Row %d is woven already. Change it in the drawing?"), row);
  ask (watch, question,
       _ ("The beads on the thread stay as they are. Once you change it, it is not asked again for "
          "this piece."),
       answered_beads);
}

static void
ask_of_rows (Watch *watch)
{
  int done = bw_project_get_rows_done (watch->project);
  g_autofree char *question
      = g_strdup_printf (_ ("%d rows are woven already. End the band after row %d?"), done,
                         bw_drawing_rows (bw_project_get_drawing (watch->project)));
  ask (watch, question, _ ("What is woven beyond that row must then be picked out."),
       answered_rows);
}

/* Undo and redo are deliberate: only a step that is new is asked about. */
static void
history_changed (Watch *watch)
{
  guint position = bw_project_get_position (watch->project);
  gboolean is_new
      = position > watch->position && position == bw_project_count_steps (watch->project);
  if (bw_project_in_step (watch->project))
    return;
  int row = is_new && !watch->agreed ? first_changed (watch) : 0;
  gboolean cuts = is_new && cuts_woven_rows (watch);
  remember (watch);
  if (cuts)
    ask_of_rows (watch);
  else if (row > 0)
    ask_of_bead (watch, row);
}

static void
leave (Watch *watch)
{
  if (watch->project)
    g_signal_handlers_disconnect_by_data (watch->project, watch);
  g_clear_object (&watch->project);
  g_clear_pointer (&watch->drawing, bw_drawing_free);
}

static void
take_project (Watch *watch)
{
  leave (watch);
  watch->project = g_object_ref (bw_session_get_project (watch->session));
  watch->agreed = FALSE;
  g_signal_connect_swapped (watch->project, "history", G_CALLBACK (history_changed), watch);
  remember (watch);
}

static void
watch_free (gpointer data)
{
  Watch *watch = data;
  g_signal_handlers_disconnect_by_data (watch->session, watch);
  leave (watch);
  g_object_unref (watch->session);
  g_free (watch);
}

void
bw_woven_question_watch (GtkWidget *widget, BwSession *session)
{
  g_return_if_fail (GTK_IS_WIDGET (widget) && BW_IS_SESSION (session));
  Watch *watch = g_new0 (Watch, 1);
  watch->widget = widget;
  watch->session = g_object_ref (session);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (take_project), watch);
  take_project (watch);
  g_object_set_data_full (G_OBJECT (widget), "woven-question", watch, watch_free);
}
