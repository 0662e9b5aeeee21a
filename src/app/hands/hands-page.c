/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/hands/hands-page.h"

#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/kit/when-seen.h"
#include "app/kit/wrap-layout.h"
#include "app/hands/hands-mend.h"
#include "app/hands/hands-plot.h"
#include "app/hands/line-rows.h"
#include "output/report/give-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define GIVES_SHOWN 3 /* threads, and cords; more are told by the list of pieces */

struct _BwHandsPage {
  GtkWidget parent_instance;
  BwWorkbook *book;
  GtkDropDown *kind;
  GtkLabel *next, *spread, *gives, *none;
  GtkWidget *some, *mend, *leave, *deeds;
  BwHandsPlot *plot;
  GtkListView *list;
  GArray *places;           /* of guint: the book's places of the entries shown, oldest first */
  char name[BW_NAME_BYTES]; /* of the kind shown */
  double diameter_mm;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (BwHandsPage, bw_hands_page, GTK_TYPE_WIDGET)

static BwUnit
unit (void)
{
  return bw_settings_get_unit (bw_settings_get ());
}

/* --- Words -------------------------------------------------------------------------------------
 */

static char *
kind_words (const BwBookKind *kind)
{
  g_autofree char *size = bw_length_format (kind->diameter_mm, unit (), 2);
  if (!*kind->name)
    return g_strdup_printf (_ ("beads of %s"), size);
  return g_strdup_printf ("%s · %s", kind->name, size);
}

static char *
next_words (const BwBookKind *kind)
{
  BwHandsPitch pitch = bw_hands_pitch (kind->next, kind->diameter_mm);
  g_autofree char *mm = bw_length_format (pitch.mm, unit (), 3);
  g_autofree char *sd = bw_length_format (pitch.sd_mm, unit (), 3);
  double share = 100 * (pitch.mm / kind->diameter_mm - 1);
  g_autofree char *start = g_strdup_printf (
      _ ("Your next piece starts from %s ± %s from bead to bead, %+.1f %% on the bead’s size."), mm,
      sd, share);
  if (kind->pieces == 0) /* what it gives under the loop is known, and no pitch */
    return g_steal_pointer (&start);
  g_autofree char *rests
      = g_strdup_printf (ngettext ("It rests on %d piece of this bead.",
                                   "It rests on %d pieces of this bead.", (gulong)kind->pieces),
                         kind->pieces);
  return g_strdup_printf ("%s %s", start, rests);
}

static const char *
spread_words (const BwBookHands *hands)
{
  return hands->fitted
             ? _ ("How much pieces differ is learnt from your own.")
             : _ ("How much pieces differ is what is usual; from 20 pieces on it is learnt from "
                  "your own.");
}

static void
add_gives (GString *words, const BwBookGives *gives, char *(*sentence) (const BwBookGive *, BwUnit))
{
  for (int k = 0; k < MIN (gives->n_kinds, GIVES_SHOWN); k++) {
    g_autofree char *one = sentence (&gives->kinds[k], unit ());
    g_string_append_printf (words, "%s%s", words->len > 0 ? " " : "", one);
  }
}

static char *
gives_words (const BwBookHands *hands)
{
  GString *words = g_string_new (NULL);
  add_gives (words, &hands->stretch, bw_give_words_thread);
  add_gives (words, &hands->squeeze, bw_give_words_cord);
  if (words->len == 0)
    g_string_append (words, _ ("How much thread and bed give is what is usual, until a swatch is "
                               "measured pulled as well and a bed under a pulled strip."));
  return g_string_free (words, FALSE);
}

static char *
source_words (const BwWoven *piece)
{
  guint strips = piece->checks ? piece->checks->len : 0;
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  if (piece->has_swatch)
    g_ptr_array_add (parts, g_strdup (_ ("swatch")));
  if (strips)
    g_ptr_array_add (
        parts, g_strdup_printf (ngettext ("%u strip length", "%u strip lengths", strips), strips));
  if (piece->has_stretch)
    g_ptr_array_add (parts, g_strdup (_ ("pulled length")));
  if (piece->has_squeeze)
    g_ptr_array_add (parts, g_strdup (_ ("squeeze of the bed")));
  if (piece->has_end)
    g_ptr_array_add (parts, g_strdup (_ ("finished")));
  if (piece->left_out)
    g_ptr_array_add (parts, g_strdup (_ ("left out")));
  g_ptr_array_add (parts, NULL);
  return g_strjoinv (", ", (char **)parts->pdata);
}

/* What an entry says of the pitch by itself, whether or not it is left out; FALSE when it says
 * nothing of it. */
static gboolean
point_of (const BwWoven *piece, BwHandsPoint *point)
{
  BwWoven heard = *piece;
  heard.left_out = FALSE;
  BwHandsPiece said = bw_woven_hands (&heard, 0);
  if (!(said.weight > 0))
    return FALSE;
  point->mm = piece->diameter_mm * exp (said.y);
  point->sd_mm = point->mm / sqrt (said.weight);
  point->left_out = piece->left_out;
  return TRUE;
}

static char *
entry_words (const BwWoven *piece)
{
  BwHandsPoint point;
  g_autofree char *source = source_words (piece);
  if (!point_of (piece, &point))
    return g_strdup_printf ("%s · %s", piece->date, source);
  g_autofree char *mm = bw_length_format (point.mm, unit (), 3);
  g_autofree char *sd = bw_length_format (point.sd_mm, unit (), 3);
  return g_strdup_printf ("%s · %s ± %s · %s", piece->date, mm, sd, source);
}

/* --- What is shown -----------------------------------------------------------------------------
 */

static const BwBookKind *
kind_shown (BwHandsPage *self)
{
  const BwBookHands *hands = bw_workbook_get_hands (self->book);
  for (int k = 0; hands && k < hands->n_kinds; k++)
    if (g_str_equal (hands->kinds[k].name, self->name)
        && fabs (hands->kinds[k].diameter_mm - self->diameter_mm) <= 0)
      return &hands->kinds[k];
  return NULL;
}

static int
by_date (gconstpointer a, gconstpointer b, gpointer book)
{
  guint one = *(const guint *)a, other = *(const guint *)b;
  int order = strcmp (bw_book_get_piece (book, one)->date, bw_book_get_piece (book, other)->date);
  return order ? order : (one > other) - (one < other);
}

static void
gather (BwHandsPage *self)
{
  BwBook *book = (BwBook *)bw_workbook_get_book (self->book);
  g_array_set_size (self->places, 0);
  for (guint i = 0; book && i < bw_book_n_pieces (book); i++) {
    const BwWoven *piece = bw_book_get_piece (book, i);
    BwHandsPoint point;
    if (g_str_equal (piece->bead, self->name) && fabs (piece->diameter_mm - self->diameter_mm) <= 0
        && (point_of (piece, &point) || piece->has_stretch || piece->has_squeeze))
      g_array_append_val (self->places, i);
  }
  g_array_sort_with_data (self->places, by_date, book);
}

static const BwWoven *
piece_at (BwHandsPage *self, guint row)
{
  return bw_book_get_piece (bw_workbook_get_book (self->book),
                            g_array_index (self->places, guint, row));
}

static void
show_plot (BwHandsPage *self, const BwBookKind *kind, const char *words)
{
  BwHandsPitch pitch = bw_hands_pitch (kind->next, kind->diameter_mm);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (BwHandsPoint));
  for (guint i = 0; i < self->places->len; i++) {
    BwHandsPoint point = { 0 };
    point_of (piece_at (self, i), &point);
    g_array_append_val (points, point);
  }
  bw_hands_plot_set (self->plot, points, (BwHandsNext){ pitch.mm, pitch.sd_mm, kind->diameter_mm },
                     unit (), words);
}

/* The newest on top. */
static guint
row_of_item (BwHandsPage *self, guint item)
{
  return self->places->len - 1 - item;
}

static guint
chosen_item (BwHandsPage *self)
{
  GtkSelectionModel *model = gtk_list_view_get_model (self->list);
  return model ? gtk_single_selection_get_selected (GTK_SINGLE_SELECTION (model))
               : GTK_INVALID_LIST_POSITION;
}

static void
choice_changed (BwHandsPage *self)
{
  guint item = chosen_item (self);
  gboolean some = item != GTK_INVALID_LIST_POSITION && item < self->places->len;
  gtk_widget_set_sensitive (self->mend, some);
  gtk_widget_set_sensitive (self->leave, some);
  bw_hands_plot_choose (self->plot, some ? (int)row_of_item (self, item) : -1);
  if (some)
    gtk_button_set_label (GTK_BUTTON (self->leave),
                          piece_at (self, row_of_item (self, item))->left_out
                              ? _ ("Count It _Again")
                              : _ ("_Leave It Out"));
}

static void
show_list (BwHandsPage *self)
{
  guint kept = chosen_item (self);
  GtkStringList *words = gtk_string_list_new (NULL);
  for (guint i = 0; i < self->places->len; i++) {
    g_autofree char *line = entry_words (piece_at (self, row_of_item (self, i)));
    gtk_string_list_append (words, line);
  }
  g_autoptr (GtkSingleSelection) model = gtk_single_selection_new (G_LIST_MODEL (words));
  g_signal_connect_object (model, "notify::selected", G_CALLBACK (choice_changed), self,
                           G_CONNECT_SWAPPED);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (model));
  if (kept < self->places->len)
    gtk_single_selection_set_selected (model, kept);
  choice_changed (self);
}

static void
show_kind (BwHandsPage *self)
{
  const BwBookKind *kind = kind_shown (self);
  gtk_widget_set_visible (self->some, kind != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->none), !kind && bw_workbook_is_known (self->book));
  gather (self);
  if (!kind)
    return;
  g_autofree char *words = next_words (kind);
  bw_label_set_words (self->next, words);
  bw_label_set_words (self->spread, spread_words (bw_workbook_get_hands (self->book)));
  g_autofree char *gives = gives_words (bw_workbook_get_hands (self->book));
  bw_label_set_words (self->gives, gives);
  show_plot (self, kind, words);
  show_list (self);
}

static void
take_kind (BwHandsPage *self, const BwBookKind *kind)
{
  g_strlcpy (self->name, kind->name, sizeof self->name);
  self->diameter_mm = kind->diameter_mm;
}

static void
kind_chosen (BwHandsPage *self)
{
  const BwBookHands *hands = self->book ? bw_workbook_get_hands (self->book) : NULL;
  guint selected = gtk_drop_down_get_selected (self->kind);
  if (self->filling || !hands || selected >= (guint)hands->n_kinds)
    return;
  take_kind (self, &hands->kinds[selected]);
  show_kind (self);
}

static void
fill_kinds (BwHandsPage *self, const BwBookHands *hands)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;
  if (hands && hands->n_kinds > 0 && !kind_shown (self))
    take_kind (self, &hands->kinds[0]);
  for (int k = 0; hands && k < hands->n_kinds; k++) {
    g_autofree char *words = kind_words (&hands->kinds[k]);
    gtk_string_list_append (names, words);
    if (&hands->kinds[k] == kind_shown (self))
      selected = (guint)k;
  }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->kind, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->kind, selected);
  self->filling = FALSE;
}

static void
fill (gpointer page)
{
  BwHandsPage *self = page;
  fill_kinds (self, bw_workbook_get_hands (self->book));
  show_kind (self);
}

static void
book_changed (BwHandsPage *self)
{
  bw_when_seen (GTK_WIDGET (self), fill);
}

/* --- What is done ------------------------------------------------------------------------------
 */

static void
mend_clicked (BwHandsPage *self)
{
  guint row = row_of_item (self, chosen_item (self));
  bw_hands_mend_show (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), self->book,
                      g_array_index (self->places, guint, row), piece_at (self, row));
}

static void
leave_clicked (BwHandsPage *self)
{
  guint row = row_of_item (self, chosen_item (self));
  const BwWoven *before = piece_at (self, row);
  BwWoven after = *before; /* its strips stay the book's */
  after.left_out = !before->left_out;
  bw_hands_put (self->book, g_array_index (self->places, guint, row), before, &after);
}

static void
bw_hands_page_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_hands_page_parent_class)->dispose (object);
}

static void
bw_hands_page_finalize (GObject *object)
{
  BwHandsPage *self = BW_HANDS_PAGE (object);
  g_array_unref (self->places);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (bw_hands_page_parent_class)->finalize (object);
}

static void
bw_hands_page_class_init (BwHandsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_hands_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_hands_page_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/hands-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, kind);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, next);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, spread);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, gives);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, none);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, some);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, plot);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, list);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, mend);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, leave);
  gtk_widget_class_bind_template_child (widget_class, BwHandsPage, deeds);
  gtk_widget_class_bind_template_callback (widget_class, kind_chosen);
  gtk_widget_class_bind_template_callback (widget_class, mend_clicked);
  gtk_widget_class_bind_template_callback (widget_class, leave_clicked);
}

static void
bw_hands_page_init (BwHandsPage *self)
{
  g_type_ensure (BW_TYPE_HANDS_PLOT);
  self->places = g_array_new (FALSE, FALSE, sizeof (guint));
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new (8));
  bw_line_rows_use (self->list);
}

GtkWidget *
bw_hands_page_new (BwWorkbook *book)
{
  BwHandsPage *self = g_object_new (BW_TYPE_HANDS_PAGE, NULL);
  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed), self, G_CONNECT_SWAPPED);
  book_changed (self);
  return GTK_WIDGET (self);
}
