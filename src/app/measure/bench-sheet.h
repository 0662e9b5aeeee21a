/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measuring sheet: the stone looked down on and from the side on one page of squared paper,
 * with every dimension where it is measured. A dimension is an entry that lies in the drawing: a
 * click or Tab goes into it, Enter and Tab take it, Escape leaves it. What is not measured yet
 * stands there as a blank in brass. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BENCH_SHEET (bw_bench_sheet_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchSheet, bw_bench_sheet, BW, BENCH_SHEET, BwCard)
