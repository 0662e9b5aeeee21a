/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light falls off as a smooth step does, in a few stops. */
#include "preview/picture/ground.h"

#include <string.h>

BwGroundLook
bw_ground_look (gboolean dark, BwLight light)
{
  if (dark && light == BW_LIGHT_LAMP)
    return (BwGroundLook){ BW_TINT_LAMP_HIGH, BW_TINT_LAMP_LOW, TRUE, 0.10 };
  return (BwGroundLook){ BW_TINT_STAGE_HIGH, BW_TINT_STAGE_LOW, dark, dark ? 0.05 : 0.45 };
}

void
bw_ground_fall (double core, double at[BW_GROUND_STOPS], double share[BW_GROUND_STOPS])
{
  for (int i = 0; i < BW_GROUND_STOPS; i++) {
    double out = (double)i / (BW_GROUND_STOPS - 1);
    at[i] = core + (1 - core) * out;
    share[i] = 1 - out * out * (3 - 2 * out);
  }
}

static void
paint_soft (cairo_t *cr, const double rgb[3], const BwShadow *soft)
{
  double at[BW_GROUND_STOPS], share[BW_GROUND_STOPS];
  cairo_pattern_t *pattern = cairo_pattern_create_radial (0, 0, 0, 0, 0, 1);
  bw_ground_fall (soft->core, at, share);
  for (int i = 0; i < BW_GROUND_STOPS; i++)
    cairo_pattern_add_color_stop_rgba (pattern, at[i], rgb[0], rgb[1], rgb[2],
                                       soft->strength * share[i]);
  cairo_save (cr);
  cairo_translate (cr, soft->x, soft->y);
  cairo_scale (cr, MAX (soft->across, 1e-3), MAX (soft->upright, 1e-3));
  cairo_set_source (cr, pattern);
  cairo_arc (cr, 0, 0, 1, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_restore (cr);
  cairo_pattern_destroy (pattern);
}

static void
paint_graded (cairo_t *cr, const BwGroundLook *look, int width, int height)
{
  cairo_pattern_t *graded = cairo_pattern_create_linear (0, 0, 0, height);
  cairo_pattern_add_color_stop_rgb (graded, 0, BW_TINT_RGB (look->high, look->dark));
  cairo_pattern_add_color_stop_rgb (graded, 1, BW_TINT_RGB (look->low, look->dark));
  cairo_set_source (cr, graded);
  cairo_paint (cr);
  cairo_pattern_destroy (graded);
  BwShadow pool = { .x = BW_GROUND_POOL_X * width,
                    .y = BW_GROUND_POOL_Y * height,
                    .across = BW_GROUND_POOL_SIZE * width,
                    .upright = BW_GROUND_POOL_SIZE * height,
                    .strength = look->pool };
  paint_soft (cr, (double[]){ BW_TINT_RGB (BW_TINT_GLEAM, FALSE) }, &pool);
}

void
bw_ground_paint (cairo_t *cr, BwGround ground, BwLight light, const BwShadow *shadow, int n_shadows,
                 int width, int height)
{
  BwGroundLook look = bw_ground_look (ground == BW_GROUND_DARK, light);
  if (ground == BW_GROUND_CLEAR)
    return;
  paint_graded (cr, &look, width, height);
  const double dark[] = { BW_TINT_RGB (BW_TINT_SHADOW, FALSE) };
  for (int i = 0; i < n_shadows; i++)
    paint_soft (cr, shadow[i].glows ? shadow[i].rgb : dark, &shadow[i]);
}

gboolean
bw_ground_parse (const char *word, BwGround *ground)
{
  static const char *const words[]
      = { [BW_GROUND_CLEAR] = "clear", [BW_GROUND_PAPER] = "paper", [BW_GROUND_DARK] = "dark" };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (word, words[i]) == 0) {
      *ground = (BwGround)i;
      return TRUE;
    }
  return FALSE;
}
