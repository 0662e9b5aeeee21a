/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules of the house that only the linker's names tell: which file uses whose functions, and
 * which functions neither program can reach. Includes alone tell neither: a header may be shared by
 * files that call one another. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <gio/gio.h>

typedef struct {
  char *name;        /* of the object file */
  GPtrArray *owns;   /* functions it defines, owned strings */
  GPtrArray *wants;  /* functions it takes from elsewhere, owned strings */
  GHashTable *takes; /* index of another file → one such function, borrowed from wants */
  int index, low;    /* of the walk; index 0: not reached yet */
  gboolean open;
} File;

static void
file_free (gpointer data)
{
  File *file = data;
  g_free (file->name);
  g_ptr_array_unref (file->owns);
  g_ptr_array_unref (file->wants);
  g_hash_table_unref (file->takes);
  g_free (file);
}

static File *
file_new (const char *name)
{
  File *file = g_new0 (File, 1);
  file->name = g_path_get_basename (name);
  file->owns = g_ptr_array_new_with_free_func (g_free);
  file->wants = g_ptr_array_new_with_free_func (g_free);
  file->takes = g_hash_table_new (NULL, NULL);
  return file;
}

/* What nm prints of a library or program, a name and its kind on each line. */
static char **
names_of (const char *path)
{
  const char *argv[] = { "nm", "--format=posix", path, NULL };
  g_autoptr (GSubprocess) nm = g_subprocess_newv (
      argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, NULL);
  g_autofree char *text = NULL;
  assert_non_null (nm);
  assert_true (g_subprocess_communicate_utf8 (nm, NULL, NULL, &text, NULL, NULL));
  return g_strsplit (text, "\n", -1);
}

/* "library.a[folder_file.c.o]:" gives folder_file.c.o, else NULL. */
static char *
member_of (const char *line)
{
  const char *from = strchr (line, '['), *to = strchr (line, ']');
  return from && to && g_str_has_suffix (line, ":") ? g_strndup (from + 1, (gsize)(to - from - 1))
                                                    : NULL;
}

static void
take_line (File *file, const char *line)
{
  g_auto (GStrv) cells = g_strsplit (line, " ", 3);
  if (!file || g_strv_length (cells) < 2 || !g_str_has_prefix (cells[0], "bw_"))
    return;
  if (cells[1][0] == 'T')
    g_ptr_array_add (file->owns, g_strdup (cells[0]));
  else if (cells[1][0] == 'U')
    g_ptr_array_add (file->wants, g_strdup (cells[0]));
}

/* Every object file of a room's libraries. */
static void
read_library (GPtrArray *files, const char *path)
{
  g_auto (GStrv) lines = names_of (path);
  File *file = NULL;
  for (char **line = lines; *line; line++) {
    g_autofree char *member = member_of (*line);
    if (member)
      g_ptr_array_add (files, file = file_new (member));
    else
      take_line (file, *line);
  }
}

static char **
words_of (const char *variable)
{
  assert_non_null (g_getenv (variable));
  return g_strsplit (g_getenv (variable), ":", -1);
}

static GPtrArray *
read_files (void)
{
  g_auto (GStrv) libraries = words_of ("BW_LIBRARIES");
  GPtrArray *files = g_ptr_array_new_with_free_func (file_free);
  for (char **library = libraries; *library; library++)
    read_library (files, *library);
  assert_true (files->len > 200);
  return files;
}

static void
join (GPtrArray *files)
{
  g_autoptr (GHashTable) owners = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < files->len; i++) {
    File *file = files->pdata[i];
    for (guint k = 0; k < file->owns->len; k++)
      g_hash_table_insert (owners, file->owns->pdata[k], GINT_TO_POINTER (i + 1));
  }
  for (guint i = 0; i < files->len; i++) {
    File *file = files->pdata[i];
    for (guint k = 0; k < file->wants->len; k++) {
      gpointer owner = g_hash_table_lookup (owners, file->wants->pdata[k]);
      if (owner && owner != GINT_TO_POINTER (i + 1))
        g_hash_table_insert (file->takes, GINT_TO_POINTER (GPOINTER_TO_INT (owner) - 1),
                             file->wants->pdata[k]);
    }
  }
}

typedef struct {
  GPtrArray *files;
  GPtrArray *path; /* of File, borrowed: what is open, in the order it was reached */
  GString *circles;
  int reached;
} Walk;

static void
tell_circle (Walk *walk, File *first)
{
  File *file;
  gboolean alone = walk->path->pdata[walk->path->len - 1] == first;
  do {
    file = walk->path->pdata[walk->path->len - 1];
    g_ptr_array_set_size (walk->path, (int)walk->path->len - 1);
    file->open = FALSE;
    if (!alone)
      g_string_append_printf (walk->circles, " %s", file->name);
  } while (file != first);
  if (!alone)
    g_string_append (walk->circles, "\n");
}

/* Strongly connected parts by one walk in depth (Tarjan, Depth-first search and linear graph
 * algorithms, SIAM J. Comput. 1972). */
static void
visit (Walk *walk, File *file)
{
  GHashTableIter iter;
  gpointer key;
  file->index = file->low = ++walk->reached;
  file->open = TRUE;
  g_ptr_array_add (walk->path, file);
  g_hash_table_iter_init (&iter, file->takes);
  while (g_hash_table_iter_next (&iter, &key, NULL)) {
    File *other = walk->files->pdata[GPOINTER_TO_INT (key)];
    if (!other->index) {
      visit (walk, other);
      file->low = MIN (file->low, other->low);
    } else if (other->open) {
      file->low = MIN (file->low, other->index);
    }
  }
  if (file->low == file->index)
    tell_circle (walk, file);
}

static char *
circles_among (GPtrArray *files)
{
  g_autoptr (GPtrArray) path = g_ptr_array_new ();
  Walk walk = { .files = files, .path = path, .circles = g_string_new (NULL) };
  join (files);
  for (guint i = 0; i < files->len; i++)
    if (!((File *)files->pdata[i])->index)
      visit (&walk, files->pdata[i]);
  return g_string_free (walk.circles, FALSE);
}

static void
no_files_call_one_another_in_a_circle (void **state)
{
  g_autoptr (GPtrArray) files = read_files ();
  g_autofree char *circles = circles_among (files);
  /* cmocka cuts a long message. */
  if (*circles)
    g_printerr ("Files that call one another in a circle:\n%s", circles);
  assert_string_equal (circles, "");
}

static void
add (GPtrArray *files, const char *name, const char *owns, const char *wants)
{
  File *file = file_new (name);
  g_ptr_array_add (file->owns, g_strdup (owns));
  g_ptr_array_add (file->wants, g_strdup (wants));
  g_ptr_array_add (files, file);
}

static void
a_circle_over_three_files_is_found_and_a_chain_is_none (void **state)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (file_free);
  add (files, "chain", "bw_chain", "bw_one");
  add (files, "one", "bw_one", "bw_two");
  add (files, "two", "bw_two", "bw_three");
  add (files, "three", "bw_three", "bw_one");
  g_autofree char *circles = circles_among (files);
  assert_string_equal (circles, " three two one\n");
}

/* Every function that is in one of the programs, by the symbol tables after the linker has left out
 * what cannot be reached. */
static GHashTable *
reached_functions (void)
{
  g_auto (GStrv) programs = words_of ("BW_PROGRAMS");
  GHashTable *reached = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (char **program = programs; *program; program++) {
    g_auto (GStrv) lines = names_of (*program);
    for (char **line = lines; *line; line++) {
      char *end = strchr (*line, ' ');
      if (end)
        g_hash_table_add (reached, g_strndup (*line, (gsize)(end - *line)));
    }
  }
  assert_true (g_hash_table_size (reached) > 500);
  return reached;
}

/* Functions that only tests call, each with why, from the list beside this file. */
static GHashTable *
doors (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("BW_SOURCE_ROOT"), "tests/house/doors.txt", NULL);
  g_autofree char *text = NULL;
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (char **line = lines; *line; line++)
    if (g_str_has_prefix (*line, "bw_"))
      g_hash_table_add (names, g_strndup (*line, strcspn (*line, " :")));
  return names;
}

static void
every_function_is_called_by_a_program_or_is_a_door_for_tests (void **state)
{
  g_autoptr (GPtrArray) files = read_files ();
  g_autoptr (GHashTable) reached = reached_functions ();
  g_autoptr (GHashTable) allowed = doors ();
  g_autoptr (GString) idle = g_string_new (NULL);
  for (guint i = 0; i < files->len; i++) {
    File *file = files->pdata[i];
    for (guint k = 0; k < file->owns->len; k++) {
      char *name = file->owns->pdata[k];
      /* The resource compiler writes one that a static resource does not need. */
      if (g_hash_table_contains (reached, name) || g_str_has_suffix (name, "_get_resource"))
        continue;
      if (!g_hash_table_remove (allowed, name))
        g_string_append_printf (idle, " %s: %s\n", file->name, name);
    }
  }
  if (idle->len)
    g_printerr ("Functions that nobody calls:\n%s", idle->str);
  assert_string_equal (idle->str, "");
  if (g_hash_table_size (allowed))
    fail_msg ("doors.txt names what a program calls or what is gone: %s",
              (char *)g_hash_table_get_keys (allowed)->data);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_files_call_one_another_in_a_circle),
    cmocka_unit_test (a_circle_over_three_files_is_found_and_a_chain_is_none),
    cmocka_unit_test (every_function_is_called_by_a_program_or_is_a_door_for_tests),
  };
  return cmocka_run_group_tests_name ("symbols", tests, NULL, NULL);
}
