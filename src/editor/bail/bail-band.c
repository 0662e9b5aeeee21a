/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget: it owns the hand on the bail and keeps the view in step with the project. What it
 * looks like is in bail-band-draw.c, what the maker does to it in bail-grasp.c. */
#include "config.h"

#include "editor/bail/bail-band.h"

#include "editor/bail/bail-band-draw.h"
#include "editor/bail/bail-frame.h"
#include "editor/bail/bail-grasp.h"
#include "editor/bail/bail-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwBailBand {
  BwUnrolled parent;
  BwBandView *view; /* the parent's */
  BwBailGrasp grasp;
  BwDesign faces_of; /* the design the faces were taken from, but for its bail */
};

G_DEFINE_FINAL_TYPE (BwBailBand, bw_bail_band, BW_TYPE_UNROLLED)

/* --- Keeping in step ---------------------------------------------------------------------------
 */

/* The faces do not depend on the bail, and dragging it round a long band must not solve them anew.
 */
static void
take_faces (BwBailBand *self)
{
  const BwDesign *design = bw_project_get_design (self->view->project);
  BwDesign bare = *design;
  bare.bail = self->faces_of.bail;
  if (memcmp (&bare, &self->faces_of, sizeof bare) != 0)
    bw_band_view_spoil_faces (self->view);
  self->faces_of = *design;
}

static void
take_design (BwBailBand *self)
{
  take_faces (self);
  if (bw_band_view_take_band (self->view)) {
    gtk_widget_queue_resize (GTK_WIDGET (self));
    bw_bail_frame_centre (self->view);
  } else if (self->grasp.held == BW_BAIL_GRIP_NONE) {
    bw_bail_frame_reveal (self->view);
  }
}

static void
bw_bail_band_changed (BwUnrolled *unrolled, guint what)
{
  if (what & BW_CHANGED_SHAPE) {
    take_design (BW_BAIL_BAND (unrolled));
    bw_bail_words_tell (unrolled, NULL);
  }
  if (what & (BW_CHANGED_SHAPE | BW_CHANGED_CELLS | BW_CHANGED_TRAY))
    gtk_widget_queue_draw (GTK_WIDGET (unrolled));
}

static void
bw_bail_band_leave (BwUnrolled *unrolled)
{
  bw_bail_grasp_revert (&BW_BAIL_BAND (unrolled)->grasp);
}

static void
bw_bail_band_taken (BwUnrolled *unrolled)
{
  BW_BAIL_BAND (unrolled)->view->layout.rows = 0; /* as another band it is centred */
}

/* A page laid out anew under a pull, with the band as large as before, leaves the view where it is;
 * and what is held does not slip from the hand when it is not. */
static void
bw_bail_band_place (BwUnrolled *unrolled)
{
  BwBailBand *self = BW_BAIL_BAND (unrolled);
  BwBandLayout *layout = &self->view->layout, was = *layout;
  bw_band_view_place_in_rulers (self->view);
  if (was.x == layout->x && was.width == layout->width && was.height == layout->height)
    return;
  bw_bail_frame_centre (self->view);
  if (self->grasp.held != BW_BAIL_GRIP_NONE)
    layout->roll = was.roll;
}

/* --- The widget --------------------------------------------------------------------------------
 */

static gboolean
bw_bail_band_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  BwBailGrasp *grasp = &BW_BAIL_BAND (widget)->grasp;
  const char *tip = bw_bail_grasp_tip (grasp, keyboard ? -1 : x, keyboard ? -1 : y);
  gtk_tooltip_set_text (tooltip, tip);
  return tip != NULL && grasp->held == BW_BAIL_GRIP_NONE;
}

static void
bw_bail_band_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 200;
    *natural = 640;
  } else {
    *minimum = *natural
        = bw_bail_frame_height (BW_BAIL_BAND (widget)->view, for_size < 0 ? 640 : for_size);
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
  BwBailBand *self = BW_BAIL_BAND (widget);
  const BwBailGrasp *grasp = &self->grasp;
  BwBailShown shown = {
    .view = self->view,
    .lit = grasp->held ? grasp->held : grasp->over,
    .busy = bw_bail_grasp_is_busy (grasp) || grasp->over == BW_BAIL_GRIP_BODY,
  };
  bw_bail_band_draw (&shown, snapshot);
}

static void
bw_bail_band_state_flags_changed (GtkWidget *widget, GtkStateFlags before)
{
  GtkStateFlags changed = before ^ gtk_widget_get_state_flags (widget);
  if (changed & (GTK_STATE_FLAG_FOCUSED | GTK_STATE_FLAG_FOCUS_VISIBLE))
    gtk_widget_queue_draw (widget);
}

static void
bw_bail_band_class_init (BwBailBandClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  BwUnrolledClass *unrolled_class = BW_UNROLLED_CLASS (class);
  widget_class->measure = bw_bail_band_measure;
  widget_class->get_request_mode = bw_bail_band_get_request_mode;
  widget_class->snapshot = bw_bail_band_snapshot;
  widget_class->query_tooltip = bw_bail_band_query_tooltip;
  widget_class->state_flags_changed = bw_bail_band_state_flags_changed;
  unrolled_class->place = bw_bail_band_place;
  unrolled_class->changed = bw_bail_band_changed;
  unrolled_class->leave = bw_bail_band_leave;
  unrolled_class->taken = bw_bail_band_taken;
  gtk_widget_class_set_css_name (widget_class, "bailband");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SLIDER);
}

static void
bw_bail_band_init (BwBailBand *self)
{
  self->view = bw_unrolled_view (BW_UNROLLED (self));
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Place of the bail on the band"),
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, -BW_ANGLE_MAX_DEG,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, BW_ANGLE_MAX_DEG, -1);
}

GtkWidget *
bw_bail_band_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwBailBand *self = g_object_new (BW_TYPE_BAIL_BAND, NULL);
  bw_bail_grasp_init (&self->grasp, self->view);
  bw_unrolled_show (BW_UNROLLED (self), session);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (bw_bail_band_settle), self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

void
bw_bail_band_settle (BwBailBand *self)
{
  bw_bail_grasp_settle (&self->grasp);
}

char *
bw_bail_band_dup_words (BwBailBand *self)
{
  g_return_val_if_fail (BW_IS_BAIL_BAND (self), NULL);
  return g_strdup (bw_unrolled_get_told (BW_UNROLLED (self)));
}

const BwBandLayout *
bw_bail_band_get_layout (BwBailBand *self)
{
  return &self->view->layout;
}

gboolean
bw_bail_band_grip_point (BwBailBand *self, BwBailGrip grip, double *x, double *y)
{
  const BwBandLayout *layout = &self->view->layout;
  BwBailBox box;
  if (!bw_bail_frame_box (self->view, &box))
    return FALSE;
  double u = (box.left + box.right) / 2, v = (box.bottom + box.top) / 2;
  u = grip == BW_BAIL_GRIP_LEFT ? box.left : grip == BW_BAIL_GRIP_RIGHT ? box.right : u;
  v = grip == BW_BAIL_GRIP_BOTTOM ? box.bottom : grip == BW_BAIL_GRIP_TOP ? box.top : v;
  *x = bw_band_layout_x (layout, u);
  *y = bw_band_layout_y (layout, v);
  return TRUE;
}
