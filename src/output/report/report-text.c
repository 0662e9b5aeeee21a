/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wording and the numbers that all readable reports have in common. */
#include "config.h"

#include "output/report/report-parts.h"

#include "core/base/tolerance.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LINE_WIDTH 78
/* Stands before a line break that was only made to keep the line short. */
#define SOFT "\r"

char *
bw_text_number (double value, int decimals)
{
  if (!isfinite (value))
    return g_strdup ("–");
  /* A rounded −0.00 would read as a finding; it is nothing. */
  double least = 0.5 * pow (10, -decimals);
  return g_strdup_printf ("%.*f", decimals, fabs (value) < least ? 0.0 : bw_length_half_up (value));
}

char *
bw_text_mm (double value, int decimals)
{
  g_autofree char *number = bw_text_number (value, decimals);
  return isfinite (value) ? g_strdup_printf (_ ("%s mm"), number) : g_strdup (number);
}

const char *
bw_text_unit (BwUnit unit)
{
  return unit == BW_UNIT_INCH ? _ ("in") : _ ("mm");
}

char *
bw_text_in (double mm, BwUnit unit, int decimals)
{
  return unit == BW_UNIT_INCH ? bw_text_number (mm / BW_MM_PER_INCH, decimals + 1)
                              : bw_text_number (mm, decimals);
}

char *
bw_text_length (double mm, BwUnit unit, int decimals)
{
  if (unit == BW_UNIT_MM)
    return bw_text_mm (mm, decimals);
  g_autofree char *number = bw_text_in (mm, unit, decimals);
  return isfinite (mm) ? g_strdup_printf (_ ("%s in"), number) : g_strdup (number);
}

char *
bw_text_mass (double grams)
{
  if (grams >= 1e4)
    return g_strdup_printf (_ ("%.1f kg"), grams / 1000);
  return g_strdup_printf (_ ("%.*f g"), grams < 9.95 ? 1 : 0, grams);
}

char *
bw_text_count (guint64 count)
{
  return g_strdup_printf ("%" G_GUINT64_FORMAT, count);
}

static char *
heading_for (BwProject *project, const char *report)
{
  g_autofree char *name = bw_piece_name (project);
  return g_strdup_printf ("%s: %s", name, report);
}

void
bw_text_heading (GString *text, BwProject *project, const char *report)
{
  g_autofree char *heading = heading_for (project, report);
  g_string_append (text, heading);
  g_string_append_c (text, '\n');
  for (glong i = g_utf8_strlen (heading, -1); i > 0; i--)
    g_string_append_c (text, '=');
  g_string_append (text, "\n\n");
}

void
bw_text_title (GString *text, BwProject *project, const char *report)
{
  g_autofree char *heading = heading_for (project, report);
  g_string_append_printf (text, "%s\n\n", heading);
}

void
bw_text_section (GString *text, const char *title)
{
  if (!g_str_has_suffix (text->str, "\n\n"))
    g_string_append_c (text, '\n');
  g_string_append_printf (text, "%s\n", title);
}

static void
append_wrapped (GString *text, const char *sentence, const char *indent)
{
  g_auto (GStrv) words = g_strsplit (sentence, " ", -1);
  glong column = g_utf8_strlen (indent, -1), margin = column;
  for (char **word = words; *word; word++) {
    glong width = g_utf8_strlen (*word, -1);
    if (word > words && column + 1 + width > LINE_WIDTH) {
      g_string_append_printf (text, SOFT "\n%s", indent);
      column = margin;
    } else if (word > words) {
      g_string_append_c (text, ' ');
      column++;
    }
    g_string_append (text, *word);
    column += width;
  }
  g_string_append_c (text, '\n');
}

void
bw_text_item (GString *text, const char *sentence)
{
  g_string_append (text, "* ");
  append_wrapped (text, sentence, "  ");
}

void
bw_text_paragraph (GString *text, const char *sentence)
{
  append_wrapped (text, sentence, "");
}

char *
bw_text_done (GString *text)
{
  g_string_replace (text, SOFT "\n", "\n", 0);
  return g_string_free (text, FALSE);
}

char *
bw_text_done_flowing (GString *text)
{
  g_string_replace (text, SOFT "\n  ", " ", 0);
  g_string_replace (text, SOFT "\n", " ", 0);
  return g_string_free (text, FALSE);
}

void
bw_text_fact (BwTable *table, const char *label, char *value)
{
  bw_table_add (table, g_strdup (label), value);
}

void
bw_text_warnings (GString *text, BwProject *project, guint topics, BwUnit unit)
{
  g_auto (GStrv) warnings = bw_project_warnings_about (project, topics, unit);
  for (char **warning = warnings; *warning; warning++) {
    g_autofree char *note = g_strdup_printf (_ ("Note: %s"), *warning);
    g_string_append (text, warning == warnings ? "\n" : "");
    bw_text_item (text, note);
  }
}

void
bw_answer_warnings (BwAnswer *json, BwProject *project, guint topics, const char *more)
{
  g_auto (GStrv) warnings = bw_project_warnings_about (project, topics, BW_UNIT_MM);
  if (!*warnings && !more)
    return;
  bw_answer_open_array (json, "warnings");
  for (char **warning = warnings; *warning; warning++)
    bw_answer_string (json, NULL, *warning);
  if (more)
    bw_answer_string (json, NULL, more);
  bw_answer_close (json);
}
