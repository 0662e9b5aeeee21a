/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/ask/tell.h"

void
bw_tell (GtkWidget *widget, GtkMessageType type, const char *sentence)
{
  gtk_widget_activate_action (widget, "win." BW_TELL_ACTION, "(is)", (int)type, sentence);
}
