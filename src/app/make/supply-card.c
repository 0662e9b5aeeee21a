/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prices are optional: without them there is no cost, not a cost of nothing. A maker's own prices
 * go from project to project through the price book; those of a file that came from elsewhere stay
 * in that file until the maker says otherwise. */
#include "config.h"

#include "app/form/typed.h"
#include "app/keep/workbook.h"
#include "app/kit/description.h"
#include "app/kit/put-text.h"
#include "app/kit/words.h"
#include "app/make/price-book.h"
#include "app/make/make-cards.h"
#include "project/book/book-done.h"

#include <glib/gi18n-lib.h>

struct _BwSupplyCard {
  BwCard parent_instance;
  GtkCheckButton *priced;
  GtkWidget *prices;
  GtkEntry *currency;
  GtkLabel *reason;
  GtkLabel *pace;
  GtkLabel *mine;
  GtkWidget *use;
  GtkWidget *keep;
  BwProject *shown; /* weak; whose prices were shown last */
  BwSupply supply;  /* and these */
};

G_DEFINE_FINAL_TYPE (BwSupplyCard, bw_supply_card, BW_TYPE_CARD)

/* Whether the prices in the project are the remembered ones, and what can be done about it. */
static void
show_book (BwSupplyCard *self, const BwSupply *supply)
{
  BwPriceBook *book = bw_price_book_get ();
  gboolean matches = bw_price_book_matches (book, supply);
  gboolean others = bw_price_book_has_prices (book) && !matches;
  gboolean examples = !others && bw_prices_are_examples (supply);
  const char *words = bw_price_book_get_fault (book);
  if (!words && matches)
    words = _ ("These prices are remembered: new projects start with them.");
  else if (!words && examples)
    words = _ ("These are examples: write your own prices over them, and they are remembered.");
  else if (!words)
    words = others ? _ ("These are not the prices you use elsewhere.")
                   : _ ("No prices are remembered for new projects yet.");
  bw_label_set_words (self->mine, words);
  gtk_widget_set_visible (self->use, others);
  gtk_widget_set_visible (self->keep, !matches && !examples);
}

/* An edit of the maker's own prices in this project; another project shown is none. */
static void
follow_edit (BwSupplyCard *self, BwProject *project, const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  BwPriceBook *book = bw_price_book_get ();
  gboolean follows = project == self->shown && bw_price_book_follows (book, &self->supply);
  g_set_weak_pointer (&self->shown, project);
  self->supply = *supply;
  if (follows && !bw_price_book_matches (book, supply) && !bw_prices_are_examples (supply))
    bw_price_book_remember (book, supply, design->band.columns);
}

static void
show_reason (BwSupplyCard *self, const char *reason)
{
  bw_label_set_words (self->reason, reason ? reason : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), reason != NULL);
  bw_draft_set_waiting_text (bw_card_get_draft (BW_CARD (self)), reason ? _ ("Currency") : NULL);
  if (reason)
    gtk_widget_add_css_class (GTK_WIDGET (self->currency), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->currency), "error");
}

/* What rows in an hour come to where they were told of a band of another width. */
static char *
told_words (const BwDesign *design)
{
  const BwSupply *supply = &design->supply;
  int columns = design->band.columns;
  if (supply->pace_columns == 0 || supply->pace_columns == columns)
    return NULL;
  return g_strdup_printf (_ ("Told of a band of %d columns: of this one, of %d, %.1f rows."),
                          supply->pace_columns, columns, bw_work_pace (supply, columns));
}

/* What the maker's finished pieces say. */
static char *
learnt_words (const BwDesign *design)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  double beads = book ? bw_book_pace (book) : 0;
  if (!(beads > 0))
    return NULL;
  return g_strdup_printf (_ ("By your finished pieces %.1f rows of this band."),
                          2 * beads / design->band.columns);
}

static void
show_pace (BwSupplyCard *self, const BwDesign *design)
{
  g_autofree char *told = told_words (design), *learnt = learnt_words (design);
  g_autofree char *words
      = g_strjoin (told && learnt ? " " : "", told ? told : "", learnt ? learnt : "", NULL);
  bw_label_set_words (self->pace, words);
  gtk_widget_set_visible (GTK_WIDGET (self->pace), *words != '\0');
}

static void
bw_supply_card_refresh (BwCard *card)
{
  BwSupplyCard *self = BW_SUPPLY_CARD (card);
  const BwSupply *supply = &bw_card_get_design (card)->supply;
  gboolean waits = gtk_widget_get_visible (GTK_WIDGET (self->reason))
                   && bw_card_get_project (card) == self->shown;
  gtk_check_button_set_active (self->priced, supply->has_prices);
  gtk_widget_set_visible (self->prices, supply->has_prices);
  follow_edit (self, bw_card_get_project (card), bw_card_get_design (card));
  show_book (self, supply);
  show_pace (self, bw_card_get_design (card));
  if (waits)
    return;
  show_reason (self, NULL);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->currency)), supply->currency) != 0)
    bw_put_text (GTK_EDITABLE (self->currency), supply->currency);
}

static void
priced_toggled (BwSupplyCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  design.supply.has_prices = gtk_check_button_get_active (self->priced);
  if (design.supply.has_prices) {
    bw_price_book_begin (bw_price_book_get (), &design.supply);
    bw_workbook_price (bw_workbook_get (), &design.bead, &design.supply);
  }
  bw_card_apply (BW_CARD (self), _ ("Prices"), &design);
}

/* Too long a word stays as it was typed, with the reason under it. */
static void
currency_typed (BwSupplyCard *self)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (self->currency));
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (strlen (typed) >= sizeof design.supply.currency) {
    show_reason (self, _ ("The currency has room for a short sign or word only, such as EUR."));
    return;
  }
  show_reason (self, NULL);
  if (g_str_equal (typed, design.supply.currency))
    return;
  g_strlcpy (design.supply.currency, typed, sizeof design.supply.currency);
  bw_card_apply (BW_CARD (self), _ ("Currency"), &design);
}

static void
use_clicked (BwSupplyCard *self)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  if (bw_price_book_fill (bw_price_book_get (), &design.supply))
    bw_card_apply (BW_CARD (self), _ ("Prices"), &design);
}

static void
keep_clicked (BwSupplyCard *self)
{
  const BwDesign *design = bw_card_get_design (BW_CARD (self));
  bw_price_book_remember (bw_price_book_get (), &design->supply, design->band.columns);
}

static void
bw_supply_card_dispose (GObject *object)
{
  g_clear_weak_pointer (&BW_SUPPLY_CARD (object)->shown);
  G_OBJECT_CLASS (bw_supply_card_parent_class)->dispose (object);
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  currency_typed (BW_SUPPLY_CARD (widget));
}

static void
bw_supply_card_class_init (BwSupplyCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_supply_card_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_supply_card_refresh;
  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/supply-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, priced);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, prices);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, currency);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, reason);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, pace);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, mine);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, use);
  gtk_widget_class_bind_template_child (widget_class, BwSupplyCard, keep);
  gtk_widget_class_bind_template_callback (widget_class, priced_toggled);
  gtk_widget_class_bind_template_callback (widget_class, currency_typed);
  gtk_widget_class_bind_template_callback (widget_class, use_clicked);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
}

static void
bw_supply_card_init (BwSupplyCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_describe (GTK_WIDGET (self->currency), self->reason);
  g_signal_connect_object (bw_price_book_get (), "changed", G_CALLBACK (bw_card_refresh), self,
                           G_CONNECT_SWAPPED);
}
