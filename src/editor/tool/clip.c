/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells are kept with the empty places between them: a flip is then a flip of a plain table, and
 * the half-drop one number: whether the table's corner is a bead. */
#include "config.h"

#include "editor/tool/clip.h"

#include "core/base/lattice.h"
#include "core/base/limits.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

#define HOLE 255
#define HEADER "beads-of-a-band 1"

struct _BwClip {
  int rows, columns;
  int odd;      /* row + column of the corner, modulo 2: cell (i, j) is a bead when i + j + odd is
                   odd */
  guint8 *cell; /* rows × columns */
};

static BwClip *
clip_new (int rows, int columns, int odd)
{
  BwClip *clip = g_new0 (BwClip, 1);
  clip->rows = rows;
  clip->columns = columns;
  clip->odd = odd;
  clip->cell = g_malloc ((gsize)rows * (gsize)columns);
  memset (clip->cell, HOLE, (gsize)rows * (gsize)columns);
  return clip;
}

void
bw_clip_free (BwClip *clip)
{
  g_free (clip->cell);
  g_free (clip);
}

static guint8 *
cell_of (const BwClip *clip, int i, int j)
{
  return clip->cell + (gsize)i * (gsize)clip->columns + j;
}

BwClip *
bw_clip_copy (const BwClip *clip)
{
  BwClip *copy = clip_new (clip->rows, clip->columns, clip->odd);
  memcpy (copy->cell, clip->cell, (gsize)clip->rows * (gsize)clip->columns);
  return copy;
}

gboolean
bw_clip_equal (const BwClip *a, const BwClip *b)
{
  return a->rows == b->rows && a->columns == b->columns && a->odd == b->odd
         && memcmp (a->cell, b->cell, (gsize)a->rows * (gsize)a->columns) == 0;
}

int
bw_clip_rows (const BwClip *clip)
{
  return clip->rows;
}

int
bw_clip_columns (const BwClip *clip)
{
  return clip->columns;
}

int
bw_clip_count (const BwClip *clip)
{
  int count = 0;
  for (int i = 0; i < clip->rows * clip->columns; i++)
    count += clip->cell[i] != HOLE;
  return count;
}

BwClip *
bw_clip_lift (const BwDrawing *drawing, const BwRegion *region, int *row, int *column)
{
  int last_row, last_column, rows = bw_drawing_rows (drawing), ring = rows + rows % 2;
  if (!bw_region_bounds (region, row, &last_row, column, &last_column))
    return NULL;
  BwClip *clip = clip_new (last_row - *row + 1, last_column - *column + 1, (*row + *column) % 2);
  for (int i = 0; i < clip->rows; i++)
    for (int j = 0; j < clip->columns; j++)
      if (bw_region_has (region, *row + i, *column + j))
        *cell_of (clip, i, j)
            = bw_drawing_get (drawing, bw_lattice_wrap (*row + i, ring), *column + j);
  return clip;
}

static void
swap (guint8 *a, guint8 *b)
{
  guint8 was = *a;
  *a = *b;
  *b = was;
}

void
bw_clip_flip_round (BwClip *clip)
{
  for (int i = 0; i < clip->rows / 2; i++)
    for (int j = 0; j < clip->columns; j++)
      swap (cell_of (clip, i, j), cell_of (clip, clip->rows - 1 - i, j));
  clip->odd = (clip->odd + clip->rows - 1) % 2;
}

void
bw_clip_flip_up (BwClip *clip)
{
  for (int i = 0; i < clip->rows; i++)
    for (int j = 0; j < clip->columns / 2; j++)
      swap (cell_of (clip, i, j), cell_of (clip, i, clip->columns - 1 - j));
  clip->odd = (clip->odd + clip->columns - 1) % 2;
}

void
bw_clip_turn (BwClip *clip)
{
  bw_clip_flip_round (clip);
  bw_clip_flip_up (clip);
}

void
bw_clip_map (BwClip *clip, const guint8 map[256])
{
  for (int i = 0; i < clip->rows * clip->columns; i++)
    if (clip->cell[i] != HOLE)
      clip->cell[i] = map[clip->cell[i]];
}

int
bw_clip_land (const BwClip *clip, int row, int column)
{
  if (((row + column) & 1) == clip->odd)
    return row;
  return row & 1 ? row + 1 : row - 1;
}

void
bw_clip_each (const BwClip *clip, int row, int column, BwClipVisit visit, gpointer data)
{
  for (int i = 0; i < clip->rows; i++)
    for (int j = 0; j < clip->columns; j++)
      if (*cell_of (clip, i, j) != HOLE)
        visit (row + i, column + j, *cell_of (clip, i, j), data);
}

/* --- As text -----------------------------------------------------------------------------------
 */

static gboolean
is_bead (const BwClip *clip, int i, int j)
{
  return (i + j + clip->odd) % 2 != 0;
}

char *
bw_clip_print (const BwClip *clip, const BwTray *tray)
{
  GString *text = g_string_new (NULL);
  g_string_printf (text, HEADER " rows %d columns %d %s\n", clip->rows, clip->columns,
                   clip->odd ? "bead-first" : "gap-first");
  for (int i = 0; i < clip->rows; i++) {
    for (int j = 0; j < clip->columns; j++) {
      guint8 cell = *cell_of (clip, i, j);
      if (is_bead (clip, i, j))
        g_string_append_unichar (text,
                                 cell < tray->n_colours ? tray->colour[cell].id : (gunichar)' ');
    }
    g_string_append_c (text, '\n');
  }
  return g_string_free (text, FALSE);
}

static BwClip *
refuse (BwClip *clip, GError **error, const char *words)
{
  g_clear_pointer (&clip, bw_clip_free);
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, words);
  return NULL;
}

static BwClip *
parse_header (const char *line)
{
  int rows, columns, end = 0;
  char first[16];
  if (sscanf (line, HEADER " rows %6d columns %6d %15[a-z-]%n", &rows, &columns, first, &end) != 3
      || line[end] != '\0' || rows < 1 || rows > BW_ROWS_MAX || columns < 1
      || columns > BW_COLUMNS_MAX)
    return NULL;
  if (g_str_equal (first, "bead-first"))
    return clip_new (rows, columns, 1);
  return g_str_equal (first, "gap-first") ? clip_new (rows, columns, 0) : NULL;
}

/* One row; what is wrong with it in *wrong, 0 for nothing, ' ' for its length. */
static gboolean
parse_row (BwClip *clip, int i, const char *line, const BwTray *tray, gunichar *wrong)
{
  const char *at = line;
  *wrong = ' ';
  for (int j = 0; j < clip->columns && *at; j++) {
    if (!is_bead (clip, i, j))
      continue;
    gunichar letter = g_utf8_get_char (at);
    int index = bw_tray_find (tray, letter);
    at = g_utf8_next_char (at);
    if (letter == ' ')
      continue;
    *wrong = letter;
    if (index < 0)
      return FALSE;
    *cell_of (clip, i, j) = (guint8)index;
    *wrong = ' ';
  }
  return *at == '\0';
}

static BwClip *
refuse_row (BwClip *clip, GError **error, int i, gunichar wrong)
{
  char letter[7] = { 0 };
  g_autofree char *words = NULL;
  g_unichar_to_utf8 (wrong, letter);
  if (wrong == ' ')
    words = g_strdup_printf (_ ("The beads to paste are damaged in their row %d."), i + 1);
  else
    words = g_strdup_printf (_ ("The beads to paste have a colour “%s” that the tray has not."),
                             letter);
  return refuse (clip, error, words);
}

BwClip *
bw_clip_parse (const char *text, const BwTray *tray, GError **error)
{
  const char *foreign = _ ("There are no beads to paste: what was copied is something else.");
  if (*text == '\0')
    return refuse (NULL, error, _ ("There are no beads to paste: nothing was copied."));
  if (!g_str_has_prefix (text, HEADER) || !g_utf8_validate (text, -1, NULL))
    return refuse (NULL, error, foreign);
  g_auto (GStrv) lines = g_strsplit (text, "\n", BW_ROWS_MAX + 3);
  for (char **line = lines; *line; line++)
    if (g_str_has_suffix (*line, "\r"))
      (*line)[strlen (*line) - 1] = '\0';
  BwClip *clip = parse_header (lines[0]);
  if (clip == NULL)
    return refuse (NULL, error, foreign);
  for (int i = 0; i < clip->rows; i++) {
    gunichar wrong = ' ';
    if (lines[i + 1] == NULL || !parse_row (clip, i, lines[i + 1], tray, &wrong))
      return refuse_row (clip, error, i, wrong);
  }
  if (bw_clip_count (clip) == 0)
    return refuse (clip, error, foreign);
  return clip;
}
