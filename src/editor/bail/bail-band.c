/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget: it keeps layout, faces and words in step with the project. What it looks like is in
 * bail-band-draw.c, what the maker does to it in bail-band-input.c. */
#include "config.h"

#include "editor/bail/bail-band-private.h"
#include "editor/bail/bail-look.h"
#include "editor/cloth/band-paint.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define SPARE_PITCHES 1.5  /* of the neighbouring ghosts, shown when the whole turn is */
#define PITCH_MOST_PX 44.0 /* beads need be no larger to be counted */
#define HEIGHT_LEAST_PX 150
#define HEIGHT_MOST_PX 420

G_DEFINE_FINAL_TYPE (BwBailBand, bw_bail_band, GTK_TYPE_WIDGET)

enum { STATUS, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- Keeping in step ---------------------------------------------------------------------------
 */

static gboolean
has_bail (BwBailBand *self)
{
  return bw_project_get_design (self->project)->bail.style != BW_BAIL_NONE;
}

/* The faces do not depend on the bail, and dragging it round a long band must not solve them anew.
 */
static gboolean
faces_hold_for (const BwBailBand *self, const BwDesign *design)
{
  BwDesign bare = *design;
  bare.bail = self->faces_of.bail;
  return self->faces_hold && memcmp (&bare, &self->faces_of, sizeof bare) == 0;
}

const BwBandFaces *
bw_bail_band_faces (BwBailBand *self)
{
  const BwDesign *design = bw_project_get_design (self->project);
  if (!faces_hold_for (self, design)) {
    bw_band_faces_clear (&self->faces);
    bw_band_faces_init (&self->faces, design, bw_project_stone (self->project),
                        bw_project_bail_base (self->project));
    self->faces_of = *design;
    self->faces_hold = TRUE;
  }
  return &self->faces;
}

static double
bail_middle (BwBailBand *self)
{
  BwBailBox box = bw_bail_box (bw_project_bail_base (self->project));
  return (box.left + box.right) / 2;
}

static double
zoom_most (const BwBandLayout *layout)
{
  double least = BW_ZOOM_MIN, most = PITCH_MOST_PX / (BW_ZOOM_PX_PER_MM * layout->pitch_mm);
  return CLAMP (most, least, BW_ZOOM_MAX);
}

void
bw_bail_band_centre (BwBailBand *self)
{
  BwBandLayout *layout = &self->layout;
  if (layout->width <= 0 || layout->height <= 0)
    return;
  bw_band_layout_fit (layout, SPARE_PITCHES, bw_band_margin_px (&self->style) + 2);
  layout->zoom = MIN (layout->zoom, zoom_most (layout));
  if (has_bail (self))
    layout->roll = bail_middle (self);
  bw_band_layout_normalise (layout);
  self->placed = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
bw_bail_band_reveal (BwBailBand *self)
{
  BwBandLayout *layout = &self->layout;
  if (!self->placed || !has_bail (self))
    return;
  BwBailBox box = bw_bail_box_near (bw_bail_box (bw_project_bail_base (self->project)),
                                    layout->roll, bw_band_layout_around (layout));
  double left = bw_band_layout_x (layout, box.left) - layout->x - 2 * BAIL_REACH_PX;
  double right
      = layout->x + layout->width - bw_band_layout_x (layout, box.right) - 2 * BAIL_REACH_PX;
  if (left >= 0 && right >= 0)
    return;
  bw_band_layout_pan (layout, left < 0 ? -left : right, 0);
  bw_band_layout_normalise (layout);
}

static void
take_design (BwBailBand *self)
{
  const BwDesign *design = bw_project_get_design (self->project);
  BwBandLayout *layout = &self->layout;
  gboolean same = layout->columns == design->band.columns && layout->rows == design->band.rows
                  && layout->pitch_mm == design->gauge.pitch_mm
                  && layout->column_mm == design->gauge.column_mm;
  layout->columns = design->band.columns;
  layout->rows = design->band.rows;
  layout->pitch_mm = design->gauge.pitch_mm;
  layout->column_mm = design->gauge.column_mm;
  if (!same) {
    gtk_widget_queue_resize (GTK_WIDGET (self));
    bw_bail_band_centre (self);
  } else if (self->held == BW_BAIL_GRIP_NONE) {
    bw_bail_band_reveal (self);
  }
}

static void
on_changed (BwBailBand *self, guint what)
{
  if (what & BW_CHANGED_DESIGN) {
    take_design (self);
    bw_bail_band_tell (self, NULL);
  }
  if (what & (BW_CHANGED_DESIGN | BW_CHANGED_CELLS | BW_CHANGED_TRAY))
    gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drop_project (BwBailBand *self)
{
  if (self->project != NULL)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
}

static void
take_project (BwBailBand *self)
{
  if (self->project != NULL)
    bw_bail_band_revert (self);
  drop_project (self);
  self->project = g_object_ref (bw_session_get_project (self->session));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (on_changed), self);
  self->layout.rows = 0;
  on_changed (self, BW_CHANGED_ALL);
}

void
bw_bail_band_put (BwBailBand *self, const BwDesign *design)
{
  g_autoptr (GError) error = NULL;
  if (bw_project_set_design (self->project, "", design, &error))
    bw_bail_look_at (self->session);
  else
    bw_bail_band_tell (self, error->message);
}

/* --- Words -------------------------------------------------------------------------------------
 */

void
bw_bail_band_tell (BwBailBand *self, const char *note)
{
  g_autofree char *place = bw_bail_place_words (self->project);
  const BwDesign *design = bw_project_get_design (self->project);
  /* The description too: GTK 4.8 passes values on for its own widgets alone. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  design->bail.at_deg, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, place,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, place, -1);
  const char *words = note ? note : place;
  if (g_strcmp0 (self->words, words) == 0)
    return;
  g_free (self->words);
  self->words = g_strdup (words);
  g_signal_emit (self, signals[STATUS], 0, words);
}

static gboolean
bw_bail_band_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const char *tip = bw_bail_band_tip (BW_BAIL_BAND (widget), keyboard ? -1 : x, keyboard ? -1 : y);
  gtk_tooltip_set_text (tooltip, tip);
  return tip != NULL && BW_BAIL_BAND (widget)->held == BW_BAIL_GRIP_NONE;
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
place_view (BwBailBand *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double left = bw_band_ruler_width (&self->style), below = bw_band_ruler_height (&self->style);
  self->layout.x = left;
  self->layout.y = 0;
  self->layout.width = MAX (0, gtk_widget_get_width (widget) - left);
  self->layout.height = MAX (0, gtk_widget_get_height (widget) - below);
  bw_bail_band_centre (self);
}

static void
take_style (BwBailBand *self)
{
  bw_band_style_init (&self->style, GTK_WIDGET (self));
  g_clear_object (&self->text);
  self->text = bw_band_style_layout (GTK_WIDGET (self));
  place_view (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
bw_bail_band_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bw_bail_band_parent_class)->css_changed (widget, change);
  take_style (BW_BAIL_BAND (widget));
}

static void
bw_bail_band_system_setting_changed (GtkWidget *widget, GtkSystemSetting setting)
{
  GTK_WIDGET_CLASS (bw_bail_band_parent_class)->system_setting_changed (widget, setting);
  take_style (BW_BAIL_BAND (widget));
}

static void
bw_bail_band_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_bail_band_parent_class)->root (widget);
  take_style (BW_BAIL_BAND (widget));
}

static void
bw_bail_band_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  place_view (BW_BAIL_BAND (widget));
}

/* As high as the band is when its whole turn fills the width. */
static int
height_for (BwBailBand *self, int width)
{
  const BwBandLayout *layout = &self->layout;
  double view = MAX (1, width - bw_band_ruler_width (&self->style));
  double across_mm = (bw_band_layout_around (layout) + 0.5 + 2 * SPARE_PITCHES) * layout->pitch_mm;
  double zoom = CLAMP (view / (across_mm * BW_ZOOM_PX_PER_MM), BW_ZOOM_MIN, zoom_most (layout));
  double band = layout->columns * layout->column_mm * zoom * BW_ZOOM_PX_PER_MM;
  double rest = 2 * bw_band_margin_px (&self->style) + 4 + bw_band_ruler_height (&self->style);
  return (int)ceil (CLAMP (band + rest, HEIGHT_LEAST_PX, HEIGHT_MOST_PX));
}

static void
bw_bail_band_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 200;
    *natural = 640;
  } else {
    *minimum = *natural = height_for (BW_BAIL_BAND (widget), for_size < 0 ? 640 : for_size);
  }
}

static GtkSizeRequestMode
bw_bail_band_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bail_band_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  bw_bail_band_draw (BW_BAIL_BAND (widget), snapshot);
}

static void
bw_bail_band_state_flags_changed (GtkWidget *widget, GtkStateFlags before)
{
  GtkStateFlags changed = before ^ gtk_widget_get_state_flags (widget);
  if (changed & (GTK_STATE_FLAG_FOCUSED | GTK_STATE_FLAG_FOCUS_VISIBLE))
    gtk_widget_queue_draw (widget);
}

static void
bw_bail_band_dispose (GObject *object)
{
  BwBailBand *self = BW_BAIL_BAND (object);
  if (self->project != NULL)
    bw_bail_band_revert (self);
  drop_project (self);
  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  g_clear_object (&self->text);
  G_OBJECT_CLASS (bw_bail_band_parent_class)->dispose (object);
}

static void
bw_bail_band_finalize (GObject *object)
{
  BwBailBand *self = BW_BAIL_BAND (object);
  bw_band_faces_clear (&self->faces);
  bw_band_tiles_free (self->tiles);
  g_free (self->words);
  G_OBJECT_CLASS (bw_bail_band_parent_class)->finalize (object);
}

static void
bw_bail_band_class_init (BwBailBandClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  object_class->dispose = bw_bail_band_dispose;
  object_class->finalize = bw_bail_band_finalize;
  widget_class->css_changed = bw_bail_band_css_changed;
  widget_class->system_setting_changed = bw_bail_band_system_setting_changed;
  widget_class->root = bw_bail_band_root;
  widget_class->size_allocate = bw_bail_band_size_allocate;
  widget_class->measure = bw_bail_band_measure;
  widget_class->get_request_mode = bw_bail_band_get_request_mode;
  widget_class->snapshot = bw_bail_band_snapshot;
  widget_class->query_tooltip = bw_bail_band_query_tooltip;
  widget_class->state_flags_changed = bw_bail_band_state_flags_changed;
  signals[STATUS] = g_signal_new ("status", BW_TYPE_BAIL_BAND, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_css_name (widget_class, "bailband");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SLIDER);
}

static void
bw_bail_band_init (BwBailBand *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  self->tiles = bw_band_tiles_new ();
  self->layout.zoom = 1;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Place of the bail on the band"),
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, -BW_ANGLE_MAX_DEG,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, BW_ANGLE_MAX_DEG, -1);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (gtk_widget_queue_draw), NULL);
}

GtkWidget *
bw_bail_band_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwBailBand *self = g_object_new (BW_TYPE_BAIL_BAND, NULL);
  self->session = g_object_ref (session);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (take_project), self);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (bw_bail_band_settle), self);
  bw_bail_band_add_controllers (self);
  take_project (self);
  take_style (self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

char *
bw_bail_band_dup_words (BwBailBand *self)
{
  g_return_val_if_fail (BW_IS_BAIL_BAND (self), NULL);
  return g_strdup (self->words);
}

const BwBandLayout *
bw_bail_band_get_layout (BwBailBand *self)
{
  return &self->layout;
}

gboolean
bw_bail_band_grip_point (BwBailBand *self, BwBailGrip grip, double *x, double *y)
{
  const BwBandLayout *layout = &self->layout;
  if (!has_bail (self))
    return FALSE;
  BwBailBox box = bw_bail_box_near (bw_bail_box (bw_project_bail_base (self->project)),
                                    layout->roll, bw_band_layout_around (layout));
  double u = (box.left + box.right) / 2, v = (box.bottom + box.top) / 2;
  u = grip == BW_BAIL_GRIP_LEFT ? box.left : grip == BW_BAIL_GRIP_RIGHT ? box.right : u;
  v = grip == BW_BAIL_GRIP_BOTTOM ? box.bottom : grip == BW_BAIL_GRIP_TOP ? box.top : v;
  *x = bw_band_layout_x (layout, u);
  *y = bw_band_layout_y (layout, v);
  return TRUE;
}
