/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of the work sheet for programs. */
#pragma once

#include "project/project.h"

/* One JSON object with what the pages tell and no other report does: the band and its join, the
 * bed, the swatch, the row ruler, every row in its printed letters, the likely further rows, what
 * the pattern does at the join, and the needle's path bead by bead. Owned, as the answers of
 * output/report/report.h are. */
char *bw_report_sheet (BwProject *project);
