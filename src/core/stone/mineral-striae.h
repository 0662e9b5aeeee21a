/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fine lines that growth leaves on the faces of a prism. Sources stand in mineral-striae.c. */
#pragma once

#include <glib.h>

/* Which way they run: round the prism, across its axis; or along it. Glass and what is massive has
 * none, nor has a mineral whose faces grow smooth. */
typedef enum { BW_STRIAE_NONE, BW_STRIAE_ACROSS, BW_STRIAE_ALONG } BwStriae;

/* By a mineral's everyday name; as quartz when it is unknown or NULL. */
BwStriae bw_mineral_striae (const char *mineral);
