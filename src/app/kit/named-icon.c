/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How high it is follows from how wide it is made, so that whoever lays out a row of them chooses
 * by the width alone whether they are named. */
#include "config.h"

#include "app/kit/named-icon.h"

#define SPARE_PX 8 /* a width this much beyond the symbol's is still one without a name */

struct _BwNamedIcon {
  GtkWidget parent_instance;
  GtkImage *image;
  GtkLabel *label;
};

G_DEFINE_FINAL_TYPE (BwNamedIcon, bw_named_icon, GTK_TYPE_WIDGET)

enum { PROP_ICON = 1, PROP_NAME, N_PROPS };
static GParamSpec *properties[N_PROPS];

static int
natural (gpointer child, GtkOrientation orientation)
{
  int size;
  gtk_widget_measure (child, orientation, -1, NULL, &size, NULL, NULL);
  return size;
}

static int
named_width (BwNamedIcon *self)
{
  return MAX (natural (self->label, GTK_ORIENTATION_HORIZONTAL),
              natural (self->image, GTK_ORIENTATION_HORIZONTAL) + SPARE_PX);
}

static GtkSizeRequestMode
bw_named_icon_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_named_icon_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *wanted, int *minimum_baseline, int *natural_baseline)
{
  BwNamedIcon *self = BW_NAMED_ICON (widget);
  int symbol = natural (self->image, orientation);
  *minimum_baseline = *natural_baseline = -1;
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = symbol;
    *wanted = named_width (self);
    return;
  }
  int both = symbol + natural (self->label, orientation);
  *minimum = for_size >= named_width (self) ? both : symbol;
  *wanted = for_size < 0 ? both : *minimum;
}

static void
bw_named_icon_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwNamedIcon *self = BW_NAMED_ICON (widget);
  int symbol = natural (self->image, GTK_ORIENTATION_VERTICAL);
  int words = natural (self->label, GTK_ORIENTATION_VERTICAL);
  gboolean named = width >= named_width (self) && height >= symbol + words;
  int top = MAX (0, (height - symbol - (named ? words : 0)) / 2);
  gtk_widget_set_child_visible (GTK_WIDGET (self->label), named);
  gtk_widget_size_allocate (GTK_WIDGET (self->image), &(GtkAllocation){ 0, top, width, symbol },
                            -1);
  if (named)
    gtk_widget_size_allocate (GTK_WIDGET (self->label),
                              &(GtkAllocation){ 0, top + symbol, width, words }, -1);
}

static void
bw_named_icon_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwNamedIcon *self = BW_NAMED_ICON (object);
  if (id == PROP_ICON)
    gtk_image_set_from_icon_name (self->image, g_value_get_string (value));
  else
    gtk_label_set_text (self->label, g_value_get_string (value));
}

static void
bw_named_icon_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_named_icon_parent_class)->dispose (object);
}

static void
bw_named_icon_class_init (BwNamedIconClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;
  object_class->set_property = bw_named_icon_set_property;
  object_class->dispose = bw_named_icon_dispose;
  widget_class->get_request_mode = bw_named_icon_request_mode;
  widget_class->measure = bw_named_icon_measure;
  widget_class->size_allocate = bw_named_icon_allocate;
  gtk_widget_class_set_css_name (widget_class, "namedicon");
  properties[PROP_ICON] = g_param_spec_string ("icon", NULL, NULL, NULL, flags);
  properties[PROP_NAME] = g_param_spec_string ("word", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
bw_named_icon_init (BwNamedIcon *self)
{
  self->image = GTK_IMAGE (gtk_image_new ());
  self->label = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_set_parent (GTK_WIDGET (self->image), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->label), GTK_WIDGET (self));
}

GtkWidget *
bw_named_icon_new (const char *icon, const char *name)
{
  return g_object_new (BW_TYPE_NAMED_ICON, "icon", icon, "word", name, NULL);
}

void
bw_named_icon_set_name (BwNamedIcon *self, const char *name)
{
  g_return_if_fail (BW_IS_NAMED_ICON (self));
  gtk_label_set_text (self->label, name);
}
