/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/pattern/tint.h"

static const struct {
  const char *name;
  guint32 day, dark;
} tints[] = {
#define TINT(NAME, name, day, dark) { #name, day, dark },
#include "tints.def"
#undef TINT
};

guint32
bw_tint_srgb (BwTint tint, gboolean dark)
{
  return dark ? tints[tint].dark : tints[tint].day;
}

double
bw_tint_part (BwTint tint, gboolean dark, int part)
{
  return (bw_tint_srgb (tint, dark) >> (16 - 8 * part) & 255) / 255.0;
}

const char *
bw_tint_name (BwTint tint)
{
  return tints[tint].name;
}
