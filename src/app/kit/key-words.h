/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Words for a tool tip with the key of an action behind them: "Undo (Ctrl+Z)". The words alone when
 * the application has no key for it. Owned. */
char *bw_key_words (const char *words, const char *detailed_action);
