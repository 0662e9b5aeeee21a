/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shown is a small copy, made once for each photograph and looked through for each ground. */
#include "config.h"

#include "app/trays/photo-sight.h"

#include "app/kit/line-height.h"
#include "app/kit/palette.h"

#include <math.h>

#define COPY_SIDE 480
#define KEY_STEP 0.025 /* of either side */
#define RING 9

struct _BwPhotoSight {
  GtkWidget parent_instance;
  GdkPixbuf *photo, *copy;
  cairo_surface_t *veil; /* opaque where ground is; NULL: none */
  BwPhotoWish wish;
};

G_DEFINE_FINAL_TYPE (BwPhotoSight, bw_photo_sight, GTK_TYPE_WIDGET)

enum { MARKED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- The copy and the veil ---------------------------------------------------------------------
 */

static GdkPixbuf *
copy_of (GdkPixbuf *photo)
{
  int width = gdk_pixbuf_get_width (photo), height = gdk_pixbuf_get_height (photo);
  double by = MIN (1, (double)COPY_SIDE / MAX (width, height));
  return gdk_pixbuf_scale_simple (photo, MAX ((int)lround (by * width), 1),
                                  MAX ((int)lround (by * height), 1), GDK_INTERP_BILINEAR);
}

static guint32
colour_at (GdkPixbuf *copy, int x, int y)
{
  const guint8 *pixel = gdk_pixbuf_read_pixels (copy) + y * gdk_pixbuf_get_rowstride (copy)
                        + x * gdk_pixbuf_get_n_channels (copy);
  return (guint32)(pixel[0] << 16 | pixel[1] << 8 | pixel[2]);
}

static cairo_surface_t *
veil_of (GdkPixbuf *copy, const BwPhotoTray *found)
{
  int width = gdk_pixbuf_get_width (copy), height = gdk_pixbuf_get_height (copy);
  cairo_surface_t *veil = cairo_image_surface_create (CAIRO_FORMAT_A8, width, height);
  int stride = cairo_image_surface_get_stride (veil);
  cairo_surface_flush (veil);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      cairo_image_surface_get_data (veil)[y * stride + x]
          = bw_photo_tray_is_ground (found, colour_at (copy, x, y)) ? 255 : 0;
  cairo_surface_mark_dirty (veil);
  return veil;
}

void
bw_photo_sight_show (BwPhotoSight *self, GdkPixbuf *photo, const BwPhotoTray *found,
                     const BwPhotoWish *wish)
{
  g_return_if_fail (BW_IS_PHOTO_SIGHT (self));
  if (g_set_object (&self->photo, photo)) {
    g_clear_object (&self->copy);
    self->copy = photo ? copy_of (photo) : NULL;
  }
  g_clear_pointer (&self->veil, cairo_surface_destroy);
  if (self->copy && found->has_ground)
    self->veil = veil_of (self->copy, found);
  self->wish = *wish;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- Where it lies -----------------------------------------------------------------------------
 */

typedef struct {
  double x, y, by; /* of the copy */
} Place;

static Place
place_of (BwPhotoSight *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self));
  double height = gtk_widget_get_height (GTK_WIDGET (self));
  double across = gdk_pixbuf_get_width (self->copy), down = gdk_pixbuf_get_height (self->copy);
  double by = MIN (width / across, height / down);
  return (Place){ (width - by * across) / 2, (height - by * down) / 2, by };
}

static void
paint_ring (cairo_t *cr, BwPhotoSight *self, const Place *at)
{
  double x = at->x + self->wish.x * at->by * gdk_pixbuf_get_width (self->copy);
  double y = at->y + self->wish.y * at->by * gdk_pixbuf_get_height (self->copy);
  for (int round = 0; round < 2; round++) {
    cairo_arc (cr, x, y, RING, 0, 2 * G_PI);
    cairo_set_source_rgb (cr, round, round, round);
    cairo_set_line_width (cr, round ? 2 : 5);
    cairo_stroke (cr);
  }
}

static void
paint (cairo_t *cr, BwPhotoSight *self)
{
  Place at = place_of (self);
  GdkRGBA paper = bw_palette_alpha (bw_palette_get (GTK_WIDGET (self)).paper, 0.82);
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_scale (cr, at.by, at.by);
  gdk_cairo_set_source_pixbuf (cr, self->copy, 0, 0);
  cairo_paint (cr);
  gdk_cairo_set_source_rgba (cr, &paper);
  if (self->veil)
    cairo_mask_surface (cr, self->veil, 0, 0);
  cairo_restore (cr);
  if (self->wish.ground == BW_PHOTO_GROUND_MARKED)
    paint_ring (cr, self, &at);
}

static void
bw_photo_sight_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwPhotoSight *self = BW_PHOTO_SIGHT (widget);
  float width = (float)gtk_widget_get_width (widget),
        height = (float)gtk_widget_get_height (widget);
  if (!self->copy)
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  paint (cr, self);
  cairo_destroy (cr);
}

static void
bw_photo_sight_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = 8 * bw_line_height (widget);
  *natural = MAX (*minimum, 420);
}

/* --- Marking -----------------------------------------------------------------------------------
 */

static void
mark (BwPhotoSight *self, double x, double y)
{
  g_signal_emit (self, signals[MARKED], 0, CLAMP (x, 0, 0.9999), CLAMP (y, 0, 0.9999));
}

static void
clicked (BwPhotoSight *self, int n_press, double x, double y)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!self->copy)
    return;
  Place at = place_of (self);
  x = (x - at.x) / at.by / gdk_pixbuf_get_width (self->copy);
  y = (y - at.y) / at.by / gdk_pixbuf_get_height (self->copy);
  if (x >= 0 && y >= 0 && x <= 1 && y <= 1)
    mark (self, x, y);
}

static gboolean
key_pressed (BwPhotoSight *self, guint key, guint code, GdkModifierType state)
{
  double right = (key == GDK_KEY_Right) - (key == GDK_KEY_Left);
  double down = (key == GDK_KEY_Down) - (key == GDK_KEY_Up);
  if (!self->copy || (right == 0 && down == 0))
    return FALSE;
  mark (self, self->wish.x + right * KEY_STEP, self->wish.y + down * KEY_STEP);
  return TRUE;
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
bw_photo_sight_finalize (GObject *object)
{
  BwPhotoSight *self = BW_PHOTO_SIGHT (object);
  g_clear_object (&self->photo);
  g_clear_object (&self->copy);
  g_clear_pointer (&self->veil, cairo_surface_destroy);
  G_OBJECT_CLASS (bw_photo_sight_parent_class)->finalize (object);
}

static void
bw_photo_sight_class_init (BwPhotoSightClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_photo_sight_finalize;
  widget_class->snapshot = bw_photo_sight_snapshot;
  widget_class->measure = bw_photo_sight_measure;
  signals[MARKED] = g_signal_new ("marked", BW_TYPE_PHOTO_SIGHT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_photo_sight_init (BwPhotoSight *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (clicked), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}
