/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a file. The one place that knows which dialog the toolkit has for it. */
#pragma once

#include <gtk/gtk.h>

typedef enum {
  BW_FILES_PROJECT,
  BW_FILES_CSV,
  BW_FILES_PICTURE, /* the picture that the program writes */
  BW_FILES_MOVING,  /* and the one in which the piece turns */
  BW_FILES_PDF,
  BW_FILES_SVG,
  BW_FILES_MODEL,
  BW_FILES_BOOK,
  BW_FILES_MOTIF,
  BW_FILES_GPL,
  BW_FILES_CSS,
  BW_FILES_PALETTE, /* either of these two; to open only */
  BW_FILES_DRAWN,   /* pictures that a maker brings; to open only */
} BwFileKind;

/* file is borrowed. Not called when the maker cancels or the parent window goes first. */
typedef void (*BwFileChosen) (GFile *file, gpointer data);

void bw_file_dialog_open (GtkWindow *parent, BwFileKind kind, BwFileChosen chosen, gpointer data);
/* name: the file name offered, without folder. beside: a file whose folder is offered;
 * NULL: the user's documents are, or the home.
 * What is chosen has the kind's extension; a file that is there already is replaced only once the
 * maker has said so. */
void bw_file_dialog_save (GtkWindow *parent, BwFileKind kind, const char *name, GFile *beside,
                          BwFileChosen chosen, gpointer data);

/* A file name of a title: no slash, no leading dot, never empty, with the kind's extension. Owned.
 */
char *bw_file_name_for (const char *title, BwFileKind kind);
