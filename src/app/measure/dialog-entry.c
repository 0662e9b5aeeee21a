/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/measure/dialog-entry.h"

#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "project/fault/fault-error.h"

const char *
bw_entry_text (GtkEntry *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

gboolean
bw_entry_read (GtkEntry *entry, BwQuantity quantity, const char *pointer, double *value,
               GError **error)
{
  BwField field = { .quantity = quantity };
  g_strlcpy (field.pointer, pointer, sizeof field.pointer);
  return bw_field_parse (&field, bw_entry_text (entry), bw_settings_get_unit (bw_settings_get ()),
                         value, error);
}

void
bw_entry_mark (GtkEntry *entry, const GError *error, const char *pointer)
{
  g_autofree char *blamed = error ? bw_fault_dup_pointer (error) : NULL;
  if (blamed && g_str_equal (blamed, pointer))
    gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
}

void
bw_entry_put_length (GtkEntry *entry, double mm)
{
  g_autofree char *text = bw_length_format (mm, bw_settings_get_unit (bw_settings_get ()), 2);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

void
bw_entry_show_fault (GtkLabel *label, const GError *error)
{
  bw_label_set_words (label, error ? bw_fault_sentence (error) : "");
  if (error)
    gtk_widget_add_css_class (GTK_WIDGET (label), "reason");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (label), "reason");
}
