/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The preview room builds the model; here it becomes a file, whole or not at all. */
#include "config.h"

#include "tool/model.h"

#include "output/page/whole-file.h"
#include "preview/picture/model.h"

char *
bw_model_run (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (GByteArray) model = g_bytes_unref_to_array (bw_model_new (project));
  if (!bw_whole_file_write (model, CAIRO_STATUS_SUCCESS, options->output, error))
    return NULL;
  return g_strdup ("");
}
