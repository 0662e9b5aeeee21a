/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench helper: the row in hand in big type, a counter that is saved with the project, and a
 * place to write down what the strip measures. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_BENCH_CARD (bw_bench_card_get_type ())
G_DECLARE_FINAL_TYPE (BwBenchCard, bw_bench_card, BW, BENCH_CARD, BwCard)
