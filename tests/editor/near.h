/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cmocka compares in single precision; the lattice is in double. */
#pragma once

#define assert_near(a, b, tolerance) assert_true (fabs ((double)(a) - (double)(b)) <= (tolerance))
