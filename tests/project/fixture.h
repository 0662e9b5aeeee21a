/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tests of this room share: the corpus of files, and random edits. */
#pragma once

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "core/fault.h"
#include "project/project.h"
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
