/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker's book says of the hands. */
#pragma once

#include "project/book/book.h"

/* As readable text or as one JSON object: sd {hands, kind, piece} and whether they are fitted,
 * hands {mean, sd}, for each kind of bead the pitch of the next piece, and for each thread and cord
 * how much it gives. Owned. */
char *bw_report_hands (const BwBook *book, gboolean json);
