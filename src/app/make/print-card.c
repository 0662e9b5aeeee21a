/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be printed, as the first page of each; a click shows all pages, to be printed or saved.
 * The pages are drawn anew a moment after the last change, one kind after the other, and until then
 * the old ones stay. */
#include "config.h"

#include "app/kit/settings.h"
#include "app/kit/tip.h"
#include "app/kit/words.h"
#include "app/make/make-cards.h"
#include "app/make/print-run.h"

#include <glib/gi18n-lib.h>

#define REST_MS 500
#define PAGE_PX 124 /* high */
#define PAGE_WIDE_PX 88
#define SHARPER 3 /* points drawn for one shown, for screens that have more */

struct _BwPrintCard {
  BwCard parent_instance;
  GtkFlowBox *kinds;
  GtkPicture *picture[BW_N_PRINT_KINDS];
  GtkLabel *name[BW_N_PRINT_KINDS], *pages[BW_N_PRINT_KINDS];
  BwPageCopy *copy;
  GCancellable *drawing; /* NULL while nothing is */
  BwPrintKind kind;      /* that is being drawn */
  guint rest;            /* 0: nothing is to be drawn */
};

G_DEFINE_FINAL_TYPE (BwPrintCard, bw_print_card, BW_TYPE_CARD)

/* How large a page is shown, pixels to the point. */
static double
scale_of (const BwPageSet *set)
{
  BwPaper paper = bw_page_set_get_paper (set);
  return MIN (PAGE_WIDE_PX / paper.width, PAGE_PX / paper.height);
}

/* Smaller than its points. */
static GdkPaintable *
paintable_of (GdkTexture *texture)
{
  float width = (float)gdk_texture_get_width (texture) / SHARPER;
  float height = (float)gdk_texture_get_height (texture) / SHARPER;
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  gtk_snapshot_append_texture (snapshot, texture, &GRAPHENE_RECT_INIT (0, 0, width, height));
  return gtk_snapshot_to_paintable (snapshot, &GRAPHENE_SIZE_INIT (width, height));
}

static void lay_out (BwPrintCard *self, BwPrintKind kind);

static void
stop (BwPrintCard *self)
{
  g_clear_handle_id (&self->rest, g_source_remove);
  if (self->drawing)
    g_cancellable_cancel (self->drawing);
  g_clear_object (&self->drawing);
  g_clear_pointer (&self->copy, bw_page_copy_unref);
}

/* Of what was stopped nothing is heard but that, and there may be no card any more. */
static gboolean
was_stopped (const GError *error)
{
  return g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  BwPrintCard *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = bw_page_set_finish_picture (result, &error);
  if (was_stopped (error))
    return;
  g_autoptr (GdkPaintable) page = paintable_of (texture);
  gtk_picture_set_paintable (self->picture[self->kind], page);
  gtk_widget_set_size_request (GTK_WIDGET (self->picture[self->kind]),
                               gdk_texture_get_width (texture) / SHARPER,
                               gdk_texture_get_height (texture) / SHARPER);
  lay_out (self, self->kind + 1);
}

static void
laid_out (GObject *source, GAsyncResult *result, gpointer data)
{
  BwPrintCard *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (BwPageSet) set = bw_page_set_finish (result, &error);
  if (was_stopped (error))
    return;
  if (!set) {
    stop (self);
    return;
  }
  int n = bw_page_set_n_pages (set);
  g_autofree char *words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d page", "%d pages", (gulong)n), n);
  bw_label_set_words (self->pages[self->kind], words);
  bw_page_set_ask_picture (set, 0, SHARPER * scale_of (set), self->drawing, drawn, self);
}

static void
lay_out (BwPrintCard *self, BwPrintKind kind)
{
  self->kind = kind;
  if (kind < BW_N_PRINT_KINDS)
    bw_page_set_ask (self->copy, kind, bw_print_paper (), self->drawing, laid_out, self);
  else
    stop (self);
}

static gboolean
draw (gpointer data)
{
  BwPrintCard *self = data;
  self->rest = 0;
  stop (self);
  self->drawing = g_cancellable_new ();
  self->copy = bw_page_copy_new (bw_card_get_project (BW_CARD (self)));
  lay_out (self, 0);
  return G_SOURCE_REMOVE;
}

static void
bw_print_card_refresh (BwCard *card)
{
  BwPrintCard *self = BW_PRINT_CARD (card);
  int pieces = bw_card_get_design (card)->supply.pieces;
  g_autofree char *words = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Kit sheet for %d piece",
                                                         "Kit sheet for %d pieces", (gulong)pieces),
                                            pieces);
  bw_label_set_words (self->name[BW_PRINT_KIT], words);
  stop (self);
  self->rest = g_timeout_add (REST_MS, draw, self);
}

static void
bw_print_card_unmap (GtkWidget *widget)
{
  stop (BW_PRINT_CARD (widget));
  GTK_WIDGET_CLASS (bw_print_card_parent_class)->unmap (widget);
}

/* What changed while nobody could see it is drawn now, and what was stopped. */
static void
bw_print_card_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_print_card_parent_class)->map (widget);
  bw_card_refresh (BW_CARD (widget));
}

static void
bw_print_card_dispose (GObject *object)
{
  stop (BW_PRINT_CARD (object));
  G_OBJECT_CLASS (bw_print_card_parent_class)->dispose (object);
}

static void
bw_print_card_class_init (BwPrintCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_print_card_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_print_card_refresh;
  widget_class->map = bw_print_card_map;
  widget_class->unmap = bw_print_card_unmap;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/print-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, kinds);
}

static GtkLabel *
add_label (GtkWidget *box, const char *words, const char *style)
{
  GtkWidget *label = gtk_label_new (words);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 12);
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

/* Pages stand on one line, whatever their height. */
static GtkWidget *
add_picture (GtkWidget *box)
{
  GtkWidget *picture = gtk_picture_new (), *place = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_size_request (place, PAGE_WIDE_PX + 2, PAGE_PX + 2);
  gtk_widget_set_size_request (picture, PAGE_WIDE_PX, PAGE_PX);
  gtk_widget_set_halign (picture, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (picture, GTK_ALIGN_END);
  gtk_widget_set_hexpand (picture, TRUE);
  gtk_widget_add_css_class (picture, "sheet-page");
  gtk_box_append (GTK_BOX (place), picture);
  gtk_box_append (GTK_BOX (box), place);
  return picture;
}

static void
add_kind (BwPrintCard *self, BwPrintKind kind)
{
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *child = gtk_flow_box_child_new ();
  self->picture[kind] = GTK_PICTURE (add_picture (box));
  self->name[kind] = add_label (box, bw_print_kind_name (kind), NULL);
  self->pages[kind] = add_label (box, NULL, "small");
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "flat");
  bw_tip_set (button, bw_print_kind_use (kind));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.print");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", bw_print_kind_word (kind));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->picture[kind]),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Its first page"), -1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                  self->name[kind], self->pages[kind], NULL, -1);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), button);
  gtk_widget_set_focusable (child, FALSE);
  gtk_flow_box_insert (self->kinds, child, -1);
}

static void
bw_print_card_init (BwPrintCard *self)
{
  static const char *const settings[]
      = { "notify::print-large", "notify::print-sparing", "notify::print-costs",
          "notify::print-left-out", "notify::paper" };
  gtk_widget_init_template (GTK_WIDGET (self));
  for (BwPrintKind kind = 0; kind < BW_N_PRINT_KINDS; kind++)
    add_kind (self, kind);
  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    g_signal_connect_object (bw_settings_get (), settings[i], G_CALLBACK (bw_card_refresh), self,
                             G_CONNECT_SWAPPED);
}
