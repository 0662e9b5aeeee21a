/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be printed, as the first page of each: seen before it is printed, with the buttons for
 * printer and file beneath. The pages are drawn anew a moment after the last change, and until then
 * the old ones stay. */
#include "config.h"

#include "app/make/make-cards.h"
#include "app/make/page-pictures.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>

#define REST_MS 500
#define PAGE_PX 124

struct _BwPrintCard {
  BwCard parent_instance;
  GtkPicture *picture[BW_PAGE_PICTURES];
  GtkLabel *pages[BW_PAGE_PICTURES];
  GtkLabel *kit_name;
  GtkWidget *large, *sparing, *costs;
  GCancellable *drawing; /* NULL while nothing is */
  guint rest;            /* 0: nothing is to be drawn */
};

G_DEFINE_FINAL_TYPE (BwPrintCard, bw_print_card, BW_TYPE_CARD)

static GdkTexture *
texture_of (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  int stride = cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (surface), (gsize)stride * (gsize)height);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, (gsize)stride);
}

/* Smaller than its points, so that it stays sharp where the screen has more. */
static GdkPaintable *
paintable_of (cairo_surface_t *surface)
{
  g_autoptr (GdkTexture) texture = texture_of (surface);
  float width = (float)PAGE_PX * (float)gdk_texture_get_width (texture)
                / (float)gdk_texture_get_height (texture);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  gtk_snapshot_append_texture (snapshot, texture, &GRAPHENE_RECT_INIT (0, 0, width, PAGE_PX));
  return gtk_snapshot_to_paintable (snapshot, &GRAPHENE_SIZE_INIT (width, PAGE_PX));
}

static void
show_page (BwPrintCard *self, int kind, const BwPagePictures *pictures)
{
  int n = pictures->pages[kind];
  if (!pictures->first[kind])
    return;
  g_autoptr (GdkPaintable) page = paintable_of (pictures->first[kind]);
  g_autofree char *words
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d page", "%d pages", (gulong)n), n);
  gtk_picture_set_paintable (self->picture[kind], page);
  bw_label_set_words (self->pages[kind], words);
}

static void
drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwPrintCard) self = data;
  g_autoptr (BwPagePictures) pictures = bw_page_pictures_finish (result);
  if (g_task_get_cancellable (G_TASK (result)) != self->drawing)
    return;
  g_clear_object (&self->drawing);
  for (int kind = 0; pictures && kind < BW_PAGE_PICTURES; kind++)
    show_page (self, kind, pictures);
}

static void
stop (BwPrintCard *self)
{
  g_clear_handle_id (&self->rest, g_source_remove);
  if (self->drawing)
    g_cancellable_cancel (self->drawing);
  g_clear_object (&self->drawing);
}

static gboolean
draw (gpointer data)
{
  BwPrintCard *self = data;
  self->rest = 0;
  stop (self);
  self->drawing = g_cancellable_new ();
  bw_page_pictures_ask (bw_card_get_project (BW_CARD (self)), bw_print_paper (), self->drawing,
                        drawn, g_object_ref (self));
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
  bw_label_set_words (self->kit_name, words);
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
  static const char *const pictures[] = { "sheet_picture", "strip_picture", "kit_picture" };
  static const char *const pages[] = { "sheet_pages", "strip_pages", "kit_pages" };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_print_card_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_print_card_refresh;
  widget_class->map = bw_print_card_map;
  widget_class->unmap = bw_print_card_unmap;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/print-card.ui");
  for (int i = 0; i < BW_PAGE_PICTURES; i++) {
    gssize at = (gssize)i * (gssize)sizeof (gpointer);
    gtk_widget_class_bind_template_child_full (widget_class, pictures[i], FALSE,
                                               G_STRUCT_OFFSET (BwPrintCard, picture) + at);
    gtk_widget_class_bind_template_child_full (widget_class, pages[i], FALSE,
                                               G_STRUCT_OFFSET (BwPrintCard, pages) + at);
  }
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, kit_name);
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, large);
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, sparing);
  gtk_widget_class_bind_template_child (widget_class, BwPrintCard, costs);
}

/* What is wished for holds for every print, and the pages shown follow it at once. */
static void
bind_wish (BwPrintCard *self, GtkWidget *check, const char *name)
{
  g_autofree char *changed = g_strconcat ("notify::", name, NULL);
  g_object_bind_property (bw_settings_get (), name, check, "active",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  g_signal_connect_object (bw_settings_get (), changed, G_CALLBACK (bw_card_refresh), self,
                           G_CONNECT_SWAPPED);
}

static void
bw_print_card_init (BwPrintCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bind_wish (self, self->large, "print-large");
  bind_wish (self, self->sparing, "print-sparing");
  bind_wish (self, self->costs, "print-costs");
  g_signal_connect_object (bw_settings_get (), "notify::paper", G_CALLBACK (bw_card_refresh), self,
                           G_CONNECT_SWAPPED);
}
