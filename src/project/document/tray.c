/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead colours at hand. A colour is known by its letter: the letter stands in the file, on the
 * chart and in the words, so it must stay one visible sign that no other colour shares. */
#include "config.h"

#include "project/document/tray.h"

#include "core/pattern/colour.h"
#include <math.h>
#include <string.h>

static const char *const finish_words[BW_N_FINISHES]
    = { "opaque", "matte", "clear",   "frosted",    "lined",
        "lustre", "metal", "rainbow", "galvanised", "silver-lined" };

const char *
bw_finish_word (BwFinish finish)
{
  g_return_val_if_fail (finish < BW_N_FINISHES, finish_words[0]);
  return finish_words[finish];
}

void
bw_tray_init (BwTray *tray)
{
  *tray = (BwTray){ .n_colours = 1 };
  tray->colour[0] = (BwColour){ .id = 'a', .srgb = 0x1b2a41, .finish = BW_FINISH_MATTE };
}

int
bw_tray_find (const BwTray *tray, gunichar id)
{
  for (int i = 0; i < tray->n_colours; i++)
    if (tray->colour[i].id == id)
      return i;
  return -1;
}

gboolean
bw_tray_is_letter (gunichar id)
{
  return g_unichar_isgraph (id) && !g_unichar_ismark (id) && !g_unichar_iszerowidth (id);
}

/* After the plain alphabet come the accented Latin letters: unlike Greek or Cyrillic ones they
 * cannot be mistaken for a plain letter on a printed chart. */
gunichar
bw_tray_free_letter (const BwTray *tray)
{
  static const gunichar from[] = { 'a', 'A', 0xc0 }, to[] = { 'z', 'Z', 0x24f };

  for (gsize r = 0; r < G_N_ELEMENTS (from); r++)
    for (gunichar c = from[r]; c <= to[r]; c++)
      if (g_unichar_isalpha (c) && bw_tray_find (tray, c) < 0)
        return c;
  return 0;
}

/* --- A colour that is not there yet ------------------------------------------------------------
 */

#define TOLD_APART 10 /* ΔE00 from which two beads lying apart are not taken for one another */
#define LIGHTER 18    /* L of a step */
#define LIGHT_STEPS 4
#define TURNS 9         /* of the hue, the whole way round */
#define LEAST_CHROMA 30 /* of a turned one: a grey has no other hue */

static double
apart (const BwTray *tray, guint32 srgb)
{
  BwLab lab = bw_colour_lab (srgb);
  double least = G_MAXDOUBLE;

  for (int i = 0; i < tray->n_colours; i++)
    least = MIN (least, bw_colour_difference (lab, bw_colour_lab (tray->colour[i].srgb)));
  return least;
}

/* Step 0 is the lightness itself; then to the side with more room and to the other, by turns. */
static guint32
varied (BwLab like, int turn, int step)
{
  double chroma = hypot (like.a, like.b), hue = atan2 (like.b, like.a) + 2 * G_PI * turn / TURNS;
  double away = (step + 1) / 2 * LIGHTER * (step % 2 ? 1 : -1) * (like.L < 50 ? 1 : -1);

  if (turn > 0)
    chroma = MAX (chroma, LEAST_CHROMA);
  return bw_colour_srgb (bw_colour_linear_from_lab (
      (BwLab){ CLAMP (like.L + away, 5, 95), chroma * cos (hue), chroma * sin (hue) }));
}

guint32
bw_tray_free_colour (const BwTray *tray, guint32 like)
{
  BwLab lab = bw_colour_lab (like);
  guint32 best = like;
  double most = -1;

  for (int turn = 0; turn < TURNS; turn++)
    for (int step = 0; step <= 2 * LIGHT_STEPS; step++) {
      guint32 srgb = varied (lab, turn, step);
      double least = apart (tray, srgb);

      if (least >= TOLD_APART)
        return srgb;
      if (least > most) {
        best = srgb;
        most = least;
      }
    }
  return best;
}

/* Capitals that nobody takes for a number. */
static const char capitals[] = "ABCDEFGHJKMNPQRSTUVWXYZ";
#define N_CAPITALS ((int)sizeof capitals - 1)

/* Which of the capitals a colour has by its own letter; -1: none. */
static int
own_capital (gunichar id)
{
  gunichar capital = g_unichar_toupper (id);
  const char *at = capital < 0x80 && capital > 0 ? strchr (capitals, (char)capital) : NULL;
  return at ? (int)(at - capitals) : -1;
}

/* The number of marks: every capital, then every pair of them. */
static void
mark_of (int number, char letter[BW_TRAY_LETTER])
{
  int pair = number - N_CAPITALS;
  letter[0] = number < N_CAPITALS ? capitals[number] : capitals[pair / N_CAPITALS];
  letter[1] = number < N_CAPITALS ? '\0' : capitals[pair % N_CAPITALS];
  letter[2] = '\0';
}

void
bw_tray_print_letter (const BwTray *tray, int colour, char letter[BW_TRAY_LETTER])
{
  gboolean taken[BW_TRAY_MAX + N_CAPITALS] = { FALSE };
  int number[BW_TRAY_MAX], next = 0;
  for (int i = 0; i < tray->n_colours; i++) {
    int own = own_capital (tray->colour[i].id);
    number[i] = own >= 0 && !taken[own] ? own : -1;
    if (number[i] >= 0)
      taken[own] = TRUE;
  }
  for (int i = 0; i <= colour; i++) {
    if (number[i] >= 0)
      continue;
    while (taken[next])
      next++;
    taken[next] = TRUE;
    number[i] = next;
  }
  mark_of (number[colour], letter);
}
