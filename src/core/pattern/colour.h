/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours as numbers: how far apart two beads look, to everybody and to those who see fewer
 * colours.
 *
 * sRGB by IEC 61966-2-1:1999 (D65). Lab by CIE 1976 with the white that the sRGB primaries give.
 * Difference by CIEDE2000: G. Sharma, W. Wu, E. N. Dalal, Color Research & Application 30(1), 2005,
 * 21–30. Colour-vision deficiency by G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE
 * Transactions on Visualization and Computer Graphics 15(6), 2009, severity 1, in linear light. */
#pragma once

#include <glib.h>

typedef struct {
  double r, g, b; /* linear light, 0..1 */
} BwLinear;

typedef struct {
  double L, a, b; /* L 0..100 */
} BwLab;

typedef enum {
  BW_SIGHT_FULL,
  BW_SIGHT_PROTAN,
  BW_SIGHT_DEUTAN,
  BW_SIGHT_TRITAN,
  BW_N_SIGHTS
} BwSight;

/* One sRGB channel 0..1 to linear light and back. */
double bw_colour_decode (double encoded);
double bw_colour_encode (double linear);

/* 0xRRGGBB to linear light and back (rounded to the nearest, clamped). */
BwLinear bw_colour_linear (guint32 srgb);
guint32 bw_colour_srgb (BwLinear linear);

BwLab bw_colour_lab (guint32 srgb);
BwLab bw_colour_lab_from_linear (BwLinear linear);

/* The inverse; channels outside 0..1 are colours that no screen shows. */
BwLinear bw_colour_linear_from_lab (BwLab lab);

/* ΔE00, kL = kC = kH = 1. */
double bw_colour_difference (BwLab a, BwLab b);

/* The colour as someone with this sight sees it. */
guint32 bw_colour_seen (guint32 srgb, BwSight sight);

/* What someone with this sight perceives, not rounded to a screen's steps. */
BwLab bw_colour_lab_seen (guint32 srgb, BwSight sight);

/* Below this ΔE00 two beads can hardly be told apart. Common practice, no source: about 1 is the
 * least a practised eye sees between large fields that touch; beads are small and glitter, so twice
 * that. */
#define BW_COLOUR_HARDLY 2.0

/* Relative luminance and contrast ratio 1..21 (W3C, Web Content Accessibility Guidelines 2.x). */
double bw_colour_luminance (guint32 srgb);
double bw_colour_contrast (guint32 a, guint32 b);
