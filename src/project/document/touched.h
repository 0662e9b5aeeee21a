/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which cells were set, in their order and numbered, so that whoever keeps a picture of them can
 * ask for those set since it last looked. Private to this room. */
#pragma once

#include <glib.h>

typedef struct {
  GArray *places; /* of guint32, see patch.h: the last ones */
  guint64 first;  /* the number of the first of them */
} BwTouched;

void bw_touched_init (BwTouched *touched);
void bw_touched_clear (BwTouched *touched);

void bw_touched_add (BwTouched *touched, guint32 place);
/* Any cell may be another now, as after a change of size. */
void bw_touched_all (BwTouched *touched);

/* Index in places from which on they are new to one who has seen what came before number *seen;
 * *seen moves on to the end. FALSE when that is no longer told, or was never seen. */
gboolean bw_touched_since (const BwTouched *touched, guint64 *seen, guint *from);
