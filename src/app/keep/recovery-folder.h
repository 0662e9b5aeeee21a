/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where safety copies lie and how the living are told from the dead; shared by what writes copies
 * and what finds them. NAME.bandwright is the document, NAME.info tells of it and is locked as long
 * as its program lives. Any thread. */
#pragma once

#include <glib.h>

/* Owned. They need not exist. */
char *bw_recovery_folder (void);
char *bw_recovery_discarded_folder (void); /* what was discarded, for BW_DISCARDED_DAYS */

#define BW_DISCARDED_DAYS 30

/* The .info of a .bandwright. Owned. */
char *bw_recovery_info_of (const char *copy);

typedef enum {
  BW_LOCK_OURS,
  BW_LOCK_ALIVE,   /* another program has it, and no descriptor is given */
  BW_LOCK_UNKNOWN, /* this disk has no locks; the descriptor is open all the same */
  BW_LOCK_FAILED,  /* the file cannot be opened; errno says why, and no descriptor is given */
} BwLock;

/* Opens the info, making it when it is not there, and locks it. The lock goes with the descriptor.
 */
BwLock bw_recovery_lock (const char *info, int *fd);

/* Moves a copy to the discarded ones and takes its info away. FALSE, and the copy where it was,
 * when that cannot be. */
gboolean bw_recovery_lay_aside (const char *copy);

/* Takes away what nobody will ask for: discarded copies whose days are over, infos without a copy,
 * temporary files of killed programs. Nothing that a living program uses. */
void bw_recovery_sweep (void);
