/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a piece stands that is still being woven, in words. All owned, translated. */
#pragma once

#include "project/project.h"

/* After so many visits of the thread's path: "Row 12 of 58 ↑, 3 of 6 beads". */
char *bw_played_now (BwProject *project, int visits);

/* What comes after that: "then row 13"; "" once everything is woven. */
char *bw_played_then (BwProject *project, int visits);
