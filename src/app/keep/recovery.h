/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A safety copy of unsaved work. While a project is modified a copy is kept in the user's state
 * folder: written two seconds after the last change, and while changes go on at least every ten;
 * half a second after a row was woven. A thread of its own writes it. It is removed when the work
 * is saved or its window closed on purpose. A copy whose program is gone is offered at the next
 * start.
 *
 * Signal "failed" (const char *sentence): a copy could not be kept. */
#pragma once

#include "app/keep/leftover.h"
#include "project/project.h"

G_BEGIN_DECLS

#define BW_TYPE_RECOVERY (bw_recovery_get_type ())
G_DECLARE_FINAL_TYPE (BwRecovery, bw_recovery, BW, RECOVERY, GObject)

/* Watches a project from now on. leftover: the copy the project was loaded from, which becomes this
 * one's own, and its lock with it; NULL for none. */
BwRecovery *bw_recovery_new (BwProject *project, BwLeftover *leftover);
/* Writes the copy now, before it returns, when there is something unsaved and new; removes it when
 * all is saved. */
void bw_recovery_keep (BwRecovery *self);
/* The maker closed the window on purpose: removes the copy and stops. */
void bw_recovery_end (BwRecovery *self);
/* The maker takes something else in place of this work: writes the copy whether or not copies are
 * wanted, and keeps it among the discarded ones. FALSE with *error set when that cannot be. */
gboolean bw_recovery_lay_work_aside (BwRecovery *self, GError **error);

G_END_DECLS
