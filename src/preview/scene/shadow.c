/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light comes from everywhere a little, so what stands on a table darkens it most where it touches;
 * how dark and how far is common practice, no source. */
#include "preview/scene/shadow.h"

#include "core/pattern/colour.h"

#define LEAST_TIP_DEG                                                                              \
  5.0                      /* seen level the shadow is a line: so much of it is shown all the same \
                            */
#define GONE_TIP_DEG -14.0 /* from so far below nothing of it is seen */
#define FOOT 0.04          /* share of the stone's height that counts as its foot */
#define GLOW_MM 14.0       /* of stone that the light has come through which gathers beside it */
#define LEAST_FOOT 0.3 /* a point touches nothing: its shadow is at least so wide, in breadths */

/* What the stone stands on: its lowest height, the middle and the reach of its corners there. */
typedef struct {
  float at[3];
  float reach;
} Foot;

static Foot
foot_of (const BwScene *scene)
{
  float low = INFINITY, high = -INFINITY, x[2] = { INFINITY, -INFINITY }, y[2] = { x[0], x[1] };
  for (guint i = 0; i < scene->stone->len; i++) {
    const float *at = g_array_index (scene->stone, BwSceneVertex, i).at;
    low = MIN (low, at[2]);
    high = MAX (high, at[2]);
  }
  for (guint i = 0; i < scene->stone->len; i++) {
    const float *at = g_array_index (scene->stone, BwSceneVertex, i).at;
    if (at[2] > low + (float)FOOT * (high - low))
      continue;
    x[0] = MIN (x[0], at[0]);
    x[1] = MAX (x[1], at[0]);
    y[0] = MIN (y[0], at[1]);
    y[1] = MAX (y[1], at[1]);
  }
  Foot foot = { { (x[0] + x[1]) / 2, (y[0] + y[1]) / 2, low }, 0 };
  foot.reach = MAX (hypotf (x[1] - x[0], y[1] - y[0]) / 2, (float)LEAST_FOOT * scene->breadth);
  return foot;
}

/* Light comes from the left and goes on to the right. */
static gboolean
glow_of (const BwScene *scene, const BwShadow *foot, BwShadow *glow)
{
  double clear = 0, milk = scene->stone_optics.milk * GLOW_MM;
  *glow = (BwShadow){ .x = foot->x + 0.5 * foot->across,
                      .y = foot->y + 0.10 * foot->upright,
                      .across = 0.6 * foot->across,
                      .upright = 0.6 * foot->upright,
                      .core = 0.1,
                      .glows = TRUE };
  for (int i = 0; i < 3; i++) {
    double left = pow ((double)scene->stone_keeps[i], GLOW_MM / 10);
    clear += left / 3;
    glow->rgb[i] = bw_colour_encode (left);
  }
  glow->strength = 2.2 * foot->strength * clear * exp (-milk);
  return glow->strength > 0.02;
}

int
bw_shadows (const BwScene *scene, const BwEye *eye, BwCamera camera, guint layers, int width,
            int height, BwShadow shadow[BW_SHADOWS_MAX])
{
  double x, y, seen = (camera.tip_deg - GONE_TIP_DEG) / (LEAST_TIP_DEG - GONE_TIP_DEG);
  if (!scene->stance.stands || !(layers & BW_LAYER_STONE) || seen <= 0)
    return 0;
  Foot foot = foot_of (scene);
  if (!bw_eye_project (eye, foot.at, width, height, &x, &y))
    return 0;
  double away = (double)glm_vec3_distance ((float *)eye->eye, foot.at);
  double reach = (double)foot.reach / (away * (double)eye->pixel);
  double flat = sin (bw_radians (MAX (camera.tip_deg, LEAST_TIP_DEG)));
  seen = MIN (seen, 1);
  shadow[0] = (BwShadow){ x, y, 1.9 * reach, 1.9 * reach * flat, 0.26 * seen, 0.15 };
  shadow[1] = (BwShadow){ x, y, 1.22 * reach, 1.22 * reach * flat, 0.30 * seen, 0.6 };
  return glow_of (scene, &shadow[1], &shadow[2]) ? 3 : 2;
}
