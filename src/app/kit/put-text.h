/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Shows text that the program puts into a field. Nothing of it was typed: the field's own undo,
 * which hears the keys while the project has nothing to undo, must not bring back what stood there
 * before. */
void bw_put_text (GtkEditable *field, const char *text);
