/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two columns over a free one, or one for the two dots: as little as can be told apart. Beads of
 * the lower of the two begin at even half pitches, those of the upper one at odd ones. */
#include "core/pattern/accent.h"

#define GRAVE 0x300
#define ACUTE 0x301
#define CIRCUMFLEX 0x302
#define TILDE 0x303
#define DIAERESIS 0x308
#define CARON 0x30c

typedef struct {
  gunichar mark;
  int columns;
  int even,
      odd; /* over a middle that is even or odd: how far beside it the first column below is 0 */
  int n;
  BwLetterBead bead[5]; /* from there, 0 being the lower column */
  int n_strokes;
  BwStroke stroke[3]; /* from the letter's middle and the top of the box */
} Mark;

static const Mark marks[] = {
  { GRAVE, 3, 0, 1, 2, { { 0, 0 }, { -1, 1 } }, 1, { { 0, 1, -2, 2 } } },
  { ACUTE, 3, 0, -1, 2, { { 0, 0 }, { 1, 1 } }, 1, { { 0, 1, 2, 2 } } },
  { CIRCUMFLEX,
    3,
    1,
    0,
    3,
    { { -1, 0 }, { 1, 0 }, { 0, 1 } },
    2,
    { { -2, 1, 0, 2 }, { 0, 2, 2, 1 } } },
  { TILDE,
    3,
    0,
    -1,
    5,
    { { -2, 0 }, { -1, 1 }, { 1, 1 }, { 2, 0 }, { 3, 1 } },
    3,
    { { -2, 1, -1, 2 }, { -1, 2, 1, 1 }, { 1, 1, 2, 2 } } },
  { DIAERESIS, 2, 0, -1, 2, { { -2, 0 }, { 2, 0 } }, 2, { { -2, 2, -2, 2 }, { 2, 2, 2, 2 } } },
  { CARON, 3, 0, -1, 3, { { 0, 0 }, { -1, 1 }, { 1, 1 } }, 2, { { -2, 2, 0, 1 }, { 0, 1, 2, 2 } } },
};

static const Mark *
find (gunichar mark)
{
  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    if (marks[i].mark == mark)
      return &marks[i];
  return NULL;
}

BwAccented
bw_accent_apart (gunichar character)
{
  BwAccented parts = { character, 0 };
  gunichar letter, mark;
  if (g_unichar_decompose (character, &letter, &mark) && find (mark))
    parts = (BwAccented){ letter, mark };
  return parts;
}

int
bw_accent_columns (gunichar mark)
{
  return mark ? find (mark)->columns : 0;
}

int
bw_accent_beads (gunichar mark, int width, int height, BwLetterBead *beads)
{
  const Mark *m = find (mark);
  int middle = width / 2, from = middle + (middle % 2 ? m->odd : m->even);
  for (int i = 0; i < m->n; i++)
    beads[i] = (BwLetterBead){ from + m->bead[i].x, height + 1 + m->bead[i].y };
  if (m->mark == DIAERESIS && middle % 2)
    beads[1].x += 2; /* as far to the right of an odd middle as to the left */
  return m->n;
}

int
bw_accent_strokes (gunichar mark, double width, BwStroke *strokes, int max)
{
  const Mark *m = find (mark);
  int n = MIN (max, m->n_strokes);
  for (int i = 0; i < n; i++) {
    const BwStroke *s = &m->stroke[i];
    strokes[i] = (BwStroke){ width / 2 + s->x0, BW_GLYPH_HEIGHT + s->y0, width / 2 + s->x1,
                             BW_GLYPH_HEIGHT + s->y1 };
  }
  return n;
}
