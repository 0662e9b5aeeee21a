/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be printed, and what each is called. */
#pragma once

#include "output/page/sheet.h"

typedef enum {
  BW_PRINT_SHEET,
  BW_PRINT_STRIP,
  BW_PRINT_KIT,
  BW_PRINT_CHART,
  BW_PRINT_ORDER,
  BW_PRINT_TAGS,
  BW_PRINT_LISTING, /* a picture; it has a page to be seen, and is saved */
  BW_N_PRINT_KINDS
} BwPrintKind;

/* "sheet": what commands call it. Borrowed; NULL behind the last. */
const char *bw_print_kind_word (BwPrintKind kind);
/* BW_PRINT_SHEET for a word that is none. */
BwPrintKind bw_print_kind_from_word (const char *word);

/* Translated, borrowed: "Work sheet", "work sheet" for the name of a file, and what it is for. */
const char *bw_print_kind_name (BwPrintKind kind);
const char *bw_print_kind_file (BwPrintKind kind);
const char *bw_print_kind_use (BwPrintKind kind);

/* The flags of BwPrintWish that it heeds. */
guint bw_print_kind_heeds (BwPrintKind kind);
/* Whether it is laid out for the paper of the printer. */
gboolean bw_print_kind_has_paper (BwPrintKind kind);
