/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scene against the core it is built from. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/pattern/colour.h"
#include "core/base/lattice.h"
#include "core/band/ring.h"
#include "pieces.h"
#include "preview/scene/scene-parts.h"
#include "preview/scene/shadow.h"
#include "preview/scene/played.h"
#include "preview/scene/scene-bead.h"
#include "preview/scene/scene-thread.h"
#include <string.h>

static const BwSceneBead *
bead (const BwScene *scene, int index)
{
  return &g_array_index (scene->beads, BwSceneBead, index);
}

static BwVec3
wide (const float v[3])
{
  return bw_vec3 ((double)v[0], (double)v[1], (double)v[2]);
}

static double
apart (BwVec3 a, BwVec3 b)
{
  return bw_vec3_length (bw_vec3_sub (a, b));
}

static BwVec3
axis_of (const BwSceneBead *bead)
{
  float axis[3];
  bw_bead_axis (bead, axis);
  return wide (axis);
}

static BwVec3
out_of (const BwSceneBead *bead)
{
  float out[3];
  bw_bead_out (bead, out);
  return wide (out);
}

static void
every_bead_of_the_band_is_at_its_place (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwPlaces *places = bw_project_true_places (project);
    assert_int_equal (scene->n_band, places->rows * places->columns / 2);
    assert_int_equal ((int)scene->beads->len - scene->n_band,
                      bw_bail_bead_count (&bw_project_get_design (project)->bail));
    for (int row = 1; row <= places->rows; row++)
      for (int j = 0; j < places->columns / 2; j++) {
        int column = bw_lattice_column (row, j);
        int index = bw_scene_bead_index (scene, FALSE, row, column);
        BwPlace place = bw_places_get (places, row, column);
        assert_in_range (index, 0, scene->n_band - 1);
        BwBeadOf of = bw_scene_bead_of (scene, index);
        assert_true (!of.in_bail && of.row == row && of.column == column);
        assert_true (apart (wide (bead (scene, index)->at), place.at) < 1e-4);
        assert_true (fabs (out_of (bead (scene, index)).x - place.normal.x) < 2e-5);
      }
  }
}

static void
a_place_off_the_lattice_has_no_bead (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int rows = scene->n_band / (scene->band_columns / 2);
  assert_int_equal (bw_scene_bead_index (scene, FALSE, 1, 1), -1);
  assert_int_equal (bw_scene_bead_index (scene, FALSE, 2, 2), -1);
  assert_int_equal (bw_scene_bead_index (scene, FALSE, 0, 1), -1);
  assert_int_equal (bw_scene_bead_index (scene, FALSE, rows + 1, 2 - rows % 2), -1);
  assert_int_equal (bw_scene_bead_index (scene, FALSE, 1, scene->band_columns + 2), -1);
  assert_int_equal (bw_scene_bead_index (scene, TRUE, 1, scene->bail_columns + 2), -1);
  g_autoptr (BwProject) bare = piece_new (3);
  g_autoptr (BwScene) without = bw_scene_new (bare, FALSE);
  assert_int_equal (bw_scene_bead_index (without, TRUE, 1, 2), -1);
}

/* The middle of each row of the bail, and its direction of holes. */
static BwVec3
row_middle (const BwScene *scene, const BwDesign *design, int row)
{
  /* A row holds every other column: its middle lies half a column off the strip's own. */
  BwVec3 sum = bw_vec3 (0, 0, 0);
  int n = design->bail.columns / 2;
  for (int j = 0; j < n; j++) {
    int column = bw_lattice_column (row, j), index = bw_scene_bead_index (scene, TRUE, row, column);
    const BwSceneBead *b = bead (scene, index);
    BwBeadOf of = bw_scene_bead_of (scene, index);
    double off = ((design->bail.columns + 1) / 2.0 - column) * design->gauge.column_mm;
    assert_true (of.in_bail && of.row == row && of.column == column);
    sum = bw_vec3_add (sum, bw_vec3_add (wide (b->at), bw_vec3_scale (axis_of (b), off)));
  }
  return bw_vec3_scale (sum, 1.0 / n);
}

static void
the_bail_is_an_arc_of_its_own_length_on_its_own_base (void **state)
{
  const int with_bail[] = { 0, 1, 2, 4 };
  for (gsize k = 0; k < G_N_ELEMENTS (with_bail); k++) {
    g_autoptr (BwProject) project = piece_new (with_bail[k]);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwDesign *design = bw_project_get_design (project);
    const BwHang *hang = bw_project_hang (project);
    const BwLoop *loop = &hang->loop;
    double step = 2 * loop->radius_mm * sin (design->gauge.pitch_mm / 4 / loop->radius_mm);
    double at = bw_radians (design->bail.at_deg), farthest = 0;
    for (int row = 1; row <= design->bail.rows; row++) {
      BwVec3 here = row_middle (scene, design, row);
      farthest = MAX (farthest, here.x * cos (at) + here.y * sin (at));
      if (row > 1)
        assert_true (fabs (apart (here, row_middle (scene, design, row - 1)) - step) < 1e-4);
    }
    /* The last bead and the first lie a step inside the ends of the base. */
    double inner = 2 * loop->radius_mm
                   * fabs (sin (loop->half_angle - design->gauge.pitch_mm / 2 / loop->radius_mm));
    assert_true (
        fabs (apart (row_middle (scene, design, 1), row_middle (scene, design, design->bail.rows))
              - inner)
        < 1e-4);
    /* The summit's inner side is where it hangs. */
    double pivot = hypot (hang->pivot.x, hang->pivot.y) + design->bead.diameter_mm / 2;
    double sagitta
        = design->bail.rows % 2
              ? 0
              : loop->radius_mm * (1 - cos (design->gauge.pitch_mm / 4 / loop->radius_mm));
    assert_true (fabs (farthest - (pivot - sagitta)) < 1e-3);
  }
}

/* From the band's bead to the strip's, as the needle goes, it is never farther than a bead's length
 * and its diameter: the needle and the picture agree which way the strip's columns run. */
static void
a_strip_stands_in_the_picture_where_its_ends_are_sewn (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (94);
  int sewn[2] = { 0 };
  for (int k = 0; k < 80; k++) {
    gboolean over = k % 2;
    g_autoptr (BwProject) project = piece_random (rand, over ? BW_BAIL_OVER : BW_BAIL_UPRIGHT);
    BwDesign design = *bw_project_get_design (project);
    if (over)
      bw_bail_reach_over (&design, bw_project_stone (project));
    design.bail.columns = 6;
    assert_true (bw_project_set_design (project, "", &design, NULL));
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const GArray *visits = bw_project_path (project)->visits;
    if (bw_project_hang (project)->frame.twist_deg > 10)
      continue;
    for (guint i = 1; i < visits->len; i++) {
      const BwVisit *from = &g_array_index (visits, BwVisit, i - 1), *to = from + 1;
      if (to->part != BW_PART_ATTACHMENT || from->part != to->part || from->in_bail || !to->in_bail)
        continue;
      const BwSceneBead *under
          = bead (scene, bw_scene_bead_index (scene, FALSE, from->row, from->column));
      const BwSceneBead *strip
          = bead (scene, bw_scene_bead_index (scene, TRUE, to->row, to->column));
      assert_true (apart (wide (under->at), wide (strip->at)) < 3.4);
      sewn[over]++;
    }
  }
  assert_true (sewn[0] > 100 && sewn[1] > 100);
}

static void
holes_run_along_the_stone_or_across_it (void **state)
{
  g_autoptr (BwProject) flap = piece_new (0), upright = piece_new (2);
  g_autoptr (BwScene) one = bw_scene_new (flap, FALSE), other = bw_scene_new (upright, FALSE);
  double at = bw_radians (bw_project_get_design (upright)->bail.at_deg);
  for (guint i = (guint)one->n_band; i < one->beads->len; i++)
    assert_true (axis_of (bead (one, (int)i)).z > 0.999);
  for (guint i = (guint)other->n_band; i < other->beads->len; i++) {
    BwVec3 axis = axis_of (bead (other, (int)i));
    assert_true (fabs (axis.z) < 2e-5);
    assert_true (fabs (axis.x * cos (at) + axis.y * sin (at)) < 4e-5);
  }
}

static void
same_colours (const BwScene *a, const BwScene *b)
{
  assert_int_equal (a->beads->len, b->beads->len);
  for (guint i = 0; i < a->beads->len; i++) {
    const BwSceneBead *x = bead (a, (int)i), *y = bead (b, (int)i);
    assert_memory_equal (x->srgb, y->srgb, sizeof x->srgb);
    assert_true (x->finish == y->finish);
  }
}

static void
recolouring_gives_what_building_anew_gives (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  int rows = bw_project_get_design (project)->band.rows;
  bw_scene_recolour (scene, project, FALSE, changed);
  assert_int_equal (changed->len, 0);
  assert_true (bw_project_set_bead (project, "", FALSE, 7, 2, 1));
  assert_true (bw_project_set_bead (project, "", FALSE, rows, 1, 1));
  assert_true (bw_project_set_bead (project, "", TRUE, 3, 2, 6));
  bw_scene_recolour (scene, project, FALSE, changed);
  assert_int_equal (changed->len, 3);
  assert_int_equal (g_array_index (changed, int, 0), bw_scene_bead_index (scene, FALSE, 7, 2));
  assert_int_equal (g_array_index (changed, int, 2), bw_scene_bead_index (scene, TRUE, 3, 2));
  g_autoptr (BwScene) anew = bw_scene_new (project, FALSE);
  same_colours (scene, anew);
  bw_scene_recolour (scene, project, TRUE, NULL);
  g_autoptr (BwScene) by_fit = bw_scene_new (project, TRUE);
  same_colours (scene, by_fit);
}

static void
painted_beads_touch_those_beads_alone (void **state)
{
  g_autoptr (BwProject) project = piece_new (1);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  guint64 seen = 0, looked = scene->looked;
  int rows = bw_project_get_design (project)->band.rows;
  assert_false (bw_project_touched (project, &seen, beads));
  assert_true (bw_project_set_bead (project, "", TRUE, 5, 4, 6));
  assert_true (bw_project_set_bead (project, "", FALSE, 1, 4, 0));
  assert_true (bw_project_set_bead (project, "", FALSE, rows, 3, 2));
  assert_true (bw_project_touched (project, &seen, beads));
  bw_scene_recolour_beads (scene, project, beads, changed);
  assert_int_equal (scene->looked - looked, beads->len);
  assert_in_range (beads->len, changed->len, 3);
  g_autoptr (BwScene) anew = bw_scene_new (project, FALSE);
  same_colours (scene, anew);
  /* What is not there is passed over. */
  BwBeadOf gone = { FALSE, rows + 2, 3 };
  g_array_append_val (beads, gone);
  bw_scene_recolour_beads (scene, project, beads, NULL);
  same_colours (scene, anew);
}

static void
a_bead_has_the_linear_light_of_its_tray_colour (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const BwTray *tray = bw_project_get_tray (project);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  for (int i = 0; i < scene->n_band; i++) {
    const BwSceneBead *b = bead (scene, i);
    BwBeadOf of = bw_scene_bead_of (scene, i);
    const BwColour *colour = &tray->colour[bw_drawing_get (drawing, of.row, of.column)];
    BwLinear linear = bw_colour_linear (colour->srgb);
    float light[3];
    bw_bead_light (b, light);
    assert_true (fabs ((double)light[0] - linear.r) < 1e-6);
    assert_true (fabs ((double)light[2] - linear.b) < 1e-6);
    assert_int_equal ((int)b->finish, (int)colour->finish);
  }
}

static double
lightness_of_fit (double gap, gboolean closes, gboolean grips)
{
  BwFitColumn column = { .gap_mm = gap, .pull_mm = 1.2, .closes = closes, .grips = grips };
  float srgb[3];
  bw_scene_fit_colour (&column, 0.8, srgb);
  BwLinear light = { bw_colour_decode ((double)srgb[0]), bw_colour_decode ((double)srgb[1]),
                     bw_colour_decode ((double)srgb[2]) };
  return bw_colour_lab_from_linear (light).L;
}

static void
fit_reads_by_lightness_alone (void **state)
{
  double last = 101;
  for (double gap = -4; gap <= 5; gap += 0.05) {
    double L = lightness_of_fit (gap, gap <= 1.2, gap >= -0.8);
    assert_true (L <= last + 1e-9);
    last = L;
  }
  /* The middles of the three verdicts lie well apart. */
  double loose = lightness_of_fit (-1.6, TRUE, FALSE), snug = lightness_of_fit (0, TRUE, TRUE);
  double tight = lightness_of_fit (2.4, FALSE, TRUE);
  assert_true (loose - snug > 15 && snug - tight > 15);
}

/* Six times the volume under the triangles. */
static double
volume (const GArray *triangles)
{
  double sum = 0;
  for (guint i = 0; i + 2 < triangles->len; i += 3) {
    const BwSceneVertex *v = &g_array_index (triangles, BwSceneVertex, i);
    sum += bw_vec3_dot (wide (v[0].at), bw_vec3_cross (wide (v[1].at), wide (v[2].at)));
  }
  return sum / 6;
}

static void
the_triangles_of_the_stone_hold_its_volume (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwStone *stone = bw_project_stone (project);
    assert_int_equal (scene->stone_planes->len, stone->n_polygons);
    assert_true (fabs (volume (scene->stone) / stone->volume_mm3 - 1) < 1e-4);
    for (guint i = 0; i < scene->stone->len; i++) {
      const BwSceneVertex *v = &g_array_index (scene->stone, BwSceneVertex, i);
      for (guint f = 0; f < scene->stone_planes->len; f++) {
        const BwScenePlane *plane = &g_array_index (scene->stone_planes, BwScenePlane, f);
        assert_true (bw_vec3_dot (wide (plane->normal), wide (v->at))
                     < (double)plane->distance + 1e-3);
      }
    }
  }
}

static void
edges_show_by_how_sharp_they_are (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GError) error = NULL;
  /* Six sides turn by 60°, the point by some 35°, a flat base by 90°: all of them sharp. */
  for (guint i = 0; i < scene->stone_edges->len; i++) {
    const BwSceneLine *edge = &g_array_index (scene->stone_edges, BwSceneLine, i);
    assert_true (edge->strength > 0.6f && edge->strength <= 1);
  }
  BwDesign design = *bw_project_get_design (project);
  design.stone.faces = 48;
  assert_true (bw_project_set_design (project, "", &design, &error));
  g_autoptr (BwScene) round = bw_scene_new (project, FALSE);
  int faint = 0;
  for (guint i = 0; i < round->stone_edges->len; i++)
    faint += g_array_index (round->stone_edges, BwSceneLine, i).strength < 0.2f;
  /* Along the prism and up the point. */
  assert_int_equal (faint, 96);
}

/* The sleeve between two heights holds Σ (g t + π t²) dz, by Steiner's formula for parallel bodies
 * (P. M. Gruber, Convex and Discrete Geometry, Springer 2007, §6). */
static double
sleeve_volume (BwProject *project, double low, double high)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwBedding bedding;
  double sum = 0;
  int steps = 400;
  assert_true (bw_bedding_init (&bedding, &design->bed, stone, bw_design_span (design), NULL));
  for (int i = 0; i < steps; i++) {
    double z = low + (high - low) * (i + 0.5) / steps, t = bw_bedding_thickness (&bedding, z);
    BwSection section;
    bw_section_init (&section, stone, z);
    sum += (section.girth_mm * t + G_PI * t * t) * (high - low) / steps;
  }
  return sum;
}

static void
the_bed_is_a_closed_sleeve_of_its_thickness (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    const BwDesign *design = bw_project_get_design (project);
    BwBandSpan span = bw_design_span (design);
    assert_true (fabs ((double)scene->bed_span[0] - span.bottom_mm - design->bed.overhang_mm)
                 < 1e-4);
    double wanted = sleeve_volume (project, (double)scene->bed_span[0], (double)scene->bed_span[1]);
    assert_true (fabs (volume (scene->bed) / wanted - 1) < 5e-3);
  }
}

static void
a_band_without_a_bed_has_no_sleeve (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (GError) error = NULL;
  BwDesign design = *bw_project_get_design (project);
  design.bed.layers = 0;
  assert_true (bw_project_set_design (project, "", &design, &error));
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  assert_int_equal (scene->bed->len, 0);
  assert_true (scene->bed_span[0] == scene->bed_span[1]);
}

static void
the_sphere_holds_the_whole_piece (void **state)
{
  for (int piece = 0; piece < N_PIECES; piece++) {
    g_autoptr (BwProject) project = piece_new (piece);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    double reach = hypot ((double)scene->bead_radius, (double)scene->bead_half_length);
    for (guint i = 0; i < scene->beads->len; i++)
      assert_true (apart (wide (bead (scene, (int)i)->at), wide (scene->centre)) + reach
                   < (double)scene->radius + 1e-3);
    for (guint i = 0; i < scene->stone->len; i++)
      assert_true (
          apart (wide (g_array_index (scene->stone, BwSceneVertex, i).at), wide (scene->centre))
          < (double)scene->radius + 1e-3);
  }
}

static void
the_thread_goes_through_every_visited_hole (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const BwPath *path = bw_project_path (project);
  double length = 2 * (double)scene->bead_half_length, hole = (double)scene->hole_radius;
  g_autoptr (GArray) holes = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  bw_scene_thread_lines (scene, scene->n_visits, holes, NULL);
  assert_int_equal (holes->len, path->visits->len);
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    const BwSceneLine *line = &g_array_index (holes, BwSceneLine, i);
    BwSceneLine alone = bw_scene_thread_hole (scene, (int)i);
    assert_memory_equal (&alone, line, sizeof alone);
    const BwSceneBead *b
        = bead (scene, bw_scene_bead_index (scene, visit->in_bail, visit->row, visit->column));
    BwVec3 from = wide (line->from), to = wide (line->to);
    BwVec3 along = bw_vec3_scale (axis_of (b), visit->direction ? 1 : -1);
    assert_true (apart (bw_vec3_scale (bw_vec3_add (from, to), 0.5), wide (b->at)) < hole);
    assert_true (apart (bw_vec3_sub (to, from), bw_vec3_scale (along, length)) < 1e-4);
  }
}

static void
the_thread_links_each_bead_to_the_next (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  g_autoptr (GArray) holes = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  guint hole = 0;
  bw_scene_thread_lines (scene, scene->n_visits, holes, links);
  assert_int_equal (bw_scene_thread_links (scene, scene->n_visits), links->len);
  assert_true (links->len > 0.9 * holes->len);
  for (guint i = 0; i < links->len; i++) {
    const BwSceneLine *link = &g_array_index (links, BwSceneLine, i);
    const BwSceneLine *here;
    /* Links come in the order of the holes; where a new length of thread begins one is left out. */
    do
      here = &g_array_index (holes, BwSceneLine, hole);
    while (memcmp (link->from, here->to, sizeof link->from) && ++hole + 1 < holes->len);
    assert_true (hole + 1 < holes->len);
    assert_memory_equal (link->to, (here + 1)->from, sizeof link->to);
    hole++;
  }
}

static void
a_named_mineral_has_its_colour_and_another_is_clear (void **state)
{
  float amethyst[3], smoky[3], quartz[3], unknown[3];
  bw_mineral_keeps ("Amethyst", amethyst);
  bw_mineral_keeps ("smoky quartz", smoky);
  bw_mineral_keeps ("quartz", quartz);
  bw_mineral_keeps ("Zinnober?", unknown);
  assert_true (amethyst[1] < amethyst[0] && amethyst[1] < amethyst[2]);
  assert_true (smoky[0] < quartz[0] && smoky[2] < smoky[0]);
  assert_memory_equal (quartz, unknown, sizeof quartz);
  bw_mineral_keeps (NULL, unknown);
  assert_memory_equal (quartz, unknown, sizeof quartz);
}

/* So that passes can be told apart, each later one lies farther out, as far as the hole has room.
 */
static void
every_further_pass_through_a_hole_lies_farther_out (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  const BwPath *path = bw_project_path (project);
  g_autofree float *last = g_new0 (float, scene->beads->len);
  g_autofree gboolean *seen = g_new0 (gboolean, scene->beads->len);
  g_autoptr (GArray) holes = g_array_new (FALSE, FALSE, sizeof (BwSceneLine));
  int n = 0;
  bw_scene_thread_lines (scene, scene->n_visits, holes, NULL);
  for (guint i = 0; i < path->visits->len; i++) {
    const BwVisit *visit = &g_array_index (path->visits, BwVisit, i);
    const BwSceneLine *line = &g_array_index (holes, BwSceneLine, i);
    int index = bw_scene_bead_index (scene, visit->in_bail, visit->row, visit->column);
    const BwSceneBead *b = bead (scene, index);
    float out = 0, away[3];
    bw_bead_out (b, away);
    for (int k = 0; k < 3; k++)
      out += ((line->from[k] + line->to[k]) / 2 - b->at[k]) * away[k];
    if (!seen[index])
      assert_true (fabsf (out) < 1e-4f);
    else if (last[index] < scene->hole_radius - 3.1f * scene->thread_radius) {
      assert_true (out > last[index] + scene->thread_radius);
      n++;
    }
    seen[index] = TRUE;
    last[index] = out;
  }
  assert_true (n > 0);
}

static void
a_bed_over_the_shoulder_bends_there (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  BwDesign design = *bw_project_get_design (project);
  const double shoulder = bw_project_stone (project)->shoulder_mm;
  design.bail.style = BW_BAIL_NONE;
  design.band.bottom_mm = shoulder - bw_design_span (&design).width_mm / 2 - 0.37;
  assert_true (bw_project_set_design (project, "Lift", &design, NULL));
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  int n = 0;
  assert_true (scene->bed->len > 0);
  for (guint i = 0; i < scene->bed->len; i++)
    n += fabs ((double)g_array_index (scene->bed, BwSceneVertex, i).at[2] - shoulder) < 1e-4;
  assert_true (n > 0);
}

/* --- Its shadow --------------------------------------------------------------------------------
 */

static int
shadows_of (const BwScene *scene, double tip_deg, guint layers, BwShadow shadow[BW_SHADOWS_MAX])
{
  BwEye eye;
  BwCamera camera = { 30, tip_deg, 1 };
  bw_eye_init (&eye, camera, scene, 300, 400);
  return bw_shadows (scene, &eye, camera, layers, 300, 400, shadow);
}

/* Wider than the stone and flat, about the place it stands on; the one that touches is smaller. */
static void
a_standing_piece_has_its_shadow_at_its_foot (void **state)
{
  for (int which = 0; which < N_PIECES; which++) {
    g_autoptr (BwProject) project = piece_new (which);
    g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
    BwShadow shadow[BW_SHADOWS_MAX];
    assert_int_equal (shadows_of (scene, 15, BW_LAYER_ALL, shadow), 3);
    assert_true (shadow[0].across > shadow[1].across);
    for (int i = 0; i < 2; i++) {
      assert_true (shadow[i].y > 200 && shadow[i].y < 400);
      assert_true (fabs (shadow[i].upright / shadow[i].across - sin (bw_radians (15))) < 1e-6);
      assert_true (shadow[i].strength > 0.1 && shadow[i].strength < 0.6);
    }
  }
}

static void
without_a_foot_to_be_seen_there_is_no_shadow (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  g_autoptr (BwProject) project = piece_random (rand, BW_BAIL_FLAP);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwShadow shadow[BW_SHADOWS_MAX];
  assert_int_equal (shadows_of (scene, -40, BW_LAYER_ALL, shadow), 0);
  assert_int_equal (shadows_of (scene, 15, BW_LAYER_ALL & ~(guint)BW_LAYER_STONE, shadow), 0);
  bw_scene_stand_at_rest (scene);
  assert_int_equal (shadows_of (scene, 15, BW_LAYER_ALL, shadow), 0);
  bw_scene_stand_swinging (scene, 0.2, 0.5);
  assert_int_equal (shadows_of (scene, 15, BW_LAYER_ALL, shadow), 0);
  bw_scene_stand_upright (scene);
  assert_int_equal (shadows_of (scene, 15, BW_LAYER_ALL, shadow), 3);
}

/* Clear stone gathers light in its shadow, in its own colour; what lets none through does not. */
static void
a_clear_stone_glows_in_its_shadow (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  bw_project_set_mineral (project, "Mineral", "citrine");
  g_autoptr (BwScene) citrine = bw_scene_new (project, FALSE);
  BwShadow shadow[BW_SHADOWS_MAX];
  assert_int_equal (shadows_of (citrine, 15, BW_LAYER_ALL, shadow), 3);
  assert_true (shadow[2].glows && !shadow[0].glows && !shadow[1].glows);
  assert_true (shadow[2].rgb[0] > shadow[2].rgb[2] + 0.1);
  assert_true (fabs (shadow[2].x - shadow[0].x) < shadow[0].across);
  bw_project_set_mineral (project, "Mineral", "obsidian");
  g_autoptr (BwScene) obsidian = bw_scene_new (project, FALSE);
  assert_int_equal (shadows_of (obsidian, 15, BW_LAYER_ALL, shadow), 2);
}

/* By day all edges are one cool white; in the dark an amethyst's are violet. */
static void
edges_gleam_in_the_stones_own_colour_in_the_dark (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  bw_project_set_mineral (project, "Mineral", "amethyst");
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  float day[3], dark[3];
  bw_scene_edge_light (scene, day);
  scene->on_dark = TRUE;
  bw_scene_edge_light (scene, dark);
  assert_true (day[1] > 0.9f * day[2] && day[1] > 0.9f * day[0]);
  assert_true (dark[1] < 0.65f * dark[2] && dark[1] < dark[0]);
}

static void
scenes_are_alike (const BwScene *a, const BwScene *b)
{
  assert_int_equal (a->beads->len, b->beads->len);
  for (guint i = 0; i < a->beads->len; i++) {
    assert_memory_equal (bead (a, (int)i), bead (b, (int)i), sizeof (BwSceneBead));
  }
  assert_int_equal (a->bail_columns, b->bail_columns);
  assert_true (a->radius == b->radius && a->breadth == b->breadth && a->centre[2] == b->centre[2]);
  assert_memory_equal (&a->seat, &b->seat, sizeof a->seat);
  assert_memory_equal (&a->rest, &b->rest, sizeof a->rest);
  assert_memory_equal (&a->stance, &b->stance, sizeof a->stance);
  assert_int_equal (a->ring.stations->len, b->ring.stations->len);
  if (a->ring.stations->len > 0)
    assert_memory_equal (a->ring.stations->data, b->ring.stations->data,
                         a->ring.stations->len * sizeof (BwSceneStation));
}

/* Dragged to and fro, made wider, turned into a ring and taken away. */
static void
a_followed_bail_is_that_of_a_new_scene (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  for (int i = 0; i < 60; i++) {
    static const BwBailStyle styles[]
        = { BW_BAIL_FLAP, BW_BAIL_RING, BW_BAIL_UPRIGHT, BW_BAIL_NONE };
    BwDesign design = *bw_project_get_design (project);
    design.bail.at_deg = g_rand_double_range (rand, 0, 360);
    design.bail.style = styles[i / 6 % (int)G_N_ELEMENTS (styles)];
    design.bail.rows = 17 + 2 * (i % 3);
    if (!bw_project_set_design (project, "Bail", &design, NULL))
      continue;
    assert_true (bw_scene_follow_bail (scene, project));
    assert_true (scene->lacks_thread);
    assert_true (scene->n_visits >= scene->n_band);
    g_autoptr (BwScene) anew = bw_scene_new (project, FALSE);
    assert_false (anew->lacks_thread);
    scenes_are_alike (scene, anew);
  }
}

static void
what_is_more_than_a_bail_is_not_followed (void **state)
{
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwDesign design = *bw_project_get_design (project);
  design.bail.at_deg += 10;
  design.stone.values_mm[0] += 1;
  assert_true (bw_project_set_design (project, "Stone", &design, NULL));
  int visits = scene->n_visits;
  assert_false (bw_scene_follow_bail (scene, project));
  assert_int_equal (scene->n_visits, visits);
  assert_false (scene->lacks_thread);
  g_autoptr (BwScene) anew = bw_scene_new (project, FALSE);
  bw_scene_play (anew, 5);
  design.bail.at_deg += 10;
  assert_true (bw_project_set_design (project, "Bail", &design, NULL));
  assert_false (bw_scene_follow_bail (anew, project));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_further_pass_through_a_hole_lies_farther_out),
    cmocka_unit_test (a_bed_over_the_shoulder_bends_there),
    cmocka_unit_test (every_bead_of_the_band_is_at_its_place),
    cmocka_unit_test (a_place_off_the_lattice_has_no_bead),
    cmocka_unit_test (the_bail_is_an_arc_of_its_own_length_on_its_own_base),
    cmocka_unit_test (a_strip_stands_in_the_picture_where_its_ends_are_sewn),
    cmocka_unit_test (holes_run_along_the_stone_or_across_it),
    cmocka_unit_test (recolouring_gives_what_building_anew_gives),
    cmocka_unit_test (painted_beads_touch_those_beads_alone),
    cmocka_unit_test (a_bead_has_the_linear_light_of_its_tray_colour),
    cmocka_unit_test (fit_reads_by_lightness_alone),
    cmocka_unit_test (the_triangles_of_the_stone_hold_its_volume),
    cmocka_unit_test (edges_show_by_how_sharp_they_are),
    cmocka_unit_test (the_bed_is_a_closed_sleeve_of_its_thickness),
    cmocka_unit_test (a_band_without_a_bed_has_no_sleeve),
    cmocka_unit_test (the_sphere_holds_the_whole_piece),
    cmocka_unit_test (the_thread_goes_through_every_visited_hole),
    cmocka_unit_test (the_thread_links_each_bead_to_the_next),
    cmocka_unit_test (a_named_mineral_has_its_colour_and_another_is_clear),
    cmocka_unit_test (a_standing_piece_has_its_shadow_at_its_foot),
    cmocka_unit_test (without_a_foot_to_be_seen_there_is_no_shadow),
    cmocka_unit_test (a_clear_stone_glows_in_its_shadow),
    cmocka_unit_test (edges_gleam_in_the_stones_own_colour_in_the_dark),
    cmocka_unit_test (a_followed_bail_is_that_of_a_new_scene),
    cmocka_unit_test (what_is_more_than_a_bail_is_not_followed),
  };
  return cmocka_run_group_tests_name ("scene", tests, NULL, NULL);
}
