/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shading a bead costs far more than copying it, and a band has thousands of beads in a handful of
 * colours: so each picture is painted once for the size at hand. */
#include "editor/cloth/bead-sprites.h"

#include "editor/cloth/bead-picture.h"
#include <math.h>
#include <pango/pangocairo.h>

/* A bead is painted once, the smaller the finer; its pictures are averaged down from that with as
 * many shifts in each direction. Large beads are placed on whole pixels. */
#define SMALL_PX 28.0
#define LARGE_PX 72.0
#define LETTER_PX 9.0  /* the least height of a bead that carries its letter */
#define LETTER_EM 64.0 /* the size its outline is taken at */

struct _BwBeadSprites {
  BwBeadSize size;
  BwTray tray;
  PangoContext *font;
  int shifts;                  /* in each direction; samples to a pixel */
  int width, height;           /* of a picture */
  int fine_width, fine_height; /* of the one it is averaged from */
  guint32 **fine;              /* n_colours, NULL until wanted */
  guint32 **picture;           /* n_colours × shifts × shifts, NULL until wanted */
};

BwBeadSprites *
bw_bead_sprites_new (const BwBeadSize *size, const BwTray *tray, PangoContext *font)
{
  BwBeadSprites *sprites = g_new0 (BwBeadSprites, 1);
  sprites->size = *size;
  sprites->tray = *tray;
  sprites->font = font ? g_object_ref (font) : NULL;
  double large = MAX (size->pitch_px, size->column_px);
  sprites->shifts = large < SMALL_PX ? 4 : large < LARGE_PX ? 2 : 1;
  sprites->width = (int)ceil (size->pitch_px) + 1;
  sprites->height = (int)ceil (size->column_px) + 1;
  sprites->fine_width = (int)ceil (size->pitch_px * sprites->shifts);
  sprites->fine_height = (int)ceil (size->column_px * sprites->shifts);
  sprites->fine = g_new0 (guint32 *, tray->n_colours);
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
  for (int i = 0; i < sprites->tray.n_colours; i++)
    g_free (sprites->fine[i]);
  g_free (sprites->fine);
  g_clear_object (&sprites->font);
  g_free (sprites);
}

/* Always at one size and scaled by cairo: a font for every zoom would fill Pango's caches. */
static PangoLayout *
letter_layout (BwBeadSprites *sprites, gunichar letter)
{
  PangoLayout *layout = pango_layout_new (sprites->font);
  g_autoptr (PangoFontDescription) font
      = pango_font_description_copy (pango_context_get_font_description (sprites->font));
  char text[7] = { 0 };

  g_unichar_to_utf8 (letter, text);
  pango_font_description_set_absolute_size (font, LETTER_EM * PANGO_SCALE);
  pango_font_description_set_weight (font, PANGO_WEIGHT_SEMIBOLD);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

/* The letter stands in the middle of the bead by its ink, so that "a" and "g" sit alike. A rim of
 * the other tone parts it from highlights. */
static void
trace_letter (cairo_t *cr, PangoLayout *layout, const BwBeadFrame *frame, double tone)
{
  double scale = 0.66 * MIN (frame->width, frame->height) / LETTER_EM;
  PangoRectangle ink;
  pango_layout_get_pixel_extents (layout, &ink, NULL);

  cairo_translate (cr, frame->x + frame->width / 2, frame->y + frame->height / 2);
  cairo_scale (cr, scale, scale);
  cairo_translate (cr, -ink.x - ink.width / 2.0, -ink.y - ink.height / 2.0);
  pango_cairo_layout_path (cr, layout);
  cairo_set_source_rgba (cr, 1 - tone, 1 - tone, 1 - tone, 0.35);
  cairo_set_line_width (cr, 0.14 * LETTER_EM);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, tone, tone, tone);
  cairo_fill (cr);
}

static void
write_letter (BwBeadSprites *sprites, guint32 *pixels, const BwBeadFrame *frame,
              const BwColour *colour)
{
  g_autoptr (PangoLayout) layout = letter_layout (sprites, colour->id);
  cairo_surface_t *surface = cairo_image_surface_create_for_data (
      (guchar *)pixels, CAIRO_FORMAT_ARGB32, sprites->fine_width, sprites->fine_height,
      4 * sprites->fine_width);
  cairo_t *cr = cairo_create (surface);

  trace_letter (cr, layout, frame, bw_bead_letter_is_black (colour->srgb) ? 0 : 1);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static guint32 *
paint_fine (BwBeadSprites *sprites, int index)
{
  const BwBeadSize *size = &sprites->size;
  const BwColour *colour = &sprites->tray.colour[index];
  gboolean letter = size->letters && sprites->font && size->column_px >= LETTER_PX;
  BwBeadFrame frame = { 0,
                        0,
                        size->pitch_px * sprites->shifts,
                        size->column_px * sprites->shifts,
                        size->fill_x,
                        size->fill_y,
                        letter };
  guint32 *pixels = g_new (guint32, (gsize)sprites->fine_width * sprites->fine_height);

  bw_bead_picture_paint (pixels, sprites->fine_width, sprites->fine_height, &frame, colour->srgb,
                         colour->finish);
  if (letter)
    write_letter (sprites, pixels, &frame, colour);
  return pixels;
}

/* The mean of a square of samples whose first is (x, y); outside there is nothing. */
static guint32
mean (const BwBeadSprites *sprites, const guint32 *fine, int x, int y)
{
  int n = sprites->shifts, area = n * n;
  guint sum[4] = { 0 };
  for (int j = MAX (y, 0); j < MIN (y + n, sprites->fine_height); j++)
    for (int i = MAX (x, 0); i < MIN (x + n, sprites->fine_width); i++) {
      guint32 sample = fine[j * sprites->fine_width + i];
      for (int channel = 0; channel < 4; channel++)
        sum[channel] += sample >> (8 * channel) & 0xff;
    }
  guint32 pixel = 0;
  for (int channel = 0; channel < 4; channel++)
    pixel |= (sum[channel] + area / 2) / area << (8 * channel);
  return pixel;
}

static guint32 *
paint (BwBeadSprites *sprites, int index, int shift_x, int shift_y)
{
  int n = sprites->shifts;
  guint32 *pixels = g_new (guint32, (gsize)sprites->width * sprites->height);
  if (sprites->fine[index] == NULL)
    sprites->fine[index] = paint_fine (sprites, index);
  for (int y = 0; y < sprites->height; y++)
    for (int x = 0; x < sprites->width; x++)
      pixels[y * sprites->width + x]
          = mean (sprites, sprites->fine[index], x * n - shift_x, y * n - shift_y);
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
    *picture = paint (sprites, index, i, j);
  return (BwBeadSprite){ sprites->width, sprites->height, *picture };
}
