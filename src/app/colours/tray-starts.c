/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Six colours each: a ground, its shade, two that meet it halfway, and two lights. */
#include "config.h"

#include "app/colours/tray-starts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define N_EACH 6

typedef struct {
  const char *name;
  guint32 srgb;
  BwFinish finish;
} Bead;

static const struct {
  const char *name;
  Bead bead[N_EACH];
} starts[] = {
  { N_ ("Slack water"),
    { { N_ ("Deep channel"), 0x16324f, BW_FINISH_MATTE },
      { N_ ("Wet slate"), 0x3d4f5c, BW_FINISH_MATTE },
      { N_ ("Eelgrass"), 0x3f7a63, BW_FINISH_LUSTRE },
      { N_ ("Still water"), 0x7fb3c8, BW_FINISH_CLEAR },
      { N_ ("Pale sand"), 0xe3d5b8, BW_FINISH_FROSTED },
      { N_ ("Buoy"), 0xd1512d, BW_FINISH_OPAQUE } } },
  { N_ ("Fog on the slip"),
    { { N_ ("Fog"), 0xcfd4d6, BW_FINISH_FROSTED },
      { N_ ("Tar"), 0x24272b, BW_FINISH_MATTE },
      { N_ ("Zinc"), 0x8d979e, BW_FINISH_METAL },
      { N_ ("Old rope"), 0xa58a63, BW_FINISH_MATTE },
      { N_ ("Wet oak"), 0x5b4231, BW_FINISH_OPAQUE },
      { N_ ("Port light"), 0xa4262c, BW_FINISH_LINED } } },
  { N_ ("Gorse after rain"),
    { { N_ ("Moor green"), 0x47592f, BW_FINISH_OPAQUE },
      { N_ ("Peat"), 0x3a2a22, BW_FINISH_MATTE },
      { N_ ("Heather"), 0x8a5a86, BW_FINISH_LUSTRE },
      { N_ ("Rain sky"), 0x93a7b5, BW_FINISH_CLEAR },
      { N_ ("Gorse"), 0xf0b61e, BW_FINISH_OPAQUE },
      { N_ ("Bog cotton"), 0xf3efe2, BW_FINISH_OPAQUE } } },
  { N_ ("Lamps at ebb"),
    { { N_ ("Ebb night"), 0x1c1f3a, BW_FINISH_MATTE },
      { N_ ("Violet mud"), 0x5a3f5e, BW_FINISH_LUSTRE },
      { N_ ("Rust"), 0x9a4a22, BW_FINISH_METAL },
      { N_ ("Ember"), 0xe0752d, BW_FINISH_CLEAR },
      { N_ ("Window"), 0xf6cf76, BW_FINISH_LINED },
      { N_ ("Salt"), 0xf2f0ea, BW_FINISH_FROSTED } } },
};

int
bw_tray_starts_count (void)
{
  return G_N_ELEMENTS (starts);
}

const char *
bw_tray_start_name (int start)
{
  return _ (starts[start].name);
}

static void
add_bead (BwTray *tray, const Bead *bead)
{
  BwColour *colour = &tray->colour[tray->n_colours++];
  *colour = (BwColour){ .srgb = bead->srgb, .finish = bead->finish };
  g_strlcpy (colour->name, _ (bead->name), sizeof colour->name);
}

/* Letters go by the place. */
static void
take_colour (BwTray *tray, const BwColour *from)
{
  BwColour colour = *from;
  colour.id = bw_tray_free_letter (tray);
  tray->colour[tray->n_colours++] = colour;
}

/* Colours that stay keep their letter when they can. */
static void
keep_colour (BwTray *tray, const BwColour *old)
{
  BwColour *colour = &tray->colour[tray->n_colours];
  *colour = *old;
  if (bw_tray_find (tray, old->id) >= 0)
    colour->id = bw_tray_free_letter (tray);
  tray->n_colours++;
}

void
bw_tray_lay (BwTray *tray, const BwTray *other, const guint64 counts[256], guint8 map[256])
{
  BwTray old = *tray;
  memset (tray, 0, sizeof *tray);
  for (int i = 0; i < 256; i++)
    map[i] = (guint8)MIN (i, other->n_colours - 1);
  for (int i = 0; i < other->n_colours; i++)
    take_colour (tray, &other->colour[i]);
  for (int i = other->n_colours; i < old.n_colours; i++)
    if (counts[i] > 0 && tray->n_colours < BW_TRAY_MAX) {
      map[i] = (guint8)tray->n_colours;
      keep_colour (tray, &old.colour[i]);
    }
}

void
bw_tray_start_lay (BwTray *tray, int start, const guint64 counts[256], guint8 map[256])
{
  g_return_if_fail (start >= 0 && start < bw_tray_starts_count ());
  BwTray other = { 0 };
  for (int i = 0; i < N_EACH; i++)
    add_bead (&other, &starts[start].bead[i]);
  bw_tray_lay (tray, &other, counts, map);
}
