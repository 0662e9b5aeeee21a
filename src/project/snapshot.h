/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project as it was at one moment, apart from the project: another thread writes it out while the
 * maker goes on. */
#pragma once

#include "project/project.h"

typedef struct _BwSnapshot BwSnapshot;

/* Without a trial, as the project would be saved. Costs a copy of the cells. */
BwSnapshot *bw_snapshot_new (BwProject *project);
void bw_snapshot_free (BwSnapshot *snapshot);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwSnapshot, bw_snapshot_free)

/* What bw_project_to_data() gave at that moment. On any thread, on one at a time. Owned. */
char *bw_snapshot_to_data (const BwSnapshot *snapshot, gsize *length);
