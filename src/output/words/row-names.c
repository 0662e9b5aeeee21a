/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "output/words/row-names.h"

#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

/* Rows at most from the join to a bail that is told from it, and a share of the ring: so near to
 * it a bail moves by less than a bead round the stone when a few rows come or go. */
#define BY_THE_JOIN 16
#define SHARE_BY_THE_JOIN 8

/* Rows on either side of F that are called by it. */
#define BY_THE_FOOT 16

/* Rows from one to the other, the shorter way round. */
static int
rows_between (int rows, int from, int to)
{
  int way = bw_lattice_wrap (to - from + 1, rows) - 1;
  return way > rows / 2 ? way - rows : way;
}

static int
foot_of (const BwDesign *design, const BwBailBase *base)
{
  int row = bw_bail_is_strip (&design->bail)
                ? bw_lattice_nearest (base->foot_row[0], (base->column[0] + 1) % 2)
                : (int)lround (base->first_row);
  return bw_lattice_wrap (row, design->band.rows);
}

static gboolean
is_by_the_join (const BwBailBase *base, int rows)
{
  double middle = (base->first_row + base->last_row) / 2 - 1;
  double half = (base->last_row - base->first_row) / 2;
  double off = fabs (remainder (middle, rows));
  return off <= MIN (BY_THE_JOIN, rows / SHARE_BY_THE_JOIN) && off + half < rows / 3.0;
}

BwRowNames
bw_row_names (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  BwRowNames names = { .rows = design->band.rows };
  if (bw_project_path (project)->part[BW_PART_BAIL].visits == 0)
    return names;
  const BwBailBase *base = bw_project_bail_base (project);
  if (!is_by_the_join (base, names.rows))
    names.foot = foot_of (design, base);
  return names;
}

static char *
name_from (const char *letter, int rows_on)
{
  if (rows_on == 0)
    return g_strdup (letter);
  return rows_on < 0 ? g_strdup_printf ("%s − %d", letter, -rows_on)
                     : g_strdup_printf ("%s + %d", letter, rows_on);
}

char *
bw_row_name (const BwRowNames *names, int row)
{
  int from_foot = names->foot ? rows_between (names->rows, names->foot, row) : 0;
  if (names->foot && abs (from_foot) <= BY_THE_FOOT)
    return name_from ("F", from_foot);
  if (row > names->rows / 2)
    return name_from ("L", row - names->rows);
  return g_strdup_printf ("%d", row);
}

/* F is told with the bail, and what holds the bail is told from F however far it reaches. */
static char *
name_of_visit (const BwRowNames *names, const BwVisit *visit)
{
  BwRowNames told = { names->rows, visit->part >= BW_PART_BAIL ? names->foot : 0 };
  if (told.foot && visit->part == BW_PART_ATTACHMENT)
    return name_from ("F", rows_between (told.rows, told.foot, visit->row));
  return bw_row_name (&told, visit->row);
}

char *
bw_row_name_of (const BwRowNames *names, const BwVisit *visit)
{
  if (visit->in_bail)
    return g_strdup_printf (_ ("bail row %d"), visit->row);
  g_autofree char *name = name_of_visit (names, visit);
  if (g_ascii_isdigit (*name))
    return g_strdup_printf (_ ("band row %s"), name);
  /* Translators: a row as told from the last one ("L − 1"), and its number as planned. */
  return g_strdup_printf (_ ("band row %s (%d)"), name, visit->row);
}

int
bw_row_names_foot_at (BwProject *project, int rows)
{
  BwDesign design = *bw_project_get_design (project);
  BwBailBase base;
  design.band.rows = rows;
  bw_bail_base_init (&base, &design, bw_project_mid_ring (project));
  return foot_of (&design, &base);
}
