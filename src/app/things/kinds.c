/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/kinds.h"

#include "app/kit/settings.h"
#include "app/kit/tray-row.h"
#include "app/things/bead-figure.h"
#include "output/report/report-beads.h"
#include "project/book/book-beads.h"
#include "project/book/book-only.h"
#include "project/document/length.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define LARGE_MM 6 /* of a bead that bands are hardly woven of (judgement) */

static void
get (const BwBook *book, guint i, gpointer thing)
{
  bw_book_get_bead (book, i, thing);
}

static gboolean
change (BwBook *book, gconstpointer before, gconstpointer after, GError **error)
{
  return bw_book_change_bead (book, before, after, error);
}

static gboolean
validate (gconstpointer thing, const char *pointer, GError **error)
{
  return bw_bead_kind_validate (thing, pointer, error);
}

static void
init (gpointer thing)
{
  BwBeadKind *kind = thing;
  int n;
  memset (kind, 0, sizeof *kind);
  kind->bead.glass_g_cm3 = bw_bead_sizes (&n)[0].glass_g_cm3;
}

static const char *
name_of (gconstpointer thing)
{
  return ((const BwBeadKind *)thing)->bead.name;
}

/* --- Words -------------------------------------------------------------------------------------
 */

/* Owned: "1.6 mm thick, 1.3 mm long, hole 0.8 mm". */
static char *
size_words (const BwBead *bead)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *thick = bw_length_format (bead->diameter_mm, unit, 2);
  g_autofree char *along = bw_length_format (bead->length_mm, unit, 2);
  g_autofree char *hole = bw_length_format (bead->hole_mm, unit, 2);
  return g_strdup_printf (_ ("%s thick, %s long, hole %s"), thick, along, hole);
}

static char *
finish_words (guint finishes)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  for (int i = 0; i < BW_N_FINISHES; i++)
    if (finishes & 1u << i)
      g_ptr_array_add (words, (gpointer)bw_finish_words ((BwFinish)i));
  g_ptr_array_add (words, NULL);
  return g_strjoinv (", ", (char **)words->pdata);
}

static char *
price_words (const BwBeadKind *kind)
{
  if (!(kind->price > 0))
    return g_strdup ("");
  /* Translators: a price, its currency, and the grams it is for. */
  return g_strdup_printf (_ ("%.2f %s for %g g"), kind->price, kind->currency, kind->pack_g);
}

static char *
words (const BwBook *book, guint i)
{
  BwBeadKind kind;
  bw_book_get_bead (book, i, &kind);
  g_autofree char *size = size_words (&kind.bead), *finishes = finish_words (kind.finishes);
  g_autofree char *price = price_words (&kind);
  const char *parts[] = { finishes, kind.article, price, kind.lot, kind.note };
  GString *line = g_string_new (size);
  for (gsize k = 0; k < G_N_ELEMENTS (parts); k++)
    if (*parts[k])
      g_string_append_printf (line, " · %s", parts[k]);
  return g_string_free (line, FALSE);
}

static char *
doubt (gconstpointer thing)
{
  const BwBead *bead = &((const BwBeadKind *)thing)->bead;
  double most = fmax (bead->diameter_mm, bead->length_mm);
  if (most <= LARGE_MM)
    return NULL;
  g_autofree char *size = bw_length_format (most, bw_settings_get_unit (bw_settings_get ()), 2);
  return g_strdup_printf (_ ("Bands are hardly woven of beads of %s: is the decimal point where it "
                             "should be?"),
                          size);
}

/* --- Pictures ----------------------------------------------------------------------------------
 */

static void
draw (GtkWidget *widget, cairo_t *cr, gconstpointer thing, int width, int height)
{
  const BwBeadKind *kind = thing;
  int finish = g_bit_nth_lsf (kind->finishes, -1);
  bw_bead_figure_draw (widget, cr, &kind->bead, finish >= 0 ? (BwFinish)finish : BW_FINISH_OPAQUE,
                       width, height);
}

static void
paint (GtkWidget *widget, cairo_t *cr, const BwBook *book, guint i, int width, int height)
{
  BwBeadKind kind;
  bw_book_get_bead (book, i, &kind);
  draw (widget, cr, &kind, width, height);
}

/* --- The table ---------------------------------------------------------------------------------
 */

static const char *
finish_word (int i)
{
  return i < BW_N_FINISHES ? bw_finish_words ((BwFinish)i) : NULL;
}

#define AT(member) offsetof (BwBeadKind, member)
#define ROOM(member) sizeof (((BwBeadKind *)NULL)->member)

static const BwThingField fields[] = {
  { N_ ("_Name"), "/name", BW_THING_TEXT, AT (bead.name), ROOM (bead.name) },
  { N_ ("_Diameter"), "/diameter_mm", BW_THING_LENGTH, AT (bead.diameter_mm) },
  { N_ ("_Length along the hole"), "/length_mm", BW_THING_LENGTH, AT (bead.length_mm) },
  { N_ ("_Hole"), "/hole_mm", BW_THING_LENGTH, AT (bead.hole_mm) },
  { N_ ("A hundred _weigh"), "/per_100_g", BW_THING_GRAMS, AT (per_100_g),
    .hint = N_ ("by its size, as glass") },
  { N_ ("_Finishes"), "/finishes", BW_THING_FLAGS, AT (finishes), .words = finish_word },
  { N_ ("_Article number"), "/article", BW_THING_TEXT, AT (article), ROOM (article) },
  { N_ ("_Price"), "/price", BW_THING_NUMBER, AT (price) },
  { N_ ("The price is fo_r"), "/pack_g", BW_THING_GRAMS, AT (pack_g),
    .hint = N_ ("1 g where it is the price of a gram") },
  { N_ ("C_urrency"), "/currency", BW_THING_TEXT, AT (currency), ROOM (currency) },
  { N_ ("Lo_t"), "/lot", BW_THING_TEXT, AT (lot), ROOM (lot) },
  { N_ ("N_ote"), "/note", BW_THING_TEXT, AT (note), ROOM (note) },
};

const BwThings bw_kinds = {
  .list = { bw_book_n_beads, bw_book_bead_name, words, paint, TRUE },
  .bytes = sizeof (BwBeadKind),
  .get = get,
  .change = change,
  .validate = validate,
  .init = init,
  .name = name_of,
  .draw = draw,
  .doubt = doubt,
  .fields = fields,
  .n_fields = G_N_ELEMENTS (fields),
  .only = bw_book_only_beads,
  .csv = bw_report_beads_csv,
  .label = N_ ("Your kinds of bead"),
  .none = N_ ("No bead of your own is written down yet. Measure a few of a bag with a calliper: "
              "beads differ from lot to lot."),
  .about = N_ ("It stands in the list of sizes from now on. A design keeps the sizes it was made "
               "with, here and on another machine."),
  .add = N_ ("_New Bead…"),
  .add_title = N_ ("A Bead of Your Own"),
  .edit_title = N_ ("Edit a Bead"),
  .file_name = N_ ("Beads"),
};
