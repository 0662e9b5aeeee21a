/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/words.h"
#include "project/document/units.h"

void
bw_label_set_words (GtkLabel *label, const char *words)
{
  g_autofree char *kept = bw_units_kept (words ? words : "");
  gtk_label_set_text (label, kept);
}
