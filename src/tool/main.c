/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bandwright-tool: the numbers, words and pictures of a project without a window. It opens no
 * display and says in its exit status who is at fault: 0 nobody, 1 the project or the machine, 2
 * the command line. */
#include "config.h"

#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"
#include "tool/command.h"
#include "tool/standard-output.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>

enum { DONE = 0, AT_FAULT = 1, WRONG_USAGE = 2 };

static void
start_translations (void)
{
  setlocale (LC_ALL, "");
  const char *folder = g_getenv ("BANDWRIGHT_LOCALE_DIR"); /* for a run from the build folder */
  bindtextdomain (GETTEXT_PACKAGE, folder ? folder : BW_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
}

/* One line, whatever the name of a file or a sentence of the system has in it. */
static void
complain (const char *about, const char *sentence)
{
  g_autofree char *line = g_strdup_printf ("%s: %s", about, sentence);
  g_autofree char *valid = g_utf8_make_valid (line, -1), *told = bw_line_tell (valid);
  fprintf (stderr, "%s\n", told);
}

static int
wrong_usage (const GError *error)
{
  complain ("bandwright-tool", error->message);
  fputs (_ ("Try 'bandwright-tool --help'.\n"), stderr);
  return WRONG_USAGE;
}

static int
print (const char *text)
{
  g_autoptr (GError) error = NULL;
  if (bw_standard_output_write (text, &error))
    return DONE;
  complain (_ ("standard output"), error->message);
  return AT_FAULT;
}

/* "POINTER: sentence"; the sentence alone when it is the whole document that is at fault. */
static const char *
fault_sentence (const GError *error)
{
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  return pointer ? error->message : bw_fault_sentence (error);
}

/* A slip of the hand must not cost the project. */
static gboolean
is_the_project (BwProject *project, const char *name)
{
  GStatBuf own, other;
  const char *path = g_file_peek_path (bw_project_get_file (project));
  return g_stat (path, &own) == 0 && g_stat (name, &other) == 0 && own.st_dev == other.st_dev
         && own.st_ino == other.st_ino;
}

static gboolean
check_output (BwProject *project, const BwOptions *options, GError **error)
{
  if (!(options->given & BW_OPTION_OUTPUT) || !is_the_project (project, options->output))
    return TRUE;
  g_set_error_literal (error, BW_USAGE, BW_USAGE_WRONG,
                       _ ("--output: this is the project itself; name another file"));
  return FALSE;
}

static int
run_on_file (const BwCommand *command, const BwOptions *options, const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (name);
  g_autoptr (BwProject) project = bw_project_load (file, &error);
  if (!project) {
    complain (name,
              error->domain == BW_FAULT ? fault_sentence (error) : bw_io_words (error, BW_IO_READ));
    return AT_FAULT;
  }
  g_autofree char *text
      = check_output (project, options, &error) ? command->run (project, options, &error) : NULL;
  if (text)
    return print (text);
  if (error->domain == BW_USAGE)
    return wrong_usage (error);
  complain (error->domain == BW_FAULT ? name : "bandwright-tool", fault_sentence (error));
  return AT_FAULT;
}

static int
run_alone (const BwCommand *command, const BwOptions *options)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = command->run_alone (options, &error);
  if (text)
    return print (text);
  if (error->domain == BW_USAGE)
    return wrong_usage (error);
  complain ("bandwright-tool", error->message);
  return AT_FAULT;
}

static gboolean
misuse (GError **error, const char *sentence, const char *command)
{
  g_autofree char *name = g_strdup_printf ("'%s'", command);
  g_set_error (error, BW_USAGE, BW_USAGE_WRONG, "%s %s", name, sentence);
  return FALSE;
}

static const char *
wanted_words (guint64 required)
{
  if (required & BW_OPTION_STONE)
    return _ ("wants --stone with a project file, and -o with a file to write");
  if (required & BW_OPTION_FROM)
    return _ ("wants --from and a file to read");
  return required & BW_OPTION_OUTPUT ? _ ("wants -o and a file to write")
                                     : _ ("wants --rows and --reading");
}

static gboolean
check_usage (const BwCommand *command, const BwOptions *options, GError **error)
{
  const guint64 lists = BW_OPTION_JSON | BW_OPTION_CSV;
  if (!bw_options_check (options, command->options, command->name, error))
    return FALSE;
  if (command->run_alone && options->words->len > 1)
    return misuse (error, _ ("takes no project file"), command->name);
  if (!command->run_alone && options->words->len == 1)
    return misuse (error, _ ("wants a project file"), command->name);
  if (options->words->len > 2)
    return misuse (error, _ ("takes one project file alone"), command->name);
  /* An answer goes to standard output and needs no file. */
  guint64 answered = options->given & BW_OPTION_JSON ? BW_OPTION_OUTPUT : 0;
  if (answered & options->given)
    return misuse (error, _ ("takes --json or -o, not both"), command->name);
  if (command->required & ~options->given & ~answered)
    return misuse (error, wanted_words (command->required), command->name);
  if ((options->given & lists) == lists)
    return misuse (error, _ ("takes --json or --csv, not both"), command->name);
  return TRUE;
}

static const BwCommand *
find_command (const char *name, GError **error)
{
  const BwCommand *command = bw_command_find (name);
  if (!command)
    g_set_error (error, BW_USAGE, BW_USAGE_WRONG, _ ("unknown command '%s'"), name);
  return command;
}

/* "help", "help COMMAND", "--help", "COMMAND --help". */
static int
help (const BwOptions *options, GError **error)
{
  const GPtrArray *words = options->words;
  guint first = words->len > 0 && g_str_equal (g_ptr_array_index (words, 0), "help") ? 1 : 0;
  const BwCommand *command = NULL;
  if (words->len > first && !(command = find_command (g_ptr_array_index (words, first), error)))
    return wrong_usage (*error);
  g_autofree char *text = bw_command_help (command);
  return print (text);
}

static gboolean
wants_help (const BwOptions *options)
{
  return options->given & BW_OPTION_HELP
         || (options->words->len > 0
             && g_str_equal (g_ptr_array_index (options->words, 0), "help"));
}

static int
run (const BwOptions *options, GError **error)
{
  if (wants_help (options))
    return help (options, error);
  if (options->given & BW_OPTION_VERSION)
    return print ("bandwright-tool " BW_VERSION "\n");
  if (options->words->len == 0) {
    g_set_error_literal (error, BW_USAGE, BW_USAGE_WRONG, _ ("a command is missing"));
    return wrong_usage (*error);
  }
  const BwCommand *command = find_command (g_ptr_array_index (options->words, 0), error);
  if (!command || !check_usage (command, options, error))
    return wrong_usage (*error);
  if (command->run_alone)
    return run_alone (command, options);
  return run_on_file (command, options, g_ptr_array_index (options->words, 1));
}

int
main (int argc, char **argv)
{
  g_auto (BwOptions) options = { 0 };
  g_autoptr (GError) error = NULL;
  bw_standard_output_guard ();
  start_translations ();
  if (!bw_options_parse (&options, argc, argv, &error))
    return wrong_usage (error);
  return run (&options, &error);
}
