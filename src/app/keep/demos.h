/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo projects that come with the program. */
#pragma once

#include "project/project.h"

/* Their files, sorted by name: *.bandwright in the folder "demo" of $BANDWRIGHT_DATA_DIR, or of the
 * installed data folder. Owned array of GFile; empty when there are none. */
GPtrArray *bw_demos_find (void);

/* Whether a file lies in that folder. */
gboolean bw_demos_have (GFile *file);

/* A demo as a project of one's own: no file, so that saving asks where to. Owned. */
BwProject *bw_demo_load (GFile *file, GError **error);
