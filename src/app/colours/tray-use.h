/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting another tray in place of a project's own: colours by their place, see bw_tray_lay(). */
#pragma once

#include "project/project.h"

/* One step, "Tray: NAME". tray: 1 to BW_TRAY_MAX colours. */
void bw_tray_use (BwProject *project, const BwTray *tray, const char *name);
