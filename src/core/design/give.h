/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much bed and thread give when a strip is drawn together as at the zip: q, the share of its
 * thickness that the bed loses, and ε, the share by which thread and strip grow longer. Both are
 * taken from common practice until a maker measures them, once slack and once pulled.
 *
 * A strip that is s0 long slack and s1 pulled says ε = s1/s0 − 1. A girth g0 over the slack bed and
 * g1 under the pulled strip, round a stone of girth g, say q = (g0 − g1)/(g0 − g), for girths of
 * parallel curves differ by 2π times what lies between them (Steiner's formula, as in
 * "core/design/bed.h"). With errors e of each length, σ of the stone's girth, and ε and q at what
 * is usual, so that a reading weighs the same whatever it says, their standard errors are
 *
 *   e √(1 + (1 + ε)²) / s0    and    √((1 + (1 − q)²) e² + q² σ²) / (g0 − g):
 *
 * the law of propagation of uncertainty (JCGM 100:2008, 5.1.2). Believed before to m ± s, ε or q is
 * afterwards the mean of belief and reading, each weighed by 1/s²: the normal posterior of a normal
 * prior. */
#pragma once

#include "core/design/gauge.h"

/* A share, and its standard deviation. */
typedef struct {
  double share, sd;
} BwGive;

#define BW_STRETCH_MOST 1.0
#define BW_SQUEEZE_MOST 0.9

/* 0.010 ± 0.003 and 0.15 ± 0.05: common practice, no source. */
BwGive bw_stretch_usual (void);
BwGive bw_squeeze_usual (void);

/* One strip, measured lying at rest and pulled as at the zip. */
typedef struct {
  double slack_mm, pulled_mm;
  BwStripTool tool;
} BwStretchReading;

/* The way round: of the bare stone, over the slack bed, and over the bed under a pulled strip. By
 * a strip of paper, whose marks were measured with the tool. */
typedef struct {
  double girth_mm, slack_mm, pulled_mm;
  BwStripTool tool;
} BwSqueezeReading;

/* Standard error of a girth by a strip of paper: 0.4 mm where its mark was read by ruler, 0.2 mm
 * where by calliper (common practice, no source). */
double bw_girth_error_mm (BwStripTool tool);

/* What a reading that is valid says by itself; its share may lie outside what can be. */
BwGive bw_stretch_said (const BwStretchReading *reading);
BwGive bw_squeeze_said (const BwSqueezeReading *reading);

BwGive bw_give_weigh (BwGive before, BwGive said);

/* What is believed by hands, or where they are NULL by what is usual, and a reading, either of
 * which may be NULL. With neither *share stays and *sd becomes 0, which stands for not learnt. The
 * share is kept within 0..most. */
void bw_give_settle (const BwGive *hands, const BwGive *said, BwGive usual, double most,
                     double *share, double *sd);

/* Ranges, and that what was pulled is near enough to what was slack to be a reading at all. */
gboolean bw_stretch_reading_validate (const BwStretchReading *reading, BwFault *fault);
gboolean bw_squeeze_reading_validate (const BwSqueezeReading *reading, BwFault *fault);
gboolean bw_stretch_hands_validate (const BwGive *hands, BwFault *fault);
gboolean bw_squeeze_hands_validate (const BwGive *hands, BwFault *fault);
