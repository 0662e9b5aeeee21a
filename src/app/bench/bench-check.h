/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip's word at the bench, in a popover: what it measures now, and by how many beads its ends
 * miss each other round the stone. Either opens the dialog that tells what follows. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BENCH_CHECK (bw_bench_check_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchCheck, bw_bench_check, BW, BENCH_CHECK, BwCard)
