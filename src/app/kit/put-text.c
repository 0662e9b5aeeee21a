/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/put-text.h"

void
bw_put_text (GtkEditable *field, const char *text)
{
  gtk_editable_set_enable_undo (field, FALSE);
  gtk_editable_set_text (field, text);
  gtk_editable_set_enable_undo (field, TRUE);
}
