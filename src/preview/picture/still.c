/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece is drawn on nothing, and the ground laid under it. */
#include "preview/picture/still.h"

#include "preview/picture/offscreen.h"
#include "preview/picture/played-needle.h"

static void
lay_ground (cairo_surface_t *piece, const BwScene *scene, const BwStill *still)
{
  BwShadow shadow[BW_SHADOWS_MAX];
  BwEye eye;
  bw_eye_init (&eye, still->camera, scene, still->width, still->height);
  int n
      = bw_shadows (scene, &eye, still->camera, still->layers, still->width, still->height, shadow);
  cairo_t *cr = cairo_create (piece);
  cairo_set_operator (cr, CAIRO_OPERATOR_DEST_OVER);
  /* What is laid under comes nearest first. */
  cairo_push_group (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  bw_ground_paint (cr, still->ground, still->light, shadow, n, still->width, still->height);
  cairo_pop_group_to_source (cr);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
lay_needle (cairo_surface_t *piece, const BwScene *scene, const BwStill *still)
{
  cairo_t *cr = cairo_create (piece);
  bw_played_needle_paint (cr, scene, still->camera, still->layers, still->width, still->height);
  cairo_destroy (cr);
}

cairo_surface_t *
bw_still_new (BwScene *scene, const BwStill *still, GError **error)
{
  scene->on_dark = still->ground == BW_GROUND_DARK;
  cairo_surface_t *piece = bw_offscreen_render (scene, still->camera, still->layers, still->light,
                                                still->width, still->height, NULL, error);
  if (piece)
    lay_needle (piece, scene, still);
  if (piece && still->ground != BW_GROUND_CLEAR)
    lay_ground (piece, scene, still);
  return piece;
}
