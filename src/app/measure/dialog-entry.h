/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers typed into a dialog that takes them as a whole. */
#pragma once

#include "app/form/field.h"
#include <gtk/gtk.h>

const char *bw_entry_text (GtkEntry *entry);
/* In the maker's unit. FALSE with a fault at pointer. */
gboolean bw_entry_read (GtkEntry *entry, BwQuantity quantity, const char *pointer, double *value,
                        GError **error);
/* Marks it as wrong where error, which may be NULL, lies at pointer. */
void bw_entry_mark (GtkEntry *entry, const GError *error, const char *pointer);
/* In the maker's unit. */
void bw_entry_put_length (GtkEntry *entry, double mm);
/* A sentence, in the colour of faults when it is one. */
void bw_entry_show_fault (GtkLabel *label, const GError *error);
