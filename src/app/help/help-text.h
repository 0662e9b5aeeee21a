/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A help page, read: what is shown, from top to bottom. The pages are Mallard (projectmallard.org);
 * of it this reads what ours are written in, and leaves out what it does not know. */
#pragma once

#include <glib.h>

typedef enum {
  BW_HELP_TITLE,
  BW_HELP_HEADING, /* of a section */
  BW_HELP_PARAGRAPH,
  BW_HELP_BULLET,
  BW_HELP_STEP, /* `number` from 1 */
  BW_HELP_TERM,
  BW_HELP_MEANING, /* of the term before it */
  BW_HELP_NOTE,
  BW_HELP_ROW,   /* `keys` do what `markup` says */
  BW_HELP_IMAGE, /* `file`, relative to the page; `markup` says what is to be seen, plain */
} BwHelpKind;

typedef struct {
  BwHelpKind kind;
  int number;
  char *markup; /* Pango's; links have the page's name for an address */
  char *keys;   /* the same */
  char *file;
} BwHelpBlock;

typedef struct {
  char *title;       /* plain */
  GPtrArray *blocks; /* BwHelpBlock */
  GPtrArray *others; /* names of pages to see as well */
} BwHelpText;

/* NULL with *error set when the page is no XML. */
BwHelpText *bw_help_text_parse (const char *page, gssize length, GError **error);
void bw_help_text_free (BwHelpText *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwHelpText, bw_help_text_free)
