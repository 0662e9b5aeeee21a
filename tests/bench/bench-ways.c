/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the joint search takes: a first look, and the whole front, on all processors. Fails
 * where the first good ways take more than 2 s or the front more than 20 s. */
#include "project/find-ways.h"

#include <stdio.h>

static double
seconds_of (const BwWaysQuestion *question, gboolean coarse, guint *found)
{
  gint64 begin = g_get_monotonic_time ();
  g_autoptr (GArray) ways = bw_ways_question_answer (question, coarse, 12, 0, NULL, NULL);
  *found = ways->len;
  return (double)(g_get_monotonic_time () - begin) / 1e6;
}

int
main (int argc, char **argv)
{
  gboolean late = FALSE;
  printf ("%u processors\n", g_get_num_processors ());
  for (int i = 1; i < argc; i++) {
    g_autoptr (GFile) file = g_file_new_for_path (argv[i]);
    g_autoptr (BwProject) project = bw_project_load (file, NULL);
    g_autoptr (BwWaysQuestion) question = project ? bw_ways_question_new (project, NULL) : NULL;
    g_autofree char *name = g_path_get_basename (argv[i]);
    guint first, all;
    if (!question)
      return 1;
    double look = seconds_of (question, TRUE, &first), whole = seconds_of (question, FALSE, &all);
    printf ("%-28s first look %5.2f s, %2u ways; the front %5.2f s, %2u ways; ratio %.1f\n", name,
            look, first, whole, all, whole / look);
    late = late || look > 2 || whole > 20;
  }
  return late;
}
