/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ranges the program works in. They bound time and memory, not the craft. */
#pragma once

#define BW_FACES_MIN 3
#define BW_FACES_MAX 64
#define BW_COLUMNS_MIN 2
#define BW_COLUMNS_MAX 200
#define BW_ROWS_MIN 1
#define BW_ROWS_MAX 20000
#define BW_LENGTH_MAX_MM 1000.0 /* any length of a stone */
#define BW_CHECKS_MAX 256       /* strip lengths written down while weaving */
#define BW_NAME_BYTES 64        /* a bead size's name, with its NUL */
