/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone as solved: what it weighs, where its balance lies, its corners and faces, and its
 * section at any height. */
#include "config.h"

#include "project/fault/fault-error.h"
#include "core/stone/section.h"
#include "output/report/report-parts.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>

/* In JSON faces count from 0, as the measurements there do. The first looks along azimuth 0. */
static char *
face_name (const BwStone *stone, int f)
{
  static const char *const words[] = {
    [BW_FACE_PRISM] = "prism",
    [BW_FACE_POINT] = "point",
    [BW_FACE_BASE] = "base",
    [BW_FACE_BASE_POINT] = "base point",
  };
  BwFaceKind kind;
  int index, corners[BW_FACES_MAX];
  bw_stone_polygon (stone, f, corners, &kind, &index);
  return kind == BW_FACE_BASE ? g_strdup (words[kind])
                              : g_strdup_printf ("%s %d", words[kind], index);
}

/* For people from 1, as everywhere else. */
static char *
face_words (const BwStone *stone, int f)
{
  BwFaceKind kind;
  int index, corners[BW_FACES_MAX];
  bw_stone_polygon (stone, f, corners, &kind, &index);
  switch (kind) {
  case BW_FACE_PRISM:
    return g_strdup_printf (_ ("face %d"), index + 1);
  case BW_FACE_POINT:
    return g_strdup_printf (_ ("face %d of the point"), index + 1);
  case BW_FACE_BASE_POINT:
    return g_strdup_printf (_ ("face %d of the lower point"), index + 1);
  case BW_FACE_BASE:
    break;
  }
  return g_strdup (_ ("base"));
}

static void
answer_point (BwAnswer *json, const char *key, BwVec3 point)
{
  bw_answer_numbers (json, key, (double[]){ point.x, point.y, point.z }, 3);
}

static void
json_face (BwAnswer *json, const BwStone *stone, int f)
{
  int corners[BW_FACES_MAX];
  double numbers[BW_FACES_MAX];
  int n = bw_stone_polygon (stone, f, corners, NULL, NULL);
  for (int i = 0; i < n; i++)
    numbers[i] = corners[i];
  g_autofree char *name = face_name (stone, f);
  bw_answer_open_object (json, NULL);
  bw_answer_string (json, "name", name);
  bw_answer_numbers (json, "vertices", numbers, n);
  bw_answer_close (json);
}

static char *
stone_json (BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_number (&json, "volume_mm3", stone->volume_mm3);
  bw_answer_number (&json, "mass_g", stone->mass_g);
  answer_point (&json, "centroid_mm", stone->centroid);
  bw_answer_open_array (&json, "vertices");
  for (int i = 0; i < stone->n_vertices; i++)
    answer_point (&json, NULL, stone->vertex[i]);
  bw_answer_close (&json);
  bw_answer_open_array (&json, "faces");
  for (int f = 0; f < stone->n_polygons; f++)
    json_face (&json, stone, f);
  bw_answer_close (&json);
  bw_answer_number (&json, "closing_error_mm", stone->closing_error_mm);
  bw_answer_warnings (&json, project, BW_TOPIC_STONE, NULL);
  return bw_answer_finish (&json);
}

static void
text_facts (GString *text, BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);
  g_auto (BwTable) facts = { 0 };
  bw_table_init (&facts, "ll");
  const char *mineral = bw_project_get_mineral (project);
  if (mineral && *mineral)
    bw_text_fact (&facts, _ ("Mineral"), g_strdup (mineral));
  bw_text_fact (&facts, _ ("Length"), bw_text_mm (stone->length_mm, BW_TEXT_MEASURED));
  bw_text_fact (&facts, _ ("Shoulder"), bw_text_mm (stone->shoulder_mm, BW_TEXT_MEASURED));
  if (stone->base == BW_BASE_POINT)
    bw_text_fact (&facts, _ ("Lower shoulder"),
                  bw_text_mm (stone->base_shoulder_mm, BW_TEXT_MEASURED));
  g_autofree char *girth = bw_text_mm (stone->girth_mm, BW_TEXT_MEASURED);
  g_autofree char *at = bw_text_mm (stone->at_mm, BW_TEXT_MEASURED);
  /* Translators: a girth, and the height at which it was measured. */
  bw_text_fact (&facts, _ ("Girth"), g_strdup_printf (_ ("%s at %s"), girth, at));
  bw_text_fact (&facts, _ ("Volume"), g_strdup_printf (_ ("%.1f mm³"), stone->volume_mm3));
  bw_text_fact (&facts, _ ("Mass"), g_strdup_printf (_ ("%.2f g"), stone->mass_g));
  bw_text_fact (&facts, _ ("Balance point"),
                g_strdup_printf (_ ("%.1f mm above the base, %.1f mm off the axis"),
                                 stone->centroid.z, hypot (stone->centroid.x, stone->centroid.y)));
  bw_text_fact (&facts, _ ("Misfit of the measurements"),
                bw_text_mm (stone->closing_error_mm, BW_TEXT_MEASURED));
  bw_table_write (&facts, text, 0);
}

static void
text_vertices (GString *text, const BwStone *stone)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rrrr");
  bw_table_add (&table, g_strdup (_ ("Corner")), g_strdup (_ ("x mm")), g_strdup (_ ("y mm")),
                g_strdup (_ ("z mm")));
  for (int i = 0; i < stone->n_vertices; i++)
    bw_table_add (&table, bw_text_count ((guint64)i + 1),
                  bw_text_number (stone->vertex[i].x, BW_TEXT_MEASURED),
                  bw_text_number (stone->vertex[i].y, BW_TEXT_MEASURED),
                  bw_text_number (stone->vertex[i].z, BW_TEXT_MEASURED));
  bw_table_write (&table, text, 0);
}

static char *
corner_list (const BwStone *stone, int f)
{
  int corners[BW_FACES_MAX];
  int n = bw_stone_polygon (stone, f, corners, NULL, NULL);
  GString *list = g_string_new (NULL);
  for (int i = 0; i < n; i++)
    g_string_append_printf (list, i > 0 ? " %d" : "%d", corners[i] + 1);
  return g_string_free (list, FALSE);
}

static void
text_faces (GString *text, const BwStone *stone)
{
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "ll");
  bw_table_add (&table, g_strdup (_ ("Face")), g_strdup (_ ("Corners, seen from outside")));
  for (int f = 0; f < stone->n_polygons; f++)
    bw_table_add (&table, face_words (stone, f), corner_list (stone, f));
  bw_table_write (&table, text, 0);
}

static char *
stone_text (BwProject *project)
{
  const BwStone *stone = bw_project_stone (project);
  GString *text = g_string_new (NULL);
  bw_text_heading (text, project, _ ("the stone"));
  text_facts (text, project);
  g_string_append_c (text, '\n');
  text_vertices (text, stone);
  g_string_append_c (text, '\n');
  text_faces (text, stone);
  bw_text_warnings (text, project, BW_TOPIC_STONE, BW_UNIT_MM);
  return bw_text_done (text);
}

char *
bw_report_stone (BwProject *project, gboolean json)
{
  return json ? stone_json (project) : stone_text (project);
}

static char *
section_json (const BwSection *section)
{
  BwAnswer json;
  bw_answer_init (&json);
  bw_answer_number (&json, "girth_mm", section->girth_mm);
  bw_answer_open_array (&json, "polygon");
  for (int i = 0; i < section->edges; i++)
    bw_answer_numbers (&json, NULL, (double[]){ section->corner[i].x, section->corner[i].y }, 2);
  return bw_answer_finish (&json);
}

static char *
section_text (BwProject *project, const BwSection *section)
{
  GString *text = g_string_new (NULL);
  g_autofree char *height = bw_text_mm (section->z_mm, BW_TEXT_MEASURED);
  g_autofree char *report = g_strdup_printf (_ ("section at %s"), height);
  bw_text_heading (text, project, report);
  g_autofree char *girth = bw_text_mm (section->girth_mm, BW_TEXT_MEASURED);
  g_string_append_printf (text, _ ("Girth  %s\n\n"), girth);
  g_auto (BwTable) table = { 0 };
  bw_table_init (&table, "rrrr");
  bw_table_add (&table, g_strdup (_ ("Face")), g_strdup (_ ("width mm")),
                g_strdup (_ ("to corner x mm")), g_strdup (_ ("y mm")));
  for (int i = 0; i < section->edges; i++)
    bw_table_add (&table,
                  section->face[i] < 0 ? g_strdup ("–")
                                       : bw_text_count ((guint64)section->face[i] + 1),
                  bw_text_number (bw_section_face_width_mm (section, i), BW_TEXT_MEASURED),
                  bw_text_number (section->corner[i].x, BW_TEXT_MEASURED),
                  bw_text_number (section->corner[i].y, BW_TEXT_MEASURED));
  bw_table_write (&table, text, 0);
  return bw_text_done (text);
}

char *
bw_report_section (BwProject *project, double z_mm, gboolean json, GError **error)
{
  const BwStone *stone = bw_project_stone (project);
  if (!(z_mm >= 0 && z_mm <= stone->length_mm)) {
    bw_fault_set (error, BW_FAULT_RANGE, "",
                  _ ("a height of %g mm is off the stone, which reaches from 0 to %g mm"), z_mm,
                  stone->length_mm);
    return NULL;
  }
  BwSection section;
  bw_section_init (&section, stone, z_mm);
  return json ? section_json (&section) : section_text (project, &section);
}
