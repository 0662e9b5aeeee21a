/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/words/thread-words.h"

#include "output/report/material-words.h"
#include "output/report/report-parts.h"

#include <glib/gi18n-lib.h>

static const BwVisit *
visit_at (const BwPath *path, guint i)
{
  return &g_array_index (path->visits, BwVisit, i);
}

char *
bw_words_way (BwStretch stretch, const BwVisit *from)
{
  int turns = bw_stretch_turns (stretch, from);
  g_autofree char *beads = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "through %d bead", "through %d beads", stretch.n), stretch.n);
  g_autofree char *turning = turns == 0
                                 ? g_strdup (_ ("without a turn"))
                                 : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "turning once",
                                                                 "turning %d times", (gulong)turns),
                                                    turns);
  /* Translators: "through 16 beads", "turning 3 times". */
  return g_strdup_printf (_ ("%s, %s"), beads, turning);
}

/* The stretch that ends before visit `end`; of no visits where it is no weaving-in. */
static BwStretch
woven_before (const BwPath *path, guint end)
{
  guint first = end;
  while (first > 0 && visit_at (path, first - 1)->part == BW_PART_WEAVING_IN
         && visit_at (path, first - 1)->pass == visit_at (path, end - 1)->pass)
    first--;
  return (BwStretch){ visit_at (path, first), end - first };
}

/* The first visit with a length of thread: it is woven in before it works. */
static guint
start_of (const BwPath *path, int length)
{
  guint i = 0;
  while (visit_at (path, i)->length < length)
    i++;
  return i;
}

static gboolean
same_bead (const BwVisit *a, const BwVisit *b)
{
  return a->in_bail == b->in_bail && a->row == b->row && a->column == b->column;
}

static char *
old_end_words (BwStretch old)
{
  if (old.n == 0)
    return g_strdup (_ ("weave the old end in"));
  g_autofree char *way = bw_words_way (old, old.visit - 1);
  /* Translators: "through 16 beads, turning once". */
  return g_strdup_printf (_ ("weave the old end in %s, and cut it close"), way);
}

/* Where the fresh thread comes out: in the bead the old one left, or where the bail begins, which
 * with another count is not the same. */
static char *
comes_out_words (const BwRowNames *names, BwStretch fresh, const BwVisit *left)
{
  const BwVisit *out = &fresh.visit[fresh.n - 1];
  gboolean at_foot = names->foot > 0 && out[1].part == BW_PART_BAIL;
  if (!at_foot && same_bead (out, left) && out->direction == left->direction)
    return g_strdup (_ ("so that it comes out where the old one left off"));
  g_autofree char *row = bw_row_name_of (names, out);
  /* Translators: the way the needle runs, a row, a column. */
  return g_strdup_printf (_ ("so that it comes out %s of %s, column %d"),
                          out->direction ? "↑" : "↓", row, out->column);
}

static char *
fresh_end_words (const BwRowNames *names, BwStretch fresh, const BwVisit *left)
{
  if (fresh.n == 0)
    return g_strdup (_ ("weave its end in up to the last bead"));
  g_autofree char *way = bw_words_way (fresh, NULL);
  g_autofree char *out = comes_out_words (names, fresh, left);
  /* Translators: "through 16 beads, turning once"; "so that it comes out …". */
  return g_strdup_printf (_ ("weave its end in %s, %s"), way, out);
}

char *
bw_words_change (BwProject *project, int length, BwUnit unit)
{
  const BwPath *path = bw_project_path (project);
  const BwThreadLength *taken = &g_array_index (path->lengths, BwThreadLength, length);
  BwRowNames names = bw_row_names (project);
  guint start = start_of (path, length);
  BwStretch old = woven_before (path, start);
  BwStretch fresh = { visit_at (path, start), 0 };
  if (fresh.visit->part == BW_PART_WEAVING_IN)
    fresh = bw_stretch_at (path->visits, start);
  g_autofree char *cut = bw_cut_words (taken->length_mm, unit);
  g_autofree char *tail = bw_text_length (bw_project_get_design (project)->thread.tail_mm, unit, 0);
  g_autofree char *end = old_end_words (old);
  g_autofree char *begin = fresh_end_words (&names, fresh, old.visit - 1);
  /* Translators: "weave the old end in …"; a length; "weave its end in …"; a length. */
  return g_strdup_printf (
      _ ("Change the thread: %s. Cut %s of new thread, %s, and leave a tail of %s."), end, cut,
      begin, tail);
}

gboolean
bw_words_last_ends (const BwPath *path, BwStretch end[2], BwVisit from[2])
{
  end[1] = woven_before (path, path->visits->len);
  guint before = path->visits->len - end[1].n;
  if (end[1].n == 0 || before == 0)
    return FALSE;
  end[0] = woven_before (path, before);
  if (end[0].n == 0 || end[0].n == before)
    return FALSE;
  from[0] = end[0].visit[-1];
  from[1] = *visit_at (path, 0);
  from[1].direction = !from[1].direction;
  return TRUE;
}
