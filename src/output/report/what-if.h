/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project as it would be with another row count, without touching the one in hand. */
#pragma once

#include "project/project.h"

/* A new project, owned by the caller. rows 0 or the project's own: a new reference to the same one.
 * Fewer rows cut the drawing; more carry it on by its repeat, or in the first tray colour when it
 * has none. Fault at /band/rows when the row count is out of range. */
BwProject *bw_what_if_rows (BwProject *project, int rows, GError **error);

/* The project as it would be with another design, a new one, owned: the drawing follows columns and
 * rows, and strip lengths are left out, since they may speak for another bead. */
BwProject *bw_what_if_design (BwProject *project, const BwDesign *design, GError **error);
