/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of the stone. On the prism it is the measured section scaled about the axis; on a
 * point it is the shoulder's section drawn together towards the apex. */
#include "section.h"

/* The affine map that carries the section at z1 to the one at z: scale, then shift. rate is the
 * scale's change per mm. */
typedef struct {
  double scale, rate;
  BwVec2 shift;
} Place;

/* share 0 at the shoulder, 1 at the apex; towards: +1 when the apex lies above. */
static Place
on_point (const BwStone *stone, double shoulder, double share, double height, BwVec2 apex,
          double towards)
{
  double at_shoulder = bw_stone_prism_scale (stone, shoulder);
  return (Place){ at_shoulder * (1 - share), -towards * at_shoulder / height,
                  bw_vec2_scale (apex, share) };
}

static Place
place_at (const BwStone *stone, double z)
{
  double low = stone->base_shoulder_mm, high = stone->shoulder_mm;
  if (z > high) {
    double height = stone->length_mm - high;
    return on_point (stone, high, (z - high) / height, height, stone->apex, 1);
  }
  if (z < low)
    return on_point (stone, low, (low - z) / low, low, stone->base_apex, -1);
  return (Place){ bw_stone_prism_scale (stone, z), stone->taper_per_mm, { 0, 0 } };
}

void
bw_section_init (BwSection *section, const BwStone *stone, double z_mm)
{
  double z = fmin (fmax (z_mm, 0), stone->length_mm);
  Place place = place_at (stone, z);
  section->faces = stone->faces;
  section->z_mm = z;
  for (int i = 0; i < stone->faces; i++)
    section->corner[i] = bw_vec2_add (bw_vec2_scale (stone->corner[i], place.scale), place.shift);
  section->girth_mm = stone->girth_mm * place.scale;
  section->slope = stone->girth_mm * place.rate;
}

void
bw_section_scale (BwSection *section, const BwSection *from, double lambda)
{
  section->faces = from->faces;
  section->z_mm = from->z_mm;
  for (int i = 0; i < from->faces; i++)
    section->corner[i] = bw_vec2_scale (from->corner[i], lambda);
  section->girth_mm = from->girth_mm * lambda;
  section->slope = from->slope * lambda;
}

double
bw_section_area_mm2 (const BwSection *section)
{
  double twice = 0;
  for (int i = 0; i < section->faces; i++)
    twice += bw_vec2_cross (section->corner[i], section->corner[(i + 1) % section->faces]);
  return twice / 2;
}

BwVec2
bw_section_centroid (const BwSection *section)
{
  double area = bw_section_area_mm2 (section);
  BwVec2 moment = { 0, 0 };
  if (area <= 0)
    return section->corner[0];
  for (int i = 0; i < section->faces; i++) {
    BwVec2 a = section->corner[i], b = section->corner[(i + 1) % section->faces];
    moment = bw_vec2_add (moment, bw_vec2_scale (bw_vec2_add (a, b), bw_vec2_cross (a, b) / 6));
  }
  return bw_vec2_scale (moment, 1 / area);
}

double
bw_section_face_width_mm (const BwSection *section, int i)
{
  int before = (i + section->faces - 1) % section->faces;
  return bw_vec2_length (bw_vec2_sub (section->corner[i], section->corner[before]));
}
