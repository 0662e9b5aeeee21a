/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "printed.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <cmocka.h>

Printed *
printed_new (void)
{
  Printed *printed = g_new0 (Printed, 1);
  printed->folder = g_dir_make_tmp ("bandwright-printed-XXXXXX", NULL);
  printed->pdf = g_build_filename (printed->folder, "out.pdf", NULL);
  return printed;
}

void
printed_free (Printed *printed)
{
  g_remove (printed->pdf);
  g_assert_no_errno (g_rmdir (printed->folder));
  g_free (printed->folder);
  g_free (printed->pdf);
  g_free (printed);
}

void
printed_print (const Printed *printed, BwSheet *taken)
{
  g_autoptr (BwSheet) sheet = taken;
  assert_true (bw_sheet_write_pdf (sheet, printed->pdf, NULL));
}

char *
printed_run (const char *const *argv)
{
  char *out = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  assert_non_null (process);
  assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, NULL, NULL));
  assert_true (g_subprocess_get_successful (process));
  return out;
}

char *
printed_text (const Printed *printed)
{
  const char *argv[] = { "pdftotext", "-raw", printed->pdf, "-", NULL };
  return printed_run (argv);
}

static double
attribute (const char *tag, const char *name)
{
  const char *at = strstr (tag, name);
  assert_non_null (at);
  return g_ascii_strtod (at + strlen (name), NULL);
}

static char *
unescaped (const char *begin, const char *end)
{
  static const struct {
    const char *entity, *sign;
  } entities[] = { { "&lt;", "<" }, { "&gt;", ">" }, { "&quot;", "\"" }, { "&amp;", "&" } };
  GString *text = g_string_new_len (begin, end - begin);
  for (gsize i = 0; i < G_N_ELEMENTS (entities); i++)
    g_string_replace (text, entities[i].entity, entities[i].sign, 0);
  return g_string_free (text, FALSE);
}

static void
clear_word (gpointer word)
{
  g_free (((PrintedWord *)word)->text);
}

static PrintedWord
word_of (const char *line, const char *end, int page)
{
  return (PrintedWord){ page,
                        attribute (line, "xMin=\""),
                        attribute (line, "yMin=\""),
                        attribute (line, "xMax=\""),
                        attribute (line, "yMax=\""),
                        unescaped (strchr (line, '>') + 1, end) };
}

GArray *
printed_words (const Printed *printed, GArray **pages)
{
  const char *argv[] = { "pdftotext", "-bbox", printed->pdf, "-", NULL };
  g_autofree char *boxes = printed_run (argv);
  g_auto (GStrv) lines = g_strsplit (boxes, "\n", -1);
  GArray *words = g_array_new (FALSE, FALSE, sizeof (PrintedWord));
  g_array_set_clear_func (words, clear_word);
  *pages = g_array_new (FALSE, FALSE, sizeof (PrintedPage));
  for (char **line = lines; *line; line++) {
    const char *end = strstr (*line, "</word>");
    if (strstr (*line, "<page ")) {
      PrintedPage page = { attribute (*line, "width=\""), attribute (*line, "height=\"") };
      g_array_append_val (*pages, page);
    } else if (end) {
      PrintedWord word = word_of (*line, end, (int)(*pages)->len);
      g_array_append_val (words, word);
    }
  }
  return words;
}

static void
clear_grey (gpointer grey)
{
  g_free (((PrintedGrey *)grey)->dots);
}

static PrintedGrey
grey_of (const char *path)
{
  g_autofree char *data = NULL;
  PrintedGrey grey;
  int most, used;
  assert_true (g_file_get_contents (path, &data, NULL, NULL));
  assert_int_equal (sscanf (data, "P5 %d %d %d%n", &grey.width, &grey.height, &most, &used), 3);
  grey.dots = g_memdup2 (data + used + 1, (gsize)grey.width * (gsize)grey.height);
  return grey;
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

GArray *
printed_grey (const Printed *printed, int dpi)
{
  g_autofree char *dots = g_strdup_printf ("%d", dpi),
                  *root = g_build_filename (printed->folder, "page", NULL);
  const char *argv[] = { "pdftoppm", "-gray", "-r", dots, printed->pdf, root, NULL };
  g_free (printed_run (argv));
  g_autoptr (GDir) folder = g_dir_open (printed->folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  for (const char *name; (name = g_dir_read_name (folder));)
    if (g_str_has_suffix (name, ".pgm"))
      g_ptr_array_add (names, g_build_filename (printed->folder, name, NULL));
  g_ptr_array_sort (names, by_name);
  GArray *pages = g_array_new (FALSE, FALSE, sizeof (PrintedGrey));
  g_array_set_clear_func (pages, clear_grey);
  for (guint i = 0; i < names->len; i++) {
    PrintedGrey grey = grey_of (g_ptr_array_index (names, i));
    g_array_append_val (pages, grey);
    g_remove (g_ptr_array_index (names, i));
  }
  return pages;
}

BwProject *
printed_demo (int i)
{
  static const char *const names[]
      = { "split-tide.bandwright", "twin-scud.bandwright", "harbour-lamp.bandwright" };
  if (i >= (int)G_N_ELEMENTS (names))
    return NULL;
  g_autofree char *path = g_build_filename (g_getenv ("BW_TEST_DATA"), "demo", names[i], NULL);
  g_autofree char *json = NULL;
  gsize length;
  assert_true (g_file_get_contents (path, &json, &length, NULL));
  BwProject *project = bw_project_load_data (json, length, NULL);
  assert_non_null (project);
  return project;
}
