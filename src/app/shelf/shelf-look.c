/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/shelf/shelf-look.h"
#include "preview/picture/thumbnail.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <string.h>

static GMutex painting;
static gboolean ended; /* under painting */

void
bw_shelf_look_free (BwShelfLook *look)
{
  g_free (look->reason);
  g_free (look->title);
  g_clear_pointer (&look->picture, cairo_surface_destroy);
  g_free (look);
}

void
bw_shelf_look_end (void)
{
  g_mutex_lock (&painting);
  ended = TRUE;
  g_mutex_unlock (&painting);
}

static void
describe (BwShelfLook *look, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  look->state = BW_SHELF_SOUND;
  look->title = g_strdup (bw_project_get_title (project));
  const BwDone *done = bw_project_get_done (project);
  look->rows = done->rows > 0 ? done->rows : design->band.rows;
  look->woven = done->rows > 0 ? done->rows : MIN (bw_project_get_rows_done (project), look->rows);
  look->length_mm = design->stone.length_mm;
}

static void
describe_fault (BwShelfLook *look, const GError *error)
{
  gboolean gone = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  look->state = gone ? BW_SHELF_GONE : BW_SHELF_BROKEN;
  g_autofree char *pointer = bw_fault_dup_pointer (error);
  look->reason = g_strdup (pointer ? bw_fault_sentence (error) : bw_io_words (error, BW_IO_READ));
}

cairo_surface_t *
bw_shelf_look_paint (BwProject *project, GCancellable *stop)
{
  cairo_surface_t *picture = NULL;
  g_mutex_lock (&painting);
  if (!ended && !g_cancellable_is_cancelled (stop))
    picture = bw_thumbnail_new (project, BW_SHELF_SIDE);
  g_mutex_unlock (&painting);
  return picture;
}

BwShelfLook *
bw_shelf_look_make (GFile *file, GCancellable *stop)
{
  BwShelfLook *look = g_new0 (BwShelfLook, 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = bw_project_load_stoppable (file, stop, NULL, &error);
  if (!project) {
    describe_fault (look, error);
    return look;
  }
  describe (look, project);
  look->picture = bw_shelf_look_paint (project, stop);
  return look;
}
