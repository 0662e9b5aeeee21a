/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading aloud through the desktop's speech service, where there is one. */
#pragma once

#include <glib.h>

gboolean bw_voice_is_there (void);
/* Says this instead of what is still being said. Harmless without a service. */
void bw_voice_say (const char *words);
void bw_voice_hush (void);
