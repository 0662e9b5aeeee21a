/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards stand there at once, by their file's name; how each looks comes from other threads when it
 * is known, and nothing here waits for it. */
#include "config.h"

#include "app/shelf/shelf-page.h"
#include "app/keep/demos.h"
#include "app/keep/designs.h"
#include "app/keep/workbook.h"
#include "app/kit/menu-at.h"
#include "project/book/book-stones.h"
#include "project/file/file-name.h"
#include "app/ask/tell.h"
#include "app/shelf/shelf-boards.h"
#include "app/shelf/shelf-guide.h"
#include "app/shelf/shelf-pictures.h"

#include <glib/gi18n-lib.h>

struct _BwShelfPage {
  GtkWidget parent_instance;
  BwShelfBoards *designs;
  BwShelfBoards *examples;
  GtkWidget *examples_part;
  GtkMenuButton *restone, *stones;
  GMenu *restone_menu, *restone_designs, *restone_examples;
  GCancellable *stop; /* what was asked for the cards there are */
};

G_DEFINE_FINAL_TYPE (BwShelfPage, bw_shelf_page, GTK_TYPE_WIDGET)

/* A label in which no underline stands for a key. Owned. */
static char *
plain_label (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "_", -1);
  return g_strjoinv ("__", parts);
}

#define CHOICES_MOST 10 /* a menu is read from its top */

/* The designs there are to choose from, by the names on their cards. */
static void
list_choices (GMenu *menu, BwShelfBoards *boards)
{
  BwShelfCard *card;
  g_menu_remove_all (menu);
  for (int i = 0; (card = bw_shelf_boards_get (boards, i))
                  && g_menu_model_get_n_items (G_MENU_MODEL (menu)) < CHOICES_MOST;
       i++) {
    if (bw_shelf_card_get_state (card) != BW_SHELF_SOUND)
      continue;
    g_autofree char *shortened = bw_words_shortened (bw_shelf_card_get_name (card), 40);
    g_autofree char *label = plain_label (shortened);
    g_autofree char *uri = g_file_get_uri (bw_shelf_card_get_file (card));
    g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
    g_menu_item_set_action_and_target (item, "win.restone-file", "s", uri);
    g_menu_append_item (menu, item);
  }
}

/* Before the menu is there: one that is filled while it opens keeps the size it had empty. */
static void
list_all_choices (GtkMenuButton *button, gpointer data)
{
  BwShelfPage *self = data;
  list_choices (self->restone_designs, self->designs);
  list_choices (self->restone_examples, self->examples);
  gtk_menu_button_set_menu_model (button, G_MENU_MODEL (self->restone_menu));
}

/* Those that wait, in the book's order; all of them are in the workshop. */
static void
list_stones (GtkMenuButton *button, gpointer data)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  g_autoptr (GMenu) menu = g_menu_new ();
  GMenu *waiting = bw_menu_section (menu), *all = bw_menu_section (menu);
  guint n = book ? bw_book_n_stones (book) : 0;
  for (guint i = 0; i < n && g_menu_model_get_n_items (G_MENU_MODEL (waiting)) < CHOICES_MOST;
       i++) {
    BwKeptStone stone;
    bw_book_get_stone (book, i, &stone);
    if (stone.state != BW_STONE_WAITING)
      continue;
    g_autofree char *shortened = bw_words_shortened (stone.name, 40);
    g_autofree char *label = plain_label (shortened);
    g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
    g_menu_item_set_action_and_target (item, "app.begin-on-stone", "s", stone.name);
    g_menu_append_item (waiting, item);
  }
  g_autoptr (GMenuItem) item = g_menu_item_new (_ ("All Your Stones…"), NULL);
  g_menu_item_set_action_and_target (item, "app.workshop", "s", "stones");
  g_menu_append_item (all, item);
  gtk_menu_button_set_menu_model (button, G_MENU_MODEL (menu));
}

static void
show_stones (BwShelfPage *self)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  gtk_widget_set_visible (GTK_WIDGET (self->stones), book && bw_book_n_stones (book) > 0);
}

static void
looked (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (BwShelfCard) card = data;
  g_autoptr (BwShelfLook) look = bw_shelf_pictures_finish (result);
  if (look)
    bw_shelf_card_show (card, look);
}

static void
ask_for (BwShelfPage *self, BwShelfCard *card)
{
  if (bw_shelf_card_get_file (card))
    bw_shelf_pictures_ask (bw_shelf_card_get_file (card), self->stop, looked, g_object_ref (card));
}

/* Whether the cards from the second on are those of the files, in their order. */
static gboolean
stand_already (BwShelfPage *self, const GPtrArray *files)
{
  for (guint i = 0; i < files->len; i++) {
    BwShelfCard *card = bw_shelf_boards_get (self->designs, (int)i + 1);
    if (!card || !g_file_equal (bw_shelf_card_get_file (card), g_ptr_array_index (files, i)))
      return FALSE;
  }
  return bw_shelf_boards_get (self->designs, (int)files->len + 1) == NULL;
}

static void
put_up (BwShelfBoards *boards, BwShelfKind kind, GPtrArray *files)
{
  for (guint i = 0; i < files->len; i++)
    bw_shelf_boards_add (boards,
                         BW_SHELF_CARD (bw_shelf_card_new (kind, g_ptr_array_index (files, i))));
}

static void
ask_for_all (BwShelfPage *self, BwShelfBoards *boards)
{
  for (int i = 0; bw_shelf_boards_get (boards, i); i++)
    ask_for (self, bw_shelf_boards_get (boards, i));
}

static void
stop_asking (BwShelfPage *self)
{
  if (self->stop)
    g_cancellable_cancel (self->stop);
  g_clear_object (&self->stop);
}

static void
put_up_designs (BwShelfPage *self)
{
  g_autoptr (GPtrArray) files = bw_designs_list (bw_designs_get ());
  if (bw_shelf_boards_get (self->designs, 0) && stand_already (self, files))
    return;
  bw_shelf_boards_clear (self->designs);
  bw_shelf_boards_add (self->designs, BW_SHELF_CARD (bw_shelf_card_new (BW_CARD_NEW, NULL)));
  put_up (self->designs, BW_CARD_DESIGN, files);
}

/* Looks again at every file: a design may have been saved or taken away since. */
static void
refresh (BwShelfPage *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  stop_asking (self);
  self->stop = g_cancellable_new ();
  put_up_designs (self);
  ask_for_all (self, self->designs);
  ask_for_all (self, self->examples);
}

static void
put_up_examples (BwShelfPage *self)
{
  g_autoptr (GPtrArray) demos = bw_demos_find ();
  put_up (self->examples, BW_CARD_EXAMPLE, demos);
  gtk_widget_set_visible (self->examples_part, demos->len > 0);
}

static void
open_design (BwShelfCard *card)
{
  g_autofree char *uri = g_file_get_uri (bw_shelf_card_get_file (card));
  if (bw_shelf_card_get_state (card) != BW_SHELF_GONE) {
    gtk_widget_activate_action (GTK_WIDGET (card), "win.open-file", "s", uri);
    return;
  }
  g_autofree char *sentence = g_strdup_printf (
      _ ("“%s” is no longer there. Put its file back, or take it off the shelf."),
      bw_shelf_card_get_name (card));
  bw_tell (GTK_WIDGET (card), GTK_MESSAGE_WARNING, sentence);
}

static void
chosen (BwShelfPage *self, BwShelfCard *card)
{
  GtkWidget *widget = GTK_WIDGET (card);
  switch (bw_shelf_card_get_kind (card)) {
  case BW_CARD_NEW:
    gtk_widget_activate_action (widget, "app.new-stone", NULL);
    break;
  case BW_CARD_EXAMPLE:
    gtk_widget_activate_action (widget, "win.open-demo", "s",
                                g_file_peek_path (bw_shelf_card_get_file (card)));
    break;
  case BW_CARD_DESIGN:
  default:
    open_design (card);
    break;
  }
}

/* The keyboard begins at the first place. */
static void
bw_shelf_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_shelf_page_parent_class)->map (widget);
  refresh (BW_SHELF_PAGE (widget));
  gtk_widget_child_focus (GTK_WIDGET (BW_SHELF_PAGE (widget)->designs), GTK_DIR_TAB_FORWARD);
}

static void
bw_shelf_page_unmap (GtkWidget *widget)
{
  stop_asking (BW_SHELF_PAGE (widget));
  GTK_WIDGET_CLASS (bw_shelf_page_parent_class)->unmap (widget);
}

static void
bw_shelf_page_dispose (GObject *object)
{
  GtkWidget *child;
  stop_asking (BW_SHELF_PAGE (object));
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_shelf_page_parent_class)->dispose (object);
}

static void
bw_shelf_page_class_init (BwShelfPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_shelf_page_dispose;
  widget_class->map = bw_shelf_page_map;
  widget_class->unmap = bw_shelf_page_unmap;
  g_type_ensure (BW_TYPE_SHELF_BOARDS);
  g_type_ensure (BW_TYPE_SHELF_GUIDE);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "win.shelf-back", NULL);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "shelf");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/shelf-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, designs);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, examples);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, examples_part);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, restone);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, stones);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, restone_menu);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, restone_designs);
  gtk_widget_class_bind_template_child (widget_class, BwShelfPage, restone_examples);
  gtk_widget_class_bind_template_callback (widget_class, chosen);
}

static void
bw_shelf_page_init (BwShelfPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_shelf_boards_set_name (self->designs, _ ("Your designs"));
  bw_shelf_boards_set_name (self->examples, _ ("Examples"));
  gtk_menu_button_set_create_popup_func (self->restone, list_all_choices, self, NULL);
  gtk_menu_button_set_create_popup_func (self->stones, list_stones, self, NULL);
  g_signal_connect_object (bw_workbook_get (), "changed", G_CALLBACK (show_stones), self,
                           G_CONNECT_SWAPPED);
  show_stones (self);
  put_up_designs (self);
  put_up_examples (self);
  g_signal_connect_object (bw_designs_get (), "changed", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
bw_shelf_page_new (void)
{
  return g_object_new (BW_TYPE_SHELF_PAGE, NULL);
}
