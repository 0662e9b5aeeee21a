/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stroke sets a few cells between two pictures; whoever comes later than a thousand of them looks
 * at everything and loses nothing by it. */
#include "config.h"

#include "project/document/touched.h"

#define KEPT_MOST 1024
/* Cells one document can set before its numbers run into the next one's. */
#define NUMBERS_BITS 40

/* Each document counts from a number of its own, so that what was seen of one says nothing of
 * another. */
void
bw_touched_init (BwTouched *touched)
{
  static int documents = 0;

  touched->places = g_array_new (FALSE, FALSE, sizeof (guint32));
  touched->first = (guint64)(g_atomic_int_add (&documents, 1) + 1) << NUMBERS_BITS;
}

void
bw_touched_clear (BwTouched *touched)
{
  g_clear_pointer (&touched->places, g_array_unref);
}

static void
forget (BwTouched *touched)
{
  touched->first += touched->places->len;
  g_array_set_size (touched->places, 0);
}

void
bw_touched_add (BwTouched *touched, guint32 place)
{
  if (touched->places->len == KEPT_MOST)
    forget (touched);
  g_array_append_val (touched->places, place);
}

void
bw_touched_all (BwTouched *touched)
{
  forget (touched);
  touched->first++;
}

gboolean
bw_touched_since (const BwTouched *touched, guint64 *seen, guint *from)
{
  guint64 end = touched->first + touched->places->len;
  gboolean told = *seen >= touched->first && *seen <= end;

  *from = told ? (guint)(*seen - touched->first) : 0;
  *seen = end;
  return told;
}
