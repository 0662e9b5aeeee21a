/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/project.h"

/* The piece in words for a title or a file name: its title, else the name of its file without the
 * ending, else "Untitled". Owned. */
char *bw_piece_name (BwProject *project);
