/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/help/help-files.h"
#include "app/help/help-page.h"

#include <glib/gi18n-lib.h>

#define LINE_CHARS 62 /* a line that the eye finds back from */

typedef struct {
  GtkWidget *box;
  BwHelpFollow follow;
  gpointer data;
} Column;

static gboolean
link_clicked (GtkLabel *label, const char *page, Column *column)
{
  column->follow (page, column->data);
  return TRUE;
}

static GtkWidget *
label_of (Column *column, const char *markup, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_markup (GTK_LABEL (label), markup);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LINE_CHARS);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (style)
    gtk_widget_add_css_class (label, style);
  g_signal_connect (label, "activate-link", G_CALLBACK (link_clicked), column);
  return label;
}

static void
add_label (Column *column, const BwHelpBlock *block, const char *style)
{
  GtkWidget *label = label_of (column, block->markup, style);
  if (block->kind == BW_HELP_HEADING || block->kind == BW_HELP_TERM)
    gtk_widget_set_margin_top (label, 8);
  if (block->kind == BW_HELP_MEANING)
    gtk_widget_set_margin_start (label, 16);
  gtk_box_append (GTK_BOX (column->box), label);
}

/* A mark at the beginning of the line, and the words beside it. */
static void
add_marked (Column *column, const char *mark, const char *markup)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *sign = gtk_label_new (mark);
  gtk_label_set_width_chars (GTK_LABEL (sign), 2);
  gtk_label_set_xalign (GTK_LABEL (sign), 1);
  gtk_widget_set_valign (sign, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (row), sign);
  gtk_box_append (GTK_BOX (row), label_of (column, markup, NULL));
  gtk_box_append (GTK_BOX (column->box), row);
}

static void
add_step (Column *column, const BwHelpBlock *block)
{
  g_autofree char *number = g_strdup_printf ("%d.", block->number);
  add_marked (column, number, block->markup);
}

static void
add_row (Column *column, const BwHelpBlock *block)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *keys = label_of (column, block->keys, NULL);
  gtk_widget_set_hexpand (keys, FALSE);
  gtk_box_append (GTK_BOX (row), label_of (column, block->markup, NULL));
  gtk_box_append (GTK_BOX (row), keys);
  gtk_box_append (GTK_BOX (column->box), row);
}

static void
add_note (Column *column, const BwHelpBlock *block)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *title = gtk_label_new (_ ("Take Care"));
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_add_css_class (title, "card-title");
  gtk_widget_add_css_class (box, "card");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), label_of (column, block->markup, NULL));
  gtk_box_append (GTK_BOX (column->box), box);
}

/* A page without its picture still says all that it has to say. */
static void
add_image (Column *column, const BwHelpBlock *block)
{
  g_autofree char *path = block->file ? bw_help_find (block->file) : NULL;
  if (!path)
    return;
  GtkWidget *picture = gtk_picture_new_for_filename (path);
  gtk_picture_set_can_shrink (GTK_PICTURE (picture), TRUE);
  gtk_picture_set_alternative_text (GTK_PICTURE (picture), block->markup);
  gtk_box_append (GTK_BOX (column->box), picture);
}

static void
add_block (Column *column, const BwHelpBlock *block)
{
  switch (block->kind) {
  case BW_HELP_TITLE:
    add_label (column, block, "stage-title");
    break;
  case BW_HELP_HEADING:
  case BW_HELP_TERM:
    add_label (column, block, "card-title");
    break;
  case BW_HELP_PARAGRAPH:
  case BW_HELP_MEANING:
    add_label (column, block, NULL);
    break;
  case BW_HELP_BULLET:
    add_marked (column, "•", block->markup);
    break;
  case BW_HELP_STEP:
    add_step (column, block);
    break;
  case BW_HELP_NOTE:
    add_note (column, block);
    break;
  case BW_HELP_ROW:
    add_row (column, block);
    break;
  case BW_HELP_IMAGE:
    add_image (column, block);
    break;
  }
}

GtkWidget *
bw_help_page_new (const BwHelpText *text, BwHelpFollow follow, gpointer data)
{
  Column *column = g_new0 (Column, 1);
  column->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  column->follow = follow;
  column->data = data;
  g_object_set_data_full (G_OBJECT (column->box), "column", column, g_free);
  gtk_widget_add_css_class (column->box, "help-page");
  for (guint i = 0; i < text->blocks->len; i++)
    add_block (column, g_ptr_array_index (text->blocks, i));
  return column->box;
}
