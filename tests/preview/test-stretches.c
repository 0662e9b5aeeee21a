/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Of very many beads those that may be seen, against what is asked of each bead alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/scene/hidden.h"
#include "preview/scene/stretches.h"

enum { WIDTH = 320, HEIGHT = 200 };

static float
reach_of (const BwScene *scene)
{
  return hypotf (scene->bead_radius, scene->bead_half_length);
}

/* The picture's sides widened by the bead's own size. */
static gboolean
touches_picture (const BwScene *scene, const BwEye *eye, const float at[3])
{
  double x, y;
  if (!bw_eye_project (eye, at, WIDTH, HEIGHT, &x, &y))
    return TRUE;
  double away = (double)glm_vec3_distance ((float *)eye->eye, (float *)at);
  double pixels = (double)reach_of (scene) / (away * (double)eye->pixel);
  return x > -pixels && y > -pixels && x < WIDTH + pixels && y < HEIGHT + pixels;
}

/* Which slots are in no run; the runs rise, part, and end with the beads. */
static gboolean *
left_out (const GArray *runs, int n)
{
  gboolean *out = g_new (gboolean, MAX (n, 1));
  int end = 0;
  for (int i = 0; i < n; i++)
    out[i] = TRUE;
  for (guint i = 0; i < runs->len; i++) {
    const BwStretchRun *run = &g_array_index (runs, BwStretchRun, i);
    assert_true (run->n > 0 && run->first >= end + (i > 0) && run->first + run->n <= n);
    end = run->first + run->n;
    for (int k = run->first; k < end; k++)
      out[k] = FALSE;
  }
  return out;
}

static gint32 *
sorted (const BwScene *scene)
{
  int n = (int)scene->beads->len;
  g_autofree gboolean *seen = g_new0 (gboolean, n);
  gint32 *order = g_new (gint32, n);
  for (int i = 0; i < n; i++)
    order[i] = i;
  bw_stretches_sort (scene, order, n);
  for (int i = 0; i < n; i++) {
    assert_in_range (order[i], 0, n - 1);
    assert_false (seen[order[i]]);
    seen[order[i]] = TRUE;
  }
  return order;
}

static int
check (const BwScene *scene, const BwEye *eye, const gint32 *order, gboolean stone)
{
  int n = (int)scene->beads->len, missing = 0;
  g_autoptr (GArray) stretches = bw_stretches_new (scene, order, n);
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (BwStretchRun));
  bw_stretches_seen (stretches, n, scene, eye, stone, runs);
  g_autofree gboolean *out = left_out (runs, n);
  for (int i = 0; i < n; i++) {
    const float *at = g_array_index (scene->beads, BwSceneBead, order[i]).at;
    if (!out[i])
      continue;
    missing++;
    assert_true (!touches_picture (scene, eye, at)
                 || (stone && bw_hidden_by_stone (scene, eye->eye, at, reach_of (scene))));
  }
  return missing;
}

static void
only_what_is_hidden_or_beside_the_picture_is_left_out (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    g_autofree gint32 *order = sorted (scene);
    for (int i = 0; i < 40; i++) {
      BwCamera camera = piece_camera (rand);
      BwEye eye;
      camera.zoom *= i % 2 ? 6 : 1;
      bw_eye_init (&eye, camera, scene, WIDTH, HEIGHT);
      check (scene, &eye, order, i % 4 != 0);
    }
  }
}

/* A good part of a band lies behind its stone, and most of it beside a picture of a few beads. */
static void
most_of_what_is_not_seen_is_left_out (void **state)
{
  g_autoptr (BwProject) project = piece_of_size (20000);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autofree gint32 *order = sorted (scene);
  int n = (int)scene->beads->len;
  BwEye eye;
  for (int turn = 0; turn < 360; turn += 30) {
    bw_eye_init (&eye, (BwCamera){ turn, 10, 1 }, scene, WIDTH, HEIGHT);
    assert_true (check (scene, &eye, order, TRUE) > n / 5);
    assert_true (check (scene, &eye, order, FALSE) == 0);
    bw_eye_init (&eye, (BwCamera){ turn, 10, 20 }, scene, WIDTH, HEIGHT);
    assert_true (check (scene, &eye, order, FALSE) > 2 * n / 3);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (only_what_is_hidden_or_beside_the_picture_is_left_out),
    cmocka_unit_test (most_of_what_is_not_seen_is_left_out),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
