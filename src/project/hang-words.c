/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/hang-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Up to here an eye sees a piece that is meant to hang level (common practice, no source). */
#define NEARLY_LEVEL_DEG 15

static char *
off_level (BwUp up, int degrees)
{
  if (degrees == 0)
    return g_strdup (_ ("level"));
  if (degrees <= NEARLY_LEVEL_DEG)
    return g_strdup_printf (up == BW_UP_TIP ? _ ("nearly level, tip %d° high")
                                            : _ ("nearly level, tip %d° low"),
                            degrees);
  return g_strdup_printf (up == BW_UP_TIP ? _ ("aslant, tip %d° above level")
                                          : _ ("aslant, tip %d° below level"),
                          degrees);
}

static char *
off_upright (BwUp up, int degrees)
{
  if (degrees == 0)
    return g_strdup (up == BW_UP_TIP ? _ ("upright, tip up") : _ ("upright, tip down"));
  return g_strdup_printf (
      up == BW_UP_TIP ? _ ("tip up, %d° from upright") : _ ("tip down, %d° from upright"), degrees);
}

double
bw_hang_off_deg (double tilt_deg)
{
  return MIN (tilt_deg, 90 - tilt_deg);
}

char *
bw_hang_words (BwUp up, double tilt_deg)
{
  int degrees = (int)lround (bw_hang_off_deg (tilt_deg));
  if (up == BW_UP_LEVEL)
    return off_level (up, 0);
  return tilt_deg >= 45 ? off_level (up, degrees) : off_upright (up, degrees);
}

char *
bw_hang_sentence (BwUp up, double tilt_deg)
{
  g_autofree char *words = bw_hang_words (up, tilt_deg);
  /* Translators: such as "nearly level, tip 6° low" or "tip down, 12° from upright". */
  return g_strdup_printf (_ ("Hangs %s."), words);
}
