/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A strip read while it is pulled and taken for a slack one is out by three rows; so no paper and
 * no dialog has words of its own for it. */
#include "config.h"

#include "output/words/try-on-words.h"

#include <glib/gi18n-lib.h>

const char *
bw_try_on_words_procedure (void)
{
  return _ ("At every second row lay the strip round the bed where the stone under the band is "
            "widest, and pull its ends together as at the zip: two fingers on each end, each time "
            "as hard. Stop at the first row at which the raised beads drop in along the whole "
            "edge. Where they all but do, pull three times, and go by what two of them say.");
}

const char *
bw_try_on_words_again (void)
{
  return _ ("Pull the ends together again: if the raised beads drop in along the whole edge, stop "
            "here.");
}

const char *
bw_try_on_words_reading (void)
{
  return _ ("To know sooner, read the ends slack: the strip laid round, the ends touching nothing, "
            "the way between them by calliper, or in half beads by eye. The program "
            "then adds what pulling gives. A reading taken while the ends are pulled is told as "
            "pulled, and nothing is added to it.");
}
