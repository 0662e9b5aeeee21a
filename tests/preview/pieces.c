/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pieces.h"

#include "core/base/lattice.h"

static const char *const stones[N_PIECES] = {
  "{\"faces\":6,\"measured\":\"girth\",\"values_mm\":[72],\"at_mm\":15,\"length_mm\":55,"
  "\"shoulder_mm\":38}",
  "{\"faces\":6,\"measured\":\"face-widths\",\"values_mm\":[11,14,9.5,12,13.2,10.1],\"at_mm\":12,"
  "\"length_mm\":60,\"shoulder_mm\":42,\"apex_offset_mm\":[2.5,-1.5]}",
  "{\"faces\":6,\"measured\":\"across-flats\",\"values_mm\":[24.6,23.9,25.2],\"at_mm\":12,"
  "\"second_girth_mm\":78,\"second_at_mm\":34,\"length_mm\":58,\"shoulder_mm\":41}",
  "{\"faces\":6,\"measured\":\"girth\",\"values_mm\":[60],\"at_mm\":25,\"length_mm\":52,"
  "\"shoulder_mm\":38,\"base\":\"point\",\"base_shoulder_mm\":14,\"base_apex_offset_mm\":[1,1]}",
  "{\"faces\":8,\"measured\":\"across-flats\",\"values_mm\":[20,21,20.5,19.5],\"at_mm\":10,"
  "\"length_mm\":44,\"shoulder_mm\":31}",
  "{\"faces\":3,\"measured\":\"girth\",\"values_mm\":[66],\"at_mm\":10,\"length_mm\":40,"
  "\"shoulder_mm\":30}",
};

static const char *const bails[N_PIECES] = {
  "{\"style\":\"flap\",\"columns\":4,\"rows\":19,\"base_beads\":2}",
  "{\"style\":\"ring\",\"columns\":4,\"rows\":17,\"base_beads\":2,\"at_deg\":75}",
  "{\"style\":\"upright\",\"columns\":4,\"rows\":16,\"base_beads\":4}",
  "{\"style\":\"none\"}",
  "{\"style\":\"flap\",\"columns\":6,\"rows\":25,\"base_beads\":3,\"at_deg\":290}",
  "{\"style\":\"none\"}",
};

static void
paint (BwProject *project, gboolean in_bail, const BwDrawing *drawing)
{
  g_autoptr (BwDrawing) painted = bw_drawing_copy (drawing);
  g_autoptr (GError) error = NULL;
  for (int row = 1; row <= bw_drawing_rows (painted); row++)
    for (int j = 0; j < bw_drawing_columns (painted) / 2; j++) {
      int column = bw_lattice_column (row, j);
      bw_drawing_set (painted, row, column, (guint8)((row / 4 + column / 2) % BW_N_FINISHES));
    }
  if (!bw_project_set_drawing (project, "", in_bail, painted, &error))
    g_error ("%s", error->message);
}

static void
fill_tray (BwProject *project)
{
  static const guint32 srgb[BW_N_FINISHES] = { 0xb0413e, 0x1b2a41, 0xe9c46a, 0x2a9d8f, 0xd080c0,
                                               0x8a5a83, 0xb08a3e, 0x5a7ab0, 0xa87f6a, 0x3a7a9a };
  g_autoptr (GError) error = NULL;
  g_autofree BwTray *tray = g_memdup2 (bw_project_get_tray (project), sizeof (BwTray));
  tray->n_colours = 0;
  for (int i = 0; i < BW_N_FINISHES; i++) {
    BwColour *colour = &tray->colour[tray->n_colours++];
    *colour = (BwColour){ .id = 'a' + (gunichar)i, .srgb = srgb[i], .finish = (BwFinish)i };
    g_strlcpy (colour->name, bw_finish_word (colour->finish), sizeof colour->name);
  }
  if (!bw_project_set_tray (project, "", tray, &error))
    g_error ("%s", error->message);
}

static BwProject *
from_parts (const char *stone, const char *band, const char *bail)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *data = g_strdup_printf (
      "{\"format\":\"bandwright-project\",\"version\":1,\"stone\":%s,"
      "\"bead\":{\"diameter_mm\":1.6,\"length_mm\":1.3,\"hole_mm\":0.8},\"band\":%s,\"bail\":%s}",
      stone, band, bail);
  BwProject *project = bw_project_load_data (data, strlen (data), &error);
  if (!project)
    g_error ("%s", error->message);
  fill_tray (project);
  paint (project, FALSE, bw_project_get_drawing (project));
  if (bw_project_get_bail_drawing (project))
    paint (project, TRUE, bw_project_get_bail_drawing (project));
  return project;
}

BwProject *
piece_new (int which)
{
  return from_parts (stones[which], "{\"columns\":10}", bails[which]);
}

BwProject *
piece_of_size (int beads)
{
  /* Beads round by columns up: about three times as many round as up. */
  int columns = 2 * (int)(sqrt (beads / 3.0) / 2), round = beads / columns;
  double girth = round * 1.6 - 5, height = columns * 1.3;
  g_autofree char *stone = g_strdup_printf (
      "{\"faces\":6,\"measured\":\"girth\",\"values_mm\":[%.3f],\"at_mm\":%.3f,\"length_mm\":%.3f,"
      "\"shoulder_mm\":%.3f}",
      girth, height / 2, height * 1.6 + 20, height * 1.1 + 10);
  g_autofree char *band = g_strdup_printf ("{\"columns\":%d,\"rows\":%d}", columns, 2 * round);
  return from_parts (stone, band, "{\"style\":\"none\"}");
}

static char *
random_stone (GRand *rand, double length)
{
  double girth = g_rand_double_range (rand, 45, 100);
  return g_strdup_printf (
      "{\"faces\":6,\"measured\":\"girth\",\"values_mm\":[%.3f],\"at_mm\":%.3f,"
      "\"second_girth_mm\":%.3f,\"second_at_mm\":%.3f,\"length_mm\":%.3f,\"shoulder_mm\":%.3f,"
      "\"apex_offset_mm\":[%.3f,%.3f]}",
      girth, 0.2 * length, girth * g_rand_double_range (rand, 0.9, 1.1), 0.6 * length, length,
      0.72 * length, g_rand_double_range (rand, -2, 2), g_rand_double_range (rand, -2, 2));
}

static char *
random_bail (GRand *rand, BwBailStyle style)
{
  static const char *const words[] = { "none", "flap", "upright", "ring", "over" };
  return g_strdup_printf (
      "{\"style\":\"%s\",\"columns\":%d,\"rows\":%d,\"base_beads\":%d,\"at_deg\":%.3f,"
      "\"cord_mm\":%.3f}",
      words[style], 2 * g_rand_int_range (rand, 1, 4),
      (style == BW_BAIL_OVER ? 8 : 2) * g_rand_int_range (rand, 6, 15) + 1,
      (style == BW_BAIL_OVER ? 8 : 2) * g_rand_int_range (rand, 1, 3),
      g_rand_double_range (rand, 0, 360), g_rand_double_range (rand, 0.8, 4));
}

BwProject *
piece_random (GRand *rand, BwBailStyle style)
{
  double length = g_rand_double_range (rand, 35, 80), highest = 0.72 * length - 8 * 1.3 - 1;
  g_autofree char *stone = random_stone (rand, length), *bail = random_bail (rand, style);
  g_autofree char *band = g_strdup_printf ("{\"columns\":8,\"bottom_mm\":%.3f}",
                                           g_rand_double_range (rand, 1, highest));
  return from_parts (stone, band, bail);
}

BwCamera
piece_camera (GRand *rand)
{
  return (BwCamera){ .turn_deg = g_rand_double_range (rand, 0, 360),
                     .tip_deg = g_rand_double_range (rand, -88, 88),
                     .zoom = g_rand_double_range (rand, 0.8, 4) };
}
