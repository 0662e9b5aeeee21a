/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one place of the editor that asks GTK 4.8's style context, so that a later GTK is met here.
 */
#include "editor/cloth/band-style.h"

#include <string.h>

GdkRGBA
bw_band_style_fade (GdkRGBA colour, double alpha)
{
  colour.alpha = (float)(colour.alpha * (float)alpha);
  return colour;
}

static GdkRGBA
mix (GdkRGBA a, GdkRGBA b, float share)
{
  return (GdkRGBA){
    a.red + (b.red - a.red) * share,
    a.green + (b.green - a.green) * share,
    a.blue + (b.blue - a.blue) * share,
    1,
  };
}

static float
brightness (GdkRGBA colour)
{
  return 0.3f * colour.red + 0.59f * colour.green + 0.11f * colour.blue;
}

GdkRGBA
bw_band_style_tint (BwTint tint, gboolean dark, double alpha)
{
  return (GdkRGBA){ (float)bw_tint_part (tint, dark, 0), (float)bw_tint_part (tint, dark, 1),
                    (float)bw_tint_part (tint, dark, 2), (float)alpha };
}

/* By the name our own face gives it, else by the theme's own. */
static GdkRGBA
look_up (GtkStyleContext *context, const char *name, const char *other, BwTint fallback)
{
  GdkRGBA colour;
  if (!gtk_style_context_lookup_color (context, name, &colour)
      && !gtk_style_context_lookup_color (context, other, &colour))
    colour = bw_band_style_tint (fallback, FALSE, 1);
  return colour;
}

static gboolean
is_high_contrast (GtkWidget *widget)
{
  g_autofree char *theme = NULL;
  g_object_get (gtk_widget_get_settings (widget), "gtk-theme-name", &theme, NULL);
  return theme != NULL && strstr (theme, "HighContrast") != NULL;
}

PangoLayout *
bw_band_style_layout (GtkWidget *widget)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, NULL);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_scale_new (0.85));
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

static void
measure_text (BwBandStyle *style, GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = bw_band_style_layout (widget);
  int width, height;
  pango_layout_set_text (layout, "0000", -1);
  pango_layout_get_pixel_size (layout, &width, &height);
  style->text = height;
  style->digit = width / 4.0;
}

void
bw_band_style_init (BwBandStyle *style, GtkWidget *widget)
{
  GtkStyleContext *context = gtk_widget_get_style_context (widget);
  GdkRGBA window = look_up (context, "theme_bg_color", "window_bg_color", BW_TINT_PAPER);

  gtk_style_context_get_color (context, &style->ink);
  style->ground = look_up (context, "theme_base_color", "view_bg_color", BW_TINT_CARD);
  style->accent = look_up (context, "theme_selected_bg_color", "accent_bg_color", BW_TINT_TIDE);
  style->on_accent
      = look_up (context, "theme_selected_fg_color", "accent_fg_color", BW_TINT_ON_TIDE);
  style->dark = brightness (style->ground) < 0.5f;
  style->strong = is_high_contrast (widget);
  style->mark = style->dark ? mix (style->accent, bw_band_style_gleam (1), 0.45f) : style->accent;
  style->ruler = window;
  style->faint = bw_band_style_fade (style->ink, style->strong ? 0.9 : 0.45);
  gtk_style_context_lookup_color (context, "bw_note", &style->faint);

  /* The mat is felt, so that pale beads stand out on a light theme and dark ones on a dark one. */
  style->ribbon = style->ground;
  gtk_style_context_lookup_color (context, "bw_felt", &style->ground);
  style->line = style->strong ? 2 : 1;
  measure_text (style, widget);
}
