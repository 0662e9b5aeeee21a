/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bed: the layer of waxed cord between stone and band. */
#pragma once

#include "core/design/give.h"
#include "core/stone/stone.h"

typedef struct {
  double cord_thickness_mm; /* as laid, > 0 */
  double cord_width_mm;     /* as laid, > 0 */
  int layers;               /* ≥ 0 */
  double top_extra_mm; /* grade: more at the band's top edge than at its bottom edge; any sign */
  double squeeze;      /* q, share lost under the pull of the closed band, 0..0.9; 0.15 is
                          common practice, no source */
  double overhang_mm;  /* bed narrower than the band by this at each edge; 1 mm is common
                          practice, no source */
  gboolean has_girth_over;
  double girth_over_mm; /* measured over the relaxed bed at z_mid; wins over layers */
  double squeeze_sd;    /* of q once it is learnt, and then by bw_design_give(); 0: it is not */
  gboolean has_hands;
  BwGive hands; /* what the pieces wound before say of q */
  gboolean has_pulled;
  BwSqueezeReading pulled; /* what was measured of it, on this stone or another */
} BwBed;

/* The band's place on the stone, as far as bed and ring need it. */
typedef struct {
  double bottom_mm; /* lower edge of the band */
  double width_mm;  /* W w */
} BwBandSpan;

static inline double
bw_band_span_mid (BwBandSpan span)
{
  return span.bottom_mm + span.width_mm / 2;
}

/* The bed solved for one stone and one band: relaxed thickness, linear in z. */
typedef struct {
  double bottom_mm; /* t at the band's bottom edge */
  double slope;     /* dt/dz */
  double origin_mm; /* z of the bottom edge */
  double squeeze;   /* q */
} BwBedding;

/* Thickness from layers, or from girth_over: (girth_over − girth)/(2π) at z_mid, exact for every
 * convex section (Steiner's formula for parallel bodies; P. M. Gruber, Convex and Discrete
 * Geometry, Springer 2007, §6). Faults at /bed/KEY, among them a thickness below zero anywhere on
 * the band, and a measured girth of more than BW_GIRTH_OVER_TIMES the stone's. On a fault *bedding
 * is left as it was. */
gboolean bw_bedding_init (BwBedding *bedding, const BwBed *bed, const BwStone *stone,
                          BwBandSpan span, BwFault *fault);

/* Relaxed thickness t(z), and t(z)(1 − q) under the closed band. */
double bw_bedding_thickness (const BwBedding *bedding, double z_mm);
double bw_bedding_squeezed (const BwBedding *bedding, double z_mm);

/* Width of the bed: band width less both overhangs, never below 0. */
double bw_bed_width_mm (const BwBed *bed, BwBandSpan span);

/* Cord wound on the stone, without tails, by volume: (bed width / cord width)(g t + π t²)/cord
 * thickness, g the girth and t the relaxed thickness at z_mid (Steiner's formula once more: the
 * area between parallel curves). Whole layers give the sum of their turns exactly; a grade of
 * either sign and a measured girth go with it. 0 where there is no bed. */
double bw_bed_wound_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span);

/* Cord to cut: wound length + 200 mm of tails (common practice, no source); 0 when nothing is
 * wound. */
double bw_bed_cord_mm (const BwBed *bed, const BwStone *stone, BwBandSpan span);

/* A girth measured over the bed may be so many times the stone's own there: a bed as thick as the
 * stone's mean radius doubles it, and no bed is thicker than the stone it lies on. */
#define BW_GIRTH_OVER_TIMES 2.0

/* Mass of the wound cord at 1.2 g/cm³ (common practice, no source). */
double bw_bed_mass_g (const BwBed *bed, const BwStone *stone, BwBandSpan span);

/* Ranges alone: faults of the bed. */
gboolean bw_bed_validate (const BwBed *bed, BwFault *fault);
