/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's book as the windows use it. It is read on a thread, when the program starts and after
 * each note, and noted into on a thread after each save; nothing waits for it but the program's
 * end. All on the main thread. */
#pragma once

#include "core/design/bead.h"
#include "project/book/book-file.h"
#include "project/book/book-stash.h"
#include "project/project.h"
#include <glib-object.h>

G_BEGIN_DECLS

#define BW_TYPE_WORKBOOK (bw_workbook_get_type ())
/* Signal "changed" (): what the book says, or the fault, differs; its kinds of bead and its stash
 * are then the process's own (bw_sizes_set_own(), bw_stash_set_own()). */
G_DECLARE_FINAL_TYPE (BwWorkbook, bw_workbook, BW, WORKBOOK, GObject)

/* The one of the process, being read from its first use on; borrowed. */
BwWorkbook *bw_workbook_get (void);
/* Another, kept in this file. Owned. */
BwWorkbook *bw_workbook_new (const char *path);

/* What the book says of the hands; NULL while it is not read or cannot be. Borrowed until
 * "changed". */
const BwBookHands *bw_workbook_get_hands (BwWorkbook *self);
/* The gauge that work with this bead begins with: its size, and what the hands are known to weave
 * of it, where the book has pieces of it. */
BwGauge bw_workbook_gauge (BwWorkbook *self, const BwBead *bead);
/* One translated sentence when the book could not be read or written; NULL otherwise. Borrowed. */
const char *bw_workbook_get_fault (BwWorkbook *self);

/* The book as it was read last; NULL while it is not read or cannot be. Borrowed until "changed".
 */
const BwBook *bw_workbook_get_book (BwWorkbook *self);
/* Whether that is what the file says: it was read, and nothing went wrong since. */
gboolean bw_workbook_is_known (BwWorkbook *self);
/* The price and pack of the maker's own kind of this name, put into supply; FALSE and nothing done
 * where there is none or its price is in another currency. */
gboolean bw_workbook_price (BwWorkbook *self, const BwBead *bead, BwSupply *supply);
/* Reads it anew: another program may have written it. */
void bw_workbook_read (BwWorkbook *self);
/* Has the book changed on a thread, which calls edit with data and lets it go in the end. What
 * could not be done is told by the fault. */
void bw_workbook_change (BwWorkbook *self, BwBookEdit edit, gpointer data, GDestroyNotify release);

/* The same, and told is called on the main thread once it is done, before "changed": with NULL, or
 * the sentence why it could not be, which is then no fault of the book while that can be read. */
typedef void (*BwWorkbookTold) (const char *sentence, gpointer asker);
void bw_workbook_try (BwWorkbook *self, BwBookEdit edit, gpointer data, GDestroyNotify release,
                      BwWorkbookTold told, gpointer asker);

/* To be called before a project is saved: one that says something of the hands gets its id. */
void bw_workbook_prepare (BwProject *project);
/* Notes what the project says of the hands; nothing when it says nothing. */
void bw_workbook_note (BwWorkbook *self, BwProject *project);

G_END_DECLS
