/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "preview/view/tilt-words.h"

#include <glib/gi18n-lib.h>

#define NEARLY_LEVEL_DEG 85.0 /* from here on an eye sees a level piece, not one tip up or down */

char *
bw_tilt_words (const BwSceneRest *rest)
{
  if (rest->up == BW_UP_LEVEL)
    return g_strdup (_ ("Hangs level."));
  if (rest->tilt_deg > NEARLY_LEVEL_DEG)
    return g_strdup (rest->up == BW_UP_TIP ? _ ("Nearly level, the tip a little higher.")
                                           : _ ("Nearly level, the tip a little lower."));
  /* Translators: the angle between the stone's axis and the plumb line. */
  if (rest->up == BW_UP_TIP)
    return g_strdup_printf (_ ("Tip up, %.0f° off the plumb line."), rest->tilt_deg);
  return g_strdup_printf (_ ("Tip down, %.0f° off the plumb line."), rest->tilt_deg);
}
