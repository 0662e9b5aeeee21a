/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measuring sheet as it is drawn: squared paper, the stone looked down on and from the side
 * with its band, and the hairlines of the dimensions. The figures are entries that lie on it. */
#pragma once

#include "app/kit/palette.h"
#include "app/measure/sheet-plan.h"
#include "project/project.h"

/* Draws into the widget's own pixels; plan must be placed for this project. lit: the pointer of a
 * dimension whose line is drawn strong, NULL for none. */
void bw_sheet_draw (GtkWidget *widget, cairo_t *cr, const BwSheetPlan *plan, BwProject *project,
                    const char *lit);

/* Whether a point of the widget lies on a mark that warns of a corner where thread will show. */
gboolean bw_sheet_warns_at (const BwSheetPlan *plan, BwProject *project, double x, double y);
