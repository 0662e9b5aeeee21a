/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each glyph is written as its pen's path: points are two digits, x (A is ten) then y; a comma
 * lifts the pen. */
#include "core/pattern/alphabet.h"

static const struct {
  gunichar letter;
  const char *path;
} glyphs[] = {
  { 'A', "00 46 80,12 72" },
  { 'B', "00 06 46 65 64 43 03,43 72 71 50 00" },
  { 'C', "85 66 26 04 02 20 60 81" },
  { 'D', "00 06 46 74 72 40 00" },
  { 'E', "66 06 00 60,03 53" },
  { 'F', "66 06 00,03 53" },
  { 'G', "86 26 04 02 20 80 83 53" },
  { 'H', "00 06,80 86,03 83" },
  { 'I', "00 06" },
  { 'J', "66 61 50 20 01" },
  { 'K', "00 06,76 03 70" },
  { 'L', "06 00 60" },
  { 'M', "00 06 52 A6 A0" },
  { 'N', "00 06 80 86" },
  { 'O', "26 76 94 92 70 20 02 04 26" },
  { 'P', "00 06 46 65 63 42 02" },
  { 'Q', "26 66 84 83 71 21 03 04 26,42 51 80" },
  { 'R', "00 06 46 65 64 43 03,33 70" },
  { 'S', "85 66 26 05 04 23 63 82 81 60 20 01" },
  { 'T', "06 86,46 40" },
  { 'U', "06 02 20 60 82 86" },
  { 'V', "06 40 86" },
  { 'W', "06 20 54 80 A6" },
  { 'X', "00 86,06 80" },
  { 'Y', "06 43 86,43 40" },
  { 'Z', "06 76 00 70" },
  { 0x1e9e, "00 05 26 76 54 44 63 92 91 70 50" },
  { '0', "26 36 54 52 30 20 02 04 26" },
  { '1', "04 36 30,00 60" },
  { '2', "05 26 46 65 64 00 60" },
  { '3', "05 16 46 65 64 43 23,43 62 61 40 10 01" },
  { '4', "50 56 02 72" },
  { '5', "56 06 04 44 63 61 40 00" },
  { '6', "56 26 05 01 20 40 61 63 44 24 03" },
  { '7', "06 66 20" },
  { '8', "26 05 04 23 43 64 65 46 26,23 02 01 20 40 61 62 43" },
  { '9', "20 40 62 64 46 26 04 03 22 42 63" },
  { '-', "13 43" },
  { '+', "03 63,31 35" },
  { '.', "00 00" },
  { ',', "11 00" },
  { ':', "01 01,04 04" },
  { '/', "00 46" },
  { 0x2665, "40 03 05 16 36 45 56 76 85 83 40" },
  { '!', "00 00,02 06" },
  { '\'', "16 04" },
  { '&', "80 15 26 46 55 02 01 20 50 82" },
  { '*', "31 35,02 64,04 62" },
  { '?', "05 26 46 65 64 33 32,30 30" },
  { ' ', "" },
};

static const char *
path_of (gunichar character)
{
  gunichar upper = character == 0xdf ? 0x1e9e : g_unichar_toupper (character); /* ß */
  for (gsize i = 0; i < G_N_ELEMENTS (glyphs); i++)
    if (glyphs[i].letter == upper)
      return glyphs[i].path;
  return NULL;
}

int
bw_alphabet_strokes (gunichar character, BwStroke *strokes, int max)
{
  const char *path = path_of (character);
  int n = 0;
  if (!path)
    return -1;
  /* A point, and the sign after it: a blank draws on to the next point, a comma lifts the pen. */
  for (const char *c = path; c[0] && c[2] && n < max; c += 3)
    if (c[2] == ' ')
      strokes[n++] = (BwStroke){ g_ascii_xdigit_value (c[0]), c[1] - '0',
                                 g_ascii_xdigit_value (c[3]), c[4] - '0' };
  return n;
}

double
bw_alphabet_width (gunichar character)
{
  const char *path = path_of (character);
  double width = 0;
  if (!path)
    return 0;
  if (!*path)
    return 4;
  for (const char *c = path; c[0]; c += c[2] ? 3 : 2)
    width = MAX (width, g_ascii_xdigit_value (c[0]));
  return width;
}
