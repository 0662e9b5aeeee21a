/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/stash-things.h"

#include "app/kit/bead-swatch.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"
#include "app/kit/tray-row.h"
#include "output/report/report-stash.h"
#include "project/book/book-only.h"
#include "project/book/book-stash.h"
#include "project/document/length.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static void
get (const BwBook *book, guint i, gpointer thing)
{
  bw_book_get_stash (book, i, thing);
}

static gboolean
change (BwBook *book, gconstpointer before, gconstpointer after, GError **error)
{
  return bw_book_change_stash (book, before, after, error);
}

static gboolean
validate (gconstpointer thing, const char *pointer, GError **error)
{
  return bw_stash_item_validate (thing, pointer, error);
}

static void
init (gpointer thing)
{
  memset (thing, 0, sizeof (BwStashItem));
}

/* Beads are put away most often while the piece they were bought for is worked on. */
static void
begin (gpointer thing, const BwDesign *design)
{
  BwStashItem *item = thing;
  g_strlcpy (item->bead, design->bead.name, sizeof item->bead);
}

static const char *
name_of (gconstpointer thing)
{
  return ((const BwStashItem *)thing)->name;
}

static void
settle (gpointer thing)
{
  BwStashItem *item = thing;
  BwStashItem plain = { .what = item->what };
  gboolean beads = item->what == BW_STASH_BEADS;
  if (!beads) {
    memcpy (item->bead, plain.bead, sizeof item->bead);
    item->has_srgb = FALSE;
    item->srgb = 0;
    item->finish = plain.finish;
  }
  if (bw_stash_measure (item->what) != BW_STASH_BY_LENGTH)
    item->width_mm = 0;
  item->amount = 0;
}

/* --- Words -------------------------------------------------------------------------------------
 */

const char *
bw_stash_what_words (BwStashWhat what)
{
  static const char *const words[BW_N_STASH]
      = { N_ ("beads"),        N_ ("bed cord"), N_ ("thread"), N_ ("hanging cord"),
          N_ ("stopper bead"), N_ ("ring"),     N_ ("clasp") };
  return _ (words[what]);
}

char *
bw_stash_amount_words (BwStashWhat what, double amount)
{
  if (bw_stash_measure (what) == BW_STASH_BY_GRAMS)
    return g_strdup_printf (_ ("%.2f g"), amount);
  if (bw_stash_measure (what) == BW_STASH_BY_COUNT)
    return g_strdup_printf ("%.0f", amount);
  if (bw_settings_get_unit (bw_settings_get ()) == BW_UNIT_INCH)
    return g_strdup_printf (_ ("%.1f ft"), amount / 304.8);
  return g_strdup_printf (_ ("%.2f m"), amount / 1000);
}

static char *
width_words (const BwStashItem *item)
{
  if (!(item->width_mm > 0))
    return g_strdup ("");
  return bw_length_format (item->width_mm, bw_settings_get_unit (bw_settings_get ()), 2);
}

static char *
words (const BwBook *book, guint i)
{
  BwStashItem item;
  bw_book_get_stash (book, i, &item);
  gboolean beads = item.what == BW_STASH_BEADS;
  g_autofree char *amount = bw_stash_amount_words (item.what, item.amount);
  g_autofree char *width = width_words (&item);
  const char *parts[]
      = { beads ? item.bead : bw_stash_what_words (item.what),
          beads ? bw_finish_words (item.finish) : width, item.article, item.lot, item.note };
  GString *line = g_string_new (amount);
  for (gsize k = 0; k < G_N_ELEMENTS (parts); k++)
    if (*parts[k])
      g_string_append_printf (line, " · %s", parts[k]);
  return g_string_free (line, FALSE);
}

/* --- Pictures ----------------------------------------------------------------------------------
 */

static void
draw_bead (GtkWidget *widget, cairo_t *cr, const BwStashItem *item, int width, int height)
{
  BwColour colour = { .srgb = item->has_srgb ? item->srgb : bw_tint_srgb (BW_TINT_STONE, FALSE),
                      .finish = item->finish };
  double side = 0.62 * MIN (width, height);
  cairo_surface_t *surface = bw_bead_surface (&colour, side, gtk_widget_get_scale_factor (widget));
  cairo_set_source_surface (cr, surface, (width - side) / 2, (height - side) / 2);
  cairo_paint (cr);
  cairo_surface_destroy (surface);
}

/* A hank, seen from above: turns that do not quite lie on one another. */
static void
draw_hank (cairo_t *cr, double side)
{
  for (int turn = 0; turn < 4; turn++) {
    cairo_new_sub_path (cr);
    cairo_arc (cr, 0.03 * side * (turn % 2 ? 1 : -1), 0.02 * side * (turn / 2 ? 1 : -1),
               (0.22 + 0.045 * turn) * side, 0, 2 * G_PI);
  }
  cairo_move_to (cr, 0.3 * side, 0.22 * side);
  cairo_curve_to (cr, 0.42 * side, 0.3 * side, 0.36 * side, 0.4 * side, 0.46 * side, 0.44 * side);
}

static void
draw_finding (cairo_t *cr, BwStashWhat what, double side)
{
  cairo_arc (cr, 0, 0, 0.24 * side, 0, what == BW_STASH_CLASP ? 1.5 * G_PI : 2 * G_PI);
  if (what == BW_STASH_CLASP) {
    cairo_line_to (cr, 0, -0.38 * side);
    cairo_line_to (cr, 0.12 * side, -0.38 * side);
  } else if (what == BW_STASH_STOPPER) {
    cairo_new_sub_path (cr);
    cairo_arc (cr, 0, 0, 0.08 * side, 0, 2 * G_PI);
  }
}

static void
draw (GtkWidget *widget, cairo_t *cr, gconstpointer thing, int width, int height)
{
  const BwStashItem *item = thing;
  BwPalette palette = bw_palette_get (widget);
  double side = MIN (width, height);
  if (item->what == BW_STASH_BEADS) {
    draw_bead (widget, cr, item, width, height);
    return;
  }
  cairo_translate (cr, width / 2.0, height / 2.0);
  gdk_cairo_set_source_rgba (cr, &palette.ink);
  cairo_set_line_width (cr, bw_stash_measure (item->what) == BW_STASH_BY_COUNT ? 3 : 1.5);
  if (bw_stash_measure (item->what) == BW_STASH_BY_COUNT)
    draw_finding (cr, item->what, side);
  else
    draw_hank (cr, side);
  cairo_stroke (cr);
}

static void
paint (GtkWidget *widget, cairo_t *cr, const BwBook *book, guint i, int width, int height)
{
  BwStashItem item;
  bw_book_get_stash (book, i, &item);
  draw (widget, cr, &item, width, height);
}

/* --- The table ---------------------------------------------------------------------------------
 */

static const char *
what_word (int i)
{
  return i < BW_N_STASH ? bw_stash_what_words ((BwStashWhat)i) : NULL;
}

static const char *
finish_word (int i)
{
  return i < BW_N_FINISHES ? bw_finish_words ((BwFinish)i) : NULL;
}

#define AT(member) offsetof (BwStashItem, member)
#define ROOM(member) sizeof (((BwStashItem *)NULL)->member)
#define BEADS (1u << BW_STASH_BEADS)
#define CORDS (1u << BW_STASH_BED_CORD | 1u << BW_STASH_THREAD | 1u << BW_STASH_HANGING_CORD)
#define PIECES (1u << BW_STASH_STOPPER | 1u << BW_STASH_RING | 1u << BW_STASH_CLASP)

static const BwThingField fields[] = {
  { N_ ("_What it is"), "/what", BW_THING_CHOICE, AT (what), .words = what_word },
  { N_ ("_Name"), "/name", BW_THING_TEXT, AT (name), ROOM (name),
    .hint = N_ ("as in your trays, where it is a colour") },
  { N_ ("_Bead"), "/bead", BW_THING_BEAD, AT (bead), ROOM (bead), .shown_for = BEADS },
  { N_ ("Fi_nish"), "/finish", BW_THING_CHOICE, AT (finish), .words = finish_word,
    .shown_for = BEADS },
  { N_ ("C_olour"), "/srgb", BW_THING_COLOUR, AT (srgb), .flag = AT (has_srgb),
    .shown_for = BEADS },
  { N_ ("_Grams"), "/grams", BW_THING_GRAMS, AT (amount), .shown_for = BEADS },
  { N_ ("_Width as laid"), "/width_mm", BW_THING_LENGTH, AT (width_mm), .shown_for = CORDS },
  { N_ ("_Length left"), "/length_mm", BW_THING_SPOOL, AT (amount), .shown_for = CORDS },
  { N_ ("How _many"), "/count", BW_THING_COUNT, AT (amount), .shown_for = PIECES },
  { N_ ("_Article number"), "/article", BW_THING_TEXT, AT (article), ROOM (article) },
  { N_ ("Lo_t"), "/lot", BW_THING_TEXT, AT (lot), ROOM (lot) },
  { N_ ("Not_e"), "/note", BW_THING_TEXT, AT (note), ROOM (note) },
};

const BwThings bw_stash_things = {
  .list = { bw_book_n_stash, bw_book_stash_name, words, paint, TRUE },
  .bytes = sizeof (BwStashItem),
  .get = get,
  .change = change,
  .validate = validate,
  .init = init,
  .begin = begin,
  .settle = settle,
  .name = name_of,
  .draw = draw,
  .fields = fields,
  .n_fields = G_N_ELEMENTS (fields),
  .only = bw_book_only_stash,
  .csv = bw_report_stash_csv,
  .label = N_ ("Your stash"),
  .none = N_ ("Nothing is in the stash yet. What is in it is taken off what is to be bought, and "
              "each finished piece can take its share."),
  .about = N_ ("Beads of a design are found here by their bead, finish and article number or, "
               "where one has no number, by their name."),
  .add = N_ ("_New Entry…"),
  .add_title = N_ ("Into the Stash"),
  .edit_title = N_ ("Edit the Stash"),
  .file_name = N_ ("Stash"),
};
