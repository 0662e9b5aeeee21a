/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can go wrong with a file, in sentences of our own: the system's repeat the file's name,
 * which is told anyway, and differ between systems. No full stop at their end. */
#pragma once

#include <gio/gio.h>

typedef enum { BW_IO_READ, BW_IO_WRITE } BwIoWay;

/* Sets a G_IO_ERROR whose message is the sentence alone, from an errno. */
void bw_io_fail (int number, BwIoWay way, GError **error);
/* The same for what is no ordinary file (a pipe, a device). */
void bw_io_fail_irregular (GError **error);

/* The sentence of any error of reading or writing: ours where the system's has one of ours, its
 * own otherwise. Borrowed from the error or static. */
const char *bw_io_words (const GError *error, BwIoWay way);
