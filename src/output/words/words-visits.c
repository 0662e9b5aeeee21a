/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where beads are only passed through, as in the join, each one is named: by far the most of them
 * alternate between two rows, which reads as two short lists. Any other way is a chain whose links
 * are numbered, so that nobody takes three groups for something done in turn. */
#include "config.h"

#include "output/words/words-visits.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

/* Fewer than two of each row are shorter told one by one. */
#define LEAST_IN_TURN 4

/* A longer chain is numbered by its groups. */
#define MOST_LINKS 12

BwStretch
bw_stretch_at (const GArray *visits, guint i)
{
  const BwVisit *first = &g_array_index (visits, BwVisit, i);
  guint n = 1;
  for (; i + n < visits->len; n++) {
    const BwVisit *visit = &first[n];
    if (visit->part != first->part || visit->pass != first->pass || visit->length != first->length)
      break;
  }
  return (BwStretch){ first, n };
}

int
bw_stretch_count_new (BwStretch stretch)
{
  int n = 0;
  for (guint i = 0; i < stretch.n; i++)
    n += stretch.visit[i].is_new;
  return n;
}

static gboolean
goes_on (const BwVisit *visit, const BwVisit *two_before)
{
  return visit->row == two_before->row && visit->in_bail == two_before->in_bail
         && visit->direction == two_before->direction
         && visit->column - two_before->column == (visit->direction ? 2 : -2);
}

static gboolean
same_row (const BwVisit *a, const BwVisit *b)
{
  return a->in_bail == b->in_bail && a->row == b->row;
}

/* How many visits from the first on alternate between two rows, each a column further. */
static guint
count_in_turn (const BwVisit *visit, guint n)
{
  guint count = MIN (n, 2);
  if (count < 2 || same_row (&visit[0], &visit[1]))
    return 1;
  while (count < n && goes_on (&visit[count], &visit[count - 2]))
    count++;
  return count;
}

/* How many visits from the first on lie in one row, beside one another. */
static guint
count_in_row (const BwVisit *visit, guint n)
{
  guint count = 1;
  while (count < n && goes_on (&visit[count], &visit[count - 1]))
    count++;
  return count;
}

/* Columns of every `step`th of n visits: "14, 12, 10" or "14, 12 … 2". */
static char *
column_list (const BwVisit *visit, guint n, guint step)
{
  GString *text = g_string_new (NULL);
  guint count = (n + step - 1) / step;
  for (guint i = 0; i < count; i++) {
    if (count > 4 && i > 1 && i + 1 < count)
      continue;
    const char *before = i == 0 ? "" : count > 4 && i > 1 ? " … " : ", ";
    g_string_append_printf (text, "%s%d", before, visit[step * i].column);
  }
  return g_string_free (text, FALSE);
}

static void
append_in_turn (GString *text, const BwRowNames *names, const BwVisit *visit, guint n)
{
  g_autofree char *first = bw_row_name_of (names, &visit[0]);
  g_autofree char *second = bw_row_name_of (names, &visit[1]);
  g_autofree char *first_columns = column_list (visit, n, 2);
  g_autofree char *second_columns = column_list (visit + 1, n - 1, 2);
  /* Translators: a row and its columns, another row and its columns. */
  g_string_append_printf (text, _ ("%s, columns %s, and %s, columns %s, one of each in turn"),
                          first, first_columns, second, second_columns);
}

static void
append_in_row (GString *text, const BwRowNames *names, const BwVisit *visit, guint n)
{
  g_autofree char *row = bw_row_name_of (names, visit), *columns = column_list (visit, n, 1);
  /* Translators: a row and its columns. */
  g_string_append_printf (text, _ ("%s, columns %s"), row, columns);
}

static void
append_visit (GString *text, const BwRowNames *names, const BwVisit *visit)
{
  g_autofree char *row = bw_row_name_of (names, visit);
  /* Translators: a row and a column. */
  g_string_append_printf (text, _ ("%s, column %d"), row, visit->column);
}

/* How many visits from the first on read as one group: a zigzag, some of one row, or one. */
static guint
count_group (const BwVisit *visit, guint n)
{
  guint in_turn = count_in_turn (visit, n);
  return in_turn >= LEAST_IN_TURN ? in_turn : count_in_row (visit, n);
}

static void
append_group (GString *text, const BwRowNames *names, const BwVisit *visit, guint n)
{
  if (n == 1)
    append_visit (text, names, visit);
  else if (same_row (&visit[0], &visit[1]))
    append_in_row (text, names, visit, n);
  else
    append_in_turn (text, names, visit, n);
}

static GArray *
passed_again (BwStretch stretch)
{
  GArray *visits = g_array_new (FALSE, FALSE, sizeof (BwVisit));
  for (guint i = 0; i < stretch.n; i++)
    if (!stretch.visit[i].is_new)
      g_array_append_val (visits, stretch.visit[i]);
  return visits;
}

static gboolean
is_chain (const GArray *visits)
{
  const BwVisit *first = (const BwVisit *)(gconstpointer)visits->data;
  return visits->len > 1 && visits->len <= MOST_LINKS
         && count_group (first, visits->len) < visits->len;
}

gboolean
bw_stretch_is_chain (BwStretch stretch)
{
  g_autoptr (GArray) visits = passed_again (stretch);
  return is_chain (visits);
}

char *
bw_stretch_words (const BwRowNames *names, BwStretch stretch)
{
  g_autoptr (GArray) visits = passed_again (stretch);
  gboolean one_by_one = is_chain (visits);
  GString *text = g_string_new (NULL);
  int link = 0;
  for (guint i = 0, n; i < visits->len; i += n) {
    const BwVisit *visit = &g_array_index (visits, BwVisit, i);
    n = one_by_one ? 1 : count_group (visit, visits->len - i);
    if (n < visits->len)
      /* Translators: between the links of a chain, and the number before each. */
      g_string_append_printf (text, link > 0 ? _ ("; %d: ") : _ ("%d: "), link + 1);
    append_group (text, names, visit, n);
    link++;
  }
  return g_string_free (text, FALSE);
}

int
bw_stretch_turns (BwStretch stretch, const BwVisit *from)
{
  int turns = 0;
  for (guint i = 0; i < stretch.n; i++) {
    const BwVisit *before = i > 0 ? &stretch.visit[i - 1] : from;
    turns += before && before->direction != stretch.visit[i].direction;
  }
  return turns;
}
