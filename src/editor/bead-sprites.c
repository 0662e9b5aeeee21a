/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shading a bead costs far more than copying it, and a band has thousands of beads in a handful of
 * colours: so each picture is painted once for the size at hand. */
#include "bead-sprites.h"

#include "bead-picture.h"
#include <math.h>
#include <pango/pangocairo.h>

/* Shifts kept for small beads, in each direction; large ones are placed on whole pixels. */
#define SHIFTS 4
#define LARGE_PX 72.0
#define LETTER_PX 9.0 /* the least height of a bead that carries its letter */

struct _BwBeadSprites {
  BwBeadSize size;
  BwTray tray;
  PangoContext *font;
  int shifts;
  int width, height;
  guint32 **picture; /* n_colours × shifts × shifts, NULL until wanted */
};

BwBeadSprites *
bw_bead_sprites_new (const BwBeadSize *size, const BwTray *tray, PangoContext *font)
{
  BwBeadSprites *sprites = g_new0 (BwBeadSprites, 1);
  sprites->size = *size;
  sprites->tray = *tray;
  sprites->font = font ? g_object_ref (font) : NULL;
  sprites->shifts = MAX (size->pitch_px, size->column_px) < LARGE_PX ? SHIFTS : 1;
  sprites->width = (int)ceil (size->pitch_px) + 1;
  sprites->height = (int)ceil (size->column_px) + 1;
  sprites->picture = g_new0 (guint32 *, tray->n_colours * sprites->shifts * sprites->shifts);
  return sprites;
}

void
bw_bead_sprites_free (BwBeadSprites *sprites)
{
  int n = sprites->tray.n_colours * sprites->shifts * sprites->shifts;
  for (int i = 0; i < n; i++)
    g_free (sprites->picture[i]);
  g_free (sprites->picture);
  g_clear_object (&sprites->font);
  g_free (sprites);
}

static PangoLayout *
letter_layout (BwBeadSprites *sprites, gunichar letter)
{
  PangoLayout *layout = pango_layout_new (sprites->font);
  g_autoptr (PangoFontDescription) font
      = pango_font_description_copy (pango_context_get_font_description (sprites->font));
  double px = 0.66 * MIN (sprites->size.column_px, sprites->size.pitch_px);
  char text[7] = { 0 };

  g_unichar_to_utf8 (letter, text);
  pango_font_description_set_absolute_size (font, px * PANGO_SCALE);
  pango_font_description_set_weight (font, PANGO_WEIGHT_SEMIBOLD);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

/* The letter stands in the middle of the bead by its ink, so that "a" and "g" sit alike. */
static void
write_letter (BwBeadSprites *sprites, guint32 *pixels, const BwBeadFrame *frame,
              const BwColour *colour)
{
  g_autoptr (PangoLayout) layout = letter_layout (sprites, colour->id);
  PangoRectangle ink;
  pango_layout_get_pixel_extents (layout, &ink, NULL);
  double tone = bw_bead_letter_is_black (colour->srgb) ? 0 : 1;

  cairo_surface_t *surface = cairo_image_surface_create_for_data (
      (guchar *)pixels, CAIRO_FORMAT_ARGB32, sprites->width, sprites->height, 4 * sprites->width);
  cairo_t *cr = cairo_create (surface);
  cairo_translate (cr, frame->x + frame->width / 2 - ink.x - ink.width / 2.0,
                   frame->y + frame->height / 2 - ink.y - ink.height / 2.0);
  pango_cairo_layout_path (cr, layout);
  cairo_set_source_rgba (cr, 1 - tone, 1 - tone, 1 - tone, 0.35);
  cairo_set_line_width (cr, 0.09 * frame->height);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, tone, tone, tone);
  cairo_fill (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static guint32 *
paint (BwBeadSprites *sprites, guint8 index, double shift_x, double shift_y)
{
  const BwBeadSize *size = &sprites->size;
  const BwColour *colour = &sprites->tray.colour[index];
  gboolean letter = size->letters && sprites->font && size->column_px >= LETTER_PX;
  BwBeadFrame frame
      = { shift_x, shift_y, size->pitch_px, size->column_px, size->fill_x, size->fill_y, letter };
  guint32 *pixels = g_new (guint32, (gsize)sprites->width * sprites->height);

  bw_bead_picture_paint (pixels, sprites->width, sprites->height, &frame, colour->srgb,
                         colour->finish);
  if (letter)
    write_letter (sprites, pixels, &frame, colour);
  return pixels;
}

/* Splits a coordinate into a whole pixel and one of the shifts kept. */
static int
split (double at, int shifts, int *whole)
{
  double rounded = floor (at * shifts + 0.5);
  *whole = (int)floor (rounded / shifts);
  return (int)rounded - *whole * shifts;
}

BwBeadSprite
bw_bead_sprites_get (BwBeadSprites *sprites, guint8 colour, double x, double y, int *left, int *top)
{
  int shifts = sprites->shifts;
  int index = MIN (colour, sprites->tray.n_colours - 1);
  int i = split (x, shifts, left), j = split (y, shifts, top);
  guint32 **picture = &sprites->picture[(index * shifts + j) * shifts + i];

  if (*picture == NULL)
    *picture = paint (sprites, (guint8)index, (double)i / shifts, (double)j / shifts);
  return (BwBeadSprite){ sprites->width, sprites->height, *picture };
}
