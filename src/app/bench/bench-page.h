/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench helper: the row in hand in type and beads that can be read from across the table, moved
 * on by one key. While it is on screen the rows woven are dimmed in every view of the session. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BENCH_PAGE (bw_bench_page_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchPage, bw_bench_page, BW, BENCH_PAGE, BwCard)

void bw_bench_page_bind (BwBenchPage *self, BwDraft *draft);
