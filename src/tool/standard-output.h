/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standard output as something that can fail. */
#pragma once

#include <gio/gio.h>

/* To be called first in main: a closed standard stream must not become the first file opened, and a
 * closed pipe is an error to report, not a signal to die of. */
void bw_standard_output_guard (void);

/* Writes all of the text; FALSE with a G_IO_ERROR when it could not (full disk, closed pipe). */
gboolean bw_standard_output_write (const char *text, GError **error);
