/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker prefers, in one window: each change holds at once. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

#define BW_TYPE_PREFERENCES (bw_preferences_get_type ())
G_DECLARE_FINAL_TYPE (BwPreferences, bw_preferences, BW, PREFERENCES, GtkWindow)

/* One for the program: shown before parent, which may be NULL, wherever it is already. */
void bw_preferences_show (GtkApplication *application, GtkWindow *parent);

/* New projects start with bead, needle, tail and cords of the settings. */
void bw_preferences_begin (BwProject *project);
