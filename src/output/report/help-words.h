/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would help most, in the maker's words: the same in the window and on the command line. */
#pragma once

#include "core/band/would-help.h"

/* "Weave a swatch of 60 rows and measure it by calliper": what to do. Owned. */
char *bw_help_words (const BwHelp *help);

/* The tool of a swatch or a strip, or of its marks, "ruler" or "calliper"; NULL for the others. */
const char *bw_help_tool_word (BwHelpKind kind);
