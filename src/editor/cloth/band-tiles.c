/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A band of 60 × 2,000 has 60,000 beads, a fifth of which can show at once. As nodes of their own
 * they would be too many for a software renderer; as tiles a frame is some thirty nodes, and GTK
 * redraws only the tiles that differ. */
#include "editor/cloth/band-tiles.h"

#include "core/base/lattice.h"
#include <math.h>
#include <string.h>

#define SPARE_TILES 96 /* tiles kept beyond those that show */

typedef struct {
  GdkTexture *texture;
  guint64 frame; /* when it was last asked for */
} Tile;

struct _BwBandTiles {
  BwDrawing *drawing; /* what the tiles show */
  BwTray tray;
  BwBeadSize size;
  BwBeadSprites *sprites;
  PangoFontDescription *font;
  GHashTable *tile; /* of Tile by tile_key() */
  guint64 frame, painted, looked;
  guint64 seen; /* of the project's band, see bw_project_touched(); 0: another drawing is shown */
};

static void
tile_free (gpointer data)
{
  Tile *tile = data;
  g_object_unref (tile->texture);
  g_free (tile);
}

BwBandTiles *
bw_band_tiles_new (void)
{
  BwBandTiles *tiles = g_new0 (BwBandTiles, 1);
  tiles->tile = g_hash_table_new_full (NULL, NULL, NULL, tile_free);
  return tiles;
}

void
bw_band_tiles_free (BwBandTiles *tiles)
{
  g_hash_table_unref (tiles->tile);
  g_clear_pointer (&tiles->sprites, bw_bead_sprites_free);
  g_clear_pointer (&tiles->drawing, bw_drawing_free);
  g_clear_pointer (&tiles->font, pango_font_description_free);
  g_free (tiles);
}

static gpointer
tile_key (int i, int j)
{
  return GSIZE_TO_POINTER ((gsize)i << 24 | (gsize)j);
}

/* Upper left corner of a bead's brick in the turn's own pixels. */
static void
brick_corner (const BwBandTiles *tiles, int row, int column, double *x, double *y)
{
  *x = bw_lattice_pitches (row) * tiles->size.pitch_px;
  *y = (bw_drawing_columns (tiles->drawing) - column) * tiles->size.column_px;
}

/* Drops every tile that a bead's picture reaches into. */
static void
drop_bead (BwBandTiles *tiles, int row, int column)
{
  double x, y;
  brick_corner (tiles, row, column, &x, &y);
  int first_i = (int)floor ((x - 1) / BW_TILE_PX), first_j = (int)floor ((y - 1) / BW_TILE_PX);
  int last_i = (int)floor ((x + tiles->size.pitch_px + 2) / BW_TILE_PX);
  int last_j = (int)floor ((y + tiles->size.column_px + 2) / BW_TILE_PX);
  for (int i = MAX (0, first_i); i <= last_i; i++)
    for (int j = MAX (0, first_j); j <= last_j; j++)
      g_hash_table_remove (tiles->tile, tile_key (i, j));
}

static void
take_bead (BwBandTiles *tiles, const BwDrawing *drawing, int row, int column)
{
  guint8 now = bw_drawing_get (drawing, row, column);

  tiles->looked++;
  if (now == bw_drawing_get (tiles->drawing, row, column))
    return;
  drop_bead (tiles, row, column);
  bw_drawing_set (tiles->drawing, row, column, now);
}

static void
take_drawing (BwBandTiles *tiles, const BwDrawing *drawing)
{
  for (int row = 1; row <= bw_drawing_rows (drawing); row++)
    for (int j = 0; j < bw_drawing_columns (drawing) / 2; j++)
      take_bead (tiles, drawing, row, bw_lattice_column (row, j));
}

/* Beads of the bail, and of a size no longer shown, are not for these tiles. */
static void
take_beads (BwBandTiles *tiles, const BwDrawing *drawing, const GArray *beads)
{
  for (guint i = 0; i < beads->len; i++) {
    const BwBeadOf *bead = &g_array_index (beads, BwBeadOf, i);
    if (!bead->in_bail && bead->row <= bw_drawing_rows (drawing)
        && bead->column <= bw_drawing_columns (drawing))
      take_bead (tiles, drawing, bead->row, bead->column);
  }
}

static gboolean
same_tray (const BwTray *a, const BwTray *b)
{
  if (a->n_colours != b->n_colours)
    return FALSE;
  for (int i = 0; i < a->n_colours; i++)
    if (a->colour[i].srgb != b->colour[i].srgb || a->colour[i].finish != b->colour[i].finish
        || a->colour[i].id != b->colour[i].id)
      return FALSE;
  return TRUE;
}

static gboolean
same_size (const BwBeadSize *a, const BwBeadSize *b)
{
  return a->pitch_px == b->pitch_px && a->column_px == b->column_px && a->fill_x == b->fill_x
         && a->fill_y == b->fill_y && !a->letters == !b->letters;
}

static gboolean
same_font (const BwBandTiles *tiles, gboolean letters, PangoContext *font)
{
  if (!letters || font == NULL)
    return TRUE;
  return tiles->font != NULL
         && pango_font_description_equal (tiles->font, pango_context_get_font_description (font));
}

static void
remember_font (BwBandTiles *tiles, PangoContext *font)
{
  g_clear_pointer (&tiles->font, pango_font_description_free);
  if (font != NULL)
    tiles->font = pango_font_description_copy (pango_context_get_font_description (font));
}

/* beads: those that can differ from what is shown, NULL for any. */
static void
show (BwBandTiles *tiles, const BwDrawing *drawing, const BwTray *tray, const BwBeadSize *size,
      PangoContext *font, const GArray *beads)
{
  gboolean holds = tiles->sprites != NULL && same_size (&tiles->size, size)
                   && same_tray (&tiles->tray, tray) && same_font (tiles, size->letters, font);
  gboolean same_shape = tiles->drawing != NULL
                        && bw_drawing_columns (tiles->drawing) == bw_drawing_columns (drawing)
                        && bw_drawing_rows (tiles->drawing) == bw_drawing_rows (drawing);
  tiles->frame++;
  if (holds && same_shape) {
    if (beads)
      take_beads (tiles, drawing, beads);
    else
      take_drawing (tiles, drawing);
    return;
  }

  g_hash_table_remove_all (tiles->tile);
  g_clear_pointer (&tiles->drawing, bw_drawing_free);
  tiles->drawing = bw_drawing_copy (drawing);
  if (holds)
    return;
  g_clear_pointer (&tiles->sprites, bw_bead_sprites_free);
  tiles->sprites = bw_bead_sprites_new (size, tray, font);
  tiles->tray = *tray;
  tiles->size = *size;
  remember_font (tiles, font);
}

void
bw_band_tiles_set (BwBandTiles *tiles, const BwDrawing *drawing, const BwTray *tray,
                   const BwBeadSize *size, PangoContext *font)
{
  bw_band_tiles_set_beads (tiles, drawing, tray, size, font, NULL);
}

void
bw_band_tiles_set_beads (BwBandTiles *tiles, const BwDrawing *drawing, const BwTray *tray,
                         const BwBeadSize *size, PangoContext *font, const GArray *beads)
{
  tiles->seen = 0;
  show (tiles, drawing, tray, size, font, beads);
}

void
bw_band_tiles_set_band (BwBandTiles *tiles, BwProject *project, const BwBeadSize *size,
                        PangoContext *font)
{
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  gboolean told = bw_project_touched (project, &tiles->seen, beads);
  show (tiles, bw_project_shown_drawing (project), bw_project_shown_tray (project), size, font,
        told ? beads : NULL);
}

void
bw_band_tiles_extent (BwBandTiles *tiles, int *width, int *height)
{
  int rows = bw_drawing_rows (tiles->drawing);
  *width = (int)ceil ((bw_lattice_pitches (rows) + 1) * tiles->size.pitch_px) + 1;
  *height = (int)ceil (bw_drawing_columns (tiles->drawing) * tiles->size.column_px) + 1;
}

/* One premultiplied pixel over another. */
static guint32
over (guint32 top, guint32 below)
{
  guint32 rest = 255 - (top >> 24);
  if (rest == 0)
    return top;
  guint32 rb = (below & 0xff00ff) * rest + 0x800080, ag = (below >> 8 & 0xff00ff) * rest + 0x800080;
  rb = (rb + (rb >> 8 & 0xff00ff)) >> 8 & 0xff00ff;
  ag = (ag + (ag >> 8 & 0xff00ff)) & 0xff00ff00;
  return top + (rb | ag);
}

/* Lays a sprite on a tile with its first pixel at (left, top), cut at the tile's edges. */
static void
lay (guint32 *pixels, const BwBeadSprite *sprite, int left, int top)
{
  int x_from = MAX (0, -left), x_to = MIN (sprite->width, BW_TILE_PX - left);
  int y_from = MAX (0, -top), y_to = MIN (sprite->height, BW_TILE_PX - top);
  for (int y = y_from; y < y_to; y++) {
    const guint32 *from = sprite->pixels + (gsize)y * sprite->width;
    guint32 *to = pixels + (gsize)(top + y) * BW_TILE_PX + left;
    for (int x = x_from; x < x_to; x++)
      to[x] = over (from[x], to[x]);
  }
}

static void
lay_row (BwBandTiles *tiles, guint32 *pixels, int i, int j, int row)
{
  const guint8 *cells = bw_drawing_row (tiles->drawing, row);
  int columns = bw_drawing_columns (tiles->drawing);
  double high = columns - (j * (double)BW_TILE_PX - 1) / tiles->size.column_px;
  double low = columns - ((j + 1) * (double)BW_TILE_PX + 1) / tiles->size.column_px;
  int first = CLAMP ((int)floor (low), 1, columns), last = CLAMP ((int)ceil (high), 1, columns);

  first += !bw_lattice_has (row, first);
  for (int column = first; column <= last; column += 2) {
    double x, y;
    int left, top;
    brick_corner (tiles, row, column, &x, &y);
    BwBeadSprite sprite
        = bw_bead_sprites_get (tiles->sprites, cells[bw_lattice_index (column)], x, y, &left, &top);
    lay (pixels, &sprite, left - i * BW_TILE_PX, top - j * BW_TILE_PX);
  }
}

static GdkTexture *
paint (BwBandTiles *tiles, int i, int j)
{
  gsize size = (gsize)4 * BW_TILE_PX * BW_TILE_PX;
  guint32 *pixels = g_malloc0 (size);
  double pitch = tiles->size.pitch_px;
  int first = (int)floor (2 * (i * (double)BW_TILE_PX - pitch - 2) / pitch);
  int last = (int)ceil (2 * ((i + 1) * (double)BW_TILE_PX + 2) / pitch) + 1;

  for (int row = MAX (1, first); row <= MIN (last, bw_drawing_rows (tiles->drawing)); row++)
    lay_row (tiles, pixels, i, j, row);
  g_autoptr (GBytes) bytes = g_bytes_new_take (pixels, size);
  tiles->painted++;
  return gdk_memory_texture_new (BW_TILE_PX, BW_TILE_PX, GDK_MEMORY_DEFAULT, bytes, 4 * BW_TILE_PX);
}

GdkTexture *
bw_band_tiles_get (BwBandTiles *tiles, int i, int j)
{
  Tile *tile = g_hash_table_lookup (tiles->tile, tile_key (i, j));
  if (tile == NULL) {
    tile = g_new0 (Tile, 1);
    tile->texture = paint (tiles, i, j);
    g_hash_table_insert (tiles->tile, tile_key (i, j), tile);
  }
  tile->frame = tiles->frame;
  return tile->texture;
}

static gboolean
is_idle (gpointer key, gpointer value, gpointer data)
{
  return ((Tile *)value)->frame != *(guint64 *)data;
}

void
bw_band_tiles_trim (BwBandTiles *tiles)
{
  GHashTableIter iter;
  gpointer tile;
  guint shown = 0;
  g_hash_table_iter_init (&iter, tiles->tile);
  while (g_hash_table_iter_next (&iter, NULL, &tile))
    shown += ((Tile *)tile)->frame == tiles->frame;
  if (g_hash_table_size (tiles->tile) > shown + SPARE_TILES)
    g_hash_table_foreach_remove (tiles->tile, is_idle, &tiles->frame);
}

guint64
bw_band_tiles_painted (BwBandTiles *tiles)
{
  return tiles->painted;
}

guint64
bw_band_tiles_looked (BwBandTiles *tiles)
{
  return tiles->looked;
}
