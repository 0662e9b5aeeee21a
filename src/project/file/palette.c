/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/file/palette.h"

#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/file/read-whole.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

#define GPL_HEAD "GIMP Palette"
#define BYTES_MAX (1024 * 1024)

/* --- Reading -----------------------------------------------------------------------------------
 */

static gboolean
has_colour (const BwTray *tray, guint32 srgb, const char *name)
{
  for (int i = 0; i < tray->n_colours; i++)
    if (tray->colour[i].srgb == srgb && g_str_equal (tray->colour[i].name, name))
      return TRUE;
  return FALSE;
}

static gboolean
add (BwTray *tray, guint32 srgb, const char *words, GError **error)
{
  g_autofree char *line = bw_line_make (words);
  BwColour colour = { .srgb = srgb, .finish = BW_FINISH_OPAQUE };

  bw_copy_text (colour.name, sizeof colour.name, g_strstrip (line));
  if (has_colour (tray, srgb, colour.name))
    return TRUE;
  if (tray->n_colours >= BW_TRAY_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, "",
                  _ ("more than %d colours were found; a tray holds %d."), BW_TRAY_MAX,
                  BW_TRAY_MAX);
    return FALSE;
  }
  colour.id = bw_tray_free_letter (tray);
  tray->colour[tray->n_colours++] = colour;
  return TRUE;
}

static gboolean
read_gpl_line (const char *line, int number, BwTray *tray, GError **error)
{
  int red, green, blue, used = 0;

  if (*line == '\0' || *line == '#' || g_str_has_prefix (line, "Name:")
      || g_str_has_prefix (line, "Columns:"))
    return TRUE;
  if (sscanf (line, "%3d %3d %3d%n", &red, &green, &blue, &used) == 3 && red >= 0 && red <= 255
      && green >= 0 && green <= 255 && blue >= 0 && blue <= 255)
    return add (tray, (guint32)(red << 16 | green << 8 | blue), line + used, error);
  bw_fault_set (
      error, BW_FAULT_SYNTAX, "",
      _ ("line %d of the palette is no colour: three numbers from 0 to 255 and a name are "
         "needed."),
      number);
  return FALSE;
}

static gboolean
read_gpl (char **lines, BwTray *tray, GError **error)
{
  for (int i = 1; lines[i]; i++)
    if (!read_gpl_line (g_strstrip (lines[i]), i + 1, tray, error))
      return FALSE;
  return TRUE;
}

static guint32
srgb_of_digits (const char *digits, int n)
{
  guint32 value = (guint32)g_ascii_strtoull (digits, NULL, 16);

  if (n == 6)
    return value;
  return (value >> 8 & 15) * 0x110000 + (value >> 4 & 15) * 0x1100 + (value & 15) * 0x11;
}

/* "night-water" is a bead called "Night water". Owned. */
static char *
name_of_property (const char *property)
{
  char *name = g_strdelimit (g_strdup (property ? property : ""), "-_", ' ');

  *name = g_ascii_toupper (*name);
  return name;
}

static gboolean
read_css (const char *text, BwTray *tray, GError **error)
{
  g_autoptr (GRegex) regex = g_regex_new (
      "(?:--([A-Za-z0-9_-]+)\\s*:\\s*)?#([0-9A-Fa-f]{6}|[0-9A-Fa-f]{3})(?![0-9A-Za-z_-])", 0, 0,
      NULL);
  g_autoptr (GMatchInfo) match = NULL;

  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *property = g_match_info_fetch (match, 1);
    g_autofree char *digits = g_match_info_fetch (match, 2);
    g_autofree char *name = name_of_property (property);

    if (!add (tray, srgb_of_digits (digits, (int)strlen (digits)), name, error))
      return FALSE;
  }
  return TRUE;
}

gboolean
bw_palette_read (const char *data, gsize length, BwTray *tray, GError **error)
{
  g_autofree char *text = g_utf8_make_valid (data, (gssize)length);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  gboolean gpl = lines[0] && g_str_equal (g_strstrip (lines[0]), GPL_HEAD);

  memset (tray, 0, sizeof *tray);
  if (gpl ? !read_gpl (lines, tray, error) : !read_css (text, tray, error))
    return FALSE;
  if (tray->n_colours > 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_SYNTAX, "",
                _ ("no colours were found: a GIMP palette or CSS colours such as #1b2a41 are "
                   "needed."));
  return FALSE;
}

gboolean
bw_palette_load (GFile *file, BwTray *tray, GError **error)
{
  BwStamp stamp;
  g_autoptr (GByteArray) bytes = bw_read_whole (file, BYTES_MAX, NULL, NULL, &stamp, error);

  if (!bytes)
    return FALSE;
  if (bytes->len <= BYTES_MAX)
    return bw_palette_read ((const char *)bytes->data, bytes->len, tray, error);
  bw_fault_set (error, BW_FAULT_RANGE, "", _ ("the file is larger than any palette."));
  return FALSE;
}

/* --- Writing -----------------------------------------------------------------------------------
 */

char *
bw_palette_to_gpl (const BwTray *tray, const char *name)
{
  g_autofree char *line = bw_line_make (name);
  GString *text = g_string_new (GPL_HEAD "\n");

  g_string_append_printf (text, "Name: %s\nColumns: 0\n#\n", line);
  for (int i = 0; i < tray->n_colours; i++) {
    guint32 srgb = tray->colour[i].srgb;

    g_string_append_printf (text, "%3u %3u %3u\t%s\n", srgb >> 16 & 255, srgb >> 8 & 255,
                            srgb & 255, tray->colour[i].name);
  }
  return g_string_free (text, FALSE);
}

/* Small letters, figures and hyphens; "" when nothing of the name is any of these. Owned. */
static char *
property_of_name (const char *name)
{
  GString *property = g_string_new (NULL);

  for (; *name; name++)
    if (g_ascii_isalnum (*name))
      g_string_append_c (property, g_ascii_tolower (*name));
    else if (property->len > 0 && property->str[property->len - 1] != '-')
      g_string_append_c (property, '-');
  if (property->len > 0 && property->str[property->len - 1] == '-')
    g_string_truncate (property, property->len - 1);
  return g_string_free (property, FALSE);
}

char *
bw_palette_to_css (const BwTray *tray)
{
  GString *text = g_string_new (":root {\n");

  for (int i = 0; i < tray->n_colours; i++) {
    g_autofree char *property = property_of_name (tray->colour[i].name);

    if (*property)
      g_string_append_printf (text, "  --%s: #%06x;\n", property, tray->colour[i].srgb & 0xffffff);
    else
      g_string_append_printf (text, "  --colour-%d: #%06x;\n", i + 1,
                              tray->colour[i].srgb & 0xffffff);
  }
  g_string_append (text, "}\n");
  return g_string_free (text, FALSE);
}
