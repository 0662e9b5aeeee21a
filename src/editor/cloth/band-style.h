/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours and sizes the band is drawn with, taken from the widget's theme and font: light,
 * dark, high contrast and large text follow by themselves. */
#pragma once

#include "core/pattern/tint.h"
#include <gtk/gtk.h>

typedef struct {
  GdkRGBA ground; /* the tray the band lies on */
  GdkRGBA ink;    /* text and lines */
  GdkRGBA faint;  /* ticks, less important lines */
  GdkRGBA accent; /* cursor, hover, what is pointed at */
  GdkRGBA on_accent;
  GdkRGBA mark;   /* the accent for thin marks, which must stand out from ground and beads */
  GdkRGBA ruler;  /* ground of the rulers */
  GdkRGBA ribbon; /* the faces' ribbon, under ink */
  gboolean dark, strong;
  double line;  /* thickness of a fine line, px */
  double text;  /* height of a line of ruler text, px */
  double digit; /* width of a digit of ruler text, px */
} BwBandStyle;

void bw_band_style_init (BwBandStyle *style, GtkWidget *widget);

/* A layout for ruler text (somewhat smaller than the widget's own). Owned by the caller. */
PangoLayout *bw_band_style_layout (GtkWidget *widget);

/* One of the program's own colours, whatever the theme. */
GdkRGBA bw_band_style_tint (BwTint tint, gboolean dark, double alpha);
/* The two that together show on beads of any colour. */
static inline GdkRGBA
bw_band_style_shadow (double alpha)
{
  return bw_band_style_tint (BW_TINT_SHADOW, FALSE, alpha);
}

static inline GdkRGBA
bw_band_style_gleam (double alpha)
{
  return bw_band_style_tint (BW_TINT_GLEAM, FALSE, alpha);
}

GdkRGBA bw_band_style_fade (GdkRGBA colour, double alpha);
