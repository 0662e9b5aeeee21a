/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/make/print-kind.h"

#include <glib/gi18n-lib.h>

typedef struct {
  const char *word, *name, *file, *use;
  guint heeds;
} Kind;

static const Kind kinds[BW_N_PRINT_KINDS] = {
  { "sheet", N_ ("Work sheet"), N_ ("work sheet"),
    N_ ("All that a maker needs to finish the piece"),
    BW_PRINT_LARGE | BW_PRINT_SPARING | BW_PRINT_COSTS },
  { "strip", N_ ("Paper strip"), N_ ("paper strip"),
    N_ ("Wrapped round the stone it checks the measurements"), 0 },
  { "kit", N_ ("Kit sheet"), N_ ("kit sheet"), N_ ("One shopping list, and a page for each maker"),
    BW_PRINT_LARGE | BW_PRINT_SPARING | BW_PRINT_COSTS },
  { "chart", N_ ("Chart"), N_ ("chart"), N_ ("Bead by bead, with its colours"),
    BW_PRINT_LARGE | BW_PRINT_SPARING },
  { "order", N_ ("Order list"), N_ ("order list"),
    N_ ("What a shop is to send; what is in hand is taken off"),
    BW_PRINT_LARGE | BW_PRINT_SPARING },
  { "tags", N_ ("Hang tags"), N_ ("hang tags"), N_ ("Cards to cut out, for a market stall"),
    BW_PRINT_COSTS },
  { "listing", N_ ("Picture for a shop"), N_ ("picture for a shop"),
    N_ ("Square, with the title, for a page on the net"), 0 },
};

const char *
bw_print_kind_word (BwPrintKind kind)
{
  return kind < BW_N_PRINT_KINDS ? kinds[kind].word : NULL;
}

BwPrintKind
bw_print_kind_from_word (const char *word)
{
  for (BwPrintKind kind = 0; kind < BW_N_PRINT_KINDS; kind++)
    if (g_str_equal (kinds[kind].word, word))
      return kind;
  return BW_PRINT_SHEET;
}

const char *
bw_print_kind_name (BwPrintKind kind)
{
  return _ (kinds[kind].name);
}

const char *
bw_print_kind_file (BwPrintKind kind)
{
  return _ (kinds[kind].file);
}

const char *
bw_print_kind_use (BwPrintKind kind)
{
  return _ (kinds[kind].use);
}

guint
bw_print_kind_heeds (BwPrintKind kind)
{
  return kinds[kind].heeds;
}

gboolean
bw_print_kind_has_paper (BwPrintKind kind)
{
  return kind != BW_PRINT_LISTING;
}
