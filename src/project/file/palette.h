/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays as other programs know colours: GIMP's palettes and plain CSS colours. */
#pragma once

#include "project/document/tray.h"
#include <gio/gio.h>

/* Colours of a palette ("GIMP Palette", then "R G B name" a line) or of a style sheet ("--name:
 * #rrggbb" or "#rgb", wherever they stand), each an opaque bead of the tray under the next free
 * letter; the same colour under the same name comes once. FALSE with a BW_FAULT at "" or at a line
 * ("line 7") when it is neither, holds none, or holds more than BW_TRAY_MAX. */
gboolean bw_palette_read (const char *data, gsize length, BwTray *tray, GError **error);
/* The same of a file; G_IO_ERROR when it cannot be read. Waits for the disk. */
gboolean bw_palette_load (GFile *file, BwTray *tray, GError **error);

/* Both owned. A name is one line; CSS gets it in small letters and hyphens, or "colour-3". */
char *bw_palette_to_gpl (const BwTray *tray, const char *name);
char *bw_palette_to_css (const BwTray *tray);
