/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/make/list-lines.h"

#include "app/kit/words.h"

void
bw_list_clear (GtkGrid *grid)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))))
    gtk_grid_remove (grid, child);
}

void
bw_list_put (GtkGrid *grid, int column, int row, const char *text, float xalign, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  bw_label_set_words (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, column == 1);
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  if (xalign > 0)
    gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
  if (xalign > 0)
    gtk_widget_add_css_class (label, "numeric");
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (grid, label, column, row, 1, 1);
}

void
bw_list_put_number (GtkGrid *grid, int column, int row, const char *style, const char *format, ...)
{
  va_list values;
  va_start (values, format);
  g_autofree char *text = g_strdup_vprintf (format, values);
  va_end (values);
  bw_list_put (grid, column, row, text, 1, style);
}
