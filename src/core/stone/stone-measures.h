/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each measurement of a stone may be, looked at alone. */
#pragma once

#include "core/stone/stone.h"

/* Ranges only: faults of the stone, none about how the values stand to each other, except that the
 * way of measuring must suit the number of faces. */
gboolean bw_stone_measures_check_ranges (const BwStoneMeasures *measures, BwFault *fault);
