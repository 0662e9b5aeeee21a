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
