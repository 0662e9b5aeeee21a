/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A side of the piece is a direction in its own axes; how the piece stands makes a camera of it. */
#include "preview/scene/seen-from.h"

#include "core/stone/section.h"
#include <string.h>

#define FRONT_TIP_DEG 8.0 /* a little from above, so that the stone is seen to stand */
#define AHEAD_DEG 1.0     /* a face so near to where one looks already is not the next */

static BwCamera
towards (BwProject *project, gboolean at_rest, double azimuth_deg, double zoom)
{
  BwCamera camera = { .turn_deg = azimuth_deg, .zoom = zoom };
  if (!at_rest)
    return camera;
  double azimuth = bw_radians (azimuth_deg);
  BwVec3 way = bw_pose_turn (bw_pose_at_rest (bw_project_hang (project)),
                             bw_vec3 (cos (azimuth), sin (azimuth), 0));
  camera.turn_deg = bw_degrees (atan2 (way.y, way.x));
  camera.tip_deg = bw_degrees (asin (CLAMP (way.z, -1, 1)));
  return camera;
}

static BwCamera
from_front (BwProject *project, gboolean at_rest)
{
  const BwDesign *design = bw_project_get_design (project);
  gboolean bail = design->bail.style != BW_BAIL_NONE;
  if (at_rest)
    return bw_session_camera_at_rest;
  return (BwCamera){ .turn_deg = (bail ? design->bail.at_deg : design->band.seam_deg) + 180,
                     .tip_deg = FRONT_TIP_DEG,
                     .zoom = 1 };
}

/* The azimuth of the piece that a camera at this turn looks at. */
static double
azimuth_of (BwProject *project, gboolean at_rest, BwCamera now)
{
  double turn = bw_radians (now.turn_deg), tip = bw_radians (now.tip_deg);
  BwVec3 way = bw_vec3 (cos (tip) * cos (turn), cos (tip) * sin (turn), sin (tip));
  if (at_rest)
    way = bw_pose_turn_back (bw_pose_at_rest (bw_project_hang (project)), way);
  return bw_degrees (atan2 (way.y, way.x));
}

static double
next_face (BwProject *project, double azimuth)
{
  BwSection section;
  BwBandSpan span = bw_design_span (bw_project_get_design (project));
  double nearest = 360, found = azimuth;
  bw_section_init (&section, bw_project_stone (project), bw_band_span_mid (span));
  for (int i = 0; i < section.edges; i++) {
    double at = bw_degrees (atan2 (section.normal[i].y, section.normal[i].x));
    double ahead = fmod (at - azimuth - AHEAD_DEG + 720, 360);
    if (section.face[i] >= 0 && ahead < nearest) {
      nearest = ahead;
      found = at;
    }
  }
  return found;
}

BwCamera
bw_seen_from (BwSeenFrom where, BwProject *project, gboolean at_rest, BwCamera now)
{
  double seam = bw_project_get_design (project)->band.seam_deg;
  switch (where) {
  case BW_SEEN_FROM_JOIN:
    return towards (project, at_rest, seam, 1);
  case BW_SEEN_FROM_ABOVE:
    return (BwCamera){ .tip_deg = 90, .zoom = 1 };
  case BW_SEEN_FROM_FACE:
    return towards (project, at_rest, next_face (project, azimuth_of (project, at_rest, now)),
                    now.zoom);
  case BW_SEEN_FROM_FRONT:
  default:
    return from_front (project, at_rest);
  }
}

/* The middle of the last beads of the band that were visited, as many as a row's pass has visits:
 * from row to row it moves evenly. */
BwCamera
bw_seen_from_needle (BwProject *project, int visits, BwCamera now)
{
  const GArray *path = bw_project_path (project)->visits;
  const BwPlaces *places = bw_project_true_places (project);
  int left = places->columns;
  double x = 0, y = 0;
  for (int i = CLAMP (visits, 1, (int)path->len) - 1; i >= 0 && left > 0; i--) {
    const BwVisit *visit = &g_array_index (path, BwVisit, i);
    if (visit->in_bail)
      continue;
    BwPlace place = bw_places_get (places, visit->row, visit->column);
    x += place.at.x;
    y += place.at.y;
    left--;
  }
  now.turn_deg = bw_degrees (atan2 (y, x));
  return now;
}

gboolean
bw_seen_from_parse (const char *word, BwSeenFrom *where)
{
  static const char *const words[] = { [BW_SEEN_FROM_FRONT] = "front",
                                       [BW_SEEN_FROM_JOIN] = "join",
                                       [BW_SEEN_FROM_ABOVE] = "above",
                                       [BW_SEEN_FROM_FACE] = "face" };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (word, words[i]) == 0) {
      *where = (BwSeenFrom)i;
      return TRUE;
    }
  return FALSE;
}
