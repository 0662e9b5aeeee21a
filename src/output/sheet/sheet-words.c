/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are the same as those on the screen and in a text file; here they are set in type, with
 * a box to tick before every row, each colour's bead before its name, and the drawings of the
 * needle's path where they are needed. */
#include "config.h"

#include "output/sheet/sheet-parts.h"

#include "core/pattern/tint.h"
#include "output/sheet/bench-rows.h"
#include "output/report/report.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define TICK 13.0         /* room for a mark */
#define LEGEND_ROOM 120.0 /* what stays with the headings of the band and of the bail */
#define LOOP_ROOM 82.0
#define KEY_AND_ROWS 110.0 /* a key never stands alone */
#define MOST_IN_KEY 16     /* colours: more would take half of each page */
#define MOST_PICTURED                                                                              \
  20000 /* beads of a band; with more the pictures would weigh the file down                       \
         */

typedef struct {
  BwFlow *flow;
  BwProject *project;
  BwBenchRows rows;
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
  bw_bench_rows_begin (&writer->rows, section == SECTION_BAND);
  bw_flow_heading (flow, title,
                   section == SECTION_BAND   ? LEGEND_ROOM
                   : section == SECTION_BAIL ? LOOP_ROOM
                                             : 60);
  if (section == SECTION_BAND) {
    bw_sheet_add_legend (flow);
    bw_sheet_add_steps (flow, writer->project, BW_WORK_BAND);
    bw_flow_room (flow, KEY_AND_ROWS);
    bw_sheet_add_key (flow, writer->project);
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
    g_autofree char *sentence = bw_bench_rows_event (&writer->rows, text + 2);
    bw_flow_item (flow, "•", sentence, TICK);
  } else if (is_row_line (text)) {
    bw_bench_rows_line (&writer->rows, text);
  } else {
    bw_flow_text (flow, BW_TYPE_TEXT, text);
  }
}

void
bw_sheet_add_words (BwFlow *flow, BwProject *project)
{
  g_autofree char *words = bw_words_flowing (project, flow->unit);
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  const BwBand *band = &bw_project_get_design (project)->band;
  g_autoptr (BwBeadWords) beads
      = bw_bead_words_new (&flow->tray, band->rows * band->columns / 2 <= MOST_PICTURED);
  Writer writer = { .flow = flow,
                    .project = project,
                    .rows = { .flow = flow,
                              .project = project,
                              .beads = beads,
                              .keyless = flow->tray.n_colours > MOST_IN_KEY },
                    .section = -1 };
  /* The pages for the bench begin with a page of their own. */
  bw_flow_part (flow);
  bw_flow_heading (flow, _ ("Row by row"), 0);
  for (char **line = lines + MIN (2, g_strv_length (lines)); *line; line++)
    if (**line)
      add_line (&writer, *line);
  end_section (&writer);
}
