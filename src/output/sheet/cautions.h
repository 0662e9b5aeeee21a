/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short words of caution, where the hurt is: on the printed sheets and beside the bench. They claim
 * no completeness and defer to local rules and licensed practice. */
#pragma once

#include "project/project.h"

/* Translated sentences that concern this piece, NULL-terminated, owned. The first *n_grave (which
 * may be NULL) say why its stone is not for wearing. */
char **bw_cautions_new (BwProject *project, int *n_grave);
/* That local rules and licensed practice come first. Translated, borrowed. */
const char *bw_cautions_deference (void);

/* About one mineral, by its name: why it is not for wearing, and what else to mind with it. The
 * first is empty for most minerals, the second tells what holds for any stone when the mineral is
 * unknown or NULL. Translated, NULL-terminated, owned. */
char **bw_mineral_cautions_grave (const char *mineral);
char **bw_mineral_cautions (const char *mineral);
