/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a picture's file is all there. */
#pragma once

#include <glib.h>

/* A PNG has all its chunks up to IEND (ISO/IEC 15948, "PNG datastream structure"), a JPEG an end of
 * image after its scans (ITU-T T.81, annex B). Of anything else nothing is known: TRUE. */
gboolean bw_picture_is_whole (const guint8 *data, gsize length);
