/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prices typed once are wanted in the next project. A key file, because it works where no schema is
 * installed and can be read and mended by hand. */
#include "config.h"

#include "app/make/price-book.h"
#include "core/path/materials.h"
#include "project/document/line.h"
#include "project/fault/fault-words.h"
#include "project/file/save-whole.h"
#include "project/json/json-write.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define GROUP "prices"

struct _BwPriceBook {
  GObject parent_instance;
  char *path;
  BwSupply supply; /* has_prices tells whether any are remembered */
  char *fault;
};

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwPriceBook, bw_price_book, G_TYPE_OBJECT)

static const struct {
  const char *key;
  gsize offset;
} numbers[] = {
  { "pack", offsetof (BwSupply, pack) },
  { "pack_g", offsetof (BwSupply, pack_g) },
  { "thread_per_m", offsetof (BwSupply, thread_per_m) },
  { "bed_cord_per_m", offsetof (BwSupply, bed_cord_per_m) },
  { "hanging_cord_per_m", offsetof (BwSupply, hanging_cord_per_m) },
  { "findings", offsetof (BwSupply, findings) },
  { "markup", offsetof (BwSupply, markup) },
  { "round_to", offsetof (BwSupply, round_to) },
  { "stone", offsetof (BwSupply, stone) },
  { "hour", offsetof (BwSupply, hour) },
  { "rows_per_hour", offsetof (BwSupply, rows_per_hour) },
};

static double *
number_of (BwSupply *supply, gsize i)
{
  return (double *)(void *)((char *)supply + numbers[i].offset);
}

static double
number_in (const BwSupply *supply, gsize i)
{
  return *(const double *)(const void *)((const char *)supply + numbers[i].offset);
}

/* Takes words. */
static void
tell_fault (BwPriceBook *self, char *words)
{
  g_free (self->fault);
  self->fault = words;
}

/* A number is what it is in a project's file: no "nan", no "0x10", nothing behind it. */
static gboolean
parse_price (const char *text, double *price)
{
  const char *end = text + strlen (text);
  if (bw_json_scan_number (text, end) != end)
    return FALSE;
  *price = g_ascii_strtod (text, NULL);
  return TRUE;
}

/* A key that is not there keeps the value a new design has: the book of an older version. */
static gboolean
read_number (GKeyFile *keys, BwSupply *supply, gsize i, GError **error)
{
  g_autofree char *text = g_key_file_get_value (keys, GROUP, numbers[i].key, NULL);
  if (!text || parse_price (text, number_of (supply, i)))
    return TRUE;
  /* Translators: what stands in the file, and the key it stands at. */
  bw_fault_set (error, BW_FAULT_RANGE, "", _ ("“%s” is not a number (%s)."), text, numbers[i].key);
  return FALSE;
}

/* GLib gives the text even where it reports a fault in it; then there is none. */
static gboolean
read_currency (GKeyFile *keys, BwSupply *supply, GError **error)
{
  g_autoptr (GError) local = NULL;
  g_autofree char *currency = g_key_file_get_string (keys, GROUP, "currency", &local);
  if (local) {
    g_propagate_error (error, g_steal_pointer (&local));
    return FALSE;
  }
  if (strlen (currency) >= sizeof supply->currency) {
    bw_fault_set (error, BW_FAULT_RANGE, "", _ ("the currency “%s” is too long."), currency);
    return FALSE;
  }
  if (!bw_line_check (currency, "", error))
    return FALSE;
  g_strlcpy (supply->currency, currency, sizeof supply->currency);
  return TRUE;
}

/* FALSE: what stands there is no width of a band. A book of an older version tells none. */
static gboolean
read_pace_columns (GKeyFile *keys, BwSupply *supply, GError **error)
{
  g_autoptr (GError) local = NULL;
  if (!g_key_file_has_key (keys, GROUP, "pace_columns", NULL))
    return TRUE;
  supply->pace_columns = g_key_file_get_integer (keys, GROUP, "pace_columns", &local);
  if (local)
    g_propagate_error (error, g_steal_pointer (&local));
  return *error == NULL;
}

static gboolean
read_prices (GKeyFile *keys, BwSupply *supply, GError **error)
{
  if (!read_currency (keys, supply, error))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    if (!read_number (keys, supply, i, error))
      return FALSE;
  if (!read_pace_columns (keys, supply, error))
    return FALSE;
  supply->has_prices = TRUE;
  BwFault fault;
  return bw_supply_validate (supply, &fault) || bw_fault_tell (&fault, error);
}

static void
read_book (BwPriceBook *self)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autoptr (GError) error = NULL;
  BwDesign design;
  bw_design_defaults (&design);
  if (g_key_file_load_from_file (keys, self->path, G_KEY_FILE_NONE, &error)
      && read_prices (keys, &design.supply, &error))
    self->supply = design.supply;
  else if (!g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    tell_fault (
        self, g_strdup_printf (_ ("Your remembered prices could not be read: %s"), error->message));
}

static gboolean
write_book (BwPriceBook *self, GError **error)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *folder = g_path_get_dirname (self->path);
  g_key_file_set_string (keys, GROUP, "currency", self->supply.currency);
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    g_key_file_set_double (keys, GROUP, numbers[i].key, number_in (&self->supply, i));
  if (self->supply.pace_columns > 0)
    g_key_file_set_integer (keys, GROUP, "pace_columns", self->supply.pace_columns);
  gsize length;
  g_autofree char *text = g_key_file_to_data (keys, &length, NULL);
  g_mkdir_with_parents (folder, 0700); /* a folder that is not there is told by the write */
  return bw_save_whole (self->path, text, length, BW_SAVE_PRIVATE, NULL, error);
}

static void
bw_price_book_finalize (GObject *object)
{
  g_free (BW_PRICE_BOOK (object)->path);
  g_free (BW_PRICE_BOOK (object)->fault);
  G_OBJECT_CLASS (bw_price_book_parent_class)->finalize (object);
}

static void
bw_price_book_class_init (BwPriceBookClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_price_book_finalize;
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_PRICE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
bw_price_book_init (BwPriceBook *self)
{
}

BwPriceBook *
bw_price_book_new (const char *path)
{
  BwPriceBook *self = g_object_new (BW_TYPE_PRICE_BOOK, NULL);
  self->path = g_strdup (path);
  read_book (self);
  return self;
}

BwPriceBook *
bw_price_book_get (void)
{
  static BwPriceBook *book;
  if (!book) {
    g_autofree char *path
        = g_build_filename (g_get_user_config_dir (), "bandwright", "prices.ini", NULL);
    book = bw_price_book_new (path);
  }
  return book;
}

gboolean
bw_price_book_has_prices (BwPriceBook *self)
{
  g_return_val_if_fail (BW_IS_PRICE_BOOK (self), FALSE);
  return self->supply.has_prices;
}

const char *
bw_price_book_get_fault (BwPriceBook *self)
{
  g_return_val_if_fail (BW_IS_PRICE_BOOK (self), NULL);
  return self->fault;
}

static gboolean
same_prices (const BwSupply *one, const BwSupply *other)
{
  if (!g_str_equal (one->currency, other->currency))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++) {
    double a = number_in (one, i), b = number_in (other, i);
    if (fabs (a - b) > 1e-9 * MAX (fabs (a), 1))
      return FALSE;
  }
  return TRUE;
}

gboolean
bw_price_book_matches (BwPriceBook *self, const BwSupply *supply)
{
  g_return_val_if_fail (BW_IS_PRICE_BOOK (self), FALSE);
  return self->supply.has_prices && supply->has_prices && same_prices (&self->supply, supply);
}

gboolean
bw_prices_are_examples (const BwSupply *supply)
{
  BwDesign design;
  bw_design_defaults (&design);
  return supply->has_prices && same_prices (&design.supply, supply);
}

void
bw_price_book_begin (BwPriceBook *self, BwSupply *supply)
{
  supply->has_prices = TRUE;
  if (!bw_price_book_fill (self, supply))
    supply->pace_columns = BW_USUAL_COLUMNS;
}

gboolean
bw_price_book_follows (BwPriceBook *self, const BwSupply *supply)
{
  if (bw_price_book_has_prices (self))
    return bw_price_book_matches (self, supply);
  return !self->fault && (!supply->has_prices || bw_prices_are_examples (supply));
}

void
bw_price_book_remember (BwPriceBook *self, const BwSupply *supply, int columns)
{
  g_autoptr (GError) error = NULL;
  g_return_if_fail (BW_IS_PRICE_BOOK (self));
  if (!supply->has_prices)
    return;
  self->supply = *supply;
  if (supply->pace_columns == 0)
    self->supply.pace_columns = columns;
  g_clear_pointer (&self->fault, g_free);
  if (!write_book (self, &error))
    tell_fault (self,
                g_strdup_printf (_ ("Your prices could not be remembered: %s"), error->message));
  g_signal_emit (self, signals[CHANGED], 0);
}

gboolean
bw_price_book_fill (BwPriceBook *self, BwSupply *supply)
{
  if (!bw_price_book_has_prices (self))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    *number_of (supply, i) = number_in (&self->supply, i);
  g_strlcpy (supply->currency, self->supply.currency, sizeof supply->currency);
  supply->pace_columns = self->supply.pace_columns;
  supply->has_prices = TRUE;
  return TRUE;
}
