/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper a bench sketch is drawn on, and the hand that writes numbers on it. */
#include "config.h"

#include "app/form/sketch.h"
#include "app/form/field-entry.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PAD 3

/* A number on the sketch that can be typed. */
typedef struct {
  GdkRectangle place;
  char pointer[BW_POINTER_BYTES];
} Target;

typedef struct {
  GArray *targets;            /* of Target, in the order they were written; new at every drawing */
  char lit[BW_POINTER_BYTES]; /* under the pointer */
  char chosen[BW_POINTER_BYTES]; /* by the keyboard */
  GtkWidget *popover;
  GtkWidget *entry;
} BwSketchPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (BwSketch, bw_sketch, BW_TYPE_CARD)

static BwSketchPrivate *
private_of (BwSketch *self)
{
  return bw_sketch_get_instance_private (self);
}

static void
back_of (cairo_t *cr, const GdkRectangle *place, const GdkRGBA *colour)
{
  gdk_cairo_set_source_rgba (cr, colour);
  cairo_rectangle (cr, place->x, place->y, place->width, place->height);
  cairo_fill (cr);
}

/* Under the writing: on the right of a number that is written upright. */
static void
underline (cairo_t *cr, const GdkRectangle *place, const GdkRGBA *colour, double width)
{
  gdk_cairo_set_source_rgba (cr, colour);
  cairo_set_line_width (cr, width);
  if (place->height > place->width)
    cairo_move_to (cr, place->x + place->width - 0.5, place->y);
  else
    cairo_move_to (cr, place->x, place->y + place->height - 0.5);
  cairo_line_to (cr, place->x + place->width, place->y + place->height - 0.5);
  cairo_stroke (cr);
}

/* Ground and underline of a number that can be typed: dotted at rest, plain when it is pointed at,
 * heavy when what was typed for it waits. */
static void
mark_target (BwSketch *self, cairo_t *cr, const BwPalette *palette, const GdkRectangle *place,
             const char *pointer)
{
  BwSketchPrivate *priv = private_of (self);
  BwDraft *draft = bw_card_get_draft (BW_CARD (self));
  gboolean lit
      = g_str_equal (pointer, priv->lit)
        || (gtk_widget_has_focus (GTK_WIDGET (self)) && g_str_equal (pointer, priv->chosen));
  gboolean waits = bw_draft_pending (draft, pointer) || bw_draft_blames (draft, pointer);
  const double dots[] = { 1, 2 };
  if (lit) {
    GdkRGBA wash = bw_palette_alpha (palette->accent, 0.2);
    back_of (cr, place, &wash);
  }
  if (!lit && !waits)
    cairo_set_dash (cr, dots, 2, 0);
  underline (cr, place,
             waits ? &palette->bad
             : lit ? &palette->accent
                   : &palette->faint,
             waits ? 3 : 1);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* Registers a number as a target, and prepares the paper under it. */
static void
place_target (BwSketch *self, cairo_t *cr, const BwPalette *palette, const GdkRectangle *place,
              const char *pointer)
{
  Target target = { .place = *place };
  back_of (cr, place, &palette->paper);
  if (!pointer)
    return;
  g_strlcpy (target.pointer, pointer, sizeof target.pointer);
  g_array_append_val (private_of (self)->targets, target);
  mark_target (self, cr, palette, place, pointer);
}

void
bw_sketch_write (BwSketch *self, cairo_t *cr, double x, double y, double anchor_x, double anchor_y,
                 const char *text, const char *pointer)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), text, 0.9, FALSE);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  GdkRectangle place = { (int)lround (x - anchor_x * (width + 2 * PAD)),
                         (int)lround (y - anchor_y * height), width + 2 * PAD, height };
  place_target (self, cr, &palette, &place, pointer);
  gdk_cairo_set_source_rgba (cr, pointer ? &palette.ink : &palette.faint);
  cairo_move_to (cr, place.x + PAD, place.y);
  pango_cairo_show_layout (cr, layout);
}

/* Along an upright dimension line, read from the right, as drawings have it. */
static void
write_upright (BwSketch *self, cairo_t *cr, double x, double y, const char *text,
               const char *pointer)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), text, 0.9, FALSE);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  GdkRectangle place = { (int)lround (x - height / 2.0), (int)lround (y - width / 2.0 - PAD),
                         height, width + 2 * PAD };
  place_target (self, cr, &palette, &place, pointer);
  gdk_cairo_set_source_rgba (cr, pointer ? &palette.ink : &palette.faint);
  cairo_save (cr);
  cairo_move_to (cr, place.x, place.y + place.height - PAD);
  cairo_rotate (cr, -G_PI / 2);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

static void
tick (cairo_t *cr, double x, double y, double dx, double dy)
{
  cairo_move_to (cr, x - dy * 4, y + dx * 4);
  cairo_line_to (cr, x + dy * 4, y - dx * 4);
}

void
bw_sketch_dimension (BwSketch *self, cairo_t *cr, double x0, double y0, double x1, double y1,
                     const char *text, const char *pointer)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  double length = hypot (x1 - x0, y1 - y0);
  if (length > 0) {
    double dx = (x1 - x0) / length, dy = (y1 - y0) / length;
    gdk_cairo_set_source_rgba (cr, &palette.faint);
    cairo_set_line_width (cr, 1);
    cairo_move_to (cr, x0, y0);
    cairo_line_to (cr, x1, y1);
    tick (cr, x0, y0, dx, dy);
    tick (cr, x1, y1, dx, dy);
    cairo_stroke (cr);
  }
  if (fabs (x1 - x0) < 1 && length > bw_sketch_text_width (self, text))
    write_upright (self, cr, (x0 + x1) / 2, (y0 + y1) / 2, text, pointer);
  else
    bw_sketch_write (self, cr, (x0 + x1) / 2, (y0 + y1) / 2, 0.5, 0.5, text, pointer);
}

double
bw_sketch_text_width (BwSketch *self, const char *text)
{
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), text, 0.9, FALSE);
  int width;
  pango_layout_get_pixel_size (layout, &width, NULL);
  return width + 2 * PAD;
}

double
bw_sketch_line_height (BwSketch *self)
{
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), "0", 0.9, FALSE);
  int height;
  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static int
by_height (gconstpointer a, gconstpointer b, gpointer data)
{
  const double *y = data;
  double difference = y[*(const int *)a] - y[*(const int *)b];
  return (difference > 0) - (difference < 0);
}

void
bw_sketch_spread (double *y, int n, double gap, double lo, double hi)
{
  g_autofree int *order = g_new (int, MAX (n, 1));
  for (int i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, n, sizeof (int), by_height, y);
  for (int i = 0; i < n; i++) {
    double least = i ? y[order[i - 1]] + gap : lo;
    y[order[i]] = MAX (y[order[i]], least);
  }
  for (int i = n - 1; i >= 0; i--) {
    double most = i + 1 < n ? y[order[i + 1]] - gap : hi;
    y[order[i]] = MIN (y[order[i]], most);
  }
}

static const Target *
target_at (BwSketch *self, double x, double y)
{
  GArray *targets = private_of (self)->targets;
  for (guint i = targets->len; i > 0; i--) {
    const Target *target = &g_array_index (targets, Target, i - 1);
    if (gdk_rectangle_contains_point (&target->place, (int)x, (int)y))
      return target;
  }
  return NULL;
}

static int
index_of (BwSketch *self, const char *pointer)
{
  GArray *targets = private_of (self)->targets;
  for (guint i = 0; i < targets->len; i++)
    if (g_str_equal (g_array_index (targets, Target, i).pointer, pointer))
      return (int)i;
  return -1;
}

gboolean
bw_sketch_find (BwSketch *self, const char *pointer, GdkRectangle *place)
{
  g_return_val_if_fail (BW_IS_SKETCH (self), FALSE);
  int i = index_of (self, pointer);
  if (i < 0)
    return FALSE;
  *place = g_array_index (private_of (self)->targets, Target, i).place;
  return TRUE;
}

static void
light (BwSketch *self, const char *pointer)
{
  BwSketchPrivate *priv = private_of (self);
  if (g_str_equal (priv->lit, pointer))
    return;
  g_strlcpy (priv->lit, pointer, sizeof priv->lit);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), *pointer ? "text" : NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
moved (BwSketch *self, double x, double y)
{
  const Target *target = target_at (self, x, y);
  light (self, target ? target->pointer : "");
}

static void
left (BwSketch *self)
{
  light (self, "");
}

gboolean
bw_sketch_edit (BwSketch *self, const char *pointer)
{
  g_return_val_if_fail (BW_IS_SKETCH (self), FALSE);
  BwSketchPrivate *priv = private_of (self);
  int i = index_of (self, pointer);
  if (i < 0)
    return FALSE;
  Target target = g_array_index (priv->targets, Target, i);
  g_strlcpy (priv->chosen, target.pointer, sizeof priv->chosen);
  bw_field_entry_set_pointer (BW_FIELD_ENTRY (priv->entry), target.pointer);
  gtk_popover_set_pointing_to (GTK_POPOVER (priv->popover), &target.place);
  gtk_popover_popup (GTK_POPOVER (priv->popover));
  bw_field_entry_edit (BW_FIELD_ENTRY (priv->entry));
  return TRUE;
}

static void
pressed (BwSketch *self, int n, double x, double y)
{
  const Target *target = target_at (self, x, y);
  if (target)
    bw_sketch_edit (self, target->pointer);
}

static void
choose (BwSketch *self, int by)
{
  BwSketchPrivate *priv = private_of (self);
  int n = (int)priv->targets->len;
  if (n == 0)
    return;
  int i = index_of (self, priv->chosen);
  i = i < 0 ? 0 : (i + by + n) % n;
  g_strlcpy (priv->chosen, g_array_index (priv->targets, Target, i).pointer, sizeof priv->chosen);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
key_pressed (BwSketch *self, guint key, guint code, GdkModifierType modifiers)
{
  switch (key) {
  case GDK_KEY_Left:
  case GDK_KEY_Up:
    choose (self, -1);
    return TRUE;
  case GDK_KEY_Right:
  case GDK_KEY_Down:
    choose (self, 1);
    return TRUE;
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_space:
    return bw_sketch_edit (self, private_of (self)->chosen);
  default:
    return FALSE;
  }
}

static void
taken (BwSketch *self, gboolean stands)
{
  if (stands)
    gtk_popover_popdown (GTK_POPOVER (private_of (self)->popover));
}

static void
bw_sketch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwSketch *self = BW_SKETCH (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  BwPalette palette = bw_palette_get (widget);
  if (!bw_card_get_project (BW_CARD (self)))
    return;
  g_array_set_size (private_of (self)->targets, 0);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  BW_SKETCH_GET_CLASS (self)->draw (self, cr, &palette, width, height);
  cairo_destroy (cr);
}

static void
bw_sketch_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_popover_present (GTK_POPOVER (private_of (BW_SKETCH (widget))->popover));
}

static void
bw_sketch_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                   int *natural, int *minimum_baseline, int *natural_baseline)
{
  double line = bw_sketch_line_height (BW_SKETCH (widget));
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? (int)(16 * line) : (int)(14 * line);
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? (int)(24 * line) : (int)(20 * line);
}

static void
bw_sketch_refresh (BwCard *card)
{
  gtk_widget_queue_draw (GTK_WIDGET (card));
}

static void
bw_sketch_finalize (GObject *object)
{
  g_clear_pointer (&private_of (BW_SKETCH (object))->targets, g_array_unref);
  G_OBJECT_CLASS (bw_sketch_parent_class)->finalize (object);
}

static void
bw_sketch_class_init (BwSketchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_sketch_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_sketch_refresh;
  widget_class->snapshot = bw_sketch_snapshot;
  widget_class->size_allocate = bw_sketch_size_allocate;
  widget_class->measure = bw_sketch_measure;
  gtk_widget_class_set_css_name (widget_class, "sketch");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
add_controllers (BwSketch *self)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (moved), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (left), self);
  g_signal_connect_swapped (click, "released", G_CALLBACK (pressed), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

static void
bw_sketch_init (BwSketch *self)
{
  BwSketchPrivate *priv = private_of (self);
  gtk_widget_set_layout_manager (GTK_WIDGET (self), NULL);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  bw_palette_follow (GTK_WIDGET (self));
  priv->targets = g_array_new (FALSE, FALSE, sizeof (Target));
  priv->popover = gtk_popover_new ();
  priv->entry = bw_field_entry_new ("/stone/length_mm");
  gtk_popover_set_child (GTK_POPOVER (priv->popover), priv->entry);
  gtk_widget_set_parent (priv->popover, GTK_WIDGET (self));
  g_signal_connect_swapped (priv->entry, "taken", G_CALLBACK (taken), self);
  add_controllers (self);
}
