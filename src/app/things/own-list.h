/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book keeps of one kind, each with its picture, and a field to search it by. Rows are
 * made as they come into sight, so that there may be thousands.
 *
 * Signals: "chosen" (): another one is chosen, or none; "activated" (): the one chosen is wanted.
 */
#pragma once

#include "app/keep/workbook.h"
#include <gtk/gtk.h>

/* i: its place in the book. */
typedef struct {
  guint (*count) (const BwBook *book);
  const char *(*name) (const BwBook *book, guint i); /* borrowed */
  char *(*words) (const BwBook *book, guint i);      /* beneath the name; owned */
  void (*paint) (GtkWidget *widget, cairo_t *cr, const BwBook *book, guint i, int width,
                 int height);
  gboolean beside; /* the picture is square and beside the words; else it lies beneath them */
} BwOwnKind;

#define BW_TYPE_OWN_LIST (bw_own_list_get_type ())
G_DECLARE_FINAL_TYPE (BwOwnList, bw_own_list, BW, OWN_LIST, GtkWidget)

/* kind is borrowed for good; label: what a screen reader calls the list. */
void bw_own_list_bind (BwOwnList *self, const BwOwnKind *kind, BwWorkbook *book, const char *label);
/* The place in the book of the one chosen; −1: none. */
int bw_own_list_get_chosen (BwOwnList *self);
/* Chooses the one of this name, now or once the book has it. */
void bw_own_list_choose (BwOwnList *self, const char *name);
