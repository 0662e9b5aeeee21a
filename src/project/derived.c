/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from the document, kept until an input changes. Each piece names the parts of the
 * document it is made from; an edit drops exactly the pieces that one of its parts feeds. */
#include "config.h"

#include "project/project-private.h"
#include "project/file/sizes.h"

typedef enum {
  STONE,
  FIT,
  FORECAST,
  JOIN,
  PLACES,
  TRUE_PLACES,
  SPLAY,
  HANG,
  PATH,
  MATERIALS,
  REMEDIES,
  N_PIECES,
} Piece;

struct _BwDerived {
  guint known; /* bits of the pieces that hold */
  BwStone stone;
  BwFit fit;
  BwForecast forecast;
  BwJoin join;
  BwPlaces places, true_places;
  BwSplay splay;
  BwHang hang;
  BwPath path;
  BwMaterials materials;
  GArray *remedies;
};

/* Parts of the document: the groups of keys, and two more. */
#define CELLS (1u << BW_N_GROUPS)
#define TRAY (1u << (BW_N_GROUPS + 1))
#define PART(name) (1u << BW_GROUP_##name)

/* The swatch is settled into the gauge, so that the gauge alone need be watched. */
#define LAID (PART (STONE) | PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND))
#define FITTED (LAID | PART (THREAD) | PART (FIT))
#define THREADED (PART (BEAD) | PART (GAUGE) | PART (BAND) | PART (BAIL) | PART (THREAD))

static const guint made_from[N_PIECES] = {
  [STONE] = PART (STONE),
  [FIT] = FITTED,
  [FORECAST] = FITTED,
  [JOIN] = FITTED | CELLS,
  [PLACES] = LAID | PART (THREAD) | PART (FIT),
  [TRUE_PLACES] = LAID | PART (THREAD) | PART (FIT),
  [SPLAY] = LAID | PART (THREAD) | PART (FIT),
  [HANG] = LAID | PART (BAIL) | PART (FIT),
  [PATH] = THREADED,
  [MATERIALS]
  = THREADED | PART (STONE) | PART (BED) | PART (MATERIALS) | PART (PRICES) | CELLS | TRAY,
  [REMEDIES] = FITTED | PART (BAIL),
};

static void
clear_piece (BwDerived *derived, Piece piece)
{
  switch (piece) {
  case JOIN:
    bw_join_clear (&derived->join);
    break;
  case PLACES:
    bw_places_clear (&derived->places);
    break;
  case TRUE_PLACES:
    bw_places_clear (&derived->true_places);
    break;
  case PATH:
    bw_path_clear (&derived->path);
    break;
  case REMEDIES:
    g_clear_pointer (&derived->remedies, g_array_unref);
    break;
  case STONE:
  case FIT:
  case FORECAST:
  case SPLAY:
  case HANG:
  case MATERIALS:
  case N_PIECES:
  default:
    break;
  }
  derived->known &= ~(1u << piece);
}

static void
drop (BwDerived *derived, guint parts)
{
  for (Piece piece = 0; piece < N_PIECES; piece++)
    if ((derived->known & 1u << piece) && (made_from[piece] & parts))
      clear_piece (derived, piece);
}

BwDerived *
bw_derived_new (void)
{
  return g_new0 (BwDerived, 1);
}

void
bw_derived_free (BwDerived *derived)
{
  drop (derived, G_MAXUINT);
  g_free (derived);
}

void
bw_derived_drop (BwDerived *derived, guint groups, gboolean cells, gboolean tray)
{
  drop (derived, groups | (cells ? CELLS : 0) | (tray ? TRAY : 0));
}

/* TRUE when the piece must be made now; it then counts as known. */
static gboolean
must_make (BwProject *self, Piece piece)
{
  gboolean known = (self->derived->known & 1u << piece) != 0;

  self->derived->known |= 1u << piece;
  return !known;
}

const BwStone *
bw_project_stone (BwProject *self)
{
  BwDerived *d = self->derived;

  if (must_make (self, STONE)
      && !bw_stone_init (&d->stone, &bw_project_get_design (self)->stone, NULL))
    g_assert_not_reached (); /* every design was checked before it took hold */
  return &d->stone;
}

const BwFit *
bw_project_fit (BwProject *self)
{
  const BwDesign *design = bw_project_get_design (self);

  if (must_make (self, FIT))
    bw_fit_init (&self->derived->fit, design, bw_project_stone (self), design->band.rows);
  return &self->derived->fit;
}

const BwForecast *
bw_project_forecast (BwProject *self)
{
  if (must_make (self, FORECAST))
    bw_forecast_init (&self->derived->forecast, bw_project_get_design (self),
                      bw_project_stone (self));
  return &self->derived->forecast;
}

const BwJoin *
bw_project_join (BwProject *self)
{
  if (must_make (self, JOIN))
    bw_join_init (&self->derived->join, bw_project_fit (self), bw_project_get_design (self),
                  bw_project_get_drawing (self));
  return &self->derived->join;
}

const BwPlaces *
bw_project_places (BwProject *self)
{
  if (must_make (self, PLACES))
    bw_places_init (&self->derived->places, bw_project_get_design (self), bw_project_stone (self),
                    BW_LAY_CLOSED);
  return &self->derived->places;
}

const BwPlaces *
bw_project_true_places (BwProject *self)
{
  if (must_make (self, TRUE_PLACES))
    bw_places_init (&self->derived->true_places, bw_project_get_design (self),
                    bw_project_stone (self), BW_LAY_TRUE);
  return &self->derived->true_places;
}

const BwSplay *
bw_project_splay (BwProject *self)
{
  if (must_make (self, SPLAY))
    bw_splay_init (&self->derived->splay, bw_project_places (self), bw_project_get_design (self));
  return &self->derived->splay;
}

const BwHang *
bw_project_hang (BwProject *self)
{
  if (must_make (self, HANG)
      && !bw_hang_init (&self->derived->hang, bw_project_get_design (self), bw_project_stone (self),
                        NULL))
    g_assert_not_reached (); /* a bail that cannot arch is refused with the design */
  return &self->derived->hang;
}

const BwPath *
bw_project_path (BwProject *self)
{
  if (must_make (self, PATH))
    bw_path_init (&self->derived->path, bw_project_get_design (self));
  return &self->derived->path;
}

const BwMaterials *
bw_project_materials (BwProject *self)
{
  if (must_make (self, MATERIALS))
    bw_materials_init (&self->derived->materials, bw_project_get_design (self),
                       bw_project_stone (self), bw_project_get_drawing (self),
                       bw_project_get_bail_drawing (self), bw_project_get_tray (self)->n_colours,
                       bw_project_path (self));
  return &self->derived->materials;
}

const GArray *
bw_project_remedies (BwProject *self)
{
  if (must_make (self, REMEDIES)) {
    g_autoptr (GArray) sizes = bw_sizes_load (NULL);

    self->derived->remedies = bw_remedies (bw_project_get_design (self), bw_project_stone (self),
                                           (const BwBead *)sizes->data, (int)sizes->len);
  }
  return self->derived->remedies;
}
