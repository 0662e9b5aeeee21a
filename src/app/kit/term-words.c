/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/term-words.h"

#include <glib.h>
#include <glib/gi18n-lib.h>

static const struct {
  const char *term, *name, *meaning;
} terms[] = {
  { "peyote", N_ ("Peyote, even count"),
    N_ ("Flat beadwork in which every bead sits half a bead off its neighbours, like bricks. Even "
        "count: the needle turns at the edge without a trick.") },
  { "pitch", N_ ("Bead to bead"),
    N_ ("How far apart two neighbours of a column lie in your work, middle to middle: near the "
        "bead's diameter, but your own. Some call it the pitch.") },
  { "bed", N_ ("Bed"),
    N_ ("The even layer of waxed cord that is wound on the stone under the band. It grips, and "
        "gives a little.") },
  { "bail", N_ ("Bail"), N_ ("The loop the piece hangs by.") },
  { "splay", N_ ("Splay"),
    N_ ("How far two neighbours of a column turn away from one another where the band goes round "
        "a corner of the stone. Too far, and the thread shows.") },
  { "misfit", N_ ("Misfit"),
    N_ ("How far the last face ends from where the first begins when the faces are laid one after "
        "the other as they were measured. A few tenths are what callipers do; more is a face "
        "measured amiss.") },
  { "zip", N_ ("Zip"),
    N_ ("Closing the strip to a ring: the raised beads of the last row slip between those of the "
        "first, and the needle sews through both.") },
  { "join", N_ ("Join"),
    N_ ("Where the strip closes: row 1 meets the last row there. A bail over it hides it.") },
};

static int
find (const char *term)
{
  for (int i = 0; i < (int)G_N_ELEMENTS (terms); i++)
    if (g_strcmp0 (terms[i].term, term) == 0)
      return i;
  return -1;
}

const char *
bw_term_name (const char *term)
{
  int i = find (term);
  return i < 0 ? NULL : _ (terms[i].name);
}

const char *
bw_term_meaning (const char *term)
{
  int i = find (term);
  return i < 0 ? NULL : _ (terms[i].meaning);
}
