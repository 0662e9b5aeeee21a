/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short words of caution, where the hurt is: on the printed sheet and beside the bench. They claim
 * no completeness and defer to local rules and licensed practice. */
#pragma once

#include "project/project.h"

/* Translated sentences that concern this piece, NULL-terminated, owned. */
char **bw_cautions_new (BwProject *project);
/* That local rules and licensed practice come first. Translated, borrowed. */
const char *bw_cautions_deference (void);
