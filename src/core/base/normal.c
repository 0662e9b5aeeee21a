/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/base/normal.h"

#define PANELS 32   /* of Simpson's rule; the integrand is smooth */
#define AS_ONE 1e-7 /* two numbers whose correlation leaves so little are one */

static double
owen_integrand (double h, double x)
{
  double far = 1 + x * x;
  return exp (-0.5 * h * h * far) / far;
}

/* Owen's T (h, a), |a| ≤ 1. */
static double
owen_within (double h, double a)
{
  double sum = owen_integrand (h, 0) + owen_integrand (h, a), step = a / (2 * PANELS);
  for (int i = 1; i < 2 * PANELS; i++)
    sum += (i % 2 ? 4 : 2) * owen_integrand (h, i * step);
  return sum * step / 3 / (2 * G_PI);
}

/* T (h, ah/h); where that quotient is greater than 1, and where h is nothing, by T (ah, h/ah). */
static double
owen (double h, double ah)
{
  if (fabs (ah) <= fabs (h))
    return owen_within (h, ah / h);
  double below = bw_normal_below (h), other = bw_normal_below (ah);
  double apart = (h < 0) != (ah < 0) ? 0.5 : 0;
  return (below + other) / 2 - below * other - apart - owen_within (ah, h / ah);
}

double
bw_normal_both_below (double h, double k, double rho)
{
  double rest = sqrt (MAX (1 - rho * rho, 0)), below = bw_normal_below (h);
  double other = bw_normal_below (k);
  if (isinf (h) || isinf (k))
    return MIN (below, other);
  if (rest < AS_ONE)
    return rho > 0 ? MIN (below, other) : MAX (below + other - 1, 0);
  if (!(fabs (h) > 0) && !(fabs (k) > 0))
    return 0.25 + asin (rho) / (2 * G_PI);
  double apart = (h < 0) != (k < 0) ? 0.5 : 0;
  double both = (below + other) / 2 - owen (h, (k - rho * h) / rest)
                - owen (k, (h - rho * k) / rest) - apart;
  return CLAMP (both, 0, 1);
}
