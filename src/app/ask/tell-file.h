/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How it went with a file, in one sentence with the file's name, told by bw_tell(). */
#pragma once

#include "app/ask/tell.h"

typedef enum { BW_FILE_OPENED, BW_FILE_SAVED, BW_FILE_WRITTEN } BwFileDeed;

/* Why a file could not be opened, saved or written. The writers put the path before their
 * sentence; here the file's name is told anyway. */
void bw_tell_file_failure (GtkWidget *widget, BwFileDeed deed, GFile *file, const GError *error);
/* That a file was written; or why not, when error is not NULL. */
void bw_tell_file_written (GtkWidget *widget, GFile *file, const GError *error);
