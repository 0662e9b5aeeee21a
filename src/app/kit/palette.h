/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours our own drawings are made of, taken from the theme so that light, dark and high
 * contrast need nothing further. */
#pragma once

#include "core/pattern/tint.h"
#include <gtk/gtk.h>

typedef struct {
  GdkRGBA ink;    /* text and outlines */
  GdkRGBA faint;  /* secondary text */
  GdkRGBA hair;   /* help lines */
  GdkRGBA paper;  /* what we draw on */
  GdkRGBA blank;  /* what is still to be filled */
  GdkRGBA accent; /* what is chosen or pointed at */
  GdkRGBA good, warn, bad;
} BwPalette;

/* One of the program's own colours, whatever the theme. */
GdkRGBA bw_palette_tint (BwTint tint, gboolean dark);

BwPalette bw_palette_get (GtkWidget *widget);

/* Draws the widget anew whenever the theme is another: a named colour can change without the
 * widget's own style, and then the toolkit draws nothing. */
void bw_palette_follow (GtkWidget *widget);

/* A text layout in the widget's font, scaled: 1 = its own size. Owned. */
PangoLayout *bw_palette_text (GtkWidget *widget, const char *text, double scale, gboolean bold);

static inline GdkRGBA
bw_palette_alpha (GdkRGBA colour, double alpha)
{
  colour.alpha *= (float)alpha;
  return colour;
}
