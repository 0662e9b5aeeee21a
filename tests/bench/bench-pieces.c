/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces made one after the other from one book: how likely the likeliest count is told to be right
 * before a bead of the piece is woven, and how often it is. A thousand makers whose hands, beads
 * and days differ as the book believes they do; each notes a swatch of 24 rows by ruler and the
 * count each piece was finished with. Fails where what is told of a piece misses what comes true by
 * more than four points, or where a later piece is told no more of than the first. */
#include "core/band/finished.h"
#include "core/band/forecast.h"
#include "core/workshop/hands.h"
#include "makers.h"

#include <math.h>
#include <stdio.h>

#define MAKERS 1000
#define PIECES 6
#define SEED 31
#define SWATCH_ROWS 24
#define RULER_MM 0.3
#define HALVINGS 24
#define POINTS 4.0 /* two and a half standard errors of the share among so many makers */

typedef struct {
  double told, came; /* sums over the makers */
  double sd_share;   /* of the pitch, as believed */
  double off2;       /* squares of its error, in such errors */
} Piece;

/* The count most likely to be the fewest that close. */
static BwChance
likeliest (const BwDesign *design, const BwStone *stone)
{
  g_autofree BwForecast *forecast = g_new (BwForecast, 1);
  BwChance best = { 0, 0 };
  bw_forecast_init (forecast, design, stone);
  for (int i = 0; i < forecast->n_chances; i++)
    if (forecast->chance[i].p > best.p)
      best = forecast->chance[i];
  return best;
}

/* What the book says of the next piece. */
static BwPitch
from_the_book (const BwHandsPiece *pieces, int n, double diameter_mm)
{
  BwHands hands;
  bw_hands_init (&hands, bw_hands_usual_spread (), pieces, n, 1);
  BwHandsPitch pitch = bw_hands_pitch (hands.next[0], diameter_mm);
  bw_hands_clear (&hands);
  return (BwPitch){ .mm = pitch.mm, .sd_mm = pitch.sd_mm };
}

/* Another stone, the same beads and hands, another day. */
static void
begin (Maker *maker, GRand *rand, double hands, const BwHandsSpread *spread)
{
  while (!maker_init_with (maker, rand, (MakerHabits){ 0 }))
    ;
  double of_day = maker_normal (rand, 0, spread->piece);
  maker->pitch_mm = maker->truth.bead.diameter_mm * exp (hands + of_day);
  maker->truth.pitch = (BwPitch){ .mm = maker->pitch_mm };
  maker->right = 2 * bw_fit_recommended (&maker->truth, &maker->real);
}

/* At which so many beads just close round the stone as it was measured. */
static double
closing_pitch_mm (const BwDesign *design, const BwStone *stone, int n)
{
  BwDesign tried = *design;
  double low = 0.5 * design->bead.diameter_mm, high = 2 * design->bead.diameter_mm;
  for (int i = 0; i < HALVINGS; i++) {
    tried.pitch.mm = (low + high) / 2;
    if (bw_fit_closing_scale (&tried, stone, n) >= 1)
      high = tried.pitch.mm;
    else
      low = tried.pitch.mm;
  }
  return (low + high) / 2;
}

static void
note (BwHandsPiece *piece, const Maker *maker, GRand *rand)
{
  double d = maker->told.bead.diameter_mm;
  BwCheck swatch = maker_check (maker, rand, SWATCH_ROWS, RULER_MM);
  bw_hands_add (piece, bw_hands_strip (SWATCH_ROWS, swatch.length_mm, RULER_MM, d));
  double closing = closing_pitch_mm (&maker->told, &maker->known, maker->right / 2);
  bw_hands_add (piece,
                bw_hands_finished (maker->right / 2, closing, maker->told.stone.girth_sd_mm, d));
}

static void
make (Piece *told, BwHandsPiece *book, int n, Maker *maker, GRand *rand)
{
  double d = maker->told.bead.diameter_mm;
  maker->told.pitch = from_the_book (book, n, d);
  BwChance best = likeliest (&maker->told, &maker->known);
  double off = (maker->pitch_mm - maker->told.pitch.mm) / maker->told.pitch.sd_mm;
  told->told += best.p / MAKERS;
  told->came += (2 * best.beads_around == maker->right) / (double)MAKERS;
  told->sd_share += maker->told.pitch.sd_mm / d / MAKERS;
  told->off2 += off * off / MAKERS;
  book[n] = (BwHandsPiece){ .kind = 0 };
  note (&book[n], maker, rand);
}

int
main (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  Piece piece[PIECES] = { 0 };
  BwHandsSpread spread = bw_hands_usual_spread ();
  gboolean holds = TRUE;
  for (int k = 0; k < MAKERS; k++) {
    BwHandsPiece book[PIECES];
    double hands = maker_normal (rand, 0, spread.hands) + maker_normal (rand, 0, spread.kind);
    for (int n = 0; n < PIECES; n++) {
      Maker maker;
      begin (&maker, rand, hands, &spread);
      make (&piece[n], book, n, &maker, rand);
    }
  }
  printf ("%d makers, before a bead of the piece is woven\n", MAKERS);
  printf ("piece  told right  came right  pitch known to  off by\n");
  for (int n = 0; n < PIECES; n++) {
    printf ("%5d    %5.1f %%     %5.1f %%       %5.2f %%      %4.2f of that\n", n + 1,
            100 * piece[n].told, 100 * piece[n].came, 100 * piece[n].sd_share,
            sqrt (piece[n].off2));
    holds = holds && fabs (piece[n].told - piece[n].came) <= POINTS / 100;
    holds = holds && (n == 0 || piece[n].told > piece[0].told);
  }
  return !holds;
}
