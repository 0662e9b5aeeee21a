/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every section of the stone is one of two polygons made smaller: on the prism the measured section
 * scaled about the axis, on a point the shoulder's section drawn together towards the apex. */
#include "core/stone/section.h"

/* An image of the measured section: scaled about the axis, then drawn towards a centre. */
typedef struct {
  double scale;   /* of the section at z1 */
  double towards; /* 1: not drawn in; 0: the apex itself */
  BwVec2 centre;  /* the apex's place over the section */
  double slope;   /* dg/dz */
} Image;

static Image
image_on_prism (const BwStone *stone, double z)
{
  return (
      Image){ bw_stone_prism_scale (stone, z), 1, { 0, 0 }, stone->girth_mm * stone->taper_per_mm };
}

/* On a point whose shoulder lies at `shoulder` and whose apex at height `tip`. */
static Image
image_on_point (const BwStone *stone, double z, double shoulder, double tip, BwVec2 apex)
{
  double scale = bw_stone_prism_scale (stone, shoulder);
  return (Image){ scale, (tip - z) / (tip - shoulder), apex,
                  -stone->girth_mm * scale / (tip - shoulder) };
}

static Image
image_at (const BwStone *stone, double z)
{
  if (z > stone->shoulder_mm)
    return image_on_point (stone, z, stone->shoulder_mm, stone->length_mm, stone->apex);
  if (z < stone->base_shoulder_mm)
    return image_on_point (stone, z, stone->base_shoulder_mm, 0, stone->base_apex);
  return image_on_prism (stone, z);
}

/* Every section has the directions of the prism's faces. */
static void
direct_edges (BwSection *section, int faces)
{
  section->edges = faces;
  for (int i = 0; i < faces; i++) {
    section->normal[i] = bw_stone_normal (faces, i);
    section->turn[i] = 2 * G_PI / faces;
    section->face[i] = i;
  }
}

void
bw_section_init (BwSection *section, const BwStone *stone, double z_mm)
{
  double z = fmin (fmax (z_mm, 0), stone->length_mm);
  Image image = image_at (stone, z);
  BwVec2 shift = bw_vec2_scale (image.centre, 1 - image.towards);
  direct_edges (section, stone->faces);
  section->z_mm = z;
  section->girth_mm = stone->girth_mm * image.scale * image.towards;
  section->slope = image.slope;
  for (int i = 0; i < stone->faces; i++)
    section->corner[i]
        = bw_vec2_add (bw_vec2_scale (stone->corner[i], image.scale * image.towards), shift);
}

void
bw_section_scale (BwSection *section, const BwSection *from, double lambda)
{
  section->edges = from->edges;
  section->z_mm = from->z_mm;
  section->girth_mm = lambda * from->girth_mm;
  section->slope = lambda * from->slope;
  for (int i = 0; i < from->edges; i++) {
    section->corner[i] = bw_vec2_scale (from->corner[i], lambda);
    section->normal[i] = from->normal[i];
    section->turn[i] = from->turn[i];
    section->face[i] = from->face[i];
  }
}

static BwVec2
previous_corner (const BwSection *section, int i)
{
  return section->corner[i ? i - 1 : section->edges - 1];
}

double
bw_section_area_mm2 (const BwSection *section)
{
  double twice = 0;
  for (int i = 0; i < section->edges; i++)
    twice += bw_vec2_cross (bw_vec2_sub (previous_corner (section, i), section->corner[0]),
                            bw_vec2_sub (section->corner[i], section->corner[0]));
  return twice / 2;
}

BwVec2
bw_section_centroid (const BwSection *section)
{
  return bw_vec2_centroid (section->corner, section->edges);
}

double
bw_section_face_width_mm (const BwSection *section, int i)
{
  return bw_vec2_length (bw_vec2_sub (section->corner[i], previous_corner (section, i)));
}
