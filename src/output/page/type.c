/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The types of printed pages. Text is set by pango, so that every script runs as it should. */
#include "output/page/page.h"

#include "project/document/units.h"

static const struct {
  const char *font;
  BwTint ink;
} types[BW_N_TYPES] = {
  [BW_TYPE_TEXT] = { BW_FACE " 10.5", BW_TINT_PRINT },
  [BW_TYPE_BOLD] = { BW_FACE " Bold 10.5", BW_TINT_PRINT },
  [BW_TYPE_BENCH] = { BW_FACE " 14", BW_TINT_PRINT },
  [BW_TYPE_BENCH_BOLD] = { BW_FACE " Bold 14", BW_TINT_PRINT },
  [BW_TYPE_SMALL] = { BW_FACE " 8.5", BW_TINT_NOTE },
  [BW_TYPE_TINY] = { BW_FACE " 6", BW_TINT_INK },
  [BW_TYPE_TINY_BOLD] = { BW_FACE " Bold 6", BW_TINT_PRINT },
  [BW_TYPE_HEADING] = { BW_FACE " Bold 15", BW_TINT_TIDE },
  [BW_TYPE_TITLE] = { BW_FACE " Bold 26", BW_TINT_INK },
};

char *
bw_sheet_one_line (const char *text)
{
  GString *line = g_string_new (NULL);
  for (const char *c = text; *c; c = g_utf8_next_char (c)) {
    gunichar character = g_utf8_get_char (c);
    g_string_append_unichar (line, g_unichar_iscntrl (character) ? ' ' : character);
  }
  return g_string_free (line, FALSE);
}

/* Lengths must not depend on the screen or the printer: no hinting, one unit a point, and letters
 * where they belong, not on the next whole point. */
PangoLayout *
bw_type_plain (cairo_t *cr)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoContext *context = pango_layout_get_context (layout);
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  pango_layout_context_changed (layout);
  cairo_font_options_destroy (options);
  return layout;
}

/* Letters run together are one sign to whoever searches a file or has it read out; signs that are
 * no letters are drawn. */
static void
set_letters (PangoLayout *layout, double em)
{
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("liga=0"));
  bw_signs_mark (layout, attributes, em);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
}

PangoLayout *
bw_type_layout (cairo_t *cr, BwType type, const char *text, double width)
{
  PangoLayout *layout = bw_type_plain (cr);
  PangoFontDescription *font = pango_font_description_from_string (types[type].font);
  pango_layout_set_font_description (layout, font);
  g_autofree char *kept = bw_units_kept (text);
  pango_layout_set_text (layout, kept, -1);
  pango_layout_set_line_spacing (layout, 1.1f);
  set_letters (layout, pango_units_to_double (pango_font_description_get_size (font)));
  pango_font_description_free (font);
  if (width > 0) {
    pango_layout_set_width (layout, pango_units_from_double (width));
    pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  }
  return layout;
}

void
bw_type_keep_left (PangoLayout *layout)
{
  PangoDirection way = pango_layout_get_direction (layout, 0);
  /* Pango's left is where such a line begins. */
  pango_layout_set_alignment (layout,
                              way == PANGO_DIRECTION_RTL ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
}

double
bw_type_draw (cairo_t *cr, BwType type, const char *text, double x, double y, double align)
{
  g_autoptr (PangoLayout) layout = bw_type_layout (cr, type, text, 0);
  int width;
  pango_layout_get_size (layout, &width, NULL);
  cairo_set_source_rgb (cr, BW_TINT_RGB (types[type].ink, FALSE));
  cairo_move_to (cr, x - align * pango_units_to_double (width), y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  return pango_units_to_double (width);
}

double
bw_type_height (BwType type)
{
  static const double heights[BW_N_TYPES] = { 13.9, 13.9, 18.5, 18.5, 11.2, 7.9, 7.9, 18.5, 34.3 };
  return heights[type];
}

BwTint
bw_type_ink (BwType type)
{
  return types[type].ink;
}
