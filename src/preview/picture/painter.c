/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "preview/picture/painter.h"

#include "core/pattern/colour.h"

void
bw_painter_set_light (BwPainter *p, BwLight light)
{
  gboolean lamp = light == BW_LIGHT_LAMP;
  const double day[3] = { -0.55, 0.58, 0.60 }, table[3] = { 0.48, 0.62, 0.62 };
  const double white[3] = { 1, 1, 1 }, warm[3] = { 1, 0.76, 0.48 };
  for (int i = 0; i < 3; i++) {
    p->key[i] = lamp ? table[i] : day[i];
    p->light[i] = lamp ? warm[i] : white[i];
  }
  p->around = lamp ? 0.28 : 0.55;
}

void
bw_painter_turn (const BwPainter *p, const float v[3], double seen[3])
{
  for (int i = 0; i < 3; i++)
    seen[i]
        = (double)(p->eye.view[0][i] * v[0] + p->eye.view[1][i] * v[1] + p->eye.view[2][i] * v[2]);
}

double
bw_painter_falling (const BwPainter *p, const double n[3])
{
  return p->around * (0.8 + 0.2 * n[1]) + 0.62 * MAX (bw_painter_dot (n, p->key), 0);
}

void
bw_painter_shade (const BwPainter *p, const float colour[3], double light, double shine,
                  double rgb[3])
{
  for (int i = 0; i < 3; i++)
    rgb[i] = bw_colour_encode (CLAMP (((double)colour[i] * light + shine) * p->light[i], 0, 1));
}

gboolean
bw_painter_behind_stone (const BwPainter *p, const float at[3])
{
  double enter = 0, leave = 1;
  for (guint i = 0; i < p->scene->stone_planes->len; i++) {
    const BwScenePlane *plane = &g_array_index (p->scene->stone_planes, BwScenePlane, i);
    double from = -(double)plane->distance, to = from;
    for (int k = 0; k < 3; k++) {
      from += (double)(plane->normal[k] * p->eye.eye[k]);
      to += (double)(plane->normal[k] * at[k]);
    }
    if (from > 0 && to > 0)
      return FALSE;
    if (from > 0)
      enter = MAX (enter, from / (from - to));
    else if (to > 0)
      leave = MIN (leave, from / (from - to));
  }
  return enter < leave;
}
