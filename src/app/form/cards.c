/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stages are made of cards, and windows come in all widths and text in all sizes: this lays
 * cards out in columns that follow the room there is. */
#include "config.h"

#include "app/form/cards.h"

#define GAP 12
#define COLUMN 300 /* the least comfortable width of a card at usual text size */
#define COLUMNS_MOST 3

struct _BwCards {
  GtkWidget parent_instance;
  /* Of each card, from 1, for each number of columns: a card that grows must not make another, or
   * itself, jump away from the pointer, and whoever comes back to a page finds it as it was. */
  GHashTable *column[COLUMNS_MOST];
  int width;     /* as laid out last */
  int narrowest; /* column that any card has wanted at that width */
};

G_DEFINE_FINAL_TYPE (BwCards, bw_cards, GTK_TYPE_WIDGET)

int
bw_cards_column_count (int width, int column, int gap, int most)
{
  return CLAMP ((width + gap) / MAX (column + gap, 1), 1, most);
}

static int
narrowest_column (GtkWidget *widget)
{
  int column = COLUMN;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child)) {
    int least;
    gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
    column = MAX (column, least);
  }
  return column;
}

static int
shortest (const int *heights, int n)
{
  int best = 0;
  for (int i = 1; i < n; i++)
    if (heights[i] < heights[best])
      best = i;
  return best;
}

static int
column_for (BwCards *self, GtkWidget *card, const int *heights, int n)
{
  int kept = GPOINTER_TO_INT (g_hash_table_lookup (self->column[n - 1], card));
  return kept > 0 ? kept - 1 : shortest (heights, n);
}

/* Words that come and go must not make the columns come and go: as long as the page is as wide as
 * it was, a card that once wanted more room is left it. */
static int
count_columns (BwCards *self, int width)
{
  int narrowest = narrowest_column (GTK_WIDGET (self));
  if (width == self->width)
    narrowest = MAX (narrowest, self->narrowest);
  return bw_cards_column_count (width, narrowest, GAP, COLUMNS_MOST);
}

static void
remember_width (BwCards *self, int width)
{
  int narrowest = narrowest_column (GTK_WIDGET (self));
  self->narrowest = width == self->width ? MAX (narrowest, self->narrowest) : narrowest;
  self->width = width;
}

/* Places every card (when allocate) and returns the height of the page. */
static int
lay_out (BwCards *self, int width, gboolean allocate)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int heights[COLUMNS_MOST] = { 0 };
  int n = count_columns (self, width);
  int column = MAX ((width - (n - 1) * GAP) / n, 1);
  int tallest = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child)) {
    int height, i = column_for (self, child, heights, n);
    if (!gtk_widget_should_layout (child))
      continue;
    gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, column, NULL, &height, NULL, NULL);
    if (allocate) {
      GtkAllocation place = { i * (column + GAP), heights[i], column, height };
      if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
        place.x = width - place.x - column;
      gtk_widget_size_allocate (child, &place, -1);
      g_hash_table_insert (self->column[n - 1], child, GINT_TO_POINTER (i + 1));
    }
    tallest = MAX (tallest, heights[i] + height);
    heights[i] += height + GAP;
  }
  if (allocate)
    remember_width (self, width);
  return tallest;
}

static void
bw_cards_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  int column = narrowest_column (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = column;
    *natural = 2 * column + GAP;
  } else {
    *minimum = *natural
        = lay_out (BW_CARDS (widget), for_size < 0 ? 2 * column + GAP : for_size, FALSE);
  }
}

static void
bw_cards_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  lay_out (BW_CARDS (widget), width, TRUE);
}

static GtkSizeRequestMode
bw_cards_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_cards_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_cards_parent_class)->dispose (object);
}

static void
bw_cards_finalize (GObject *object)
{
  for (int i = 0; i < COLUMNS_MOST; i++)
    g_hash_table_unref (BW_CARDS (object)->column[i]);
  G_OBJECT_CLASS (bw_cards_parent_class)->finalize (object);
}

static void
bw_cards_class_init (BwCardsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_cards_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_cards_finalize;
  widget_class->measure = bw_cards_measure;
  widget_class->size_allocate = bw_cards_size_allocate;
  widget_class->get_request_mode = bw_cards_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "cards");
}

static void
bw_cards_init (BwCards *self)
{
  for (int i = 0; i < COLUMNS_MOST; i++)
    self->column[i] = g_hash_table_new (NULL, NULL);
}
