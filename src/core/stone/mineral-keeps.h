/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colour a stone shows, for the stone view and for the stone beneath the unrolled band alike.
 */
#pragma once

#include <glib.h>

/* What 10 mm of a mineral leave of red, green and blue, 0..1, by its everyday name: clear when it
 * is unknown or NULL. */
void bw_mineral_keeps (const char *mineral, float keeps[3]);
