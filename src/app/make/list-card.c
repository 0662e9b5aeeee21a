/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order list on screen; the same numbers go to the clipboard and into the files. It is laid
 * out anew only where it differs: two hundred colours are a thousand labels. */
#include "config.h"

#include "app/keep/workbook.h"
#include "app/kit/bead-swatch.h"
#include "app/kit/words.h"
#include "app/make/list-lines.h"
#include "app/make/make-cards.h"
#include "app/kit/settings.h"
#include "app/kit/tray-row.h"
#include "output/report/material-words.h"
#include "output/report/order-words.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>

#define MANY 16 /* colours that stand in the card without a window to scroll in */

struct _BwListCard {
  BwCard parent_instance;
  GtkScrolledWindow *window;
  GtkGrid *beads;
  GtkGrid *things;
  char *shown; /* what the grids tell, and the colours beside it */
};

G_DEFINE_FINAL_TYPE (BwListCard, bw_list_card, BW_TYPE_CARD)

enum { SWATCH, NAME, BEADS, TAKES, IN_HAND, ORDER, PACKS, N_COLUMNS };

static void
put_amounts (GtkGrid *grid, int row, const BwOrderBead *bead, guint64 in_piece, const char *style)
{
  bw_list_put_number (grid, BEADS, row, style, "%" G_GUINT64_FORMAT, in_piece);
  bw_list_put_number (grid, TAKES, row, style, "%.2f", bead->grams);
  bw_list_put_number (grid, IN_HAND, row, style, "%.2f", bead->in_hand_g);
  bw_list_put_number (grid, ORDER, row, style, "%.2f", bead->order_g);
  bw_list_put_number (grid, PACKS, row, style, "%" G_GUINT64_FORMAT, bead->packs);
}

/* The shop's own number stands under the name. */
static char *
name_words (const BwColour *colour)
{
  g_autofree char *name = bw_colour_words (colour);
  if (!*colour->article)
    return g_steal_pointer (&name);
  /* Translators: the colour's name, the number it has at the shop. */
  return g_strdup_printf (_ ("%s\nArticle no. %s"), name, colour->article);
}

static void
put_bead (BwListCard *self, int row, const BwColour *colour, const BwOrderBead *order,
          guint64 in_piece)
{
  g_autofree char *name = name_words (colour);
  GtkWidget *bead = bw_bead_swatch_new ();
  bw_bead_swatch_set_colour (BW_BEAD_SWATCH (bead), colour);
  gtk_widget_set_valign (bead, GTK_ALIGN_CENTER);
  gtk_grid_attach (self->beads, bead, SWATCH, row, 1, 1);
  bw_list_put (self->beads, NAME, row, name, 0, NULL);
  put_amounts (self->beads, row, order, in_piece, NULL);
}

/* A scrolled window does not know how high its child is at a given width, so a short list stands
 * without one, and only a long one is put into it. */
static void
house_beads (BwListCard *self, gboolean many)
{
  GtkWidget *beads = GTK_WIDGET (self->beads);
  GtkWidget *window = GTK_WIDGET (self->window);
  if (gtk_widget_get_visible (window) == many)
    return;
  g_object_ref (beads);
  if (many)
    gtk_box_remove (GTK_BOX (gtk_widget_get_parent (beads)), beads);
  gtk_scrolled_window_set_child (self->window, many ? beads : NULL);
  if (!many)
    gtk_box_append (GTK_BOX (gtk_widget_get_parent (window)), beads);
  g_object_unref (beads);
  gtk_widget_set_visible (window, many);
}

static void
put_heads (BwListCard *self, const BwOrder *order)
{
  const char *heads[] = { _ ("in the piece"), _ ("takes, g"),
                          order->has_stash ? _ ("in the stash, g") : _ ("in hand, g"),
                          order->has_stash ? _ ("to buy, g") : _ ("to order, g"), _ ("packs") };
  for (gsize i = 0; i < G_N_ELEMENTS (heads); i++)
    bw_list_put (self->beads, BEADS + (int)i, 0, heads[i], 1, "small");
}

/* Only what the piece uses is bought, and of that what is not there. */
static void
show_beads (BwListCard *self, const BwTray *tray, const BwOrder *order)
{
  int row = 1;
  bw_list_clear (self->beads);
  put_heads (self, order);
  for (int i = 0; i < order->n; i++) {
    int colour = order->bead[i].colour;
    put_bead (self, row++, &tray->colour[colour], &order->bead[i],
              order->materials.need[colour].count);
  }
  bw_list_put (self->beads, NAME, row, _ ("in all"), 0, "total");
  put_amounts (self->beads, row, &order->total, order->materials.total_beads, "total");
  house_beads (self, row > MANY);
}

static void
put_thing (BwListCard *self, int *row, const char *what, const char *how_much)
{
  if (!how_much)
    return;
  bw_list_put (self->things, 0, *row, what, 0, NULL);
  bw_list_put (self->things, 1, *row, how_much, 1, NULL);
  (*row)++;
}

static char *
spool_words (double mm)
{
  return bw_cut_words (mm, bw_settings_get_unit (bw_settings_get ()));
}

static char *
with_stash (char *words, const BwOrder *order, BwStashWhat what)
{
  gboolean counted = bw_stash_measure (what) == BW_STASH_BY_COUNT;
  return bw_order_words (words, &order->thing[what], counted,
                         bw_settings_get_unit (bw_settings_get ()));
}

static char *
thread_words (const BwMaterials *m)
{
  g_autofree char *cut = spool_words (m->thread_mm);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, in %d length", "%s, in %d lengths",
                                       (gulong)m->thread_lengths),
                          cut, (int)m->thread_lengths);
}

static char *
cord_words (double length_mm, double thick_mm)
{
  g_autofree char *thick = bw_card_length (thick_mm, 2);
  if (length_mm <= 0)
    return NULL;
  g_autofree char *cut = spool_words (length_mm);
  return g_strdup_printf (_ ("%s, %s thick"), cut, thick);
}

/* Named by its width, as on the sheet: squeezed flat under the band it is no longer as thick. */
static char *
bed_words (double length_mm, double wide_mm)
{
  g_autofree char *wide = bw_card_length (wide_mm, 2);
  if (length_mm <= 0)
    return NULL;
  g_autofree char *cut = spool_words (length_mm);
  return g_strdup_printf (_ ("%s, %s wide"), cut, wide);
}

static void
show_hanging (BwListCard *self, int *row, const BwDesign *design, const BwOrder *order)
{
  const BwMaterials *m = &order->materials;
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *hanging = with_stash (cord_words (m->hanging_cord_mm, design->bail.cord_mm),
                                         order, BW_STASH_HANGING_CORD);
  g_autofree char *necklace = hanging ? bw_necklace_words (&design->supply, unit) : NULL;
  g_autofree char *ring = with_stash (bw_ring_words (m, unit), order, BW_STASH_RING);
  g_autofree char *clasp = with_stash (bw_clasp_words (m, design, unit), order, BW_STASH_CLASP);
  put_thing (self, row, _ ("Hanging cord"), hanging);
  put_thing (self, row, _ ("Necklace"), necklace);
  put_thing (self, row, _ ("Metal ring"), ring);
  put_thing (self, row, _ ("Clasp"), clasp);
}

static void
show_things (BwListCard *self, BwProject *project, const BwOrder *order)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwMaterials *m = &order->materials;
  int row = 0;
  g_autofree char *thread = with_stash (thread_words (m), order, BW_STASH_THREAD);
  g_autofree char *bed = with_stash (bed_words (m->bed_cord_mm, design->bed.cord_width_mm), order,
                                     BW_STASH_BED_CORD);
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *reserve = bw_order_reserve_words (project, order->pieces, &order->further, unit);
  g_autofree char *needle = bw_needle_words (m, unit);
  g_autofree char *stoppers
      = with_stash (g_strdup_printf ("%d", m->stopper_beads), order, BW_STASH_STOPPER);
  bw_list_clear (self->things);
  put_thing (self, &row, _ ("Bead size"), design->bead.name);
  put_thing (self, &row, _ ("Thread"), thread);
  put_thing (self, &row, _ ("Thread in reserve"), reserve);
  put_thing (self, &row, _ ("Waxed cord for the bed"), bed);
  put_thing (self, &row, _ ("Needle"), needle);
  put_thing (self, &row, _ ("Stopper bead"), stoppers);
  show_hanging (self, &row, design, order);
}

/* All that the list is made of, as one text to compare. */
static char *
signature (BwProject *project)
{
  const BwTray *tray = bw_project_get_tray (project);
  g_autofree char *list = bw_materials_csv (project, 0);
  GString *text = g_string_new (list);
  for (int i = 0; i < tray->n_colours; i++)
    g_string_append_printf (text, "%06x %d\n", tray->colour[i].srgb, (int)tray->colour[i].finish);
  g_autofree char *necklace = bw_necklace_words (&bw_project_get_design (project)->supply,
                                                 bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *words = bw_order_text (project, bw_settings_get_unit (bw_settings_get ()));
  g_string_append (text, necklace);
  g_string_append (text, words);
  return g_string_free (text, FALSE);
}

static void
bw_list_card_refresh (BwCard *card)
{
  BwListCard *self = BW_LIST_CARD (card);
  BwProject *project = bw_card_get_project (card);
  g_autofree char *now = signature (project);
  if (g_strcmp0 (now, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_steal_pointer (&now);
  g_autofree BwOrder *order = g_new (BwOrder, 1);
  bw_order_init (order, project, 0);
  show_beads (self, bw_project_get_tray (project), order);
  show_things (self, project, order);
}

/* Another stash is another list. */
static void
book_changed (BwListCard *self)
{
  if (self->shown)
    bw_card_refresh (BW_CARD (self));
}

static void
bw_list_card_finalize (GObject *object)
{
  g_free (BW_LIST_CARD (object)->shown);
  G_OBJECT_CLASS (bw_list_card_parent_class)->finalize (object);
}

static void
bw_list_card_class_init (BwListCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_list_card_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_list_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/list-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwListCard, window);
  gtk_widget_class_bind_template_child (widget_class, BwListCard, beads);
  gtk_widget_class_bind_template_child (widget_class, BwListCard, things);
}

static void
bw_list_card_init (BwListCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (bw_workbook_get (), "changed", G_CALLBACK (book_changed), self,
                           G_CONNECT_SWAPPED);
}
