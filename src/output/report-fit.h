/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/project.h"

/* The readable fit report of the project as it is. Owned. */
char *bw_report_fit_text (BwProject *project);
