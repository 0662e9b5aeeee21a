/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead in words: what the status line shows and what a screen reader speaks. */
#include "config.h"

#include "editor/band/band-words.h"

#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>

static char *
place_words (BwProject *project, int row, int column)
{
  BwPlace place = bw_places_get (bw_project_places (project), row, column);
  int faces = bw_project_stone (project)->faces;

  if (place.face >= 0)
    return g_strdup_printf (_ ("face %d"), place.face + 1);
  return g_strdup_printf (_ ("edge of faces %d and %d"), place.corner + 1,
                          (place.corner + 1) % faces + 1);
}

char *
bw_band_words (BwProject *project, int row, int column)
{
  const BwTray *tray = bw_project_shown_tray (project);
  const BwDrawing *drawing = bw_project_shown_drawing (project);
  if (row < 1 || row > bw_drawing_rows (drawing) || column < 1
      || column > bw_drawing_columns (drawing) || !bw_lattice_has (row, column))
    return NULL;

  guint8 index = bw_drawing_get (drawing, row, column);
  const BwColour *colour = &tray->colour[MIN (index, tray->n_colours - 1)];
  g_autofree char *place = place_words (project, row, column);
  char letter[7] = { 0 };

  g_unichar_to_utf8 (colour->id, letter);
  if (colour->name[0] != '\0')
    return g_strdup_printf (_ ("Row %d, column %d, %s, %s"), row, column, place, colour->name);
  /* Translators: the last word is the letter of a colour that has no name. */
  return g_strdup_printf (_ ("Row %d, column %d, %s, colour %s"), row, column, place, letter);
}
