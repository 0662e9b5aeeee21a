/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table: what there is to choose and to say about each kind. */
#include "config.h"

#include "app/draw/motif-words.h"

#include <glib/gi18n-lib.h>

static const struct {
  const char *kind, *size, *reach;
  guint parts;
  int least, most;
} words[BW_N_MOTIFS] = {
  [BW_MOTIF_STRIPES] = { N_ ("Stripes round"), N_ ("Width, columns"), "", BW_MOTIF_HAS_SIZE, 1, 8 },
  [BW_MOTIF_BARS] = { N_ ("Bars along"), "", "", BW_MOTIF_HAS_REPEATS, 2, 8 },
  [BW_MOTIF_STEPS] = { N_ ("Steps"), N_ ("Tread, columns"), N_ ("Height, columns"),
                       BW_MOTIF_HAS_SIZE | BW_MOTIF_HAS_REACH | BW_MOTIF_HAS_REPEATS, 1, 8 },
  [BW_MOTIF_CHEVRONS] = { N_ ("Chevrons"), N_ ("Thickness, columns"), "",
                          BW_MOTIF_HAS_SIZE | BW_MOTIF_HAS_SLOPE | BW_MOTIF_HAS_REPEATS, 1, 8 },
  [BW_MOTIF_DIAMONDS]
  = { N_ ("Diamonds"), N_ ("Ring, beads"), "", BW_MOTIF_HAS_SIZE | BW_MOTIF_HAS_REPEATS, 1, 8 },
  [BW_MOTIF_WAVES] = { N_ ("Waves"), N_ ("Width, columns"), N_ ("Swing, columns"),
                       BW_MOTIF_HAS_SIZE | BW_MOTIF_HAS_REACH | BW_MOTIF_HAS_REPEATS, 1, 8 },
  [BW_MOTIF_SPIRAL] = { N_ ("Spiral"), N_ ("Width, columns"), "",
                        BW_MOTIF_HAS_SIZE | BW_MOTIF_HAS_LEAN | BW_MOTIF_HAS_REPEATS, 2, 8 },
  [BW_MOTIF_BLEND] = { N_ ("Blend"), "", "", BW_MOTIF_HAS_DITHER, 2, 8 },
  [BW_MOTIF_SCATTER]
  = { N_ ("Scattered beads"), "", "", BW_MOTIF_HAS_DENSITY | BW_MOTIF_HAS_SEED, 1, 8 },
  [BW_MOTIF_BORDER] = { N_ ("Borders"), N_ ("Width, columns"), "", BW_MOTIF_HAS_SIZE, 1, 8 },
  [BW_MOTIF_LETTERS] = { N_ ("Lettering"), "", "", BW_MOTIF_HAS_TEXT | BW_MOTIF_HAS_REPEATS, 1, 2 },
};

guint
bw_motif_parts (BwMotifKind kind)
{
  return words[kind].parts;
}

static const char *
translated (const char *text)
{
  return *text ? _ (text) : "";
}

const char *
bw_motif_words_kind (BwMotifKind kind)
{
  return translated (words[kind].kind);
}

const char *
bw_motif_words_size (BwMotifKind kind)
{
  return translated (words[kind].size);
}

const char *
bw_motif_words_reach (BwMotifKind kind)
{
  return translated (words[kind].reach);
}

char *
bw_motif_words_step (BwMotifKind kind)
{
  return g_strdup_printf (_ ("Motif: %s"), bw_motif_words_kind (kind));
}

void
bw_motif_colour_range (BwMotifKind kind, int *least, int *most)
{
  *least = words[kind].least;
  *most = words[kind].most;
}

char *
bw_motif_words_room (const BwMotifRoom *room)
{
  g_autofree char *high = g_strdup_printf (
      ngettext ("Letters %d column high.", "Letters %d columns high.", room->height), room->height);
  /* Translators: of the rows that a word needs, and of those that there are for it. */
  g_autofree char *rows = g_strdup_printf (_ ("Needs %d of %d rows."), room->needs, room->has);
  return g_strdup_printf ("%s %s", rows, high);
}
