/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The path is one list; a pass is told by its number, the part it belongs to and the thread it is
 * made with. */
#include "core/path/path-pass.h"

static const BwVisit *
visit_at (const BwPath *path, guint i)
{
  return &g_array_index (path->visits, BwVisit, i);
}

static gboolean
makes_row (const BwVisit *visit, gboolean in_bail, int row)
{
  return visit->is_new && visit->row == row && !visit->in_bail == !in_bail;
}

static gboolean
is_of_pass (const BwVisit *visit, const BwVisit *made)
{
  return visit->part == made->part && visit->pass == made->pass && visit->length == made->length;
}

BwPass
bw_path_pass_at (const BwPath *path, guint i)
{
  const BwVisit *made = visit_at (path, i);
  guint first = i, end = i;
  while (first > 0 && is_of_pass (visit_at (path, first - 1), made))
    first--;
  while (end < path->visits->len && is_of_pass (visit_at (path, end), made))
    end++;
  return (BwPass){ first, end - first };
}

gboolean
bw_path_row_pass (const BwPath *path, gboolean in_bail, int row, BwPass *pass)
{
  guint i = 0;
  while (i < path->visits->len && !makes_row (visit_at (path, i), in_bail, row))
    i++;
  if (i == path->visits->len)
    return FALSE;
  *pass = bw_path_pass_at (path, i);
  return TRUE;
}
