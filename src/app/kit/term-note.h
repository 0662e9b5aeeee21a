/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small "?" behind a word of the trade, that says what the word means; or the word itself, where
 * it stands nowhere by it ("named"). In a .ui file the property "term" says which; see
 * term-words.h. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_TERM_NOTE (bw_term_note_get_type ())
G_DECLARE_FINAL_TYPE (BwTermNote, bw_term_note, BW, TERM_NOTE, GtkWidget)
