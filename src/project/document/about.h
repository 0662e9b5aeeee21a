/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the cover of the printed pages tells beside the design: texts of one line, all optional. */
#pragma once

typedef enum {
  BW_ABOUT_MAKER,
  BW_ABOUT_LICENCE,
  BW_ABOUT_VERSION,
  BW_ABOUT_SKILL,
  BW_ABOUT_HOURS,
  BW_N_ABOUT,
} BwAbout;

/* The key below /about in the file: "maker", … */
const char *bw_about_key (BwAbout about);
/* What it is, as people read it: "Made by", … Translated. */
const char *bw_about_name (BwAbout about);
