/* SPDX-License-Identifier: GPL-3.0-or-later */
/* While something is unsaved the session is asked not to end. */
#pragma once

#include <gtk/gtk.h>

/* Kept by the caller, zero at first. */
typedef struct {
  gboolean held;
  guint cookie;
} BwLogoutHold;

/* Holds logging out up while unsaved, lets go otherwise. Does nothing outside a running
 * application. */
void bw_logout_hold (BwLogoutHold *hold, GtkWindow *window, gboolean unsaved, const char *name);
