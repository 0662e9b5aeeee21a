/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A safety copy of unsaved work. While a project is modified a copy is kept in the user's state
 * folder, renewed every 20 seconds, and removed when the work is saved or its window closed on
 * purpose. A copy whose program is gone is offered at the next start. The kernel's file lock tells
 * the living from the dead, so that a second running program's copies are never taken away.
 *
 * Signal "failed" (const char *sentence): a copy could not be kept. */
#pragma once

#include "project/project.h"

G_BEGIN_DECLS

#define BW_TYPE_RECOVERY (bw_recovery_get_type ())
G_DECLARE_FINAL_TYPE (BwRecovery, bw_recovery, BW, RECOVERY, GObject)

/* Watches a project from now on. */
BwRecovery *bw_recovery_new (BwProject *project);
/* Writes the copy now when there is something unsaved and new, removes it when all is saved. */
void bw_recovery_keep (BwRecovery *self);
/* The maker closed the window on purpose: removes the copy and stops. */
void bw_recovery_end (BwRecovery *self);

/* A copy left by a program that is gone. */
typedef struct {
  char *path; /* of the copy */
  char *title;
  GFile *file; /* where the project was last saved; NULL for never */
  GDateTime *when;
} BwLeftover;

/* All of them, newest first. Owned array of BwLeftover. */
GPtrArray *bw_recovery_find (void);
/* The copied project: modified, and with its file. Owned. */
BwProject *bw_leftover_load (const BwLeftover *leftover, GError **error);
/* Deletes the copy. */
void bw_leftover_discard (const BwLeftover *leftover);

G_END_DECLS
