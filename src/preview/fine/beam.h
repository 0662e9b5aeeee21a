/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A beam of light, followed backwards from the eye. */
#pragma once

#include "preview/fine/glass.h"

#define BW_BEAM_STEPS 600 /* surfaces a beam meets, at most */
/* Clear of what was just met, mm: more than single precision errs by, less than anything seen. */
#define BW_BEAM_CLEAR 2e-3

typedef struct {
  BwVec3 from, way;
  double keeps[3]; /* share of what it will find that reaches the eye */
  double found[3]; /* light gathered so far */
  double nm;       /* wavelength; 0: all, bent as the line d is */
  /* Density of the way it took at a dull surface, per unit of solid angle, where lamps were asked
   * for there; 0: it was mirrored or bent, and lamps are still to be found. share: the chance that
   * each lamp was asked. */
  double density, share;
  double worth; /* what it kept at its start: less than that is weak */
  int steps;
  BwLot lot;
} BwBeam;

static inline double
bw_beam_most (const BwBeam *beam)
{
  return MAX (beam->keeps[0], MAX (beam->keeps[1], beam->keeps[2]));
}

static inline void
bw_beam_dim (BwBeam *beam, const double share[3])
{
  for (int i = 0; i < 3; i++)
    beam->keeps[i] *= share[i];
}

static inline void
bw_beam_find (BwBeam *beam, const double light[3], double share)
{
  for (int i = 0; i < 3; i++)
    beam->found[i] += beam->keeps[i] * light[i] * share;
}

/* A weak beam mostly ends, and carries the more where it goes on (Russian roulette): FALSE where it
 * has ended. */
static inline gboolean
bw_beam_goes_on (BwBeam *beam, double enough)
{
  double odds = bw_beam_most (beam) / (enough * beam->worth);
  if (++beam->steps > BW_BEAM_STEPS)
    return FALSE;
  if (odds >= 1)
    return TRUE;
  if (bw_lot_next (&beam->lot) >= odds)
    return FALSE;
  for (int i = 0; i < 3; i++)
    beam->keeps[i] /= odds;
  return TRUE;
}

/* From a point, clear of the surface there on the side `out` points to. */
static inline void
bw_beam_leave (BwBeam *beam, BwVec3 at, BwVec3 out, BwVec3 way)
{
  beam->from = bw_vec3_add (at, bw_vec3_scale (out, BW_BEAM_CLEAR));
  beam->way = way;
}
