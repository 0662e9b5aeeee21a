/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One place that asks the theme for colours. */
#include "config.h"

#include "app/kit/palette.h"

static GdkRGBA
look_up (GtkStyleContext *style, const char *name, GdkRGBA otherwise)
{
  GdkRGBA colour;
  return gtk_style_context_lookup_color (style, name, &colour) ? colour : otherwise;
}

GdkRGBA
bw_palette_tint (BwTint tint, gboolean dark)
{
  return (GdkRGBA){ (float)bw_tint_part (tint, dark, 0), (float)bw_tint_part (tint, dark, 1),
                    (float)bw_tint_part (tint, dark, 2), 1 };
}

BwPalette
bw_palette_get (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  BwPalette palette;
  gtk_style_context_get_color (style, &palette.ink);
  palette.faint = look_up (style, "bw_note", bw_palette_alpha (palette.ink, 0.8));
  palette.hair = look_up (style, "bw_hair", bw_palette_alpha (palette.ink, 0.5));
  palette.paper = look_up (style, "theme_base_color", bw_palette_tint (BW_TINT_CARD, FALSE));
  palette.accent
      = look_up (style, "theme_selected_bg_color", bw_palette_tint (BW_TINT_TIDE, FALSE));
  palette.blank = look_up (style, "bw_brass", palette.accent);
  palette.good = look_up (style, "bw_good_color", palette.ink);
  palette.warn = look_up (style, "bw_warn_color", palette.ink);
  palette.bad = look_up (style, "bw_bad_color", palette.ink);
  return palette;
}

void
bw_palette_follow (GtkWidget *widget)
{
  static const char *const signals[]
      = { "notify::gtk-theme-name", "notify::gtk-application-prefer-dark-theme" };
  for (gsize i = 0; i < G_N_ELEMENTS (signals); i++)
    g_signal_connect_object (gtk_widget_get_settings (widget), signals[i],
                             G_CALLBACK (gtk_widget_queue_draw), widget, G_CONNECT_SWAPPED);
}

PangoLayout *
bw_palette_text (GtkWidget *widget, const char *text, double scale, gboolean bold)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_scale_new (scale));
  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}
