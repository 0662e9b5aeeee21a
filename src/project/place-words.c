/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/place-words.h"

#include "core/base/vec.h"
#include "core/stone/section.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Where the ray from the axis meets edge i: how far along from its first corner, mm. FALSE when it
 * does not. */
static gboolean
meets (const BwSection *section, int i, BwVec2 ray, double *along_mm)
{
  BwVec2 from = section->corner[(i + section->edges - 1) % section->edges], to = section->corner[i];
  BwVec2 edge = bw_vec2_sub (to, from);
  double across = bw_vec2_cross (ray, edge), length = bw_vec2_length (edge);
  double share = across > 0 ? -bw_vec2_cross (ray, from) / across : -1;
  *along_mm = share * length;
  return share >= 0 && share <= 1;
}

static char *
edge_words (const BwSection *section, int before, int after)
{
  return g_strdup_printf (_ ("edge of faces %d and %d"), section->face[before] + 1,
                          section->face[after] + 1);
}

/* What lies so far along edge i. */
static char *
words_along (const BwSection *section, int i, double along_mm)
{
  int edges = section->edges;
  double width = bw_section_face_width_mm (section, i);
  if (fabs (along_mm - width / 2) <= BW_PLACE_THERE_MM)
    return g_strdup_printf (_ ("middle of face %d"), section->face[i] + 1);
  int before = (i + edges - 1) % edges, after = (i + 1) % edges;
  if (along_mm <= BW_PLACE_THERE_MM && section->face[before] >= 0)
    return edge_words (section, before, i);
  if (width - along_mm <= BW_PLACE_THERE_MM && section->face[after] >= 0)
    return edge_words (section, i, after);
  return g_strdup_printf (_ ("face %d"), section->face[i] + 1);
}

char *
bw_place_words (BwProject *project, double azimuth_deg)
{
  double azimuth = bw_radians (azimuth_deg), along;
  BwVec2 ray = { cos (azimuth), sin (azimuth) };
  BwSection section;
  bw_section_init (&section, bw_project_stone (project),
                   bw_band_span_mid (bw_design_span (bw_project_get_design (project))));
  for (int i = 0; i < section.edges; i++)
    if (section.face[i] >= 0 && meets (&section, i, ray, &along))
      return words_along (&section, i, along);
  return g_strdup_printf ("%.4g°", azimuth_deg);
}
