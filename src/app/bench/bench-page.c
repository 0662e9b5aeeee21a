/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands are full at the bench: one key, one click anywhere on the row, or a page turner's pedal is
 * all that the work itself wants. */
#include "config.h"

#include "app/bench/bench-page.h"

#include "app/bench/bench-check.h"
#include "app/bench/bench-needle.h"
#include "app/bench/bench-paper.h"
#include "app/bench/bench-steps.h"
#include "app/bench/bench-words.h"
#include "app/bench/pace.h"
#include "app/kit/settings.h"
#include "app/kit/tip.h"
#include "app/bench/voice.h"
#include "app/kit/words.h"
#include "core/base/lattice.h"
#include "editor/band/band-canvas.h"
#include "output/report/report.h"
#include "output/words/words.h"
#include "preview/view/stone-view.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BEAD_PX 84 /* at the usual size of text */
#define USUAL_EM_PX 16.0
#define LARGEST_TEXT 1.5 /* beads grow with the text, but not beyond that */
#define SMALLEST_BEAD_PX 26
#define BEAD_SHARE 0.2 /* of the height that rows are seen in */
#define CRAMPED_EM                                                                                 \
  24.0 /* lines of text in the page: with fewer only what is told nowhere else stays */
#define NOTE_LEAST_EM 2.6 /* of a note at least; the rest is scrolled to */
#define STEP_LEAST_EM 8.0 /* the same where the note is all there is to do */
#define BAR_LEAST_PX 50   /* high: no less goes beside a scroll bar */
#define PICTURE_PX 120    /* high at least, or there is none */
#define SCROLL_EM 3.0     /* by a key */

struct _BwBenchPage {
  BwCard parent_instance;
  GtkLabel *arrow;
  GtkLabel *row;
  GtkLabel *way;
  GtkLabel *note;
  GtkLabel *next;
  GtkLabel *pace;
  BwBenchNeedle *beads;
  GtkScrolledWindow *noted;
  GtkScrolledWindow *rows;
  GtkBox *place;
  BwBenchPaper *paper;
  GtkLabel *legend;
  GtkProgressBar *bar;
  GtkWidget *back;
  GtkWidget *done;
  GtkToggleButton *voice;
  GtkMenuButton *check;
  GtkWidget *keys;
  GtkEventController *elsewhere, *turner; /* the window's, while the page is on screen */
  BwBandCanvas *canvas;
  BwVoice *speech;
  BwPace paced;
  gboolean cramped;  /* there is room for no words that are not the row's */
  BwBenchStep shown; /* on screen; row 0 before the first */
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

static void
show_title (BwBenchPage *self, BwProject *project, BwBenchStep step)
{
  g_autofree char *name = bw_bench_name (project, step);
  bw_label_set_words (self->row, name);
  bw_label_set_words (self->way, bw_bench_way (project, step));
  bw_label_set_words (self->arrow, bw_bench_arrow (project, step));
  gtk_widget_set_visible (GTK_WIDGET (self->arrow), *bw_bench_arrow (project, step) != '\0');
}

/* What the row wants besides beads; at the end, all that is still to be done. */
static void
show_note (BwBenchPage *self, BwProject *project, BwBenchStep step)
{
  g_autofree char *note = bw_bench_note_words (project, step);
  bw_label_set_words (self->note, note);
  gtk_widget_set_visible (GTK_WIDGET (self->noted), *note != '\0');
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->noted), 0);
}

static void
show_next (BwBenchPage *self, BwProject *project, BwBenchStep step)
{
  BwBenchStep next = bw_bench_step_after (project, step);
  g_autofree char *title = bw_bench_title (project, next), *words = bw_bench_beads (project, next);
  /* Translators: the next row with its arrow, and its beads. */
  g_autofree char *then = *words ? g_strdup_printf (_ ("Then %s: %s"), title, words)
                                 /* Translators: a step of the join, which takes no beads. */
                                 : g_strdup_printf (_ ("Then %s"), title);
  bw_label_set_words (self->next, then);
  gtk_widget_set_visible (GTK_WIDGET (self->next), !next.is_end);
}

/* The band, or what is drawn of this step instead. */
static void
show_picture (BwBenchPage *self, BwProject *project, BwBenchStep step)
{
  gboolean on_paper = bw_bench_paper_has (project, step);
  const char *legend = bw_bench_legend (step);
  bw_bench_paper_set_step (self->paper, project, step);
  gtk_widget_set_visible (GTK_WIDGET (self->paper), on_paper);
  gtk_widget_set_visible (GTK_WIDGET (self->canvas), !on_paper);
  bw_label_set_words (self->legend, legend);
  bw_tip_set (GTK_WIDGET (self->place), legend);
}

static void
show_row (BwBenchPage *self, BwProject *project, BwBenchStep step)
{
  g_autofree char *words = bw_bench_beads (project, step);
  show_title (self, project, step);
  gboolean is_row = !step.is_end && step.join == 0;
  bw_bench_needle_set_row (self->beads, project, step.in_bail, is_row ? step.row : G_MAXINT);
  gtk_widget_set_visible (GTK_WIDGET (self->beads), is_row);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->beads), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
  gtk_button_set_label (GTK_BUTTON (self->done),
                        step.join > 0 ? _ ("Step _Done") : _ ("Row _Done"));
  gtk_widget_set_sensitive (self->done, !step.is_end);
  gtk_widget_set_sensitive (self->back, bw_project_get_rows_done (project) > 0);
  show_note (self, project, step);
  show_next (self, project, step);
  show_picture (self, project, step);
}

static void
show_pace (BwBenchPage *self, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  int left = MAX (design->band.rows - bw_project_get_rows_done (project), 0);
  const BwSupply *supply = &design->supply;
  double hourly = supply->has_prices ? bw_work_pace (supply, design->band.columns) : 0;
  double seconds = bw_pace_row_seconds (&self->paced, hourly);
  g_autofree char *words = bw_bench_left (project, bw_bench_step (project));
  if (seconds > 0 && left > 0) {
    g_autoptr (GDateTime) now = g_date_time_new_now_local ();
    g_autoptr (GDateTime) end = g_date_time_add_seconds (now, seconds * left);
    /* Translators: weekday by name, hour and minute. */
    g_autofree char *when = g_date_time_format (end, _ ("%A, %H:%M"));
    g_autofree char *each = bw_bench_duration (seconds), *all = bw_bench_duration (seconds * left);
    g_autofree char *rows = g_steal_pointer (&words);
    words = g_strdup_printf (_ ("%s A row takes about %s: %s more, woven on %s if you go on."),
                             rows, each, all, when);
  }
  bw_label_set_words (self->pace, words);
  gtk_widget_set_visible (GTK_WIDGET (self->pace), *words != '\0');
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

/* The room there is, in heights of a line of text. */
static double
room_em (BwBenchPage *self, double *em_px)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (self));
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  *em_px = (double)pango_font_metrics_get_height (metrics) / PANGO_SCALE;
  pango_font_metrics_unref (metrics);
  return gtk_widget_get_height (GTK_WIDGET (self)) / *em_px;
}

/* A page that was never laid out has no width yet, and the toolkit wants to be asked for none that
 * is too narrow. */
static int
height_of (GtkWidget *widget, int width)
{
  int least, needed = 0;
  if (!gtk_widget_get_visible (widget))
    return 0;
  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, MAX (width, least), &needed, NULL, NULL,
                      NULL);
  return needed;
}

/* As many lines of the note as go into so much room: none is cut through. */
static int
whole_lines (BwBenchPage *self, int room)
{
  PangoLayoutLine *line = pango_layout_get_line_readonly (gtk_label_get_layout (self->note), 0);
  PangoRectangle place;
  pango_layout_line_get_pixel_extents (line, NULL, &place);
  return place.height > 0 ? MAX (room / place.height, 1) * place.height : room;
}

/* A long note is scrolled in what needle and band leave, so that it pushes neither off the page. A
 * scrolled window does not know how high its child is at a given width, so it is told. */
static void
take_note (BwBenchPage *self, double em)
{
  GtkWidget *rows = gtk_widget_get_parent (GTK_WIDGET (self->place));
  int width = gtk_widget_get_width (rows), gaps = 3 * gtk_box_get_spacing (GTK_BOX (rows));
  int taken = height_of (GTK_WIDGET (self->beads), width)
              + height_of (GTK_WIDGET (self->next), width) + gaps;
  gtk_widget_set_visible (GTK_WIDGET (self->place), TRUE);
  gtk_widget_set_visible (GTK_WIDGET (self->legend), FALSE);
  int room = gtk_widget_get_height (GTK_WIDGET (self->rows)) - taken
             - height_of (GTK_WIDGET (self->place), width);
  double least = bw_bench_step (project_of (self)).join > 0 ? STEP_LEAST_EM : NOTE_LEAST_EM;
  int needed = height_of (GTK_WIDGET (self->note), width);
  int given = MIN (needed, whole_lines (self, MAX (room, (int)(least * em))));
  gtk_scrolled_window_set_min_content_height (self->noted, given);
  gtk_scrolled_window_set_policy (self->noted, GTK_POLICY_NEVER,
                                  needed > given && given >= BAR_LEAST_PX ? GTK_POLICY_ALWAYS
                                                                          : GTK_POLICY_EXTERNAL);
}

/* Whether all that is shown goes into the page. */
static gboolean
goes_in (BwBenchPage *self)
{
  GtkWidget *rows = gtk_widget_get_parent (GTK_WIDGET (self->place));
  int needed = height_of (rows, gtk_widget_get_width (rows));
  return needed <= gtk_widget_get_height (GTK_WIDGET (self->rows));
}

/* The band is shown whole or not at all: a strip of it cut off by the page's edge tells nothing.
 * Its legend goes first, and is a tip then. */
static void
take_band (BwBenchPage *self)
{
  GtkWidget *place = GTK_WIDGET (self->place), *legend = GTK_WIDGET (self->legend);
  gboolean has_legend = *gtk_label_get_text (self->legend) != '\0' && !self->cramped;
  gtk_widget_set_visible (place, TRUE);
  gtk_widget_set_visible (legend, has_legend);
  gtk_widget_set_visible (legend, has_legend && goes_in (self));
  gtk_widget_set_visible (place, goes_in (self));
}

static gboolean
is_step (BwBenchStep a, BwBenchStep b)
{
  return a.in_bail == b.in_bail && a.row == b.row && a.join == b.join && a.is_end == b.is_end;
}

static void
bw_bench_page_refresh (BwCard *card)
{
  BwBenchPage *self = BW_BENCH_PAGE (card);
  BwProject *project = project_of (self);
  BwBenchStep step = bw_bench_step (project);
  int done = bw_project_get_rows_done (project);
  show_row (self, project, step);
  show_pace (self, project);
  gtk_progress_bar_set_fraction (
      self->bar, MIN ((double)done / bw_project_get_design (project)->band.rows, 1));
  bw_session_set_woven (session_of (self), done);
  if (!is_step (step, self->shown)) {
    double em;
    room_em (self, &em);
    take_note (self, em);
    take_band (self);
    turn_to_row (self, project, bw_bench_row (project));
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->rows), 0);
  }
  self->shown = step;
}

static void
say_row (BwBenchPage *self)
{
  BwProject *project = project_of (self);
  BwBenchStep step = bw_bench_step (project);
  g_autofree char *name = bw_bench_name (project, step);
  g_autofree char *words
      = step.join > 0 ? bw_bench_note_words (project, step) : bw_bench_beads (project, step);
  g_autofree char *all = g_strdup_printf ("%s. %s. %s", name, bw_bench_way (project, step), words);
  if (gtk_toggle_button_get_active (self->voice))
    bw_voice_say (self->speech, all);
}

static double
row_beads (BwProject *project)
{
  return bw_project_get_design (project)->band.columns / 2.0;
}

/* The hands are the same at the next piece, and after a crash. */
static void
remember_pace (BwBenchPage *self, BwProject *project)
{
  double seconds = bw_pace_row_seconds (&self->paced, 0) / row_beads (project);
  if (self->paced.n >= BW_PACE_TELLS)
    g_object_set (bw_settings_get (), "bead-seconds", CLAMP (seconds, 0, 3600), NULL);
}

static void
recall_pace (BwBenchPage *self)
{
  self->paced.known_s
      = bw_settings_get_number (bw_settings_get (), "bead-seconds") * row_beads (project_of (self));
  bw_pace_begin (&self->paced, g_get_monotonic_time ());
}

static void
done_clicked (BwBenchPage *self)
{
  BwBenchStep step = bw_bench_step (project_of (self));
  int rows = bw_bench_advance (project_of (self));
  if (rows == 0)
    return;
  if (step.in_bail || step.join > 0)
    bw_pace_begin (&self->paced, g_get_monotonic_time ());
  else
    bw_pace_done (&self->paced, g_get_monotonic_time (), rows);
  remember_pace (self, project_of (self));
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

/* Moves on, back, or out: the keys of a page turner, and those that nothing else on a window uses.
 */
static gboolean
take_key (BwBenchPage *self, guint key)
{
  switch (key) {
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    done_clicked (self);
    return TRUE;
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
  case GDK_KEY_BackSpace:
    back_clicked (self);
    return TRUE;
  case GDK_KEY_m:
  case GDK_KEY_M:
    gtk_menu_button_popup (self->check);
    return TRUE;
  case GDK_KEY_Escape:
    gtk_widget_activate_action (GTK_WIDGET (self), "win.bench", NULL);
    return TRUE;
  default:
    return FALSE;
  }
}

/* With other modifiers a key is a command of the window. */
static gboolean
is_plain (GdkModifierType state)
{
  return (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) == 0;
}

/* The rest of a long note, up or down; FALSE where all of it is to be seen. */
static gboolean
scroll_note (BwBenchPage *self, guint key)
{
  GtkAdjustment *at = gtk_scrolled_window_get_vadjustment (self->noted);
  double em, most = gtk_adjustment_get_upper (at) - gtk_adjustment_get_page_size (at);
  gboolean down = key == GDK_KEY_Down || key == GDK_KEY_KP_Down;
  if (!gtk_widget_get_visible (GTK_WIDGET (self->noted)) || most < 1
      || (!down && key != GDK_KEY_Up && key != GDK_KEY_KP_Up))
    return FALSE;
  room_em (self, &em);
  gtk_adjustment_set_value (at,
                            gtk_adjustment_get_value (at) + (down ? SCROLL_EM : -SCROLL_EM) * em);
  return TRUE;
}

/* Anywhere on the page but in the popover, where numbers are typed. A button that has the focus is
 * pressed with Return: Space is the next row whatever was clicked last. */
static gboolean
key_pressed (BwBenchPage *self, guint key, guint code, GdkModifierType state)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  if (!is_plain (state) || (focus && gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER)))
    return FALSE;
  if (key == GDK_KEY_Right)
    done_clicked (self);
  else if (key == GDK_KEY_Left)
    back_clicked (self);
  else
    return scroll_note (self, key) || take_key (self, key);
  return TRUE;
}

/* The stone was turned with the mouse, say, and has the focus: what it has no use for is the row's.
 */
static gboolean
key_elsewhere (BwBenchPage *self, guint key, guint code, GdkModifierType state)
{
  return is_plain (state) && take_key (self, key);
}

/* The pedal of a page turner is for rows, even where the stone has the focus and would come nearer
 * with the same keys. */
static gboolean
page_turned (BwBenchPage *self, guint key, guint code, GdkModifierType state)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  gboolean page_key = key == GDK_KEY_Page_Down || key == GDK_KEY_KP_Page_Down
                      || key == GDK_KEY_Page_Up || key == GDK_KEY_KP_Page_Up;
  return page_key && is_plain (state) && focus
         && gtk_widget_get_ancestor (focus, BW_TYPE_STONE_VIEW) && take_key (self, key);
}

static void
listen (BwBenchPage *self, GtkEventController **controller, GtkPropagationPhase phase,
        GCallback taken)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self)));
  *controller = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (*controller, phase);
  g_signal_connect_swapped (*controller, "key-pressed", taken, self);
  gtk_widget_add_controller (window, *controller);
}

static void
listen_elsewhere (BwBenchPage *self, gboolean to_all)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self)));
  if (to_all && !self->elsewhere) {
    listen (self, &self->elsewhere, GTK_PHASE_BUBBLE, G_CALLBACK (key_elsewhere));
    listen (self, &self->turner, GTK_PHASE_CAPTURE, G_CALLBACK (page_turned));
  } else if (!to_all && self->elsewhere) {
    gtk_widget_remove_controller (window, self->elsewhere);
    gtk_widget_remove_controller (window, self->turner);
    self->elsewhere = self->turner = NULL;
  }
}

/* The keys are the row's again, unless the page was left from there. */
static void
check_closed (BwBenchPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
voice_toggled (BwBenchPage *self)
{
  if (gtk_toggle_button_get_active (self->voice))
    say_row (self);
  else
    bw_voice_hush (self->speech);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* Where there is little room beads are smaller, and what is said elsewhere too goes. */
static void
take_room (BwBenchPage *self)
{
  double em, room = room_em (self, &em), seen = gtk_widget_get_height (GTK_WIDGET (self->rows));
  double most = BEAD_PX * CLAMP (em / USUAL_EM_PX, 1, LARGEST_TEXT);
  bw_bench_needle_set_size (self->beads, (int)CLAMP (seen * BEAD_SHARE, SMALLEST_BEAD_PX, most));
  self->cramped = room <= CRAMPED_EM;
  gtk_widget_set_visible (self->keys, !self->cramped);
  gtk_widget_set_visible (GTK_WIDGET (self->way), !self->cramped);
  take_note (self, em);
  take_band (self);
}

/* The band takes what the rows leave, which is known a frame later. */
static gboolean
fit_band (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  BwBenchPage *self = BW_BENCH_PAGE (widget);
  bw_band_canvas_fit (self->canvas);
  turn_to_row (self, project_of (self), bw_bench_row (project_of (self)));
  return G_SOURCE_REMOVE;
}

static gboolean
take_room_now (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  take_room (BW_BENCH_PAGE (widget));
  gtk_widget_add_tick_callback (widget, fit_band, NULL, NULL);
  return G_SOURCE_REMOVE;
}

/* Not while sizes are being dealt out. */
static void
room_changed (BwBenchPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_widget_add_tick_callback (GTK_WIDGET (self), take_room_now, NULL, NULL);
}

/* Only now has the stack that shows the page moved the focus to where it likes, and the page its
 * size. */
static gboolean
settle_in (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  gtk_widget_grab_focus (widget);
  return take_room_now (widget, clock, data);
}

static void
bw_bench_page_map (GtkWidget *widget)
{
  BwBenchPage *self = BW_BENCH_PAGE (widget);
  self->shown = (BwBenchStep){ .row = 0 };
  recall_pace (self);
  listen_elsewhere (self, TRUE);
  GTK_WIDGET_CLASS (bw_bench_page_parent_class)->map (widget);
  bw_card_refresh (BW_CARD (self));
  gtk_widget_add_tick_callback (widget, settle_in, NULL, NULL);
}

static void
bw_bench_page_unmap (GtkWidget *widget)
{
  BwBenchPage *self = BW_BENCH_PAGE (widget);
  listen_elsewhere (self, FALSE);
  GTK_WIDGET_CLASS (bw_bench_page_parent_class)->unmap (widget);
  if (bw_card_get_draft (BW_CARD (self)))
    bw_session_set_woven (session_of (self), 0);
  if (gtk_toggle_button_get_active (self->voice))
    bw_voice_hush (self->speech);
}

/* Another piece: its rows take their own time, and its place is shown anew. */
static void
other_project (BwBenchPage *self)
{
  self->paced = (BwPace){ .n = 0 };
  self->shown = (BwBenchStep){ .row = 0 };
  recall_pace (self);
  bw_card_refresh (BW_CARD (self));
}

void
bw_bench_page_bind (BwBenchPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_BENCH_PAGE (self) && BW_IS_DRAFT (draft));
  bw_cards_bind (GTK_WIDGET (self), draft);
  self->canvas = BW_BAND_CANVAS (bw_band_canvas_new (bw_draft_get_session (draft)));
  gtk_widget_set_hexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_widget_set_size_request (GTK_WIDGET (self->canvas), -1, PICTURE_PX);
  gtk_widget_set_can_target (GTK_WIDGET (self->canvas), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self->canvas), FALSE);
  gtk_box_prepend (self->place, GTK_WIDGET (self->canvas));
  self->paper = g_object_new (BW_TYPE_BENCH_PAPER, "hexpand", TRUE, "vexpand", TRUE, "can-target",
                              FALSE, "visible", FALSE, NULL);
  gtk_widget_set_size_request (GTK_WIDGET (self->paper), -1, PICTURE_PX);
  gtk_box_prepend (self->place, GTK_WIDGET (self->paper));
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (other_project), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_draft_get_session (draft), "view-changed",
                           G_CALLBACK (gtk_widget_queue_draw), self->canvas, G_CONNECT_SWAPPED);
}

static void
bw_bench_page_finalize (GObject *object)
{
  bw_voice_free (BW_BENCH_PAGE (object)->speech);
  G_OBJECT_CLASS (bw_bench_page_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, arrow);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, row);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, way);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, note);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, check);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, keys);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, next);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, pace);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, beads);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, noted);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, rows);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, place);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, legend);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, bar);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, back);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, done);
  gtk_widget_class_bind_template_child (widget_class, BwBenchPage, voice);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
  gtk_widget_class_bind_template_callback (widget_class, clicked);
  gtk_widget_class_bind_template_callback (widget_class, done_clicked);
  gtk_widget_class_bind_template_callback (widget_class, back_clicked);
  gtk_widget_class_bind_template_callback (widget_class, check_closed);
  gtk_widget_class_bind_template_callback (widget_class, voice_toggled);
}

static void
bw_bench_page_class_init (BwBenchPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_bench_page_finalize;
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
  g_type_ensure (BW_TYPE_BENCH_NEEDLE);
  g_type_ensure (BW_TYPE_BENCH_CHECK);
  self->speech = bw_voice_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self->voice), bw_voice_is_there ());
  g_signal_connect_object (gtk_scrolled_window_get_vadjustment (self->rows), "notify::page-size",
                           G_CALLBACK (room_changed), self, G_CONNECT_SWAPPED);
}
