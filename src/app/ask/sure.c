/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ask/sure.h"

void
bw_ask_sure (GtkWindow *parent, const char *question, const char *lost, const char *keep,
             const char *destroy, GCallback answered, gpointer data)
{
  GtkWidget *dialog
      = gtk_message_dialog_new (parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, "%s", question);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", lost);
  gtk_dialog_add_button (GTK_DIALOG (dialog), keep, GTK_RESPONSE_CANCEL);
  GtkWidget *button = gtk_dialog_add_button (GTK_DIALOG (dialog), destroy, GTK_RESPONSE_ACCEPT);
  gtk_widget_add_css_class (button, "destructive-action");
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_CANCEL);
  g_signal_connect (dialog, "response", answered, data);
  gtk_window_present (GTK_WINDOW (dialog));
}
