/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers drawn by lot that are the same on every machine. */
#pragma once

#include <glib.h>

/* Stirs all bits (a multiply-xorshift hash). */
static inline guint64
bw_stir (guint64 x)
{
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

/* The next of a row of them, 0 up to but not including 1. */
static inline double
bw_stir_next (guint64 *state)
{
  *state += 0x9e3779b97f4a7c15u;
  return (double)(bw_stir (*state) >> 11) / 9007199254740992.0;
}
