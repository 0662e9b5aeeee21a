/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The slider goes by doublings, so that each step of it looks as large as the next; the number is
 * how many times life size a bead is shown. */
#include "config.h"

#include "app/draw/zoom-box.h"
#include "app/kit/put-text.h"

#include <math.h>

#define LIFE 4.0 /* the canvas's zoom of 1 is four times life size */

struct _BwZoomBox {
  GtkWidget parent_instance;
  BwBandCanvas *canvas;
  GtkRange *slider;
  GtkEntry *number;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (BwZoomBox, bw_zoom_box, GTK_TYPE_WIDGET)

static double
times (BwZoomBox *self)
{
  return LIFE * bw_band_canvas_get_zoom (self->canvas);
}

static void
show_number (BwZoomBox *self)
{
  double now = times (self);
  g_autofree char *words = g_strdup_printf ("%.*f×", now < 9.95 ? 1 : 0, now);
  bw_put_text (GTK_EDITABLE (self->number), words);
}

static void
show (BwZoomBox *self)
{
  const BwBandLayout *layout = bw_band_canvas_get_layout (self->canvas);
  self->showing = TRUE;
  gtk_range_set_range (self->slider, log2 (LIFE * BW_ZOOM_MIN),
                       log2 (LIFE * bw_band_layout_zoom_max (layout)));
  gtk_range_set_value (self->slider, log2 (times (self)));
  if (!gtk_widget_has_focus (gtk_widget_get_first_child (GTK_WIDGET (self->number))))
    show_number (self);
  self->showing = FALSE;
}

static void
slid (BwZoomBox *self)
{
  if (self->canvas && !self->showing)
    bw_band_canvas_set_zoom (self->canvas, exp2 (gtk_range_get_value (self->slider)) / LIFE);
}

/* "3.5", "3,5" and "3.5×" are one number; what is none gives way to the number there is. */
static void
typed (BwZoomBox *self)
{
  if (!self->canvas || self->showing)
    return;
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->number)));
  char *end;
  g_strdelimit (text, ",", '.');
  double wanted = g_ascii_strtod (text, &end);
  g_autofree char *rest = g_strdup (end);
  g_strstrip (rest);
  gboolean is_number = end != text && isfinite (wanted) && wanted > 0
                       && (*rest == '\0' || g_str_equal (rest, "×") || g_str_equal (rest, "x"));
  if (is_number)
    bw_band_canvas_set_zoom (self->canvas, wanted / LIFE);
  show_number (self);
}

static void
activated (BwZoomBox *self)
{
  typed (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

void
bw_zoom_box_bind (BwZoomBox *self, BwBandCanvas *canvas)
{
  g_return_if_fail (BW_IS_ZOOM_BOX (self) && BW_IS_BAND_CANVAS (canvas) && !self->canvas);
  g_set_object (&self->canvas, canvas);
  g_signal_connect_object (canvas, "view", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
}

static void
bw_zoom_box_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  g_clear_object (&BW_ZOOM_BOX (object)->canvas);
  G_OBJECT_CLASS (bw_zoom_box_parent_class)->dispose (object);
}

static void
bw_zoom_box_class_init (BwZoomBoxClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_zoom_box_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/zoom-box.ui");
  gtk_widget_class_bind_template_child (widget_class, BwZoomBox, slider);
  gtk_widget_class_bind_template_child (widget_class, BwZoomBox, number);
  gtk_widget_class_bind_template_callback (widget_class, slid);
  gtk_widget_class_bind_template_callback (widget_class, typed);
  gtk_widget_class_bind_template_callback (widget_class, activated);
}

static void
bw_zoom_box_init (BwZoomBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
