/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book as a file that several programs may write: a change is made to what the file says at
 * that moment, under a lock, and put there whole. */
#pragma once

#include "project/book/book.h"

/* bandwright-book.json in the user's data folder. Owned. */
char *bw_book_usual_path (void);

/* The book there; an empty one where there is none. NULL with an error that names no file: a fault
 * of its text (BW_FAULT) or of reading it (G_IO_ERROR). */
BwBook *bw_book_load (const char *path, GError **error);

/* Changes the book; FALSE with an error when it cannot be: nothing is then written. */
typedef gboolean (*BwBookEdit) (BwBook *book, gpointer data, GError **error);

/* Reads the book, edits it and writes it back while no other program does; waits for one that does.
 * A book that cannot be read is not written over, whatever is wrong with it. */
gboolean bw_book_change (const char *path, BwBookEdit edit, gpointer data, GError **error);
