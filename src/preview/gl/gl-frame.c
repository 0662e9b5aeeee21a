/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Day and lamp: two tables of lights, in the eye's space (x right, y up, z towards the viewer). */
#include "preview/gl/gl-frame.h"

#include "core/pattern/colour.h"
#include "core/pattern/tint.h"
#include <string.h>

/* How much of what lies straight behind the stone shows; the rest is the room's. On a dark ground a
 * photographer lights the stone from the sides and behind. */
#define SEEN_ON_PAPER 0.86f
#define SEEN_ON_DARK 0.55f

const float bw_cord_colour[3] = { 0.47f, 0.36f, 0.235f };

typedef struct {
  float sky[3], horizon[3], ground[3];
  float key_dir[3], key[3], key_width;
  float rim_dir[3], rim[3], rim_width;
} Lights;

/* A north window at the left, a white card at the right; a table lamp at the right, and dusk. */
static const Lights lights_of[] = {
  [BW_LIGHT_DAY] = { .sky = { 0.86f, 0.92f, 1.00f },
                     .horizon = { 0.50f, 0.52f, 0.54f },
                     .ground = { 0.26f, 0.25f, 0.24f },
                     .key_dir = { -0.58f, 0.42f, 0.70f },
                     .key = { 2.30f, 2.28f, 2.22f },
                     .key_width = 0.30f,
                     .rim_dir = { 0.90f, 0.20f, 0.38f },
                     .rim = { 0.95f, 0.98f, 1.05f },
                     .rim_width = 0.20f },
  [BW_LIGHT_LAMP] = { .sky = { 0.20f, 0.17f, 0.14f },
                      .horizon = { 0.13f, 0.10f, 0.08f },
                      .ground = { 0.10f, 0.07f, 0.05f },
                      .key_dir = { 0.52f, 0.42f, 0.74f },
                      .key = { 4.6f, 3.3f, 1.95f },
                      .key_width = 0.25f,
                      .rim_dir = { -0.92f, 0.15f, 0.35f },
                      .rim = { 0.35f, 0.45f, 0.70f },
                      .rim_width = 0.22f },
};

/* A pale ground under the lamp throws its light back at the piece. */
static const Lights lamp_on_paper = { .sky = { 0.34f, 0.29f, 0.24f },
                                      .horizon = { 0.30f, 0.245f, 0.19f },
                                      .ground = { 0.33f, 0.265f, 0.195f },
                                      .key_dir = { 0.52f, 0.42f, 0.74f },
                                      .key = { 4.2f, 3.15f, 2.0f },
                                      .key_width = 0.27f,
                                      .rim_dir = { -0.92f, 0.15f, 0.35f },
                                      .rim = { 0.55f, 0.62f, 0.80f },
                                      .rim_width = 0.24f };

static const Lights *
lights_for (const BwScene *scene, BwLight light)
{
  if (light != BW_LIGHT_LAMP)
    return &lights_of[BW_LIGHT_DAY];
  return scene->on_dark ? &lights_of[BW_LIGHT_LAMP] : &lamp_on_paper;
}

static void
fill (float target[4], const float rgb[3], float last)
{
  memcpy (target, rgb, 3 * sizeof (float));
  target[3] = last;
}

static void
set_lights (BwGlFrame *frame, const Lights *lights)
{
  vec3 key, rim, across, up;
  glm_vec3_normalize_to ((float *)lights->key_dir, key);
  glm_vec3_normalize_to ((float *)lights->rim_dir, rim);
  glm_vec3_cross ((vec3){ 0, 1, 0 }, key, across);
  glm_vec3_normalize (across);
  glm_vec3_cross (key, across, up);
  fill (frame->sky, lights->sky, 0);
  fill (frame->horizon, lights->horizon, 0);
  fill (frame->ground, lights->ground, 0);
  fill (frame->key_dir, key, lights->key_width);
  fill (frame->key_across, across, 0);
  fill (frame->key_up, up, 0);
  fill (frame->key, lights->key, 0);
  fill (frame->rim_dir, rim, lights->rim_width);
  fill (frame->rim, lights->rim, 0);
}

/* Height of the stone from its base, which lies at 0. */
static float
height_of (const BwScene *scene)
{
  float high = 1e-3f;
  for (guint i = 0; i < scene->stone->len; i++)
    high = MAX (high, g_array_index (scene->stone, BwSceneVertex, i).at[2]);
  return high;
}

static void
set_mineral (BwGlFrame *frame, const BwScene *scene)
{
  const BwMineralOptics *optics = &scene->stone_optics;
  double straight = (optics->index.n_d - 1) / (optics->index.n_d + 1);
  float keeps[3],
      index[] = { (float)optics->index.n_c, (float)optics->index.n_d, (float)optics->index.n_f };
  float look[] = { (float)optics->zoning, (float)optics->milk, (float)optics->veils };
  for (int i = 0; i < 3; i++)
    keeps[i] = log2f (CLAMP (scene->stone_keeps[i], 1e-3f, 1)) / 10;
  fill (frame->keeps, keeps, 0);
  fill (frame->index, index, (float)(straight * straight));
  fill (frame->look, look, 1 / height_of (scene));
}

/* The middle of the ground that the window and saved pictures lay under the piece. A picture on
 * nothing is taken for one that will lie on paper. */
static void
set_behind (BwGlFrame *frame, const BwScene *scene, BwLight light)
{
  gboolean lamp = scene->on_dark && light == BW_LIGHT_LAMP;
  BwTint high = lamp ? BW_TINT_LAMP_HIGH : BW_TINT_STAGE_HIGH;
  BwTint low = lamp ? BW_TINT_LAMP_LOW : BW_TINT_STAGE_LOW;
  float rgb[3];
  for (int i = 0; i < 3; i++)
    rgb[i] = (float)bw_colour_decode (
        (bw_tint_part (high, scene->on_dark, i) + bw_tint_part (low, scene->on_dark, i)) / 2);
  fill (frame->behind, rgb, scene->on_dark ? SEEN_ON_DARK : SEEN_ON_PAPER);
}

static void
set_sizes (BwGlFrame *frame, const BwScene *scene)
{
  float bead[] = { scene->bead_radius, scene->bead_half_length, scene->hole_radius };
  fill (frame->bead, bead, scene->bead_rounding);
  float spans[] = { scene->band_span[0], scene->band_span[1], scene->bed_span[0] };
  fill (frame->spans, spans, scene->bed_span[1]);
  fill (frame->cord, bw_cord_colour, MAX (scene->cord_width, 0.05f));
}

void
bw_gl_frame_init (BwGlFrame *frame, const BwEye *eye, const BwScene *scene, BwLight light,
                  int width, int height)
{
  memcpy (frame->view, eye->view, sizeof frame->view);
  memcpy (frame->projection, eye->projection, sizeof frame->projection);
  float screen[] = { (float)width, (float)height, eye->pixel };
  fill (frame->screen, screen, scene->thread_radius);
  set_lights (frame, lights_for (scene, light));
  set_sizes (frame, scene);
  set_mineral (frame, scene);
  set_behind (frame, scene, light);
}
