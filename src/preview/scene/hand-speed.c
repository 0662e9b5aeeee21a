/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Over the last twelfth of a second: shorter, and one late event would throw the piece; longer, and
 * it would go on where the hand has turned back (common practice, no source). */
#include "preview/scene/hand-speed.h"

#define RECENT_MS 80
#define RESTED_MS 60 /* without a move for so long the hand is at rest */
#define LEAST_MS 8   /* less tells no speed */

void
bw_hand_speed_note (BwHandSpeed *self, guint32 ms, double x, double y)
{
  int at = self->n++ % BW_HAND_NOTES;
  self->note[at].ms = ms;
  self->note[at].x = x;
  self->note[at].y = y;
}

gboolean
bw_hand_speed_at (const BwHandSpeed *self, guint32 ms, double *x, double *y)
{
  int last = (self->n - 1) % BW_HAND_NOTES, first = last;
  if (self->n < 2 || ms - self->note[last].ms > RESTED_MS)
    return FALSE;
  for (int i = self->n - 1; i >= MAX (self->n - BW_HAND_NOTES, 0); i--)
    if (ms - self->note[i % BW_HAND_NOTES].ms <= RECENT_MS)
      first = i % BW_HAND_NOTES;
  guint32 between = self->note[last].ms - self->note[first].ms;
  if (between < LEAST_MS)
    return FALSE;
  *x = (self->note[last].x - self->note[first].x) * 1000 / between;
  *y = (self->note[last].y - self->note[first].y) * 1000 / between;
  return TRUE;
}
