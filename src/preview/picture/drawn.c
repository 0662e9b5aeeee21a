/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picture lies in tiles. Each knows the beads that may touch it, so that a bead which changed
 * finds those it shares its place with, and they are painted in the order they had. */
#include "preview/picture/drawn.h"

#include "preview/picture/painter-bead.h"

/* The side of a tile. */
#define TILE 32
/* Beyond one bead in so many, painting the whole picture is less work. */
#define MANY 16

/* Everything a picture depends on but the scene. */
typedef struct {
  BwCamera camera;
  guint layers;
  BwLight light;
  int width, height, scale;
  gboolean on_dark;
  float free_below;
} Sight;

/* Where a bead stands in the two orders: place 0 and up among those shown, −1 and down among those
 * hidden. */
typedef struct {
  int place;
  cairo_rectangle_int_t box; /* empty where it is not painted */
  gboolean taken;
} Bead;

struct _BwDrawn {
  cairo_surface_t *surface; /* NULL when nothing of it holds */
  Sight sight;
  GArray *hidden, *shown; /* of BwDrawnPart */
  GArray *beads;          /* of Bead, as the scene has them */
  GPtrArray *tiles;       /* of GArray of int: beads, each tile's; row by row */
  GArray *spoilt;         /* of int: beads */
  guint64 painted;
};

BwDrawn *
bw_drawn_new (void)
{
  BwDrawn *drawn = g_new0 (BwDrawn, 1);
  drawn->beads = g_array_new (FALSE, TRUE, sizeof (Bead));
  drawn->spoilt = g_array_new (FALSE, FALSE, sizeof (int));
  drawn->tiles = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  return drawn;
}

void
bw_drawn_spoil (BwDrawn *drawn)
{
  g_clear_pointer (&drawn->surface, cairo_surface_destroy);
  g_clear_pointer (&drawn->hidden, g_array_unref);
  g_clear_pointer (&drawn->shown, g_array_unref);
  g_array_set_size (drawn->spoilt, 0);
}

void
bw_drawn_free (BwDrawn *drawn)
{
  bw_drawn_spoil (drawn);
  g_array_unref (drawn->beads);
  g_array_unref (drawn->spoilt);
  g_ptr_array_unref (drawn->tiles);
  g_free (drawn);
}

void
bw_drawn_spoil_beads (BwDrawn *drawn, const int *beads, int n)
{
  if (!drawn->surface)
    return;
  if (drawn->spoilt->len + (guint)n > drawn->beads->len / MANY)
    bw_drawn_spoil (drawn);
  else
    g_array_append_vals (drawn->spoilt, beads, (guint)n);
}

guint64
bw_drawn_beads_painted (const BwDrawn *drawn)
{
  return drawn->painted;
}

static Bead *
bead_of (BwDrawn *drawn, int index)
{
  return &g_array_index (drawn->beads, Bead, index);
}

static int
tiles_across (const BwDrawn *drawn)
{
  return drawn->sight.width / TILE + 1;
}

/* Calls of a box: each tile it touches. */
static void
each_tile (BwDrawn *drawn, const cairo_rectangle_int_t *box,
           void (*take) (BwDrawn *drawn, GArray *tile, gpointer data), gpointer data)
{
  for (int y = box->y / TILE; y <= (box->y + box->height) / TILE; y++)
    for (int x = box->x / TILE; x <= (box->x + box->width) / TILE; x++)
      take (drawn, (GArray *)drawn->tiles->pdata[y * tiles_across (drawn) + x], data);
}

static void
put_bead (BwDrawn *drawn, GArray *tile, gpointer data)
{
  g_array_append_val (tile, *(int *)data);
}

static void
find_places (BwDrawn *drawn, const BwPainter *p, const GArray *order, gboolean hidden)
{
  for (int i = 0; i < (int)order->len; i++) {
    int index = g_array_index (order, BwDrawnPart, i).index;
    if (index < 0)
      continue;
    Bead *bead = bead_of (drawn, index);
    bead->place = hidden ? -1 - i : i;
    if (bw_painter_bead_box (p, index, &bead->box))
      each_tile (drawn, &bead->box, put_bead, &index);
  }
}

static void
lay_out (BwDrawn *drawn, const BwPainter *p)
{
  int n = tiles_across (drawn) * (drawn->sight.height / TILE + 1);
  drawn->hidden = bw_projection_parts (p, TRUE);
  drawn->shown = bw_projection_parts (p, FALSE);
  g_array_set_size (drawn->beads, 0);
  g_array_set_size (drawn->beads, p->scene->beads->len);
  g_ptr_array_set_size (drawn->tiles, 0);
  for (int i = 0; i < n; i++)
    g_ptr_array_add (drawn->tiles, g_array_new (FALSE, FALSE, sizeof (int)));
  find_places (drawn, p, drawn->hidden, TRUE);
  find_places (drawn, p, drawn->shown, FALSE);
}

static int
n_beads (const GArray *order)
{
  int n = 0;
  for (guint i = 0; i < order->len; i++)
    n += g_array_index (order, BwDrawnPart, i).index >= 0;
  return n;
}

static void
paint (BwDrawn *drawn, BwPainter *p, const GArray *hidden, const GArray *shown)
{
  bw_projection_paint (p, hidden, shown);
  drawn->painted += (guint64)(n_beads (hidden) + n_beads (shown));
}

static void
paint_whole (BwDrawn *drawn, BwPainter *p)
{
  int scale = drawn->sight.scale;
  drawn->surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, p->width * scale, p->height * scale);
  cairo_surface_set_device_scale (drawn->surface, scale, scale);
  lay_out (drawn, p);
  p->cr = cairo_create (drawn->surface);
  paint (drawn, p, drawn->hidden, drawn->shown);
  cairo_destroy (p->cr);
}

/* What is to be painted again: what touches the box goes to the places, each once. */
typedef struct {
  cairo_rectangle_int_t box;
  GArray *hidden, *shown; /* of int: places */
} Again;

static gboolean
touch (const cairo_rectangle_int_t *a, const cairo_rectangle_int_t *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height
         && b->y < a->y + a->height;
}

static void
take_beads (BwDrawn *drawn, GArray *tile, gpointer data)
{
  Again *again = data;
  for (guint i = 0; i < tile->len; i++) {
    Bead *bead = bead_of (drawn, g_array_index (tile, int, i));
    int place = bead->place < 0 ? -1 - bead->place : bead->place;
    if (bead->taken || !touch (&bead->box, &again->box))
      continue;
    bead->taken = TRUE;
    g_array_append_val (bead->place < 0 ? again->hidden : again->shown, place);
  }
}

static int
ascending (gconstpointer a, gconstpointer b)
{
  return *(const int *)a - *(const int *)b;
}

/* Cord and ring are few: they are painted along wherever they lie. */
static void
take_tubes (const GArray *order, GArray *places)
{
  for (int i = 0; i < (int)order->len; i++)
    if (g_array_index (order, BwDrawnPart, i).index < 0)
      g_array_append_val (places, i);
}

/* The parts of an order at these places, as they follow one another there. */
static GArray *
parts_at (BwDrawn *drawn, const GArray *order, GArray *places)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (BwDrawnPart));
  g_array_sort (places, ascending);
  for (guint i = 0; i < places->len; i++) {
    BwDrawnPart part = g_array_index (order, BwDrawnPart, g_array_index (places, int, i));
    if (part.index >= 0)
      bead_of (drawn, part.index)->taken = FALSE;
    g_array_append_val (parts, part);
  }
  return parts;
}

static void
paint_again (BwDrawn *drawn, BwPainter *p, Again *again)
{
  take_tubes (drawn->hidden, again->hidden);
  take_tubes (drawn->shown, again->shown);
  g_autoptr (GArray) hidden = parts_at (drawn, drawn->hidden, again->hidden);
  g_autoptr (GArray) shown = parts_at (drawn, drawn->shown, again->shown);
  cairo_clip (p->cr);
  cairo_set_operator (p->cr, CAIRO_OPERATOR_CLEAR);
  cairo_paint (p->cr);
  cairo_set_operator (p->cr, CAIRO_OPERATOR_OVER);
  paint (drawn, p, hidden, shown);
}

static void
paint_spoilt (BwDrawn *drawn, BwPainter *p)
{
  Again again = { .hidden = g_array_new (FALSE, FALSE, sizeof (int)),
                  .shown = g_array_new (FALSE, FALSE, sizeof (int)) };
  gboolean any = FALSE;
  p->cr = cairo_create (drawn->surface);
  for (guint i = 0; i < drawn->spoilt->len; i++) {
    again.box = bead_of (drawn, g_array_index (drawn->spoilt, int, i))->box;
    if (again.box.width <= 0 || again.box.height <= 0)
      continue;
    any = TRUE;
    cairo_rectangle (p->cr, again.box.x, again.box.y, again.box.width, again.box.height);
    each_tile (drawn, &again.box, take_beads, &again);
  }
  if (any)
    paint_again (drawn, p, &again);
  g_array_set_size (drawn->spoilt, 0);
  g_array_unref (again.hidden);
  g_array_unref (again.shown);
  cairo_destroy (p->cr);
}

static gboolean
same_sight (const Sight *a, const Sight *b)
{
  return a->camera.turn_deg == b->camera.turn_deg && a->camera.tip_deg == b->camera.tip_deg
         && a->camera.zoom == b->camera.zoom && a->layers == b->layers && a->light == b->light
         && a->width == b->width && a->height == b->height && a->scale == b->scale
         && a->on_dark == b->on_dark && a->free_below == b->free_below;
}

void
bw_drawn_paint (BwDrawn *drawn, cairo_t *cr, const BwScene *scene, BwCamera camera, guint layers,
                BwLight light, int hover, int width, int height, int scale)
{
  Sight sight = { camera, layers, light, width, height, scale, scene->on_dark, scene->free_below };
  BwPainter p;
  bw_projection_begin (&p, scene, camera, layers, light, width, height);
  if (drawn->surface && !same_sight (&sight, &drawn->sight))
    bw_drawn_spoil (drawn);
  drawn->sight = sight;
  if (!drawn->surface)
    paint_whole (drawn, &p);
  else if (drawn->spoilt->len > 0)
    paint_spoilt (drawn, &p);
  cairo_set_source_surface (cr, drawn->surface, 0, 0);
  cairo_paint (cr);
  p.cr = cr;
  bw_painter_paint_hover (&p, hover);
}
