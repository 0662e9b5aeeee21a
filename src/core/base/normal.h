/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The standard normal distribution. */
#pragma once

#include <glib.h>
#include <math.h>

/* Φ(z) by the complementary error function: chances in the lower tail keep their digits. */
static inline double
bw_normal_below (double z)
{
  return erfc (-z / G_SQRT2) / 2;
}

/* The chance that of two standard normal numbers of correlation rho, −1..1, one is below h and the
 * other below k: by Owen's T function (D. B. Owen, Annals of Mathematical Statistics 27(4), 1956,
 * 1075-1090). h and k may be infinite. Good to 1e-9. */
double bw_normal_both_below (double h, double k, double rho);
