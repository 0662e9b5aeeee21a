/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be printed, within reach of the Make stage. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_PRINT_CARD (bw_print_card_get_type ())
G_DECLARE_FINAL_TYPE (BwPrintCard, bw_print_card, BW, PRINT_CARD, BwCard)
