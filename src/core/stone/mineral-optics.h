/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a mineral bends light, and where its colour and its veils lie. Sources stand beside the
 * numbers in mineral-optics.c. */
#pragma once

/* Index of the ordinary ray at the lines C (656.3 nm), d (587.6 nm) and F (486.1 nm). */
typedef struct {
  double n_c, n_d, n_f;
} BwMineralIndex;

/* Coefficients of Cauchy's formula n = a + b/λ² + c/λ⁴, λ in µm. */
typedef struct {
  double a, b, c;
} BwCauchy;

typedef struct {
  BwMineralIndex index;
  double zoning; /* 0: evenly coloured; 1: not at all at the base, twice as deep at the tip */
  double milk;   /* scattered per mm anywhere in the stone */
  double veils;  /* and in its veils, which lie towards the base */
} BwMineralOptics;

/* By a mineral's everyday name; clear quartz when it is unknown or NULL. */
void bw_mineral_optics (const char *mineral, BwMineralOptics *optics);

/* Cauchy's curve through the three indices. */
BwCauchy bw_cauchy_through (const BwMineralIndex *index);
/* The index at a wavelength in nm, 380..780. */
double bw_cauchy_index (const BwCauchy *cauchy, double nm);
