/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One frame of the strip. */
#pragma once

#include "editor/bail/bail-laid.h"

void bw_bail_strip_draw (BwBailLaid *laid, GtkSnapshot *snapshot);
