/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tests of this room share: the corpus of files, and random edits. */
#pragma once

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "project/fault/fault-error.h"
#include "project/project.h"
#include <locale.h>
#include <string.h>

static inline char *
corpus_path (const char *name)
{
  const char *folder = g_getenv ("BW_CORPUS");

  assert_non_null (folder);
  return g_build_filename (folder, name, NULL);
}

static inline char *
corpus_text (const char *name, gsize *length)
{
  g_autofree char *path = corpus_path (name);
  char *text = NULL;

  assert_true (g_file_get_contents (path, &text, length, NULL));
  return text;
}

/* Switches to a locale that writes 1,5 for 1.5. It is compiled here, for few machines have it. */
static inline void
use_decimal_comma (void)
{
  const char *folder = g_getenv ("BW_LOCALES");
  g_autofree char *own = g_build_filename (folder, g_get_prgname (), NULL);
  g_autofree char *path = g_build_filename (own, "de_DE.UTF-8", NULL);
  const char *argv[] = { "localedef", "-i", "de_DE", "-f", "UTF-8", path, NULL };
  g_autoptr (GError) error = NULL;
  int status = -1;

  assert_non_null (folder);
  assert_int_equal (g_mkdir_with_parents (own, 0755), 0);
  if (!g_spawn_sync (NULL, (char **)argv, NULL,
                     G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                     NULL, NULL, NULL, NULL, &status, &error))
    fail_msg ("localedef: %s", error->message);
  g_setenv ("LOCPATH", own, TRUE);
  assert_non_null (setlocale (LC_ALL, "de_DE.UTF-8"));
  assert_string_equal (localeconv ()->decimal_point, ",");
}

static inline BwProject *
corpus_project (const char *name)
{
  g_autoptr (GError) error = NULL;
  gsize length;
  g_autofree char *text = corpus_text (name, &length);
  BwProject *project = bw_project_load_data (text, length, &error);

  if (!project)
    fail_msg ("%s: %s", name, error->message);
  return project;
}

/* Fails unless error is a fault with this code (any when −1) at this pointer. */
static inline void
assert_fault (const GError *error, int code, const char *pointer)
{
  g_autofree char *found = error ? bw_fault_dup_pointer (error) : NULL;

  assert_non_null (error);
  if (error->domain != BW_FAULT || (code >= 0 && error->code != code))
    fail_msg ("another kind of error: %s", error->message);
  if (g_strcmp0 (found ? found : "", pointer) != 0)
    fail_msg ("a fault at \"%s\" was expected, this came: %s", pointer, error->message);
  assert_true (strlen (bw_fault_sentence (error)) > 10);
}
