/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/project.h"

/* The readable fit report of the project as it is. Owned. */
char *bw_report_fit_text (BwProject *project);

/* The sentence that a measurement over the bed would no longer hold, when some remedy makes it
 * void; else NULL. Borrowed. */
const char *bw_report_voids_girth_over (const GArray *remedies);
