/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows are filled in order, as words fill lines. */
#include "config.h"

#include "app/kit/wrap-layout.h"

struct _BwWrapLayout {
  GtkLayoutManager parent_instance;
  int spacing;
  gboolean is_narrow;
};

G_DEFINE_FINAL_TYPE (BwWrapLayout, bw_wrap_layout, GTK_TYPE_LAYOUT_MANAGER)

static int
extent (GtkWidget *child, GtkOrientation orientation)
{
  int natural;
  gtk_widget_measure (child, orientation, -1, NULL, &natural, NULL, NULL);
  return natural;
}

static GtkWidget *
next_shown (GtkWidget *child)
{
  while (child && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

/* A row of those that fit, beginning with a child. */
typedef struct {
  GtkWidget *first, *after; /* after: the first of the next row, NULL when there is none */
  int width, height;
} Row;

static Row
row_from (BwWrapLayout *self, GtkWidget *first, int width)
{
  Row row = { .first = first };
  for (GtkWidget *child = first; child; child = next_shown (gtk_widget_get_next_sibling (child))) {
    int own = extent (child, GTK_ORIENTATION_HORIZONTAL);
    if (child != first && row.width + self->spacing + own > width) {
      row.after = child;
      break;
    }
    row.width += own + (child == first ? 0 : self->spacing);
    row.height = MAX (row.height, extent (child, GTK_ORIENTATION_VERTICAL));
  }
  return row;
}

static int
height_for (BwWrapLayout *self, GtkWidget *widget, int width)
{
  int height = 0;
  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)); child;) {
    Row row = row_from (self, child, width);
    height += row.height + (height > 0 ? self->spacing : 0);
    child = row.after;
  }
  return height;
}

static void
measure_width (BwWrapLayout *self, GtkWidget *widget, int *minimum, int *natural)
{
  *minimum = *natural = 0;
  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)); child;
       child = next_shown (gtk_widget_get_next_sibling (child))) {
    int own = extent (child, GTK_ORIENTATION_HORIZONTAL);
    *minimum = MAX (*minimum, own);
    *natural += own + (*natural > 0 ? self->spacing : 0);
  }
  if (self->is_narrow)
    *natural = *minimum;
}

static void
bw_wrap_layout_measure (GtkLayoutManager *layout, GtkWidget *widget, GtkOrientation orientation,
                        int for_size, int *minimum, int *natural, int *minimum_baseline,
                        int *natural_baseline)
{
  BwWrapLayout *self = BW_WRAP_LAYOUT (layout);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    measure_width (self, widget, minimum, natural);
  else
    *minimum = *natural = height_for (self, widget, for_size < 0 ? G_MAXINT : for_size);
}

static void
place_row (BwWrapLayout *self, GtkWidget *widget, const Row *row, int y, int width)
{
  gboolean from_right = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int x = MAX ((width - row->width) / 2, 0);
  for (GtkWidget *child = row->first; child != row->after;
       child = next_shown (gtk_widget_get_next_sibling (child))) {
    int own = extent (child, GTK_ORIENTATION_HORIZONTAL);
    GtkAllocation place = { from_right ? width - x - own : x, y, own, row->height };
    gtk_widget_size_allocate (child, &place, -1);
    x += own + self->spacing;
  }
}

static void
bw_wrap_layout_allocate (GtkLayoutManager *layout, GtkWidget *widget, int width, int height,
                         int baseline)
{
  BwWrapLayout *self = BW_WRAP_LAYOUT (layout);
  int y = 0;
  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (widget)); child;) {
    Row row = row_from (self, child, width);
    place_row (self, widget, &row, y, width);
    y += row.height + self->spacing;
    child = row.after;
  }
}

static GtkSizeRequestMode
bw_wrap_layout_get_request_mode (GtkLayoutManager *layout, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_wrap_layout_class_init (BwWrapLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);
  layout_class->measure = bw_wrap_layout_measure;
  layout_class->allocate = bw_wrap_layout_allocate;
  layout_class->get_request_mode = bw_wrap_layout_get_request_mode;
}

static void
bw_wrap_layout_init (BwWrapLayout *self)
{
}

GtkLayoutManager *
bw_wrap_layout_new (int spacing)
{
  BwWrapLayout *self = g_object_new (BW_TYPE_WRAP_LAYOUT, NULL);
  self->spacing = spacing;
  return GTK_LAYOUT_MANAGER (self);
}

GtkLayoutManager *
bw_wrap_layout_new_narrow (int spacing)
{
  GtkLayoutManager *layout = bw_wrap_layout_new (spacing);
  BW_WRAP_LAYOUT (layout)->is_narrow = TRUE;
  return layout;
}
