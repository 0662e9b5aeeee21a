/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas itself: it keeps layout, faces and words in step with the project and the session.
 * What it looks like is in band-draw.c, what the maker does to it in band-input.c. */
#include "config.h"

#include "editor/band/band-canvas-private.h"
#include "editor/cloth/band-paint.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define FIT_SPARE_PITCHES 2.5 /* of the neighbouring ghosts, shown when the whole band is */

G_DEFINE_FINAL_TYPE (BwBandCanvas, bw_band_canvas, GTK_TYPE_WIDGET)

enum { STATUS, VIEW, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- Keeping in step ---------------------------------------------------------------------------
 */

static void
refit (BwBandCanvas *self)
{
  double margin = bw_band_margin_px (&self->style) + 2;
  if (self->layout.width <= 0 || self->layout.height <= 0)
    return;
  if (self->fitted == BW_FIT_WHOLE)
    bw_band_layout_fit (&self->layout, FIT_SPARE_PITCHES, margin);
  else
    bw_band_layout_fit_to_draw (&self->layout, FIT_SPARE_PITCHES, margin);
}

static void
take_design (BwBandCanvas *self)
{
  const BwDesign *design = bw_project_get_design (self->project);
  BwBandLayout *layout = &self->layout;

  layout->columns = design->band.columns;
  layout->rows = design->band.rows;
  layout->pitch_mm = design->gauge.pitch_mm;
  layout->column_mm = design->gauge.column_mm;
  layout->zoom = CLAMP (layout->zoom, BW_ZOOM_MIN, bw_band_layout_zoom_max (layout));
  self->faces_hold = FALSE;
  if (self->fitted != BW_FIT_NOT)
    refit (self);
  else
    bw_band_layout_pan (layout, 0, 0);
  if (self->cursor.row > layout->rows || self->cursor.column > layout->columns
      || self->cursor.row < 1)
    self->cursor = (BwBeadAt){ 1, 2 };
  g_signal_emit (self, signals[VIEW], 0);
}

const BwBandFaces *
bw_band_canvas_faces (BwBandCanvas *self)
{
  if (!self->faces_hold) {
    bw_band_faces_clear (&self->faces);
    bw_band_faces_init (&self->faces, bw_project_get_design (self->project),
                        bw_project_stone (self->project), bw_project_bail_base (self->project));
    self->faces_hold = TRUE;
  }
  return &self->faces;
}

static void
on_changed (BwBandCanvas *self, guint what)
{
  if (what & BW_CHANGED_DESIGN) {
    bw_band_canvas_lay_down (self);
    take_design (self);
  }
  if (what & (BW_CHANGED_DESIGN | BW_CHANGED_CELLS | BW_CHANGED_TRAY)) {
    bw_band_canvas_tell (self);
    gtk_widget_queue_draw (GTK_WIDGET (self));
  }
}

static void
take_project (BwBandCanvas *self)
{
  bw_hand_revert (self->hand);
  bw_band_canvas_drop_piece (self);
  if (self->project != NULL)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_set_object (&self->project, bw_session_get_project (self->session));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (on_changed), self);
  self->fitted = BW_FIT_TO_DRAW;
  on_changed (self, BW_CHANGED_ALL);
}

static void
take_hand (BwBandCanvas *self)
{
  const BwTool *tool = bw_tool_get (bw_session_get_tool (self->session));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), tool->cursor);
  /* Another tool in hand: what a key began with the last one is not half done, it is off. */
  if (self->by_keyboard && bw_hand_get_tool (self->hand) != tool)
    bw_hand_revert (self->hand);
}

static void
take_hover (BwBandCanvas *self)
{
  bw_band_canvas_tell (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- Words -------------------------------------------------------------------------------------
 */

static char *
words_under_hover (BwBandCanvas *self)
{
  gboolean in_bail;
  int row, column;
  bw_session_get_hover (self->session, &in_bail, &row, &column);
  return in_bail ? NULL : bw_band_words (self->project, row, column);
}

/* A shape being pulled tells how large it is before the bead its end is at. */
static char *
words_of_size (BwBandCanvas *self)
{
  return self->extending ? bw_band_canvas_extent (self) : bw_hand_words (self->hand);
}

static char *
all_words (BwBandCanvas *self)
{
  g_autofree char *size = words_of_size (self);
  g_autofree char *bead = words_under_hover (self);
  if (size != NULL && bead != NULL)
    return g_strdup_printf ("%s — %s", size, bead);
  return size != NULL ? g_steal_pointer (&size) : g_steal_pointer (&bead);
}

/* The status line tells the bead pointed at, by pointer, by keyboard or in the stone view; a screen
 * reader hears the cursor's bead. */
void
bw_band_canvas_tell (BwBandCanvas *self)
{
  g_autofree char *at_cursor = bw_band_words (self->project, self->cursor.row, self->cursor.column);
  g_autofree char *at_hover = self->note ? NULL : all_words (self);
  const char *words = self->note ? self->note : at_hover ? at_hover : "";

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  at_cursor ? at_cursor : "", -1);
  if (g_strcmp0 (self->words, words) == 0)
    return;
  g_free (self->words);
  self->words = g_strdup (words);
  g_signal_emit (self, signals[STATUS], 0, words);
}

void
bw_band_canvas_say (BwBandCanvas *self, const char *note)
{
  if (g_strcmp0 (self->note, note) == 0)
    return;
  g_free (self->note);
  self->note = g_strdup (note);
  bw_band_canvas_tell (self);
}

/* --- Moving the view ---------------------------------------------------------------------------
 */

void
bw_band_canvas_shown_anew (BwBandCanvas *self)
{
  if (!bw_hand_busy (self->hand))
    bw_band_layout_normalise (&self->layout);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[VIEW], 0);
}

void
bw_band_canvas_moved (BwBandCanvas *self)
{
  bw_band_canvas_stop_glide (self);
  self->fitted = BW_FIT_NOT;
  bw_band_canvas_shown_anew (self);
  if (self->pointer_inside)
    bw_band_canvas_hover_at (self, self->pointer_x, self->pointer_y);
}

/* --- Pointer and cursor ------------------------------------------------------------------------
 */

/* Pointing at nothing with the mouse leaves the keyboard's bead pointed at. */
static void
point_at_cursor (BwBandCanvas *self)
{
  gboolean keyboard = self->cursor_shown && gtk_widget_has_focus (GTK_WIDGET (self));
  bw_session_set_hover (self->session, FALSE, keyboard ? self->cursor.row : 0,
                        keyboard ? self->cursor.column : 0);
}

void
bw_band_canvas_hover_at (BwBandCanvas *self, double x, double y)
{
  int row, column;
  self->pointer_x = x;
  self->pointer_y = y;
  self->pointer_inside = TRUE;
  if (bw_band_canvas_bead_at (self, x, y, &row, &column))
    bw_session_set_hover (self->session, FALSE, row, column);
  else
    point_at_cursor (self);
}

void
bw_band_canvas_unhover (BwBandCanvas *self)
{
  self->pointer_inside = FALSE;
  point_at_cursor (self);
}

void
bw_band_canvas_set_cursor_bead (BwBandCanvas *self, BwBeadAt bead, gboolean shown)
{
  self->cursor = bead;
  self->cursor_shown = shown;
  if (shown)
    bw_session_set_hover (self->session, FALSE, bead.row, bead.column);
  bw_band_canvas_tell (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* How far [at − half, at + half] must move to lie in [low, high]; its middle wins when it cannot.
 */
static double
into_view (double at, double half, double low, double high)
{
  if (at - half < low)
    return low - (at - half);
  if (at + half > high)
    return high - (at + half);
  return 0;
}

void
bw_band_canvas_reveal_cursor (BwBandCanvas *self)
{
  BwBandLayout *layout = &self->layout;
  int long_row = bw_band_layout_nearest (layout, self->cursor.row);
  BwBandPoint middle = bw_band_middle (long_row, self->cursor.column);
  double x = bw_band_layout_x (layout, middle.u), y = bw_band_layout_y (layout, middle.v);
  double dx
      = into_view (x, 1.5 * bw_band_layout_pitch_px (layout), layout->x, layout->x + layout->width);
  double dy = into_view (y, 1.5 * bw_band_layout_column_px (layout), layout->y,
                         layout->y + layout->height);
  if (dx == 0 && dy == 0)
    return;
  bw_band_layout_pan (layout, dx, dy);
  bw_band_canvas_stop_glide (self);
  self->fitted = BW_FIT_NOT;
  bw_band_canvas_shown_anew (self);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
place_view (BwBandCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double left = bw_band_ruler_width (&self->style), below = bw_band_ruler_height (&self->style);
  self->layout.x = left;
  self->layout.y = 0;
  self->layout.width = MAX (0, gtk_widget_get_width (widget) - left);
  self->layout.height = MAX (0, gtk_widget_get_height (widget) - below);
  if (self->fitted != BW_FIT_NOT)
    refit (self);
  g_signal_emit (self, signals[VIEW], 0);
}

static void
take_style (BwBandCanvas *self)
{
  bw_band_style_init (&self->style, GTK_WIDGET (self));
  g_clear_object (&self->text);
  self->text = bw_band_style_layout (GTK_WIDGET (self));
  place_view (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_band_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bw_band_canvas_parent_class)->css_changed (widget, change);
  take_style (BW_BAND_CANVAS (widget));
}

static void
bw_band_canvas_system_setting_changed (GtkWidget *widget, GtkSystemSetting setting)
{
  GTK_WIDGET_CLASS (bw_band_canvas_parent_class)->system_setting_changed (widget, setting);
  take_style (BW_BAND_CANVAS (widget));
}

static void
bw_band_canvas_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_band_canvas_parent_class)->root (widget);
  take_style (BW_BAND_CANVAS (widget));
}

static void
bw_band_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  place_view (BW_BAND_CANVAS (widget));
}

static void
bw_band_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;
  *minimum = across ? 160 : 140;
  *natural = across ? 640 : 360;
}

static void
bw_band_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  bw_band_canvas_draw (BW_BAND_CANVAS (widget), snapshot);
}

static void
bw_band_canvas_dispose (GObject *object)
{
  BwBandCanvas *self = BW_BAND_CANVAS (object);
  bw_band_canvas_stop_glide (self);
  bw_band_canvas_stop_push (self);
  g_clear_pointer (&self->hand, bw_hand_free);
  if (self->project != NULL)
    g_signal_handlers_disconnect_by_data (self->project, self);
  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->project);
  g_clear_object (&self->session);
  g_clear_object (&self->text);
  G_OBJECT_CLASS (bw_band_canvas_parent_class)->dispose (object);
}

static void
bw_band_canvas_finalize (GObject *object)
{
  BwBandCanvas *self = BW_BAND_CANVAS (object);
  bw_band_faces_clear (&self->faces);
  bw_band_tiles_free (self->tiles);
  g_free (self->words);
  g_free (self->note);
  G_OBJECT_CLASS (bw_band_canvas_parent_class)->finalize (object);
}

static void
bw_band_canvas_class_init (BwBandCanvasClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->dispose = bw_band_canvas_dispose;
  object_class->finalize = bw_band_canvas_finalize;
  widget_class->css_changed = bw_band_canvas_css_changed;
  widget_class->system_setting_changed = bw_band_canvas_system_setting_changed;
  widget_class->root = bw_band_canvas_root;
  widget_class->size_allocate = bw_band_canvas_size_allocate;
  widget_class->measure = bw_band_canvas_measure;
  widget_class->snapshot = bw_band_canvas_snapshot;

  signals[VIEW] = g_signal_new ("view", BW_TYPE_BAND_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
  signals[STATUS] = g_signal_new ("status", BW_TYPE_BAND_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_css_name (widget_class, "bandcanvas");
  /* GTK 4.8 offers no virtual children for a drawn grid; a group's name and description are read.
   */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bw_band_canvas_init (BwBandCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  self->tiles = bw_band_tiles_new ();
  self->layout.zoom = 1;
  self->cursor = (BwBeadAt){ 1, 2 };
  self->fitted = BW_FIT_TO_DRAW;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The band unrolled"), -1);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (gtk_widget_queue_draw), NULL);
}

GtkWidget *
bw_band_canvas_new (BwSession *session)
{
  BwBandCanvas *self = g_object_new (BW_TYPE_BAND_CANVAS, NULL);
  self->session = g_object_ref (session);
  self->hand = bw_hand_new (session);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (take_project), self);
  g_signal_connect_swapped (session, "hover-changed", G_CALLBACK (take_hover), self);
  g_signal_connect_swapped (session, "hand-changed", G_CALLBACK (take_hand), self);
  g_signal_connect_swapped (session, "symmetry-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (session, "selection-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (bw_band_canvas_settle), self);
  bw_band_canvas_add_controllers (self);
  take_style (self);
  take_project (self);
  take_hand (self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

const BwBandLayout *
bw_band_canvas_get_layout (BwBandCanvas *self)
{
  return &self->layout;
}

double
bw_band_canvas_get_zoom (BwBandCanvas *self)
{
  return self->layout.zoom;
}

void
bw_band_canvas_set_zoom (BwBandCanvas *self, double zoom)
{
  const BwBandLayout *layout = &self->layout;
  double x = layout->x + layout->width / 2, y = layout->y + layout->height / 2;
  if (self->pointer_inside) {
    x = self->pointer_x;
    y = self->pointer_y;
  }
  bw_band_layout_zoom_about (&self->layout, zoom, x, y);
  bw_band_canvas_moved (self);
}

void
bw_band_canvas_fit (BwBandCanvas *self)
{
  bw_band_canvas_stop_glide (self);
  self->fitted = BW_FIT_WHOLE;
  refit (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[VIEW], 0);
}

void
bw_band_canvas_roll_to (BwBandCanvas *self, double pitches)
{
  int n = bw_band_layout_around (&self->layout);
  double turns = round ((self->layout.roll - pitches) / n);
  bw_band_canvas_glide_to (self, pitches + turns * n);
}

void
bw_band_canvas_set_letters (BwBandCanvas *self, gboolean letters)
{
  self->letters = letters;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
bw_band_canvas_bead_at (BwBandCanvas *self, double x, double y, int *row, int *column)
{
  const BwBandLayout *layout = &self->layout;
  BwBeadAt bead;
  if (x < layout->x || x >= layout->x + layout->width || y < layout->y
      || y >= layout->y + layout->height)
    return FALSE;
  if (!bw_band_layout_bead (layout, bw_band_layout_point (layout, x, y), &bead))
    return FALSE;
  *row = bead.row;
  *column = bead.column;
  return TRUE;
}

gboolean
bw_band_canvas_bead_point (BwBandCanvas *self, int row, int column, double *x, double *y)
{
  const BwBandLayout *layout = &self->layout;
  if (row < 1 || row > layout->rows || column < 1 || column > layout->columns
      || !bw_lattice_has (row, column))
    return FALSE;
  BwBandPoint middle = bw_band_middle (bw_band_layout_nearest (layout, row), column);
  *x = bw_band_layout_x (layout, middle.u);
  *y = bw_band_layout_y (layout, middle.v);
  return TRUE;
}
