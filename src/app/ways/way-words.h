/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A way to set the stone in a maker's words. All owned. */
#pragma once

#include "app/ways/way-look.h"
#include "project/document/length.h"

/* "14 columns of 11/0 cylinder" */
char *bw_way_words_band (const BwDesign *design);
/* "114 rows from 12 mm up, on 1 layer of cord" */
char *bw_way_words_bed (const BwDesign *design, BwUnit unit);
/* "flap with a ring, nearly level, tip 6° low"; "no bail" */
char *bw_way_words_hang (const BwWay *way);
/* "1,204 beads to buy · 4.6 h · 23.50 EUR". look NULL: what is known without it. */
char *bw_way_words_price (const BwWay *way, const BwWayLook *look);
/* "covers 31 % of the stone" */
char *bw_way_words_cover (const BwWay *way);
