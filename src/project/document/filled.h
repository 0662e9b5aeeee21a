/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A translated sentence with one word put in, where the sentence comes out of a table. */
#pragma once

#include <glib.h>

/* format has one %s, which a translation may write %1$s. Owned. */
char *bw_filled (const char *format, const char *word) G_GNUC_FORMAT (1);
