/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from the document, kept until an input changes. One table says of each piece which
 * groups of keys it reads itself and which other pieces it is made from. A maker is handed exactly
 * those groups, the rest as they are by default, so that nothing can be read that is not declared;
 * and an edit drops the pieces it feeds, with all that is made from them. */
#include "config.h"

#include "core/band/column.h"
#include "project/project-private.h"
#include "project/file/sizes.h"

/* What a piece is made from comes before it. */
typedef enum {
  STONE,
  NATURE,
  MID_RING,
  BAIL_BASE,
  FIT,
  FORECAST,
  JOIN,
  PLACES,
  TRUE_PLACES,
  SPLAY,
  HANG,
  PATH,
  MATERIALS,
  FOUND, /* the remedies, but for what a maker buys and pays with them */
  REMEDIES,
  N_PIECES,
} Piece;

struct _BwDerived {
  guint known; /* bits of the pieces that hold */
  BwStone stone;
  BwNature nature;
  BwRing mid_ring;
  BwBailBase bail_base;
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

/* What a maker sees of the document. */
typedef struct {
  BwDesign design;
  const BwDrawing *band, *bail; /* with CELLS; bail NULL without one */
  int n_colours;                /* with TRAY */
} Inputs;

static void
make_stone (BwDerived *d, const Inputs *in)
{
  if (!bw_stone_init (&d->stone, &in->design.stone, NULL))
    g_assert_not_reached (); /* every design was checked before it took hold */
}

static void
make_nature (BwDerived *d, const Inputs *in)
{
  bw_nature_init (&d->nature, &d->stone, &in->design.look);
}

static void
make_mid_ring (BwDerived *d, const Inputs *in)
{
  bw_mid_ring_init (&d->mid_ring, &in->design, &d->stone);
}

static void
make_bail_base (BwDerived *d, const Inputs *in)
{
  d->bail_base = (BwBailBase){ 0 };
  if (in->design.bail.style != BW_BAIL_NONE)
    bw_bail_base_init (&d->bail_base, &in->design, &d->mid_ring);
}

static void
make_fit (BwDerived *d, const Inputs *in)
{
  bw_fit_init (&d->fit, &in->design, &d->stone, in->design.band.rows);
}

static void
make_forecast (BwDerived *d, const Inputs *in)
{
  bw_forecast_init (&d->forecast, &in->design, &d->stone);
}

static void
make_join (BwDerived *d, const Inputs *in)
{
  bw_join_init (&d->join, &d->fit, &in->design, in->band);
}

static void
clear_join (BwDerived *d)
{
  bw_join_clear (&d->join);
}

static void
make_places (BwDerived *d, const Inputs *in)
{
  bw_places_init_closed (&d->places, &in->design, &d->stone);
}

static void
clear_places (BwDerived *d)
{
  bw_places_clear (&d->places);
}

static void
make_true_places (BwDerived *d, const Inputs *in)
{
  bw_places_init_true (&d->true_places, &in->design, &d->stone, &d->fit);
}

static void
clear_true_places (BwDerived *d)
{
  bw_places_clear (&d->true_places);
}

static void
make_splay (BwDerived *d, const Inputs *in)
{
  bw_splay_init (&d->splay, &d->places, &in->design);
}

static void
make_hang (BwDerived *d, const Inputs *in)
{
  if (!bw_hang_init (&d->hang, &in->design, &d->stone, NULL))
    g_assert_not_reached (); /* a bail that cannot arch is refused with the design */
}

static void
make_path (BwDerived *d, const Inputs *in)
{
  bw_path_init (&d->path, &in->design, &d->bail_base);
}

static void
clear_path (BwDerived *d)
{
  bw_path_clear (&d->path);
}

static void
make_materials (BwDerived *d, const Inputs *in)
{
  bw_materials_init (&d->materials, &in->design, &d->stone, in->band, in->bail, in->n_colours,
                     &d->path);
}

/* The sizes are no input: where the maker's own change, what is found anew is found with them. */
static void
find_remedies (BwDerived *d, const Inputs *in)
{
  g_autoptr (GArray) sizes = bw_sizes_near (&in->design.bead, BW_SIZES_TRIED);

  d->remedies = bw_remedies (&in->design, &d->stone, (const BwBead *)sizes->data, (int)sizes->len);
}

static void
clear_remedies (BwDerived *d)
{
  g_clear_pointer (&d->remedies, g_array_unref);
}

/* A remedy is a whole design to be taken over: it must not bring back what things cost, or what
 * the stone looked like, before. */
static void
make_remedies (BwDerived *d, const Inputs *in)
{
  for (guint i = 0; i < d->remedies->len; i++) {
    BwDesign *design = &g_array_index (d->remedies, BwRemedy, i).design;

    design->supply = in->design.supply;
    design->look = in->design.look;
  }
}

/* Parts of the document: the groups of keys, and two more. */
#define CELLS (1u << BW_N_GROUPS)
#define TRAY (1u << (BW_N_GROUPS + 1))
#define PART(name) (1u << BW_GROUP_##name)
#define OF(piece) (1u << (piece))

/* The swatch is settled into the gauge, so that whoever weaves by the gauge need not see it; and
 * so is what is known of squeeze and stretch into bed and thread. */
static const struct {
  guint parts;  /* read from the document */
  guint pieces; /* made from, all of them above in the list */
  void (*make) (BwDerived *derived, const Inputs *in);
  void (*clear) (BwDerived *derived); /* NULL for plain values */
} recipes[N_PIECES] = {
  [STONE] = { PART (STONE), 0, make_stone },
  [NATURE] = { PART (LOOK), OF (STONE), make_nature },
  [MID_RING] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND), OF (STONE), make_mid_ring },
  [BAIL_BASE] = { PART (GAUGE) | PART (BAND) | PART (BAIL), OF (MID_RING), make_bail_base },
  [FIT] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND) | PART (THREAD) | PART (FIT),
            OF (STONE), make_fit },
  [FORECAST]
  = { PART (STONE) | PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND) | PART (THREAD),
      OF (STONE), make_forecast },
  [JOIN] = { PART (GAUGE) | CELLS, OF (FIT), make_join, clear_join },
  [PLACES] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND), OF (STONE), make_places,
               clear_places },
  [TRUE_PLACES] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND), OF (STONE) | OF (FIT),
                    make_true_places, clear_true_places },
  [SPLAY] = { PART (STONE) | PART (BEAD) | PART (GAUGE), OF (PLACES), make_splay },
  [HANG] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND) | PART (BAIL) | PART (FIT),
             OF (STONE), make_hang },
  [PATH] = { PART (BEAD) | PART (GAUGE) | PART (BAND) | PART (BAIL) | PART (THREAD), OF (BAIL_BASE),
             make_path, clear_path },
  [MATERIALS] = { PART (BEAD) | PART (GAUGE) | PART (BED) | PART (BAND) | PART (BAIL)
                      | PART (THREAD) | PART (MATERIALS) | PART (PRICES) | CELLS | TRAY,
                  OF (STONE) | OF (PATH), make_materials },
  [FOUND] = { PART (STONE) | PART (BEAD) | PART (GAUGE) | PART (SWATCH) | PART (BED) | PART (BAND)
                  | PART (HANDS) | PART (BED_HANDS) | PART (BED_PULLED) | PART (THREAD_HANDS)
                  | PART (THREAD_PULLED) | PART (BAIL) | PART (THREAD) | PART (FIT),
              OF (STONE), find_remedies, clear_remedies },
  [REMEDIES] = { PART (LOOK) | PART (MATERIALS) | PART (PRICES), OF (FOUND), make_remedies },
};

static void
clear_piece (BwDerived *derived, Piece piece)
{
  if ((derived->known & OF (piece)) && recipes[piece].clear)
    recipes[piece].clear (derived);
  derived->known &= ~OF (piece);
}

static void
drop (BwDerived *derived, guint parts)
{
  guint gone = 0;

  for (Piece piece = 0; piece < N_PIECES; piece++)
    if ((recipes[piece].parts & parts) || (recipes[piece].pieces & gone)) {
      gone |= OF (piece);
      clear_piece (derived, piece);
    }
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

static void
take_inputs (Inputs *in, BwProject *self, guint parts)
{
  bw_design_defaults (&in->design);
  const BwDocument *document = self->document;
  const BwDesign *design = &document->head.frame->design;
  gboolean has_bail = design->bail.style != BW_BAIL_NONE;
  bw_design_take_groups (&in->design, design, parts);
  in->band = parts & CELLS ? document->drawing[BW_CANVAS_BAND] : NULL;
  in->bail = parts & CELLS && has_bail ? document->drawing[BW_CANVAS_BAIL] : NULL;
  in->n_colours = parts & TRAY ? document->head.tray->tray.n_colours : 0;
}

/* The pieces, with this one and all it is made from in place. */
static const BwDerived *
with (BwProject *self, Piece piece)
{
  BwDerived *derived = self->derived;
  Inputs in;

  if (derived->known & OF (piece))
    return derived;
  for (Piece other = 0; other < piece; other++)
    if (recipes[piece].pieces & OF (other))
      with (self, other);
  take_inputs (&in, self, recipes[piece].parts);
  recipes[piece].make (derived, &in);
  derived->known |= OF (piece);
  return derived;
}

const BwStone *
bw_project_stone (BwProject *self)
{
  return &with (self, STONE)->stone;
}

const BwNature *
bw_project_nature (BwProject *self)
{
  return &with (self, NATURE)->nature;
}

const BwRing *
bw_project_mid_ring (BwProject *self)
{
  return &with (self, MID_RING)->mid_ring;
}

const BwBailBase *
bw_project_bail_base (BwProject *self)
{
  if (self->document->head.frame->design.bail.style == BW_BAIL_NONE)
    return NULL;
  return &with (self, BAIL_BASE)->bail_base;
}

const BwFit *
bw_project_fit (BwProject *self)
{
  return &with (self, FIT)->fit;
}

const BwForecast *
bw_project_forecast (BwProject *self)
{
  return &with (self, FORECAST)->forecast;
}

const BwJoin *
bw_project_join (BwProject *self)
{
  return &with (self, JOIN)->join;
}

const BwPlaces *
bw_project_places (BwProject *self)
{
  return &with (self, PLACES)->places;
}

const BwPlaces *
bw_project_true_places (BwProject *self)
{
  return &with (self, TRUE_PLACES)->true_places;
}

const BwSplay *
bw_project_splay (BwProject *self)
{
  return &with (self, SPLAY)->splay;
}

const BwHang *
bw_project_hang (BwProject *self)
{
  return &with (self, HANG)->hang;
}

const BwPath *
bw_project_path (BwProject *self)
{
  return &with (self, PATH)->path;
}

const BwMaterials *
bw_project_materials (BwProject *self)
{
  return &with (self, MATERIALS)->materials;
}

const GArray *
bw_project_remedies (BwProject *self)
{
  return with (self, REMEDIES)->remedies;
}
