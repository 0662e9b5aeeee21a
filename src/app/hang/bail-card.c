/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loop is solved anew with every number, so that the cord can be seen to pass or not. */
#include "config.h"

#include "app/hang/bail-choice.h"
#include "app/hang/hang-cards.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

struct _BwBailCard {
  BwCard parent_instance;
  BwBailChoice *style;
  GtkWidget *fields;
  GtkLabel *opening;
  GtkLabel *parity;
  GtkButton *needed;
  GtkBox *nearest;
  GtkButton *below;
  GtkButton *above;
};

G_DEFINE_FINAL_TYPE (BwBailCard, bw_bail_card, BW_TYPE_CARD)

char *
bw_bail_words_opening (const BwLoop *loop, BwUnit unit)
{
  if (loop->opening_mm <= 0)
    return g_strdup (_ ("The loop lies too flat: nothing passes through it."));
  g_autofree char *opening = bw_length_format (loop->opening_mm, unit, 1);
  if (loop->largest_cord_mm <= 0)
    return g_strdup_printf (_ ("Opening %s: no cord passes with that clearance."), opening);
  g_autofree char *cord = bw_length_format (loop->largest_cord_mm, unit, 1);
  return g_strdup_printf (_ ("Opening %s: a cord up to %s passes, end fittings up to %s."), opening,
                          cord, opening);
}

char *
bw_bail_words_cord (const BwLoop *loop, double cord_mm, BwUnit unit)
{
  double room = loop->largest_cord_mm - cord_mm;
  g_autofree char *cord = bw_length_format (cord_mm, unit, 1);
  g_autofree char *by = bw_length_format (fabs (room), unit, 1);
  if (room >= 0)
    return g_strdup_printf (_ ("The cord of %s passes with %s to spare."), cord, by);
  return g_strdup_printf (_ ("The cord of %s does not pass: %s too thick."), cord, by);
}

/* Takes words. */
static void
show_rows_button (GtkButton *button, char *words, int rows)
{
  g_autofree char *label = words;
  bw_card_set_words (button, label);
  gtk_widget_set_visible (GTK_WIDGET (button), rows > 0);
}

/* Fewer rows may be too few to arch. */
static gboolean
can_arch (const BwDesign *design, int rows)
{
  BwLoop loop;
  BwBail bail = design->bail;
  bail.rows = rows;
  return bw_loop_init (&loop, &bail, &design->bead, &design->gauge, NULL);
}

static void
show_parity (BwBailCard *self, const BwDesign *design, const BwLoop *loop)
{
  gboolean below = loop->rows_below < loop->rows_above && can_arch (design, loop->rows_below);
  g_autofree char *words
      = g_strdup_printf (_ ("With %d rows the last one does not meet the mirrored beads where the "
                            "bail is sewn down. The nearest counts that do:"),
                         design->bail.rows);
  bw_label_set_words (self->parity, words);
  gtk_widget_set_visible (GTK_WIDGET (self->parity), !loop->parity_right);
  gtk_widget_set_visible (GTK_WIDGET (self->nearest), !loop->parity_right);
  show_rows_button (self->below, g_strdup_printf (_ ("%d rows"), loop->rows_below),
                    below ? loop->rows_below : 0);
  show_rows_button (self->above, g_strdup_printf (_ ("%d rows"), loop->rows_above),
                    loop->rows_above);
}

static void
show_loop (BwBailCard *self, const BwDesign *design, const BwLoop *loop)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *opening = bw_bail_words_opening (loop, unit);
  g_autofree char *cord = bw_bail_words_cord (loop, design->bail.cord_mm, unit);
  g_autofree char *words = g_strjoin ("\n", opening, loop->largest_cord_mm > 0 ? cord : NULL, NULL);
  gboolean passes = loop->largest_cord_mm >= design->bail.cord_mm;
  bw_label_set_words (self->opening, words);
  if (passes)
    gtk_widget_remove_css_class (GTK_WIDGET (self->opening), "warning-text");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->opening), "warning-text");
  show_rows_button (
      self->needed,
      g_strdup_printf (_ ("Use %d rows, the least that let the cord through"), loop->rows_needed),
      loop->rows_needed == design->bail.rows ? 0 : loop->rows_needed);
  show_parity (self, design, loop);
}

static void
bw_bail_card_refresh (BwCard *card)
{
  BwBailCard *self = BW_BAIL_CARD (card);
  const BwDesign *design = bw_card_get_design (card);
  gboolean has_bail = design->bail.style != BW_BAIL_NONE;
  bw_bail_choice_show (self->style, design->bail.style);
  gtk_widget_set_visible (self->fields, has_bail);
  if (has_bail)
    show_loop (self, design, &bw_project_hang (bw_card_get_project (card))->loop);
}

/* A style chosen for the first time finds a bail that can be: as wide as a third of the band, with
 * rows enough for its cord. What goes over the tip suits no other style. */
static void
make_possible (BwDesign *design, gboolean was_over)
{
  BwLoop loop;
  BwBail *bail = &design->bail;
  if (!was_over && bw_bail_validate (bail, design->band.columns, NULL)
      && bw_loop_init (&loop, bail, &design->bead, &design->gauge, NULL))
    return;
  bail->columns = CLAMP (design->band.columns / 6 * 2, 2, MAX (design->band.columns - 2, 2));
  bail->base_beads = 3;
  bail->rows = 23;
}

static void
take_style (BwDesign *design, BwBailStyle style, const BwStone *stone)
{
  gboolean was_over = design->bail.style == BW_BAIL_OVER;
  design->bail.style = style;
  if (style == BW_BAIL_OVER)
    bw_bail_reach_over (design, stone);
  else if (style != BW_BAIL_NONE)
    make_possible (design, was_over);
}

static void
style_chosen (BwBailCard *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  BwBailStyle style = bw_bail_choice_get (self->style);
  if (style == design.bail.style)
    return;
  take_style (&design, style, bw_project_stone (bw_card_get_project (BW_CARD (self))));
  bw_card_apply (BW_CARD (self), _ ("Style of bail"), &design);
}

static void
set_rows (BwBailCard *self, int rows)
{
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  design.bail.rows = rows;
  bw_card_apply (BW_CARD (self), _ ("Bail rows"), &design);
}

static const BwLoop *
loop_of (BwBailCard *self)
{
  return &bw_project_hang (bw_card_get_project (BW_CARD (self)))->loop;
}

static void
needed_clicked (BwBailCard *self)
{
  set_rows (self, loop_of (self)->rows_needed);
}

static void
below_clicked (BwBailCard *self)
{
  set_rows (self, loop_of (self)->rows_below);
}

static void
above_clicked (BwBailCard *self)
{
  set_rows (self, loop_of (self)->rows_above);
}

static void
bw_bail_card_class_init (BwBailCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bail_card_refresh;
  g_type_ensure (BW_TYPE_BAIL_CHOICE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bail-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, style);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, fields);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, opening);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, parity);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, needed);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, nearest);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, below);
  gtk_widget_class_bind_template_child (widget_class, BwBailCard, above);
  gtk_widget_class_bind_template_callback (widget_class, style_chosen);
  gtk_widget_class_bind_template_callback (widget_class, needed_clicked);
  gtk_widget_class_bind_template_callback (widget_class, below_clicked);
  gtk_widget_class_bind_template_callback (widget_class, above_clicked);
}

static void
bw_bail_card_init (BwBailCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
