/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Things that the maker keeps in the book, of one sort: what of them is shown, typed and done. One
 * table for each sort; the page and the dialog are the same for all. */
#pragma once

#include "app/things/own-list.h"

typedef enum {
  BW_THING_TEXT,
  BW_THING_LENGTH, /* mm inside; the maker's unit outside */
  BW_THING_SPOOL,  /* mm inside; metres or feet outside */
  BW_THING_GRAMS,
  BW_THING_NUMBER,
  BW_THING_COUNT,
  BW_THING_CHOICE, /* an enum, one of words */
  BW_THING_FLAGS,  /* of a guint: 1 << each of words */
  BW_THING_COLOUR, /* a guint32; the gboolean at `flag` tells whether there is one */
  BW_THING_BEAD,   /* the name of a size */
} BwThingSort;

/* One line of the dialog. */
typedef struct {
  const char *label;   /* untranslated */
  const char *pointer; /* where a fault of it lies */
  BwThingSort sort;
  gsize offset, bytes;             /* of the value; bytes of a text's buffer */
  gsize flag;                      /* of a colour */
  const char *(*words) (int word); /* of choices and flags; NULL past the last one */
  const char *hint;                /* untranslated: in the empty field; NULL: nothing */
  guint shown_for;                 /* 1 << each of the first choice it is for; 0: all */
} BwThingField;

#define BW_THING_BYTES_MAX 1024

typedef struct {
  BwOwnKind list;
  gsize bytes; /* of a thing, a plain value; at most BW_THING_BYTES_MAX */
  void (*get) (const BwBook *book, guint i, gpointer thing);
  /* As in book-beads.h. */
  gboolean (*change) (BwBook *book, gconstpointer before, gconstpointer after, GError **error);
  gboolean (*validate) (gconstpointer thing, const char *pointer, GError **error);
  void (*init) (gpointer thing); /* a new one */
  /* What a new one has from the design worked on; NULL: nothing. */
  void (*begin) (gpointer thing, const BwDesign *design);
  /* Takes out what is not for its choice before what is gets read; NULL: there is no choice. */
  void (*settle) (gpointer thing);
  const char *(*name) (gconstpointer thing);
  void (*draw) (GtkWidget *widget, cairo_t *cr, gconstpointer thing, int width, int height);
  char *(*doubt) (gconstpointer thing); /* what is hard to believe of it, owned; NULL: nothing */
  const BwThingField *fields;
  guint n_fields;
  BwBook *(*only) (const BwBook *book);
  char *(*csv) (const BwBook *book); /* NULL: there is none */
  /* Untranslated. */
  const char *label, *none, *about, *add, *add_title, *edit_title, *file_name;
} BwThings;

/* Has the book changed from before (NULL: there was none) to after (NULL: none any more). As
 * bw_workbook_try() does. */
void bw_things_change (const BwThings *things, BwWorkbook *book, gconstpointer before,
                       gconstpointer after, BwWorkbookTold told, gpointer asker);
/* Tells the window that holds the widget that something could not be done, and why. */
void bw_things_tell_unchanged (GtkWidget *widget, const char *why);
