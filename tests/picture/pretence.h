/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another program in the decoder's place. */
#pragma once

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

typedef struct {
  char *usual, *folder, *path;
} Pretence;

static inline Pretence
pretend (const char *script)
{
  Pretence pretence = { .usual = g_strdup (g_getenv ("BANDWRIGHT_LIBEXEC_DIR")),
                        .folder = g_dir_make_tmp ("decoder-XXXXXX", NULL) };
  pretence.path = g_build_filename (pretence.folder, "bandwright-picture", NULL);
  assert_true (
      g_file_set_contents_full (pretence.path, script, -1, G_FILE_SET_CONTENTS_NONE, 0700, NULL));
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", pretence.folder, TRUE);
  return pretence;
}

static inline void
end_pretence (Pretence *pretence)
{
  g_setenv ("BANDWRIGHT_LIBEXEC_DIR", pretence->usual, TRUE);
  g_remove (pretence->path);
  g_rmdir (pretence->folder);
  g_free (pretence->usual);
  g_free (pretence->folder);
  g_free (pretence->path);
}
