/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the right button offers on the band: items for the actions "beads.…" of the Draw stage. */
#pragma once

#include "project/session.h"

/* For the bead in row and column (row 0: beside the band). Owned. */
GMenuModel *bw_band_menu_new (BwSession *session, int row, int column);
