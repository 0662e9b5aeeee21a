/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A symbol with its name beneath it. Where it is given less room than the name wants, the symbol
 * stands alone. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_NAMED_ICON (bw_named_icon_get_type ())
G_DECLARE_FINAL_TYPE (BwNamedIcon, bw_named_icon, BW, NAMED_ICON, GtkWidget)

/* Properties for interface files: "icon" and "word". */
GtkWidget *bw_named_icon_new (const char *icon, const char *name);
void bw_named_icon_set_name (BwNamedIcon *self, const char *name);
