/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's own trays, kept in the book under a name each:
 *
 *   "trays": [ { "name": "Slack water", "tray": [ the colours of the project's "tray" ] } ]
 *
 * Both keys are required; keys that are not known are kept with their tray and their colour. */
#pragma once

#include "project/book/book.h"
#include "project/document/tray.h"

#define BW_BOOK_TRAYS_MAX 10000

/* A plain value, but a large one. */
typedef struct {
  char name[BW_KEPT_NAME_BYTES];
  BwTray tray;
} BwKeptTray;

guint bw_book_n_trays (const BwBook *book);
const char *bw_book_tray_name (const BwBook *book, guint i); /* borrowed */
void bw_book_get_tray (const BwBook *book, guint i, BwKeptTray *tray);
/* Its place; −1 when none has this name. */
int bw_book_find_tray (const BwBook *book, const char *name);
/* The place of one with the same colours under this name, or under this name with a number; −1:
 * none. */
int bw_book_find_same_tray (const BwBook *book, const BwKeptTray *tray);

/* Puts a tray in the place of `before`, which was read from the book some time ago; before NULL:
 * at the end; tray NULL: before is taken out. FALSE with an error, and nothing done, when before is
 * not there any more as it was, the tray is not sound, or its name is another's. */
gboolean bw_book_change_tray (BwBook *book, const BwKeptTray *before, const BwKeptTray *tray,
                              GError **error);
