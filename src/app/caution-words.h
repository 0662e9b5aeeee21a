/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions as short translated sentences. */
#pragma once

#include <glib.h>

/* For a piece of this mineral (NULL or unknown: the general ones); the gravest first. has_cord: a
 * hanging cord goes with it. NULL-terminated, owned. */
char **bw_caution_words (const char *mineral, gboolean has_cord);
