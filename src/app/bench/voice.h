/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads aloud through the desktop's speech service, where there is one. */
#pragma once

#include <glib.h>

typedef struct _BwVoice BwVoice;

/* Whether there is a speech service to speak through. */
gboolean bw_voice_is_there (void);

BwVoice *bw_voice_new (void);
/* Falls silent. */
void bw_voice_free (BwVoice *self);

/* Says the words instead of what is being said. Does nothing where there is no speech service. */
void bw_voice_say (BwVoice *self, const char *words);
/* Stops what is being said. */
void bw_voice_hush (BwVoice *self);
