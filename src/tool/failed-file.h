/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What went wrong with a file other than the project, as one error that names the file. */
#pragma once

#include "project/file/io-words.h"

/* failure is a fault of what the file says (BW_FAULT), or one of reading or writing it. */
void bw_failed_file (const char *path, const GError *failure, BwIoWay way, GError **error);
