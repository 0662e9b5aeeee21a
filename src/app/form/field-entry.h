/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field on screen: its name, the value to type over, and under it the reason when what was
 * typed cannot stand. Enter or leaving takes the value, Escape gives the old one back, Up and Down
 * step it live. Templates name the field by its pointer and
 * may say how many characters wide it is ("chars", 10). Signal
 * "taken" (gboolean stands): Enter was pressed; FALSE when what was typed waits. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

#define BW_TYPE_FIELD_ENTRY (bw_field_entry_get_type ())
G_DECLARE_FINAL_TYPE (BwFieldEntry, bw_field_entry, BW, FIELD_ENTRY, GtkWidget)

GtkWidget *bw_field_entry_new (const char *pointer);

/* The draft it reads and writes; until then it is empty and insensitive. */
void bw_field_entry_bind (BwFieldEntry *self, BwDraft *draft);

const char *bw_field_entry_get_pointer (BwFieldEntry *self);
void bw_field_entry_set_pointer (BwFieldEntry *self, const char *pointer);
/* Another name than the field's own; NULL for its own. Translated. */
void bw_field_entry_set_title (BwFieldEntry *self, const char *title);
/* Lays it into a drawing, once: a short caption (NULL for none) before or above the bare figure,
 * which is as wide as such a quantity ever is; what is told about it hangs on it as a slip.
 * Templates say it with "caption". */
void bw_field_entry_lie (BwFieldEntry *self, const char *caption, gboolean above);
/* How far below its top the middle of its figure stands when it lies so and is this high. */
double bw_field_entry_figure_middle (BwFieldEntry *self, int height);
/* Takes what is typed now, as Enter does. */
void bw_field_entry_take (BwFieldEntry *self);
/* Puts the cursor into it with everything selected. */
void bw_field_entry_edit (BwFieldEntry *self);
