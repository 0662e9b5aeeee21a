/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are the same as those on the screen and in a text file; here they are set in type, with
 * a box to tick before every row, each colour's bead before its name, and the drawings of the
 * needle's path where they are needed. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/sheet/bead-words.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define TICK 13.0   /* room for a row's box */
#define NUMBER 96.0 /* and for its number */
#define MOST_PICTURED                                                                              \
  20000             /* beads of a band; with more the pictures would weigh the file down           \
                     */
#define ROW_GAP 1.8 /* between rows */

typedef struct {
  BwFlow *flow;
  BwProject *project;
  BwBeadWords *beads;
  int section; /* of the words, −1 before the first */
} Writer;

/* The sections whose words have drawings, in the order of the titles below. */
enum {
  SECTION_BEFORE,
  SECTION_BAND,
  SECTION_FURTHER,
  SECTION_JOIN,
  SECTION_BAIL,
  SECTION_ENDS,
  N_SECTIONS
};

/* Which section a line is the title of, or −1. */
static int
section_of (const char *line)
{
  const char *titles[N_SECTIONS] = {
    _ ("Before the first row"),  _ ("The band"), _ ("Further rows"), _ ("The join"), _ ("The bail"),
    _ ("The ends of the thread")
  };
  for (int i = 0; i < N_SECTIONS; i++)
    if (g_str_equal (line, titles[i]))
      return i;
  return -1;
}

static void
draw_tick (BwFlow *flow)
{
  cairo_rectangle (flow->cr, flow->left, flow->y + 2, 7, 7);
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (NOTE));
  cairo_set_line_width (flow->cr, 0.5);
  cairo_stroke (flow->cr);
}

static void
show (BwFlow *flow, PangoLayout *layout, double x)
{
  cairo_set_source_rgb (flow->cr, BW_ON_PAPER (PRINT));
  cairo_move_to (flow->cr, flow->left + x, flow->y);
  pango_cairo_update_layout (flow->cr, layout);
  pango_cairo_show_layout (flow->cr, layout);
  cairo_new_path (flow->cr);
}

static double
tall (PangoLayout *layout)
{
  int height;
  pango_layout_get_size (layout, NULL, &height);
  return pango_units_to_double (height);
}

static double
wide (PangoLayout *layout)
{
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return pango_units_to_double (width);
}

/* A row: its number, its beads beside it, or below it where the number is long. `more`: it goes on
 * in the next line, which must stay with it. */
static void
add_row (Writer *writer, const char *number, const char *beads, double indent, double more)
{
  BwFlow *flow = writer->flow;
  g_autoptr (PangoLayout) label = bw_type_layout (flow->cr, BW_TYPE_BOLD, number, 0);
  g_autoptr (PangoLayout) layout
      = bw_bead_words_layout (writer->beads, flow->cr, beads, flow->width - TICK - NUMBER);
  gboolean below = *beads && indent + wide (label) > NUMBER - 4;
  double height = *beads ? tall (layout) : tall (label);
  bw_flow_room (flow, height + (below ? tall (label) : 0) + more);
  if (indent <= 0)
    draw_tick (flow);
  show (flow, label, TICK + indent);
  flow->y += below ? tall (label) : 0;
  show (flow, layout, TICK + NUMBER);
  flow->y += height + ROW_GAP;
}

/* A row's number is parted from its beads by two blanks; a line that goes on begins with blanks. */
static void
add_row_line (Writer *writer, const char *line)
{
  const char *text = line + strspn (line, " "), *parting = strstr (text, "  ");
  gboolean goes_on = text > line;
  g_autofree char *number = parting ? g_strndup (text, (gsize)(parting - text)) : g_strdup (text);
  const char *beads = parting ? parting + strspn (parting, " ") : "";
  add_row (writer, number, beads, goes_on ? NUMBER - 18 : 0,
           parting ? 0 : 2 * (bw_type_height (BW_TYPE_TEXT) + ROW_GAP));
}

static gboolean
is_row_line (const char *line)
{
  return strstr (line, "  ") || g_str_has_suffix (line, ":");
}

/* What a section has besides its words, at its end. */
static void
end_section (Writer *writer)
{
  BwFlow *flow = writer->flow;
  switch (writer->section) {
  case SECTION_JOIN:
    bw_sheet_add_steps (flow, writer->project, BW_WORK_JOIN);
    break;
  case SECTION_BAIL:
    bw_sheet_add_steps (flow, writer->project, BW_WORK_BAIL);
    break;
  case SECTION_ENDS:
    bw_sheet_add_steps (flow, writer->project, BW_WORK_ENDS);
    break;
  default:
    break;
  }
}

static void
begin_section (Writer *writer, int section, const char *title)
{
  BwFlow *flow = writer->flow;
  end_section (writer);
  writer->section = section;
  bw_flow_heading (flow, title, section == SECTION_BAND ? 300 : section == SECTION_BAIL ? 140 : 60);
  if (section == SECTION_BAND) {
    bw_sheet_add_legend (flow);
    bw_sheet_add_steps (flow, writer->project, BW_WORK_BAND);
  }
  if (section == SECTION_BAIL)
    bw_sheet_add_loop (flow, writer->project);
}

/* What a line is, by the rules of the words' plain text. */
static void
add_line (Writer *writer, const char *text)
{
  BwFlow *flow = writer->flow;
  int section = section_of (text);
  if (section >= 0) {
    begin_section (writer, section, text);
  } else if (g_str_has_prefix (text, "* ")) {
    bw_flow_space (flow, 3);
    bw_flow_item (flow, "•", text + 2, TICK);
  } else if (is_row_line (text)) {
    add_row_line (writer, text);
  } else {
    bw_flow_text (flow, BW_TYPE_TEXT, text);
  }
}

void
bw_sheet_add_words (BwFlow *flow, BwProject *project)
{
  g_autofree char *words = bw_words_flowing (project);
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  const BwBand *band = &bw_project_get_design (project)->band;
  g_autoptr (BwBeadWords) beads
      = bw_bead_words_new (&flow->tray, band->rows * band->columns / 2 <= MOST_PICTURED);
  Writer writer = { flow, project, beads, -1 };
  bw_flow_heading (flow, _ ("Row by row"), 200);
  for (char **line = lines + MIN (2, g_strv_length (lines)); *line; line++)
    if (**line)
      add_line (&writer, *line);
  end_section (&writer);
}
