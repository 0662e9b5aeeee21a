/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands are full at the bench: one key, one click anywhere on the row, or a page turner's pedal is
 * all that the work itself wants. */
#include "config.h"

#include "app/bench-page.h"
#include "app/bench-row.h"
#include "app/bench-steps.h"
#include "app/check-dialog.h"
#include "app/field.h"
#include "app/pace.h"
#include "app/settings.h"
#include "app/voice.h"
#include "core/fault.h"
#include "core/lattice.h"
#include "core/try-on.h"
#include "editor/band-canvas.h"
#include "output/report.h"
#include "output/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define BEAD_PX 56
#define NEXT_BEAD_PX 28

struct _BwBenchPage {
  BwCard parent_instance;
  GtkLabel *row;
  GtkLabel *words;
  GtkLabel *next;
  GtkLabel *pace;
  GtkLabel *reason;
  BwBenchRow *beads;
  BwBenchRow *next_beads;
  GtkWidget *rows;
  GtkBox *place;
  GtkProgressBar *bar;
  GtkWidget *back;
  GtkWidget *done;
  GtkToggleButton *voice;
  GtkEntry *length;
  GtkSpinButton *short_beads;
  GtkWidget *take;
  BwBandCanvas *canvas;
  BwPace paced;
  int shown_row; /* the row on screen; 0 before the first */
};

G_DEFINE_FINAL_TYPE (BwBenchPage, bw_bench_page, BW_TYPE_CARD)

static BwProject *
project_of (BwBenchPage *self)
{
  return bw_card_get_project (BW_CARD (self));
}

static BwSession *
session_of (BwBenchPage *self)
{
  return bw_draft_get_session (bw_card_get_draft (BW_CARD (self)));
}

/* Nothing beyond the last row. */
static void
show_beads (BwBenchRow *widget, BwProject *project, int row)
{
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int n = 0;
  g_autofree guint8 *colours = NULL;
  if (row <= 2)
    colours = bw_words_pick_up (drawing, &n);
  else if (row <= bw_drawing_rows (drawing)) {
    g_autoptr (GArray) rows = bw_words_band_rows (drawing, row, row);
    const BwWordsRow *words = &g_array_index (rows, BwWordsRow, 0);
    n = words->n;
    colours = g_memdup2 (words->colours, (gsize)n);
  }
  bw_bench_row_set_beads (widget, bw_project_get_tray (project), colours, n);
}

/* The words of a row, "" beyond the last. Owned. */
static char *
words_of (BwProject *project, int row)
{
  if (row > bw_project_get_design (project)->band.rows)
    return g_strdup ("");
  return g_strstrip (bw_words_row (project, row));
}

static void
show_row (BwBenchPage *self, BwProject *project, int row)
{
  int rows = bw_project_get_design (project)->band.rows, next = row <= 2 ? 3 : row + 1;
  g_autofree char *title = bw_bench_title (project, row);
  g_autofree char *words = words_of (project, row);
  gtk_label_set_text (self->row, title);
  gtk_label_set_text (self->words, words);
  show_beads (self->beads, project, row);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->beads), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
  gtk_widget_set_sensitive (self->done, row <= rows);
  gtk_widget_set_sensitive (self->back, row > 1);
  g_autofree char *next_title = next <= rows ? bw_bench_title (project, next) : NULL;
  g_autofree char *next_words = next_title ? words_of (project, next) : NULL;
  g_autofree char *then
      = next_title ? g_strdup_printf (_ ("Then %s:  %s"), next_title, next_words) : g_strdup ("");
  gtk_label_set_text (self->next, then);
  show_beads (self->next_beads, project, next_title ? next : G_MAXINT);
}

/* "1 h 40 min", "40 min", "20 s". Owned. */
static char *
duration_words (double seconds)
{
  int minutes = (int)lround (seconds / 60);
  if (seconds < 99.5)
    return g_strdup_printf (_ ("%.0f s"), seconds);
  if (minutes < 60)
    return g_strdup_printf (_ ("%d min"), minutes);
  return g_strdup_printf (_ ("%d h %d min"), minutes / 60, minutes % 60);
}

static void
show_pace (BwBenchPage *self, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  int left = MAX (design->band.rows - bw_project_get_rows_done (project), 0);
  double hourly = design->supply.has_prices ? design->supply.rows_per_hour : 0;
  double seconds = bw_pace_row_seconds (&self->paced, hourly);
  g_autofree char *words = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%d row to go.", "%d rows to go.", (gulong)left), left);
  if (seconds > 0 && left > 0) {
    g_autoptr (GDateTime) now = g_date_time_new_now_local ();
    g_autoptr (GDateTime) end = g_date_time_add_seconds (now, seconds * left);
    /* Translators: weekday by name, hour and minute. */
    g_autofree char *when = g_date_time_format (end, _ ("%A, %H:%M"));
    g_autofree char *each = duration_words (seconds), *all = duration_words (seconds * left);
    g_autofree char *rows = g_steal_pointer (&words);
    words = g_strdup_printf (_ ("%s A row takes about %s: %s more, woven on %s if you go on."),
                             rows, each, all, when);
  }
  gtk_label_set_text (self->pace, words);
}

/* The row in hand comes to the middle of the band and to the front of the stone. */
static void
turn_to_row (BwBenchPage *self, BwProject *project, int row)
{
  const BwDesign *design = bw_project_get_design (project);
  BwCamera camera = bw_session_get_camera (session_of (self));
  int rows = MAX (design->band.rows, 1);
  bw_band_canvas_roll_to (self->canvas, bw_lattice_pitches (MIN (row, rows)));
  camera.turn_deg = design->band.seam_deg + 360.0 * (row - 1) / rows;
  bw_session_set_camera (session_of (self), camera);
}

static void
bw_bench_page_refresh (BwCard *card)
{
  BwBenchPage *self = BW_BENCH_PAGE (card);
  BwProject *project = project_of (self);
  int row = bw_bench_row (project), done = bw_project_get_rows_done (project);
  show_row (self, project, row);
  show_pace (self, project);
  gtk_progress_bar_set_fraction (
      self->bar, MIN ((double)done / bw_project_get_design (project)->band.rows, 1));
  gtk_widget_set_sensitive (self->take, done >= 2);
  bw_session_set_woven (session_of (self), done);
  if (row != self->shown_row)
    turn_to_row (self, project, row);
  self->shown_row = row;
}

static void
say_row (BwBenchPage *self)
{
  BwProject *project = project_of (self);
  int row = bw_bench_row (project);
  g_autofree char *title = bw_bench_title (project, row);
  g_autofree char *words = words_of (project, row);
  g_autofree char *all = g_strdup_printf ("%s. %s", title, words);
  if (gtk_toggle_button_get_active (self->voice))
    bw_voice_say (all);
}

static void
done_clicked (BwBenchPage *self)
{
  int rows = bw_bench_advance (project_of (self));
  if (rows == 0)
    return;
  bw_pace_done (&self->paced, g_get_monotonic_time (), rows);
  show_pace (self, project_of (self));
  say_row (self);
}

static void
back_clicked (BwBenchPage *self)
{
  if (!bw_bench_back (project_of (self)))
    return;
  bw_pace_begin (&self->paced, g_get_monotonic_time ());
  say_row (self);
}

static void
clicked (BwBenchPage *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  done_clicked (self);
}

/* Where a number is typed the keys are the entry's, but for those it has no use for. A button that
 * has the focus is pressed with Return: Space is the next row whatever was clicked last. */
static gboolean
is_taken (GtkWidget *focus, guint key)
{
  gboolean types = GTK_IS_EDITABLE (focus);
  switch (key) {
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    return FALSE;
  default:
    return types;
  }
}

static gboolean
key_pressed (BwBenchPage *self, guint key, guint code, GdkModifierType state)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) || is_taken (focus, key))
    return FALSE;
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
  case GDK_KEY_Right:
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    done_clicked (self);
    return TRUE;
  case GDK_KEY_Left:
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
  case GDK_KEY_BackSpace:
    back_clicked (self);
    return TRUE;
  case GDK_KEY_Escape:
    gtk_widget_activate_action (GTK_WIDGET (self), "win.bench", NULL);
    return TRUE;
  default:
    return FALSE;
  }
}

static void
show_reason (BwBenchPage *self, const GError *error)
{
  gtk_label_set_text (self->reason, error ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), error != NULL);
}

static GtkWindow *
window_of (BwBenchPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static void
length_typed (BwBenchPage *self)
{
  BwField field = { .quantity = BW_QUANTITY_LENGTH, .pointer = "/progress/checks" };
  g_autoptr (GError) error = NULL;
  double length;
  if (bw_field_parse (&field, gtk_editable_get_text (GTK_EDITABLE (self->length)),
                      bw_settings_get_unit (bw_settings_get ()), &length, &error)
      && bw_check_dialog_show_length (window_of (self), bw_card_get_draft (BW_CARD (self)), length,
                                      &error)) {
    gtk_editable_set_text (GTK_EDITABLE (self->length), "");
    gtk_widget_grab_focus (GTK_WIDGET (self));
  }
  show_reason (self, error);
}

char *
bw_bench_try_on_words (BwProject *project, double short_beads, int *rows)
{
  BwTryOn try_on;
  g_autoptr (GString) words = g_string_new (NULL);
  int done = bw_project_get_rows_done (project);
  bw_try_on_init (&try_on, bw_project_get_design (project), bw_project_stone (project), done,
                  short_beads);
  *rows = try_on.rows;
  if (try_on.change > 0)
    g_string_append_printf (words, _ ("Weave %d more rows, %d in all."), try_on.change,
                            try_on.rows);
  else if (try_on.change < 0)
    g_string_append_printf (words, _ ("Pick out %d rows, to %d."), -try_on.change, try_on.rows);
  else
    g_string_append_printf (words, _ ("%d rows are enough."), try_on.rows);
  if (try_on.pulled_mm > 0.05) {
    g_autofree char *pulled = bw_card_length (try_on.pulled_mm, 1);
    g_string_append_printf (words, _ (" Pulling must close the last %s."), pulled);
  }
  if (try_on.bed_mm > 0) {
    g_autofree char *over = bw_card_length (try_on.over_mm, 1);
    g_autofree char *bed = bw_card_length (try_on.bed_mm, 2);
    g_string_append_printf (words, _ (" The band is then %s too long: make the bed %s thicker."),
                            over, bed);
  }
  return g_string_free (g_steal_pointer (&words), FALSE);
}

static void
take_clicked (BwBenchPage *self)
{
  int rows;
  gtk_spin_button_update (self->short_beads);
  g_autofree char *words = bw_bench_try_on_words (
      project_of (self), gtk_spin_button_get_value (self->short_beads), &rows);
  bw_check_dialog_show_rows (window_of (self), bw_card_get_draft (BW_CARD (self)), words, rows);
}

static void
voice_toggled (BwBenchPage *self)
{
  if (gtk_toggle_button_get_active (self->voice))
    say_row (self);
  else
    bw_voice_hush ();
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* Only now has the stack that shows the page moved the focus to where it likes, and the canvas its
 * size. */
static gboolean
settle_in (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  bw_band_canvas_fit (BW_BENCH_PAGE (widget)->canvas);
  gtk_widget_grab_focus (widget);
  return G_SOURCE_REMOVE;
}

static void
bw_bench_page_map (GtkWidget *widget)
{
  BwBenchPage *self = BW_BENCH_PAGE (widget);
  self->shown_row = 0;
  GTK_WIDGET_CLASS (bw_bench_page_parent_class)->map (widget);
  bw_card_refresh (BW_CARD (self));
  bw_pace_begin (&self->paced, g_get_monotonic_time ());
  gtk_widget_add_tick_callback (widget, settle_in, NULL, NULL);
}

static void
bw_bench_page_unmap (GtkWidget *widget)
{
  BwBenchPage *self = BW_BENCH_PAGE (widget);
  GTK_WIDGET_CLASS (bw_bench_page_parent_class)->unmap (widget);
  if (bw_card_get_draft (BW_CARD (self)))
    bw_session_set_woven (session_of (self), 0);
  if (gtk_toggle_button_get_active (self->voice))
    bw_voice_hush ();
}

void
bw_bench_page_bind (BwBenchPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_BENCH_PAGE (self) && BW_IS_DRAFT (draft));
  bw_cards_bind (GTK_WIDGET (self), draft);
  self->canvas = BW_BAND_CANVAS (bw_band_canvas_new (bw_draft_get_session (draft)));
  gtk_widget_set_hexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->canvas), FALSE);
  gtk_widget_set_can_target (GTK_WIDGET (self->canvas), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self->canvas), FALSE);
  gtk_box_append (self->place, GTK_WIDGET (self->canvas));
  g_signal_connect_object (bw_draft_get_session (draft), "view-changed",
                           G_CALLBACK (gtk_widget_queue_draw), self->canvas, G_CONNECT_SWAPPED);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, row);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, words);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, next);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, pace);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, reason);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, beads);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, next_beads);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, rows);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, place);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, bar);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, back);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, done);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, voice);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, length);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, short_beads);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, take);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
  gtk_widget_class_bind_template_callback (widget_class, clicked);
  gtk_widget_class_bind_template_callback (widget_class, done_clicked);
  gtk_widget_class_bind_template_callback (widget_class, back_clicked);
  gtk_widget_class_bind_template_callback (widget_class, length_typed);
  gtk_widget_class_bind_template_callback (widget_class, take_clicked);
  gtk_widget_class_bind_template_callback (widget_class, voice_toggled);
}

static void
bw_bench_page_class_init (BwBenchPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bench_page_refresh;
  widget_class->map = bw_bench_page_map;
  widget_class->unmap = bw_bench_page_unmap;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bench-page.ui");
  bind_children (widget_class);
}

static void
bw_bench_page_init (BwBenchPage *self)
{
  g_type_ensure (BW_TYPE_BENCH_ROW);
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_bench_row_set_size (self->beads, BEAD_PX);
  bw_bench_row_set_size (self->next_beads, NEXT_BEAD_PX);
  gtk_widget_set_visible (GTK_WIDGET (self->voice), bw_voice_is_there ());
}
