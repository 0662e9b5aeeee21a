/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions about one mineral as short translated sentences; those about every piece are of the
 * printed sheet (output/cautions.h). */
#pragma once

#include <glib.h>

/* The gravest first; none for an unknown mineral or NULL. NULL-terminated, owned. */
char **bw_caution_words (const char *mineral);
