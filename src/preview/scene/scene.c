/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the scene together and colours it. Geometry and colour are kept apart: a stroke of the brush
 * must not move a single bead. */
#include "preview/scene/scene.h"

#include "core/pattern/colour.h"
#include "core/base/lattice.h"
#include "preview/scene/scene-parts.h"
#include <string.h>

static GArray *
array_of (gsize size)
{
  return g_array_new (FALSE, FALSE, (guint)size);
}

static BwScene *
scene_empty (void)
{
  BwScene *scene = g_new0 (BwScene, 1);
  scene->stone = array_of (sizeof (BwSceneVertex));
  scene->stone_edges = array_of (sizeof (BwSceneLine));
  scene->stone_planes = array_of (sizeof (BwScenePlane));
  scene->bed = array_of (sizeof (BwSceneVertex));
  scene->beads = array_of (sizeof (BwSceneBead));
  scene->thread_gaps = array_of (sizeof (guint));
  scene->cord.stations = array_of (sizeof (BwSceneStation));
  scene->ring.stations = array_of (sizeof (BwSceneStation));
  scene->played = -1;
  return scene;
}

void
bw_scene_free (BwScene *scene)
{
  if (!scene)
    return;
  g_array_unref (scene->stone);
  g_array_unref (scene->stone_edges);
  g_array_unref (scene->stone_planes);
  g_array_unref (scene->bed);
  g_array_unref (scene->beads);
  g_clear_pointer (&scene->visits, g_array_unref);
  g_free (scene->born);
  g_array_unref (scene->thread_gaps);
  g_array_unref (scene->cord.stations);
  g_array_unref (scene->ring.stations);
  g_free (scene);
}

static void
set_sizes (BwScene *scene, const BwDesign *design)
{
  const BwBead *bead = &design->bead;
  BwBandSpan span = bw_design_span (design);
  double wall = (bead->diameter_mm - bead->hole_mm) / 2;
  scene->band_columns = design->band.columns;
  scene->bead_radius = (float)(bead->diameter_mm / 2);
  scene->bead_half_length = (float)(bead->length_mm / 2);
  scene->hole_radius = (float)(bead->hole_mm / 2);
  /* Fire-polished rims: common practice, no source. */
  scene->bead_rounding
      = (float)MIN (0.08 * bead->diameter_mm, MIN (0.45 * wall, 0.3 * bead->length_mm));
  scene->band_span[0] = (float)span.bottom_mm;
  scene->band_span[1] = (float)(span.bottom_mm + span.width_mm);
  scene->cord_width = (float)design->bed.cord_width_mm;
  scene->thread_radius = (float)(design->thread.diameter_mm / 2);
  scene->focus[2] = (float)bw_band_span_mid (span);
}

typedef void (*EachPoint) (BwScene *scene, const float at[3], float reach, float span[2]);

/* Calls take for each corner of the stone and each bead. */
static void
each_point (BwScene *scene, EachPoint take, float span[2])
{
  float reach = hypotf (scene->bead_radius, scene->bead_half_length);
  for (guint i = 0; i < scene->stone->len; i++)
    take (scene, g_array_index (scene->stone, BwSceneVertex, i).at, 0, span);
  for (guint i = 0; i < scene->beads->len; i++)
    take (scene, g_array_index (scene->beads, BwSceneBead, i).at, reach, span);
}

static void
take_height (BwScene *scene, const float at[3], float reach, float span[2])
{
  span[0] = MIN (span[0], at[2] - reach);
  span[1] = MAX (span[1], at[2] + reach);
}

static void
take_distance (BwScene *scene, const float at[3], float reach, float span[2])
{
  float off_axis2 = at[0] * at[0] + at[1] * at[1], up = at[2] - scene->centre[2];
  scene->breadth = MAX (scene->breadth, sqrtf (off_axis2) + reach);
  scene->radius = MAX (scene->radius, sqrtf (off_axis2 + up * up) + reach);
}

/* The centre stays on the axis even when a bail juts out: else the stone would swing while turned.
 */
static void
set_bounds (BwScene *scene)
{
  float span[2] = { INFINITY, -INFINITY };
  scene->breadth = scene->radius = 0;
  each_point (scene, take_height, span);
  scene->centre[2] = (span[0] + span[1]) / 2;
  each_point (scene, take_distance, span);
}

/* The bail's beads and what hangs by them; what they are laid on is there. */
static void
add_what_hangs (BwScene *scene, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwHang *hang = bw_project_hang (project);
  set_bounds (scene);
  bw_scene_add_cord (scene, hang, design);
  bw_scene_add_rest (scene, hang);
  bw_scene_stand_upright (scene);
  scene->made_for = *design;
}

/* Makers choose it close to the ground of the drawing (common practice, no source). */
static void
choose_thread (BwScene *scene, const BwTray *tray)
{
  BwLinear light = bw_colour_linear (tray->colour[0].srgb);
  const double part[3] = { light.r, light.g, light.b };
  for (int k = 0; k < 3; k++)
    scene->thread_colour[k] = (float)(0.04 + 0.8 * part[k]);
}

BwScene *
bw_scene_new (BwProject *project, gboolean colour_by_fit)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwScene *scene = scene_empty ();
  set_sizes (scene, design);
  scene->look = design->look;
  scene->nature = *bw_project_nature (project);
  bw_scene_add_stone (scene, stone, bw_project_get_mineral (project));
  bw_scene_add_bed (scene, design, stone);
  bw_scene_add_band (scene, bw_project_true_places (project), design);
  bw_scene_add_bail (scene, bw_project_hang (project), design);
  bw_scene_add_thread (scene, bw_project_path (project), design);
  add_what_hangs (scene, project);
  bw_scene_recolour (scene, project, colour_by_fit, NULL);
  choose_thread (scene, bw_project_get_tray (project));
  return scene;
}

/* How a bead looks. */
typedef struct {
  guint8 srgb[3], finish;
} Look;

/* The looks there are: one for each colour of the tray, and by fit one for each column. */
typedef struct {
  Look tray[BW_TRAY_MAX];
  int n_tray;
  Look column[BW_COLUMNS_MAX];
} Palette;

static Look
look_of (guint32 srgb, BwFinish finish)
{
  return (Look){ { srgb >> 16 & 255, srgb >> 8 & 255, srgb & 255 }, (guint8)finish };
}

static Look
look_of_colour (const BwColour *colour)
{
  return look_of (colour->srgb, colour->finish);
}

/* Dull, so that no highlight lightens what lightness has to tell. */
static Look
look_of_fit (const BwFitColumn *column, double slack_mm)
{
  Look look = { .finish = BW_FINISH_MATTE };
  float srgb[3];
  bw_scene_fit_colour (column, slack_mm, srgb);
  for (int i = 0; i < 3; i++)
    look.srgb[i] = (guint8)lroundf (CLAMP (srgb[i], 0, 1) * 255);
  return look;
}

static const BwTray *
tray_of (const BwScene *scene, BwProject *project)
{
  return scene->shown ? bw_project_shown_tray (project) : bw_project_get_tray (project);
}

static const BwDrawing *
band_of (const BwScene *scene, BwProject *project)
{
  return scene->shown ? bw_project_shown_drawing (project) : bw_project_get_drawing (project);
}

static void
palette_init (Palette *palette, BwProject *project, const BwTray *tray, gboolean by_fit)
{
  double slack = bw_project_get_design (project)->limits.slack_mm;
  palette->n_tray = tray->n_colours;
  for (int i = 0; i < tray->n_colours; i++)
    palette->tray[i] = look_of_colour (&tray->colour[i]);
  if (!by_fit)
    return;
  const BwFit *fit = bw_project_fit (project);
  for (int i = 0; i < fit->n_columns; i++)
    palette->column[i] = look_of_fit (&fit->column[i], slack);
}

/* What is woven recedes: dark and dull, its colour still to be told. */
static Look
dimmed (Look look)
{
  const guint8 *c = look.srgb;
  BwLinear light = bw_colour_linear ((guint32)(c[0] << 16 | c[1] << 8 | c[2]));
  BwLinear dim = { 0.22 * light.r + 0.02, 0.22 * light.g + 0.02, 0.22 * light.b + 0.02 };
  return look_of (bw_colour_srgb (dim), BW_FINISH_MATTE);
}

static gboolean
is_dimmed (const BwScene *scene, int index)
{
  return index < scene->n_band && index < scene->woven * (scene->band_columns / 2);
}

/* FALSE when it looked so already. */
static gboolean
paint (BwSceneBead *bead, const Look *look)
{
  if (!memcmp (bead->srgb, look->srgb, sizeof look->srgb) && bead->finish == look->finish)
    return FALSE;
  memcpy (bead->srgb, look->srgb, sizeof look->srgb);
  bead->finish = look->finish;
  return TRUE;
}

/* Gives a bead its look; notes it when it looks otherwise now. */
static void
show (BwScene *scene, int index, Look look, GArray *changed)
{
  BwSceneBead *bead = &g_array_index (scene->beads, BwSceneBead, index);
  if (is_dimmed (scene, index))
    look = dimmed (look);
  scene->looked++;
  if (paint (bead, &look) && changed)
    g_array_append_val (changed, index);
}

/* From one bead on. */
static void
recolour_from (BwScene *scene, BwProject *project, gboolean colour_by_fit, guint first,
               GArray *changed)
{
  const BwDrawing *band = band_of (scene, project);
  const BwDrawing *bail = bw_project_get_bail_drawing (project);
  g_autofree Palette *palette = g_new (Palette, 1);
  palette_init (palette, project, tray_of (scene, project), colour_by_fit);
  scene->colour_by_fit = colour_by_fit;
  for (guint i = first; i < scene->beads->len; i++) {
    BwBeadOf bead = bw_scene_bead_of (scene, (int)i);
    int cell = bw_drawing_get (bead.in_bail ? bail : band, bead.row, bead.column);
    gboolean by_column = colour_by_fit && !bead.in_bail;
    show (scene, (int)i,
          by_column ? palette->column[bead.column - 1]
                    : palette->tray[MIN (cell, palette->n_tray - 1)],
          changed);
  }
}

void
bw_scene_recolour (BwScene *scene, BwProject *project, gboolean colour_by_fit, GArray *changed)
{
  recolour_from (scene, project, colour_by_fit, 0, changed);
}

static gboolean
differs_in_bail_alone (const BwDesign *a, const BwDesign *b)
{
  BwDesign same = *a;
  same.bail = b->bail;
  return !memcmp (&same, b, sizeof same);
}

gboolean
bw_scene_follow_bail (BwScene *scene, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  if (scene->played >= 0 || !differs_in_bail_alone (&scene->made_for, design))
    return FALSE;
  g_array_set_size (scene->beads, (guint)scene->n_band);
  g_array_set_size (scene->ring.stations, 0);
  scene->bail_columns = 0;
  scene->seat = (BwSceneSeat){ .radius = 0 };
  scene->rest = (BwSceneRest){ .hangs = FALSE };
  g_clear_pointer (&scene->born, g_free);
  bw_scene_leave_bail_thread (scene);
  bw_scene_add_bail (scene, bw_project_hang (project), design);
  add_what_hangs (scene, project);
  recolour_from (scene, project, scene->colour_by_fit, (guint)scene->n_band, NULL);
  scene->lacks_thread = TRUE;
  return TRUE;
}

void
bw_scene_recolour_beads (BwScene *scene, BwProject *project, const GArray *beads, GArray *changed)
{
  const BwTray *tray = tray_of (scene, project);
  const BwDrawing *band = band_of (scene, project);
  const BwDrawing *bail = bw_project_get_bail_drawing (project);
  for (guint i = 0; i < beads->len; i++) {
    const BwBeadOf *bead = &g_array_index (beads, BwBeadOf, i);
    int index = bw_scene_bead_index (scene, bead->in_bail, bead->row, bead->column);
    if (index < 0 || (scene->colour_by_fit && !bead->in_bail))
      continue;
    int cell = bw_drawing_get (bead->in_bail ? bail : band, bead->row, bead->column);
    show (scene, index, look_of_colour (&tray->colour[MIN (cell, tray->n_colours - 1)]), changed);
  }
}
