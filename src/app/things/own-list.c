/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows stand in the order of their names; each change of the book or of what is searched for
 * makes the list of places anew, and the name that was chosen is looked for in it. */
#include "config.h"

#include "app/things/own-list.h"

#include "app/kit/line-height.h"
#include "app/kit/palette.h"
#include "app/kit/when-seen.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwOwnList {
  GtkWidget parent_instance;
  const BwOwnKind *kind;
  BwWorkbook *book;
  GtkWidget *box;
  GtkSearchEntry *search;
  GtkListView *list;
  GtkLabel *nothing;
  GArray *places;     /* of guint: in the book, of each row */
  char *chosen;       /* its name; NULL: none */
  guint chosen_place; /* and place, which tells names that repeat apart */
  gboolean filling;
  gboolean stale; /* the rows are of an older book */
};

G_DEFINE_FINAL_TYPE (BwOwnList, bw_own_list, GTK_TYPE_WIDGET)

enum { CHOSEN, ACTIVATED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- Which are shown ---------------------------------------------------------------------------
 */

static gboolean
holds (const char *text, const char *folded)
{
  g_autofree char *own = g_utf8_casefold (text, -1);
  return strstr (own, folded) != NULL;
}

/* By its name first: the words cost a look into it. */
static gboolean
is_wanted (BwOwnList *self, const BwBook *book, guint i, const char *folded)
{
  if (!*folded || holds (self->kind->name (book, i), folded))
    return TRUE;
  g_autofree char *words = self->kind->words (book, i);
  return holds (words, folded);
}

typedef struct {
  char *key; /* what its name is ordered by */
  guint place;
} Row;

static void
row_clear (gpointer row)
{
  g_free (((Row *)row)->key);
}

static int
by_key (gconstpointer a, gconstpointer b)
{
  return strcmp (((const Row *)a)->key, ((const Row *)b)->key);
}

static GArray *
find_rows (BwOwnList *self, const BwBook *book)
{
  g_autofree char *folded
      = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (self->search)), -1);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (Row));
  guint n = book ? self->kind->count (book) : 0;
  g_array_set_clear_func (rows, row_clear);
  for (guint i = 0; i < n; i++)
    if (is_wanted (self, book, i, g_strstrip (folded))) {
      Row row = { g_utf8_collate_key (self->kind->name (book, i), -1), i };
      g_array_append_val (rows, row);
    }
  g_array_sort (rows, by_key);
  return rows;
}

static guint
fill_places (BwOwnList *self, const BwBook *book, GtkStringList *names)
{
  g_autoptr (GArray) rows = find_rows (self, book);
  guint chosen = GTK_INVALID_LIST_POSITION;
  g_array_set_size (self->places, 0);
  for (guint i = 0; i < rows->len; i++) {
    guint place = g_array_index (rows, Row, i).place;
    const char *name = self->kind->name (book, place);
    if (g_strcmp0 (name, self->chosen) == 0
        && (chosen == GTK_INVALID_LIST_POSITION || place == self->chosen_place))
      chosen = i;
    g_array_append_val (self->places, place);
    gtk_string_list_append (names, name);
  }
  return chosen;
}

static void
note_chosen (BwOwnList *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  int at = bw_own_list_get_chosen (self);
  if (self->filling)
    return;
  g_free (self->chosen);
  self->chosen = at >= 0 && book ? g_strdup (self->kind->name (book, (guint)at)) : NULL;
  self->chosen_place = (guint)at;
  g_signal_emit (self, signals[CHOSEN], 0);
}

static void
fill (gpointer widget)
{
  BwOwnList *self = widget;
  const BwBook *book = bw_workbook_get_book (self->book);
  GtkStringList *names = gtk_string_list_new (NULL);
  guint chosen = fill_places (self, book, names);
  gboolean sought = *gtk_editable_get_text (GTK_EDITABLE (self->search)) != '\0';
  g_autoptr (GtkSingleSelection) model = gtk_single_selection_new (G_LIST_MODEL (names));
  self->filling = TRUE;
  gtk_single_selection_set_selected (model, chosen != GTK_INVALID_LIST_POSITION ? chosen : 0);
  g_signal_connect_object (model, "notify::selected", G_CALLBACK (note_chosen), self,
                           G_CONNECT_SWAPPED);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (model));
  if (chosen != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", chosen);
  self->filling = self->stale = FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self->nothing), sought && self->places->len == 0);
  note_chosen (self);
}

static void
refill (BwOwnList *self)
{
  self->stale = TRUE;
  bw_when_seen (GTK_WIDGET (self), fill);
}

int
bw_own_list_get_chosen (BwOwnList *self)
{
  g_return_val_if_fail (BW_IS_OWN_LIST (self), -1);
  GtkSelectionModel *model = gtk_list_view_get_model (self->list);
  guint at = model ? gtk_single_selection_get_selected (GTK_SINGLE_SELECTION (model))
                   : GTK_INVALID_LIST_POSITION;
  return at < self->places->len && !self->stale ? (int)g_array_index (self->places, guint, at) : -1;
}

void
bw_own_list_choose (BwOwnList *self, const char *name)
{
  g_return_if_fail (BW_IS_OWN_LIST (self));
  g_free (self->chosen);
  self->chosen = g_strdup (name);
  refill (self);
  g_free (self->chosen); /* it may not be in the book yet */
  self->chosen = g_strdup (name);
}

/* --- A row -------------------------------------------------------------------------------------
 */

static void
paint (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  BwOwnList *self = data;
  const BwBook *book = bw_workbook_get_book (self->book);
  guint place = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (area), "place"));
  if (book && place < self->kind->count (book))
    self->kind->paint (GTK_WIDGET (area), cr, book, place, width, height);
}

static GtkWidget *
row_label (const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, class);
  return label;
}

static GtkWidget *
row_picture (BwOwnList *self)
{
  GtkWidget *area = gtk_drawing_area_new ();
  int line = bw_line_height (GTK_WIDGET (self));
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area),
                                       self->kind->beside ? 4 * line : line + 8);
  if (self->kind->beside)
    gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), 3 * line);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), paint, self, NULL);
  bw_palette_follow (area);
  return area;
}

static void
set_up (GtkSignalListItemFactory *factory, GtkListItem *item, BwOwnList *self)
{
  GtkWidget *row
      = gtk_box_new (self->kind->beside ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL,
                     self->kind->beside ? 12 : 4);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *name = row_label ("shelf-name"), *more = row_label ("small");
  GtkWidget *picture = row_picture (self);
  gtk_widget_add_css_class (more, "numeric");
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), name);
  gtk_box_append (GTK_BOX (words), more);
  gtk_box_append (GTK_BOX (row), self->kind->beside ? picture : words);
  gtk_box_append (GTK_BOX (row), self->kind->beside ? words : picture);
  g_object_set_data (G_OBJECT (row), "name", name);
  g_object_set_data (G_OBJECT (row), "words", more);
  g_object_set_data (G_OBJECT (row), "picture", picture);
  gtk_list_item_set_child (item, row);
}

static void
bind (GtkSignalListItemFactory *factory, GtkListItem *item, BwOwnList *self)
{
  const BwBook *book = bw_workbook_get_book (self->book);
  GObject *row = G_OBJECT (gtk_list_item_get_child (item));
  GtkWidget *picture = g_object_get_data (row, "picture");
  guint at = gtk_list_item_get_position (item);
  if (!book || at >= self->places->len)
    return;
  guint place = g_array_index (self->places, guint, at);
  g_autofree char *words = self->kind->words (book, place);
  gtk_label_set_text (g_object_get_data (row, "name"), self->kind->name (book, place));
  bw_label_set_words (g_object_get_data (row, "words"), words);
  g_object_set_data (G_OBJECT (picture), "place", GUINT_TO_POINTER (place));
  gtk_widget_queue_draw (picture);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
activated (BwOwnList *self)
{
  g_signal_emit (self, signals[ACTIVATED], 0);
}

static void
bw_own_list_dispose (GObject *object)
{
  g_clear_pointer (&BW_OWN_LIST (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_own_list_parent_class)->dispose (object);
}

static void
bw_own_list_finalize (GObject *object)
{
  BwOwnList *self = BW_OWN_LIST (object);
  g_clear_object (&self->book);
  g_free (self->chosen);
  g_array_unref (self->places);
  G_OBJECT_CLASS (bw_own_list_parent_class)->finalize (object);
}

static void
bw_own_list_class_init (BwOwnListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_own_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_own_list_finalize;
  signals[CHOSEN] = g_signal_new ("chosen", BW_TYPE_OWN_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[ACTIVATED] = g_signal_new ("activated", BW_TYPE_OWN_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                     NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/own-list.ui");
  gtk_widget_class_bind_template_child (widget_class, BwOwnList, box);
  gtk_widget_class_bind_template_child (widget_class, BwOwnList, search);
  gtk_widget_class_bind_template_child (widget_class, BwOwnList, list);
  gtk_widget_class_bind_template_child (widget_class, BwOwnList, nothing);
  gtk_widget_class_bind_template_callback (widget_class, refill);
  gtk_widget_class_bind_template_callback (widget_class, activated);
}

static void
bw_own_list_init (BwOwnList *self)
{
  self->places = g_array_new (FALSE, FALSE, sizeof (guint));
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
bw_own_list_bind (BwOwnList *self, const BwOwnKind *kind, BwWorkbook *book, const char *label)
{
  g_return_if_fail (BW_IS_OWN_LIST (self) && !self->kind);
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  self->kind = kind;
  self->book = g_object_ref (book);
  g_signal_connect_object (factory, "setup", G_CALLBACK (set_up), self, 0);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind), self, 0);
  gtk_list_view_set_factory (self->list, factory);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  g_signal_connect_object (book, "changed", G_CALLBACK (refill), self, G_CONNECT_SWAPPED);
  refill (self);
}
