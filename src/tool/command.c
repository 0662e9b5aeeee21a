/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each command is a report of the output room and the options it takes. */
#include "config.h"

#include "tool/command.h"

#include "project/fault/fault-error.h"
#include "output/report/report.h"
#include "tool/model.h"
#include "tool/paper.h"
#include "tool/photo.h"
#include "tool/render.h"
#include "tool/workshop.h"
#include "tool/restone.h"

#include <glib/gi18n-lib.h>

static gboolean
given (const BwOptions *options, BwOption option)
{
  return (options->given & option) != 0;
}

static char *
run_fit (BwProject *project, const BwOptions *options, GError **error)
{
  return bw_report_fit (project, options->rows, given (options, BW_OPTION_JSON), error);
}

/* The height is the caller's, not the project's: off the stone it is wrong usage. */
static char *
run_section (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (GError) fault = NULL;
  char *report
      = bw_report_section (project, options->section_mm, given (options, BW_OPTION_JSON), &fault);
  if (!report)
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG, "--section: %s", bw_fault_sentence (fault));
  return report;
}

static char *
run_stone (BwProject *project, const BwOptions *options, GError **error)
{
  if (given (options, BW_OPTION_SECTION))
    return run_section (project, options, error);
  return bw_report_stone (project, given (options, BW_OPTION_JSON));
}

static char *
run_hang (BwProject *project, const BwOptions *options, GError **error)
{
  return bw_report_hang (project, given (options, BW_OPTION_JSON));
}

static char *
run_thread (BwProject *project, const BwOptions *options, GError **error)
{
  return bw_report_thread (project, given (options, BW_OPTION_ALL),
                           given (options, BW_OPTION_JSON));
}

static char *
run_materials (BwProject *project, const BwOptions *options, GError **error)
{
  if (!bw_workshop_know (options, error))
    return NULL;
  if (given (options, BW_OPTION_CSV))
    return bw_materials_csv (project, options->pieces);
  return bw_report_materials (project, options->pieces, options->units,
                              given (options, BW_OPTION_JSON));
}

static char *
run_words (BwProject *project, const BwOptions *options, GError **error)
{
  return bw_words (project, options->units);
}

/* A project that loads is sound: loading checks everything. */
static char *
run_check (BwProject *project, const BwOptions *options, GError **error)
{
  return g_strdup ("");
}

/* What was read is the caller's, not the project's: where it cannot be it is wrong usage. */
static char *
run_try_on (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (GError) fault = NULL;
  double mm = options->reading;
  if (options->in_beads)
    mm *= bw_project_get_design (project)->pitch.mm;
  BwTriedTool tool = options->in_beads ? BW_TRIED_BY_EYE : BW_TRIED_BY_CALLIPER;
  BwReading reading = { mm, options->how, tool };
  if (given (options, BW_OPTION_TOOL))
    reading.tool = options->tool;
  char *report = bw_report_try_on (project, options->rows, &reading,
                                   given (options, BW_OPTION_JSON), &fault);
  if (!report)
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG, "--reading: %s", bw_fault_sentence (fault));
  return report;
}

static const BwCommand commands[] = {
  { "fit", "FILE [--json] [--rows R]",
    N_ ("whether the band closes and grips, how sure that is, and what helps"),
    BW_OPTION_JSON | BW_OPTION_ROWS, 0, run_fit },
  { "try-on",
    "FILE --rows R --reading X [--how slack|pulled] [--unit mm|beads] [--tool eye|calliper] "
    "[--json]",
    N_ ("what to do with a strip of R rows whose ends, tried on, miss each other by X"),
    BW_OPTION_JSON | BW_OPTION_ROWS | BW_OPTION_READING | BW_OPTION_HOW | BW_OPTION_UNIT
        | BW_OPTION_TOOL,
    BW_OPTION_ROWS | BW_OPTION_READING, run_try_on },
  { "ways", "FILE [--book FILE] [--want WORD] [--seed N] [--limit K] [--json]",
    N_ ("good ways to set this stone, as different as can be"),
    BW_OPTION_JSON | BW_OPTION_BOOK | BW_OPTION_WANT | BW_OPTION_SEED | BW_OPTION_LIMIT, 0,
    bw_workshop_run_ways },
  { "stone", "FILE [--json] [--section Z]",
    N_ ("the stone as solved: mass, balance point, corners, faces, or one section"),
    BW_OPTION_JSON | BW_OPTION_SECTION, 0, run_stone },
  { "hang", "FILE [--json]",
    N_ ("how the finished piece hangs, and whether the band stays where it is"), BW_OPTION_JSON, 0,
    run_hang },
  { "thread", "FILE [--json] [--all]",
    N_ ("the needle's path: beads passed, full holes, lengths of thread"),
    BW_OPTION_JSON | BW_OPTION_ALL, 0, run_thread },
  { "materials", "FILE [--json|--csv] [--pieces K] [--units mm|in] [--book FILE]",
    N_ ("what to buy beyond the stash: beads by colour, cord, thread, and what it costs"),
    BW_OPTION_JSON | BW_OPTION_CSV | BW_OPTION_PIECES | BW_OPTION_BOOK | BW_OPTION_UNITS, 0,
    run_materials },
  { "words", "FILE [--units mm|in]", N_ ("the work row by row, as read at the bench"),
    BW_OPTION_UNITS, 0, run_words },
  { "sheet",
    "FILE -o OUT.pdf|--json [--paper SIZE] [--kit K] [--units mm|in] [--large] [--sparing] "
    "[--costs] [--book FILE]",
    N_ ("the printed work sheet, or the kit sheet of a class, or the numbers printed"),
    BW_OPTION_OUTPUT | BW_OPTION_JSON | BW_OPTION_PAPER | BW_OPTION_KIT | BW_OPTION_LARGE
        | BW_OPTION_SPARING | BW_OPTION_COSTS | BW_OPTION_BOOK | BW_OPTION_UNITS,
    BW_OPTION_OUTPUT, bw_paper_run_sheet },
  { "chart", "FILE -o OUT.svg|OUT.png", N_ ("the chart of the band as a picture"), BW_OPTION_OUTPUT,
    BW_OPTION_OUTPUT, bw_paper_run_chart },
  { "strip", "FILE -o OUT.pdf [--paper SIZE] [--units mm|in]",
    N_ ("a paper strip at true size to wrap round the stone"),
    BW_OPTION_OUTPUT | BW_OPTION_PAPER | BW_OPTION_UNITS, BW_OPTION_OUTPUT, bw_paper_run_strip },
  { "tags", "FILE -o OUT.pdf [--paper SIZE] [--units mm|in] [--costs]",
    N_ ("hang tags for a market stall, ten to a page"),
    BW_OPTION_OUTPUT | BW_OPTION_PAPER | BW_OPTION_COSTS | BW_OPTION_UNITS, BW_OPTION_OUTPUT,
    bw_paper_run_tags },
  { "listing", "FILE -o OUT.png", N_ ("a square picture with the title, for a shop's page"),
    BW_OPTION_OUTPUT, BW_OPTION_OUTPUT, bw_paper_run_listing },
  { "render",
    "FILE -o OUT.png|OUT.webp [--fine] [--turntable|--play] [--frames N] [--size WxH] "
    "[--turn DEG] [--tip DEG] [--view WORD] [--near N] [--ground WORD] [--light WORD]",
    N_ ("a picture of the finished piece, drawn without a display"),
    BW_OPTION_OUTPUT | BW_OPTION_SIZE | BW_OPTION_TURN | BW_OPTION_TIP | BW_OPTION_VIEW
        | BW_OPTION_GROUND | BW_OPTION_FINE | BW_OPTION_TURNTABLE | BW_OPTION_FRAMES
        | BW_OPTION_PLAY | BW_OPTION_LIGHT | BW_OPTION_NEAR,
    BW_OPTION_OUTPUT, bw_render_run },
  { "thumbnail", "FILE -o OUT.png [--size N]",
    N_ ("the piece small and alone, as file managers show it"), BW_OPTION_OUTPUT | BW_OPTION_SIZE,
    BW_OPTION_OUTPUT, bw_render_run_thumbnail },
  { "model", "FILE -o OUT.glb", N_ ("the finished piece as a model for other programs (glTF 2.0)"),
    BW_OPTION_OUTPUT, BW_OPTION_OUTPUT, bw_model_run },
  { "hands", "[--book FILE] [--json]",
    N_ ("what the pieces woven so far say of your hands: bead to bead of the next one"),
    BW_OPTION_BOOK | BW_OPTION_JSON, 0, NULL, bw_workshop_run_hands },
  { "calibrate", "[--book FILE] [--json]",
    N_ ("whether what the book told of each next piece came true"), BW_OPTION_BOOK | BW_OPTION_JSON,
    0, NULL, bw_workshop_run_calibrate },
  { "note", "FILE [--book FILE]",
    N_ ("put the swatch and the strip lengths of a project into the book"), BW_OPTION_BOOK, 0,
    bw_workshop_run_note },
  { "beads", "[--book FILE] [--bead NAME] [--json|--csv]", N_ ("your own kinds of bead"),
    BW_OPTION_BOOK | BW_OPTION_BEAD | BW_OPTION_JSON | BW_OPTION_CSV, 0, NULL,
    bw_workshop_run_beads },
  { "stash", "[--book FILE] [--json|--csv]", N_ ("what is in the stash"),
    BW_OPTION_BOOK | BW_OPTION_JSON | BW_OPTION_CSV, 0, NULL, bw_workshop_run_stash },
  { "trays", "[--book FILE] [--json]", N_ ("trays of your own"), BW_OPTION_BOOK | BW_OPTION_JSON, 0,
    NULL, bw_workshop_run_trays },
  { "stones", "[--book FILE] [--json]", N_ ("stones that you have measured"),
    BW_OPTION_BOOK | BW_OPTION_JSON, 0, NULL, bw_workshop_run_stones },
  { "habits", "[--book FILE] [--json]", N_ ("what you are used to, as places in a project"),
    BW_OPTION_BOOK | BW_OPTION_JSON, 0, NULL, bw_workshop_run_habits },
  { "tray", "--from PICTURE [--limit K] [--json] [-o OUT.gpl|OUT.css]",
    N_ ("the colours of beads in a photograph, as many as it suggests or K"),
    BW_OPTION_FROM | BW_OPTION_LIMIT | BW_OPTION_JSON | BW_OPTION_OUTPUT, BW_OPTION_FROM, NULL,
    bw_photo_run_tray },
  { "read-in", "--from FILE [--book FILE]",
    N_ ("put what another book has, or the JSON of beads and stash, into the book"),
    BW_OPTION_FROM | BW_OPTION_BOOK, BW_OPTION_FROM, NULL, bw_workshop_run_read_in },
  { "restone", "FILE --stone FILE -o OUT.bandwright [--by-hand repeat|stretch|ground]",
    N_ ("the same design on another stone: motifs laid anew, the rest as chosen"),
    BW_OPTION_STONE | BW_OPTION_OUTPUT | BW_OPTION_BY_HAND, BW_OPTION_STONE | BW_OPTION_OUTPUT,
    bw_restone_run },
  { "check", "FILE", N_ ("check the project; prints nothing when it is sound"), 0, 0, run_check },
};

const BwCommand *
bw_command_find (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].name, name))
      return &commands[i];
  return NULL;
}

const BwCommand *
bw_command_nth (gsize i)
{
  return i < G_N_ELEMENTS (commands) ? &commands[i] : NULL;
}

static char *
help_of_command (const BwCommand *command)
{
  GString *text = g_string_new (NULL);
  g_string_append_printf (text, _ ("Usage: bandwright-tool %s %s\n\n"), command->name,
                          command->arguments);
  g_string_append_printf (text, "%s.\n", _ (command->summary));
  g_string_append (text, _ ("\nOptions:\n"));
  bw_options_describe (text, command->options | BW_OPTION_HELP);
  return g_string_free (text, FALSE);
}

static char *
help_of_tool (void)
{
  GString *text = g_string_new (_ ("Usage: bandwright-tool COMMAND FILE [OPTION…]\n\n"
                                   "Reads a project (.bandwright) and tells about the piece.\n\n"
                                   "Commands:\n"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_string_append_printf (text, "  %-10s %s\n", commands[i].name, _ (commands[i].summary));
  g_string_append_printf (text, "  %-10s %s\n", "help", _ ("tell how a command is used"));
  g_string_append (text, _ ("\nOptions:\n"));
  bw_options_describe (text, BW_OPTION_HELP | BW_OPTION_VERSION);
  g_string_append (text, _ ("\nExit status: 0 done, 1 the project is at fault, 2 wrong usage.\n"));
  return g_string_free (text, FALSE);
}

char *
bw_command_help (const BwCommand *command)
{
  return command ? help_of_command (command) : help_of_tool ();
}
