/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is printed and how, beside its pages. What is chosen holds for every print, but for
 * the paper, which is chosen anew in each window.
 *
 * Signals: "changed" (): the pages should be others; "save-chart" (int kind): the chart is wanted
 * as one picture, a BwFileKind. */
#pragma once

#include "app/form/card.h"
#include "app/make/print-kind.h"

#define BW_TYPE_PRINT_OPTIONS (bw_print_options_get_type ())
G_DECLARE_FINAL_TYPE (BwPrintOptions, bw_print_options, BW, PRINT_OPTIONS, BwCard)

/* The paper chosen, with what else is wished for. */
BwPaper bw_print_options_get_paper (BwPrintOptions *self);
BwPrintKind bw_print_options_get_kind (BwPrintOptions *self);
void bw_print_options_set_kind (BwPrintOptions *self, BwPrintKind kind);
/* Puts the keyboard's focus on the kind that is chosen. */
void bw_print_options_focus (BwPrintOptions *self);
