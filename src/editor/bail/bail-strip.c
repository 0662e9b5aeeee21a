/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip as a widget: it owns what is laid and the strokes on it, and keeps them in step. */
#include "config.h"

#include "editor/bail/bail-strip.h"

#include "editor/bail/bail-cloth.h"
#include "editor/bail/bail-strip-draw.h"
#include "editor/bail/bail-strip-input.h"

#include <glib/gi18n-lib.h>

struct _BwBailStrip {
  BwUnrolled parent;
  BwBandView *view; /* the parent's; its layout is the cloth's */
  BwBailLaid laid;
  BwBailStripInput input;
};

G_DEFINE_FINAL_TYPE (BwBailStrip, bw_bail_strip, BW_TYPE_UNROLLED)

static void
bw_bail_strip_changed (BwUnrolled *unrolled, guint what)
{
  BwBailStrip *self = BW_BAIL_STRIP (unrolled);
  if (what & (BW_CHANGED_SHAPE | BW_CHANGED_TRAY))
    bw_bail_laid_take (&self->laid);
  else if (what & BW_CHANGED_CELLS)
    bw_bail_laid_follow (&self->laid);
  else
    return;
  bw_bail_laid_tell (&self->laid, NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
bw_bail_strip_leave (BwUnrolled *unrolled)
{
  bw_bail_strip_input_end (&BW_BAIL_STRIP (unrolled)->input, FALSE);
}

static void
bw_bail_strip_place (BwUnrolled *unrolled)
{
  bw_bail_laid_place (&BW_BAIL_STRIP (unrolled)->laid);
}

static void
take_hover (BwBailStrip *self)
{
  bw_bail_laid_tell (&self->laid, NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
settle (BwBailStrip *self)
{
  bw_bail_strip_input_end (&self->input, TRUE);
}

static void
bw_bail_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  bw_bail_strip_draw (&BW_BAIL_STRIP (widget)->laid, snapshot);
}

static void
bw_bail_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 180;
    *natural = 360;
  } else {
    *minimum = *natural
        = bw_bail_laid_height (&BW_BAIL_STRIP (widget)->laid, for_size < 0 ? 360 : for_size);
  }
}

static GtkSizeRequestMode
bw_bail_strip_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bail_strip_finalize (GObject *object)
{
  bw_bail_laid_clear (&BW_BAIL_STRIP (object)->laid);
  G_OBJECT_CLASS (bw_bail_strip_parent_class)->finalize (object);
}

static void
bw_bail_strip_class_init (BwBailStripClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  BwUnrolledClass *unrolled_class = BW_UNROLLED_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = bw_bail_strip_finalize;
  widget_class->measure = bw_bail_strip_measure;
  widget_class->get_request_mode = bw_bail_strip_get_request_mode;
  widget_class->snapshot = bw_bail_strip_snapshot;
  unrolled_class->place = bw_bail_strip_place;
  unrolled_class->changed = bw_bail_strip_changed;
  unrolled_class->leave = bw_bail_strip_leave;
  gtk_widget_class_set_css_name (widget_class, "bailstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bw_bail_strip_init (BwBailStrip *self)
{
  self->view = bw_unrolled_view (BW_UNROLLED (self));
  bw_bail_laid_init (&self->laid, self->view);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "crosshair");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Beads of the bail"), -1);
}

GtkWidget *
bw_bail_strip_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwBailStrip *self = g_object_new (BW_TYPE_BAIL_STRIP, NULL);
  bw_bail_strip_input_init (&self->input, &self->laid);
  bw_unrolled_show (BW_UNROLLED (self), session);
  g_signal_connect_swapped (session, "hover-changed", G_CALLBACK (take_hover), self);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (settle), self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

gboolean
bw_bail_strip_bead_point (BwBailStrip *self, int row, int column, double *x, double *y)
{
  return bw_bail_laid_bead_point (&self->laid, row, column, x, y);
}

guint64
bw_bail_strip_looked (BwBailStrip *self)
{
  return self->laid.laid + bw_band_tiles_looked (self->view->tiles);
}

void
bw_bail_strip_fill (BwBailStrip *self)
{
  const BwDrawing *drawing = bw_bail_laid_drawing (&self->laid);
  bw_session_settle (self->view->session);
  if (!drawing)
    return;
  g_autoptr (BwDrawing) plain
      = bw_drawing_new (bw_drawing_columns (drawing), bw_drawing_rows (drawing),
                        (guint8)bw_session_get_colour (self->view->session));
  bw_project_set_drawing (self->view->project, _ ("Bail in one colour"), TRUE, plain, NULL);
}

void
bw_bail_strip_follow_band (BwBailStrip *self)
{
  bw_session_settle (self->view->session);
  if (!bw_bail_laid_drawing (&self->laid))
    return;
  g_autoptr (BwDrawing) beneath = bw_bail_beneath (bw_project_get_design (self->view->project),
                                                   bw_project_bail_base (self->view->project),
                                                   bw_project_get_drawing (self->view->project));
  bw_project_set_drawing (self->view->project, _ ("Bail as the band beneath"), TRUE, beneath, NULL);
}
