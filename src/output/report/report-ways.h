/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways to set a stone, told as what each costs and what must be changed to get it. */
#pragma once

#include "project/find-ways.h"

/* Readable text or one JSON object. hands may be NULL, and so may want: however it hangs. Owned. */
char *bw_report_ways (BwProject *project, const BwBookHands *hands, const BwWant *want, int limit,
                      guint seed, gboolean json);

/* A style of bail as a translated word; borrowed. */
const char *bw_report_ways_bail (BwBailStyle style);
