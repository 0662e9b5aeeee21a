/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* How many of n cases of one kind are tried. All of them as built for use. The sanitizers look at
 * every step of a case and make it many times as slow, and what they find hardly depends on which
 * case it is: there, a quarter. */
#ifdef __SANITIZE_ADDRESS__
#define few(n) ((int)((n) + 3) / 4)
#else
#define few(n) ((int)(n))
#endif
