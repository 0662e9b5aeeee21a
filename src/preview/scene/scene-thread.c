/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thread lies through the hole, and over to the next bead. Every further pass through a hole
 * lies a little farther out, so that passes can be told apart. A way longer than the longest is
 * where one length of thread ends and another begins, and is not drawn. */
#include "preview/scene/scene-thread.h"

#include "preview/scene/scene-bead.h"
#include "preview/scene/scene-parts.h"
#include <string.h>

static const BwVisit *
visit_at (const BwScene *scene, int i)
{
  return &g_array_index (scene->visits, BwVisit, i);
}

static int
bead_of (const BwScene *scene, const BwVisit *visit)
{
  return bw_scene_bead_index (scene, visit->in_bail, (int)visit->row, (int)visit->column);
}

/* A point of a bead: so far along its hole from its middle, so far outward. */
static void
beside (float to[3], const BwSceneBead *bead, float along, float outward)
{
  float axis[3], out[3];
  bw_bead_axis (bead, axis);
  bw_bead_out (bead, out);
  for (int i = 0; i < 3; i++)
    to[i] = bead->at[i] + axis[i] * along + out[i] * outward;
}

/* earlier: passes through the same hole before. */
static BwSceneLine
hole_of (const BwScene *scene, const BwVisit *visit, int earlier)
{
  BwSceneLine hole = { .strength = 1 };
  int index = bead_of (scene, visit);
  g_return_val_if_fail (index >= 0, hole);
  const BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, index);
  float room = MAX (scene->hole_radius - scene->thread_radius, 0);
  float half = visit->direction ? scene->bead_half_length : -scene->bead_half_length;
  float out = MIN ((float)earlier * 2 * scene->thread_radius, room);
  beside (hole.from, bead, -half, out);
  beside (hole.to, bead, half, out);
  return hole;
}

static float
length (const BwSceneLine *line)
{
  const float *a = line->from, *b = line->to;
  return hypotf (hypotf (a[0] - b[0], a[1] - b[1]), a[2] - b[2]);
}

/* Calls take for each visit with the line through its hole, and the link that leads to it. */
typedef void (*EachVisit) (int visit, const BwSceneLine *hole, const BwSceneLine *link,
                           gpointer data);

static void
each_visit (const BwScene *scene, int n, EachVisit take, gpointer data)
{
  g_autofree guint16 *passes = g_new0 (guint16, MAX (scene->beads->len, 1));
  BwSceneLine link = { .strength = 1 };
  for (int i = 0; i < n; i++) {
    const BwVisit *visit = visit_at (scene, i);
    BwSceneLine hole = hole_of (scene, visit, passes[bead_of (scene, visit)]++);
    memcpy (link.to, hole.from, sizeof link.to);
    take (i, &hole, &link, data);
    memcpy (link.from, hole.to, sizeof link.from);
  }
}

typedef struct {
  GArray *gaps;
  float longest;
} Gaps;

static void
note_gap (int visit, const BwSceneLine *hole, const BwSceneLine *link, gpointer data)
{
  const Gaps *gaps = data;
  guint at = (guint)visit;
  if (visit > 0 && length (link) >= gaps->longest)
    g_array_append_val (gaps->gaps, at);
}

void
bw_scene_add_thread (BwScene *scene, const BwPath *path, const BwDesign *design)
{
  Gaps gaps = { scene->thread_gaps, (float)(4 * design->gauge.pitch_mm) };
  scene->visits = g_array_ref (path->visits);
  scene->n_visits = (int)path->visits->len;
  each_visit (scene, scene->n_visits, note_gap, &gaps);
}

void
bw_scene_leave_bail_thread (BwScene *scene)
{
  int n = 0;
  while (n < scene->n_visits && !visit_at (scene, n)->in_bail)
    n++;
  scene->n_visits = n;
}

static guint
gaps_before (const BwScene *scene, int visit)
{
  guint n = 0;
  while (n < scene->thread_gaps->len && (int)g_array_index (scene->thread_gaps, guint, n) < visit)
    n++;
  return n;
}

int
bw_scene_thread_links (const BwScene *scene, int n)
{
  return MAX (n - 1, 0) - (int)gaps_before (scene, n);
}

typedef struct {
  const GArray *gaps;
  guint next_gap;
  GArray *holes, *links;
} Lines;

static void
write_lines (int visit, const BwSceneLine *hole, const BwSceneLine *link, gpointer data)
{
  Lines *lines = data;
  gboolean gap = lines->next_gap < lines->gaps->len
                 && (int)g_array_index (lines->gaps, guint, lines->next_gap) == visit;
  lines->next_gap += gap;
  if (lines->holes)
    g_array_append_vals (lines->holes, hole, 1);
  if (lines->links && visit > 0 && !gap)
    g_array_append_vals (lines->links, link, 1);
}

void
bw_scene_thread_lines (const BwScene *scene, int n, GArray *holes, GArray *links)
{
  Lines lines = { scene->thread_gaps, 0, holes, links };
  each_visit (scene, MIN (n, scene->n_visits), write_lines, &lines);
}

BwSceneLine
bw_scene_thread_hole (const BwScene *scene, int visit)
{
  const BwVisit *found = visit_at (scene, visit);
  int bead = bead_of (scene, found), earlier = 0;
  for (int i = 0; i < visit; i++)
    earlier += bead_of (scene, visit_at (scene, i)) == bead;
  return hole_of (scene, found, earlier);
}
