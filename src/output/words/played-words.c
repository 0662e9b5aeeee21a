/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short enough to be read while the beads come, in the bench helper's words where it has them. What
 * a pass is called goes by the part of the path it belongs to. */
#include "config.h"

#include "output/words/played-words.h"

#include "core/path/path-pass.h"
#include "output/words/words.h"

#include <glib/gi18n-lib.h>

static const BwVisit *
visit_at (const BwPath *path, guint i)
{
  return &g_array_index (path->visits, BwVisit, i);
}

/* The first bead that a pass picks up; NULL when it picks up none. */
static const BwVisit *
first_new (const BwPath *path, BwPass pass)
{
  for (guint i = pass.first; i < pass.first + pass.n; i++)
    if (visit_at (path, i)->is_new)
      return visit_at (path, i);
  return NULL;
}

/* --- Now ---------------------------------------------------------------------------------------
 */

static char *
bail_name (const BwDesign *design, const BwVisit *bead)
{
  if (!bead)
    return g_strdup (_ ("On the way to the bail"));
  if (bw_bail_is_strip (&design->bail) && bead->row == 1 && design->bail.rows > 1)
    return g_strdup_printf (_ ("Bail, pick-up, rows 1 and 2 of %d"), design->bail.rows);
  return g_strdup_printf (_ ("Bail, row %d of %d"), bead->row, design->bail.rows);
}

static char *
row_name (const BwDesign *design, const BwVisit *bead)
{
  return g_strdup_printf (_ ("Row %d of %d %s"), bead->row, design->band.rows,
                          bw_words_arrow (bead->direction));
}

static char *
pass_name (const BwDesign *design, const BwPath *path, BwPass pass)
{
  const BwVisit *bead = first_new (path, pass);
  switch (visit_at (path, pass.first)->part) {
  case BW_PART_PICK_UP:
    return design->band.rows < 2
               ? row_name (design, bead)
               : g_strdup_printf (_ ("Pick-up, rows 1 and 2 of %d"), design->band.rows);
  case BW_PART_ROWS:
    return row_name (design, bead);
  case BW_PART_ZIP:
    return g_strdup (_ ("Zip: the last row into the first"));
  case BW_PART_RETURN:
    return g_strdup (_ ("Back through the zip"));
  case BW_PART_ANCHORS:
    return g_strdup (_ ("Anchor: holding the join"));
  case BW_PART_BAIL:
    return bail_name (design, bead);
  case BW_PART_ATTACHMENT:
    return g_strdup (_ ("Sewing the bail down"));
  default:
    return g_strdup (_ ("Weaving in an end"));
  }
}

/* How many of the first n visits of a pass count: those that pick up a bead where any does. */
static int
count (const BwPath *path, BwPass pass, guint n)
{
  gboolean picks_up = first_new (path, pass) != NULL;
  int found = 0;
  for (guint i = pass.first; i < pass.first + n; i++)
    found += !picks_up || visit_at (path, i)->is_new;
  return found;
}

static char *
after_all (const BwDesign *design, const BwPath *path)
{
  if (path->part[BW_PART_ZIP].visits == 0)
    return g_strdup_printf (_ ("All %d rows are woven: such a strip cannot be zipped"),
                            design->band.rows);
  return g_strdup_printf (_ ("All %d rows are woven and zipped, the ends woven in"),
                          design->band.rows);
}

char *
bw_played_now (BwProject *project, int visits)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwPath *path = bw_project_path (project);
  if (visits <= 0)
    return g_strdup (_ ("Nothing strung yet"));
  if (visits >= (int)path->visits->len)
    return after_all (design, path);
  BwPass pass = bw_path_pass_at (path, (guint)visits - 1);
  int all = count (path, pass, pass.n);
  g_autofree char *name = pass_name (design, path, pass);
  return g_strdup_printf (
      /* Translators: "Row 12 of 58 ↑", how many of its beads are on the thread, and of how many. */
      g_dngettext (GETTEXT_PACKAGE, "%s, %d of %d bead", "%s, %d of %d beads", (gulong)all), name,
      count (path, pass, (guint)visits - pass.first), all);
}

/* --- Then --------------------------------------------------------------------------------------
 */

static char *
then_bail (const BwVisit *bead)
{
  return bead ? g_strdup_printf (_ ("then row %d of the bail"), bead->row)
              : g_strdup (_ ("then on to the bail"));
}

static char *
then_pass (const BwPath *path, BwPass pass)
{
  const BwVisit *bead = first_new (path, pass);
  switch (visit_at (path, pass.first)->part) {
  case BW_PART_PICK_UP:
    return g_strdup (_ ("then the pick-up"));
  case BW_PART_ROWS:
    return g_strdup_printf (_ ("then row %d"), bead->row);
  case BW_PART_ZIP:
    return g_strdup (_ ("then the zip"));
  case BW_PART_RETURN:
    return g_strdup (_ ("then back through the zip"));
  case BW_PART_ANCHORS:
    return g_strdup (_ ("then the anchor"));
  case BW_PART_BAIL:
    return then_bail (bead);
  case BW_PART_ATTACHMENT:
    return g_strdup (_ ("then sew the bail down"));
  default:
    return g_strdup (_ ("then weave in an end"));
  }
}

/* Passes of one kind that follow one another, as the sewing of a bail has them, are told once. */
static gboolean
is_told_alike (const BwPath *path, BwPass a, BwPass b)
{
  const BwVisit *x = visit_at (path, a.first), *y = visit_at (path, b.first);
  return x->part == y->part && x->length == y->length && !first_new (path, a)
         && !first_new (path, b);
}

char *
bw_played_then (BwProject *project, int visits)
{
  const BwPath *path = bw_project_path (project);
  guint n = path->visits->len;
  if (visits <= 0)
    return n > 0 ? then_pass (path, bw_path_pass_at (path, 0)) : g_strdup ("");
  if (visits >= (int)n)
    return g_strdup ("");
  BwPass now = bw_path_pass_at (path, (guint)visits - 1), next = now;
  do {
    if (next.first + next.n >= n)
      return g_strdup (_ ("then all is done"));
    next = bw_path_pass_at (path, next.first + next.n);
  } while (is_told_alike (path, now, next));
  return then_pass (path, next);
}
