/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed form, so that it does not depend on how often frames come: x'' + 2γ x' + (ω² + γ²) x = 0.
 * A pendant of a few centimetres swings in half a second; this one is a little slower and damped by
 * the hand that lets it go, so that the eye can follow and need not wait (common practice, no
 * source). */
#include "preview/scene/swing.h"

#include <math.h>

#define DAMPING 5.0   /* γ, 1/s */
#define FREQUENCY 9.5 /* ω, 1/s */
#define GLIDE_S 0.8

BwSwing
bw_swing_after (BwSwing start, double t)
{
  if (t >= BW_SWING_S)
    return (BwSwing){ 0, 0 };
  double a = start.offset, b = (start.speed + DAMPING * a) / FREQUENCY;
  double c = cos (FREQUENCY * t), s = sin (FREQUENCY * t), fade = exp (-DAMPING * t);
  double offset = fade * (a * c + b * s);
  return (BwSwing){ offset, fade * FREQUENCY * (b * c - a * s) - DAMPING * offset };
}

double
bw_swing_energy (BwSwing now)
{
  const double stiffness = FREQUENCY * FREQUENCY + DAMPING * DAMPING;
  return (now.speed * now.speed + stiffness * now.offset * now.offset) / 2;
}

double
bw_swing_glide (double seconds)
{
  double share = CLAMP (seconds / GLIDE_S, 0, 1);
  return share * share * (3 - 2 * share);
}
