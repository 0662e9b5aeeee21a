/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ranges the program works in. They bound time and memory, not the craft. */
#pragma once

#define BW_FACES_MIN 3
#define BW_FACES_MAX 64
#define BW_COLUMNS_MIN 2
#define BW_COLUMNS_MAX 200
#define BW_ROWS_MIN 1
#define BW_ROWS_MAX 20000
#define BW_LENGTH_MIN_MM 0.001   /* the least length there is, where 0 means nothing */
#define BW_LENGTH_MAX_MM 1000.0  /* any length of a stone */
#define BW_GIRTH_MAX_MM 10000.0  /* round a stone, or round its bed */
#define BW_GIRTH_SD_MAX_MM 100.0 /* a girth so badly known tells nothing */
#define BW_STRIP_MAX_MM 100000.0 /* a strip, a working length of thread */
#define BW_ANGLE_MAX_DEG 3600.0  /* an azimuth, either way */
#define BW_NATURAL_ANGLE_MIN_DEG 0.001
#define BW_NATURAL_ANGLE_MAX_DEG 89.999
#define BW_DENSITY_MIN 0.01 /* g/cm³ */
#define BW_DENSITY_MAX 30.0 /* g/cm³; wider than any mineral or glass */
#define BW_LAYERS_MAX 100   /* of bed cord */
#define BW_PIECES_MAX 10000
#define BW_PACK_MAX_G 100000.0
#define BW_PRICE_MAX 1e9
#define BW_CHECKS_MAX 256 /* strip lengths written down while weaving */
#define BW_NAME_BYTES 64  /* a bead size's name, with its NUL */
