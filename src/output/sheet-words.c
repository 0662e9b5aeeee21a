/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are the same as those on the screen and in a text file; here they are set in type, with
 * a box to tick before every row. */
#include "config.h"

#include "output/sheet-private.h"

#include "output/report.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define TICK 13.0    /* room for a row's box */
#define NUMBER 102.0 /* and for its number */

static gboolean
is_section (const char *line)
{
  const char *titles[] = { _ ("Before the first row"), _ ("The band"), _ ("The join"),
                           _ ("The bail"), _ ("The ends of the thread") };
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++)
    if (g_str_equal (line, titles[i]))
      return TRUE;
  return FALSE;
}

static void
draw_tick (BwFlow *flow)
{
  cairo_rectangle (flow->cr, flow->left, flow->y + 2, 7, 7);
  cairo_set_source_rgb (flow->cr, 0.4, 0.4, 0.4);
  cairo_set_line_width (flow->cr, 0.5);
  cairo_stroke (flow->cr);
}

/* A row: its number before two blanks, its beads after them. */
static void
add_row (BwFlow *flow, const char *line, const char *parting)
{
  g_autofree char *number = g_strndup (line, (gsize)(parting - line));
  const char *beads = parting + strspn (parting, " ");
  g_autoptr (PangoLayout) layout
      = bw_type_layout (flow->cr, BW_TYPE_TEXT, beads, flow->width - TICK - NUMBER);
  int height;
  pango_layout_get_size (layout, NULL, &height);
  bw_flow_room (flow, pango_units_to_double (height) + 2);
  if (*number)
    draw_tick (flow);
  g_autoptr (PangoLayout) label = bw_type_layout (flow->cr, BW_TYPE_BOLD, number, 0);
  int wide;
  pango_layout_get_size (label, &wide, NULL);
  cairo_set_source_rgb (flow->cr, 0, 0, 0);
  cairo_move_to (flow->cr, flow->left + TICK, flow->y);
  pango_cairo_show_layout (flow->cr, label);
  if (pango_units_to_double (wide) > NUMBER - 4)
    flow->y += bw_type_height (BW_TYPE_TEXT);
  cairo_move_to (flow->cr, flow->left + TICK + NUMBER, flow->y);
  pango_cairo_show_layout (flow->cr, layout);
  flow->y += pango_units_to_double (height) + 2;
}

/* What a line is, by the rules of the words' plain text. */
static void
add_line (BwFlow *flow, const char *text)
{
  const char *parting = strstr (text, "  ");
  if (is_section (text)) {
    bw_flow_heading (flow, text, 60);
  } else if (g_str_has_prefix (text, "* ")) {
    bw_flow_space (flow, 2);
    bw_flow_item (flow, "·", text + 2, 10);
    bw_flow_space (flow, 2);
  } else if (parting || g_str_has_suffix (text, ":")) {
    add_row (flow, text, parting ? parting : text + strlen (text));
  } else {
    bw_flow_text (flow, BW_TYPE_TEXT, text);
  }
}

void
bw_sheet_add_words (BwFlow *flow, BwProject *project)
{
  g_autofree char *words = bw_words_flowing (project);
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  char **line = lines + MIN (2, g_strv_length (lines));
  bw_flow_heading (flow, _ ("Row by row"), 200);
  for (; *line; line++)
    if (**line)
      add_line (flow, *line);
}
