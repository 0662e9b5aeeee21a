/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The face gives the theme our names; where they are not known there is no ground of ours. */
#include "preview/view/view-ground.h"

static float
brightness (GdkRGBA colour)
{
  return 0.3f * colour.red + 0.59f * colour.green + 0.11f * colour.blue;
}

BwViewGround
bw_view_ground (GtkWidget *widget, BwLight light)
{
  GdkRGBA high;
  BwViewGround ground = { 0 };
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  if (!gtk_style_context_lookup_color (style, "bw_stage_high", &high))
    return ground;
  ground.drawn = TRUE;
  ground.look = bw_ground_look (light == BW_LIGHT_LAMP || brightness (high) < 0.5f, light);
  return ground;
}

gboolean
bw_view_ground_is_dark (GtkWidget *widget, const BwViewGround *ground)
{
  GdkRGBA ink;
  if (ground->drawn)
    return ground->look.dark;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  return brightness (ink) > 0.5f;
}

static GdkRGBA
tint (BwTint tint, gboolean dark, double alpha)
{
  return (GdkRGBA){ (float)bw_tint_part (tint, dark, 0), (float)bw_tint_part (tint, dark, 1),
                    (float)bw_tint_part (tint, dark, 2), (float)alpha };
}

void
bw_view_ground_mark (const BwViewGround *ground, GdkRGBA *colour)
{
  if (ground->drawn)
    *colour = tint (BW_TINT_TIDE, ground->look.dark, 1);
}

static void
draw_soft (GtkSnapshot *snapshot, GdkRGBA colour, const BwShadow *soft)
{
  double at[BW_GROUND_STOPS], share[BW_GROUND_STOPS];
  GskColorStop stops[BW_GROUND_STOPS];
  float across = (float)MAX (soft->across, 0.5), upright = (float)MAX (soft->upright, 0.5);
  bw_ground_fall (soft->core, at, share);
  for (int i = 0; i < BW_GROUND_STOPS; i++)
    stops[i] = (GskColorStop){
      (float)at[i], { colour.red, colour.green, colour.blue, (float)(soft->strength * share[i]) }
    };
  gtk_snapshot_append_radial_gradient (snapshot,
                                       &GRAPHENE_RECT_INIT ((float)soft->x - across,
                                                            (float)soft->y - upright, 2 * across,
                                                            2 * upright),
                                       &GRAPHENE_POINT_INIT ((float)soft->x, (float)soft->y),
                                       across, upright, 0, 1, stops, BW_GROUND_STOPS);
}

void
bw_view_ground_draw (GtkSnapshot *snapshot, const BwViewGround *ground, const BwShadow *shadow,
                     int n_shadows, int width, int height)
{
  const BwGroundLook *look = &ground->look;
  if (!ground->drawn)
    return;
  const GskColorStop graded[]
      = { { 0, tint (look->high, look->dark, 1) }, { 1, tint (look->low, look->dark, 1) } };
  gtk_snapshot_append_linear_gradient (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height),
      &GRAPHENE_POINT_INIT (0, 0), &GRAPHENE_POINT_INIT (0, (float)height), graded, 2);
  BwShadow pool = { .x = BW_GROUND_POOL_X * width,
                    .y = BW_GROUND_POOL_Y * height,
                    .across = BW_GROUND_POOL_SIZE * width,
                    .upright = BW_GROUND_POOL_SIZE * height,
                    .strength = look->pool };
  draw_soft (snapshot, tint (BW_TINT_GLEAM, FALSE, 1), &pool);
  for (int i = 0; i < n_shadows; i++) {
    const double *rgb = shadow[i].rgb;
    GdkRGBA glow = { (float)rgb[0], (float)rgb[1], (float)rgb[2], 1 };
    draw_soft (snapshot, shadow[i].glows ? glow : tint (BW_TINT_SHADOW, FALSE, 1), &shadow[i]);
  }
}
