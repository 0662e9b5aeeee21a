/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker prefers, kept between starts. Properties with change notification:
 *   units "mm" or "inch" · appearance "system", "light" or "dark" ·
 *   paper "usual" (what the country uses) or a word as bw_paper_from_word () reads it ·
 *   show-letters · lamp-light ·
 *   window-width, window-height, maximized · stage-share 0.2..0.9 · tray-folded · stone-folded ·
 *   autosave · keep-backup · show-guide · print-large, print-sparing, print-costs ·
 *   print-left-out (flags of the parts of the work sheet that are not printed) ·
 *   start-bead (a name of the table, "" for the usual one) · start-needle-mm, start-tail-mm,
 *   start-cord-mm, start-cord-width-mm, start-hanging-cord-mm (0 as usual, 0..1000) ·
 *   bead-seconds (how long a bead takes these hands; 0 not known, 0..3600)
 * Stored with GSettings in bandwright/preferences.ini below the user's configuration folder
 * ($XDG_CONFIG_HOME), with or without a session bus; $GSETTINGS_BACKEND names another store. Where
 * the schema is not installed, or that folder cannot be made, the same properties hold their
 * defaults and last as long as the program. */
#pragma once

#include "project/document/length.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define BW_TYPE_SETTINGS (bw_settings_get_type ())
G_DECLARE_FINAL_TYPE (BwSettings, bw_settings, BW, SETTINGS, GObject)

/* The one object of the process; borrowed. */
BwSettings *bw_settings_get (void);
/* Whether the values outlive the program. */
gboolean bw_settings_are_kept (BwSettings *self);

BwUnit bw_settings_get_unit (BwSettings *self);
gboolean bw_settings_get_flag (BwSettings *self, const char *name);
double bw_settings_get_number (BwSettings *self, const char *name);
int bw_settings_get_count (BwSettings *self, const char *name);

/* Property actions for menus: "units", "appearance" and "paper" are chosen, flags are toggled. */
void bw_settings_add_actions (BwSettings *self, GActionMap *map);

G_END_DECLS
