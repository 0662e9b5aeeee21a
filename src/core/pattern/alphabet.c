/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each glyph is written as its pen's path: points are two digits, x then y; a comma lifts the pen.
 */
#include "core/pattern/alphabet.h"

static const struct {
  char letter;
  const char *path;
} glyphs[] = {
  { 'A', "00 26 40,12 32" },
  { 'B', "00 06 36 45 44 33 03,33 42 41 30 00" },
  { 'C', "45 36 16 05 01 10 30 41" },
  { 'D', "00 06 26 44 42 20 00" },
  { 'E', "46 06 00 40,03 33" },
  { 'F', "46 06 00,03 33" },
  { 'G', "45 36 16 05 01 10 30 41 43 23" },
  { 'H', "00 06,40 46,03 43" },
  { 'I', "00 06" },
  { 'J', "46 41 30 10 01" },
  { 'K', "00 06,46 03 40" },
  { 'L', "06 00 40" },
  { 'M', "00 06 23 46 40" },
  { 'N', "00 06 40 46" },
  { 'O', "10 01 05 16 36 45 41 30 10" },
  { 'P', "00 06 36 45 44 33 03" },
  { 'Q', "10 01 05 16 36 45 41 30 10,31 50" },
  { 'R', "00 06 36 45 44 33 03,23 40" },
  { 'S', "45 36 16 05 04 13 33 42 41 30 10 01" },
  { 'T', "06 46,26 20" },
  { 'U', "06 01 10 30 41 46" },
  { 'V', "06 20 46" },
  { 'W', "06 00 23 40 46" },
  { 'X', "00 46,06 40" },
  { 'Y', "06 04 23 44 46,23 20" },
  { 'Z', "06 46 00 40" },
  { '0', "10 01 05 16 36 45 41 30 10,22 24" },
  { '1', "04 26 20,00 40" },
  { '2', "05 16 36 45 44 00 40" },
  { '3', "05 16 36 45 44 33 42 41 30 10 01,13 33" },
  { '4', "30 36 02 42" },
  { '5', "46 06 04 34 43 41 30 10 01" },
  { '6', "45 36 16 05 01 10 30 41 42 33 03" },
  { '7', "06 46 10" },
  { '8', "13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33" },
  { '9', "01 10 30 41 45 36 16 05 04 13 43" },
  { '-', "03 23" },
  { '+', "03 43,21 25" },
  { '.', "00 00" },
  { '!', "00 00,02 06" },
  { '\'', "05 06" },
  { '&', "40 05 16 25 24 02 01 10 20 42" },
  { '*', "21 25,12 34,14 32" },
  { '?', "05 16 36 45 44 23 22,20 20" },
  { ' ', "" },
};

static const char *
path_of (gunichar character)
{
  gunichar upper = g_unichar_toupper (character);
  for (gsize i = 0; i < G_N_ELEMENTS (glyphs); i++)
    if ((gunichar)glyphs[i].letter == upper)
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
      strokes[n++] = (BwStroke){ c[0] - '0', c[1] - '0', c[3] - '0', c[4] - '0' };
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
    return 2;
  for (const char *c = path; c[0]; c += c[2] ? 3 : 2)
    width = MAX (width, c[0] - '0');
  return width;
}
