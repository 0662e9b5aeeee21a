/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a PNG has data for all its points. */
#pragma once

#include <glib.h>

/* Unpacks the data (all IDAT chunks, RFC 1950) and counts it against what size, depth, colour type
 * and interlacing call for (ISO/IEC 15948, "Filtering" and "Interlacing"). FALSE when it ends
 * early, does not unpack, or the header is none that the standard knows. Costs no more memory than
 * a block. */
gboolean bw_picture_png_has_all_data (const guint8 *data, gsize length);
