/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a file is besides its bytes: owner, permissions, access lists, attributes. Private to
 * saving. */
#pragma once

#include <glib.h>

struct stat;

/* Gives the file open at fd what the old one at path has; returns flags of BwSaveLost. */
guint bw_traits_keep (const char *path, const struct stat *old, int fd);
