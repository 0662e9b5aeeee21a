/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shopping list on screen; the same numbers go to the clipboard and into the CSV. */
#include "config.h"

#include "app/bead-swatch.h"
#include "app/list-card.h"
#include "app/tray-row.h"

#include <glib/gi18n-lib.h>

struct _BwListCard {
  BwCard parent_instance;
  GtkGrid *beads;
  GtkGrid *things;
  GtkGrid *cost;
};

G_DEFINE_FINAL_TYPE (BwListCard, bw_list_card, BW_TYPE_CARD)

static void
clear (GtkGrid *grid)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))))
    gtk_grid_remove (grid, child);
}

static void
put (GtkGrid *grid, int column, int row, const char *text, float xalign, const char *style)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, column == 1);
  if (xalign > 0)
    gtk_widget_add_css_class (label, "numeric");
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (grid, label, column, row, 1, 1);
}

G_GNUC_PRINTF (5, 6)
static void
put_number (GtkGrid *grid, int column, int row, const char *style, const char *format, ...)
{
  va_list values;
  va_start (values, format);
  g_autofree char *text = g_strdup_vprintf (format, values);
  va_end (values);
  put (grid, column, row, text, 1, style);
}

static void
put_need (GtkGrid *grid, int row, const BwBeadNeed *need, const char *style)
{
  put_number (grid, 2, row, style, "%" G_GUINT64_FORMAT, need->count);
  put_number (grid, 3, row, style, "%" G_GUINT64_FORMAT, need->with_spare);
  put_number (grid, 4, row, style, "%.1f", need->grams);
  put_number (grid, 5, row, style, "%" G_GUINT64_FORMAT, need->packs);
}

static void
show_beads (BwListCard *self, const BwTray *tray, const BwMaterials *m)
{
  const char *heads[] = { _ ("in one"), _ ("to buy"), _ ("grams"), _ ("packs") };
  BwBeadNeed total = { m->total_beads, m->total_with_spare, m->total_grams, m->total_packs };
  clear (self->beads);
  for (int i = 0; i < 4; i++)
    put (self->beads, 2 + i, 0, heads[i], 1, "small");
  for (int i = 0; i < tray->n_colours; i++) {
    g_autofree char *name = bw_colour_words (&tray->colour[i]);
    GtkWidget *bead = bw_bead_swatch_new ();
    bw_bead_swatch_set_colour (BW_BEAD_SWATCH (bead), &tray->colour[i]);
    gtk_grid_attach (self->beads, bead, 0, i + 1, 1, 1);
    put (self->beads, 1, i + 1, name, 0, NULL);
    put_need (self->beads, i + 1, &m->need[i], NULL);
  }
  put (self->beads, 1, tray->n_colours + 1, _ ("together"), 0, "total");
  put_need (self->beads, tray->n_colours + 1, &total, "total");
}

static void
put_thing (BwListCard *self, int *row, const char *what, const char *how_much)
{
  put (self->things, 0, *row, what, 0, NULL);
  put (self->things, 1, *row, how_much, 1, NULL);
  (*row)++;
}

static char *
thread_words (const BwMaterials *m)
{
  g_autofree char *metres = g_strdup_printf (_ ("%.1f m"), m->thread_mm / 1000);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, in %d length", "%s, in %d lengths",
                                       (gulong)m->thread_lengths),
                          metres, (int)m->thread_lengths);
}

static char *
cord_words (double length_mm, double thick_mm)
{
  g_autofree char *thick = bw_card_length (thick_mm, 2);
  return g_strdup_printf (_ ("%.1f m, %s thick"), length_mm / 1000, thick);
}

static void
show_things (BwListCard *self, const BwDesign *design, const BwMaterials *m)
{
  int row = 0;
  g_autofree char *thread = thread_words (m);
  g_autofree char *bed = cord_words (m->bed_cord_mm, design->bed.cord_thickness_mm);
  g_autofree char *hanging = cord_words (m->hanging_cord_mm, design->bail.cord_mm);
  g_autofree char *needle = bw_card_length (design->thread.needle_mm, 2);
  clear (self->things);
  put_thing (self, &row, _ ("Bead size"), design->bead.name);
  put_thing (self, &row, _ ("Thread"), thread);
  if (m->bed_cord_mm > 0)
    put_thing (self, &row, _ ("Waxed cord for the bed"), bed);
  put_thing (self, &row, _ ("Needle, at most"), needle);
  put_thing (self, &row, _ ("Stopper bead"), "1");
  if (m->hanging_cord_mm > 0)
    put_thing (self, &row, _ ("Hanging cord"), hanging);
}

static void
put_cost (BwListCard *self, int *row, const char *what, double amount, const char *currency,
          const char *style)
{
  put (self->cost, 0, *row, what, 0, style);
  put_number (self->cost, 1, *row, style, "%.2f %s", amount, currency);
  (*row)++;
}

static void
show_cost (BwListCard *self, const BwDesign *design, const BwMaterials *m)
{
  const char *currency = design->supply.currency;
  int row = 0;
  clear (self->cost);
  gtk_widget_set_visible (GTK_WIDGET (self->cost), m->has_cost);
  if (!m->has_cost)
    return;
  put_cost (self, &row, _ ("Beads"), m->cost.beads, currency, NULL);
  put_cost (self, &row, _ ("Thread"), m->cost.thread, currency, NULL);
  put_cost (self, &row, _ ("Bed cord"), m->cost.bed_cord, currency, NULL);
  put_cost (self, &row, _ ("Stone"), m->cost.stone, currency, NULL);
  put_cost (self, &row, _ ("Work"), m->cost.labour, currency, NULL);
  put_cost (self, &row, _ ("Together"), m->cost.total, currency, "total");
  put_cost (self, &row, _ ("One piece"), m->cost.piece, currency, "total");
}

static void
bw_list_card_refresh (BwCard *card)
{
  BwListCard *self = BW_LIST_CARD (card);
  BwProject *project = bw_card_get_project (card);
  const BwMaterials *materials = bw_project_materials (project);
  const BwDesign *design = bw_project_get_design (project);
  show_beads (self, bw_project_get_tray (project), materials);
  show_things (self, design, materials);
  show_cost (self, design, materials);
}

static void
bw_list_card_class_init (BwListCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_list_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/list-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwListCard, beads);
  gtk_widget_class_bind_template_child (widget_class, BwListCard, things);
  gtk_widget_class_bind_template_child (widget_class, BwListCard, cost);
}

static void
bw_list_card_init (BwListCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
