/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-beads.h"

#include "project/book/book-keys.h"
#include "project/book/book-list.h"
#include "project/book/book-things-private.h"
#include "project/file/reader.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* --- One kind ----------------------------------------------------------------------------------
 */

static gboolean
read_finishes (JsonObject *element, const char *pointer, guint *finishes, GError **error)
{
  JsonNode *node = json_object_get_member (element, "finishes");
  g_autofree char *inner = bw_json_pointer (pointer, "finishes");
  JsonArray *list = node ? bw_take_list (node, inner, error) : NULL;

  for (guint i = 0; list && i < json_array_get_length (list); i++) {
    g_autofree char *at = g_strdup_printf ("%s/%u", inner, i);
    BwFinish finish;

    if (!bw_take_finish (json_array_get_element (list, i), at, &finish, error))
      return FALSE;
    *finishes |= 1u << finish;
  }
  return !node || list;
}

static gboolean
read_texts (JsonObject *element, const char *pointer, BwBeadKind *kind, GError **error)
{
  return bw_key_read_text (element, pointer, "article", kind->article, sizeof kind->article, error)
         && bw_key_read_text (element, pointer, "currency", kind->currency, sizeof kind->currency,
                              error)
         && bw_key_read_text (element, pointer, "lot", kind->lot, sizeof kind->lot, error)
         && bw_key_read_text (element, pointer, "note", kind->note, sizeof kind->note, error);
}

static gboolean
read_kind (JsonObject *element, const char *pointer, BwBeadKind *kind, GError **error)
{
  BwDesign design;

  memset (kind, 0, sizeof *kind);
  bw_design_defaults (&design);
  if (!bw_read_group (BW_GROUP_BEAD, element, pointer, &design, error))
    return FALSE;
  kind->bead = design.bead;
  return read_finishes (element, pointer, &kind->finishes, error)
         && bw_key_read_number (element, pointer, "price", &kind->price, error)
         && bw_key_read_number (element, pointer, "pack_g", &kind->pack_g, error)
         && bw_key_read_number (element, pointer, "per_100_g", &kind->per_100_g, error)
         && read_texts (element, pointer, kind, error)
         && bw_bead_kind_validate (kind, pointer, error);
}

static gboolean
check (JsonObject *element, const char *pointer, GError **error)
{
  BwBeadKind kind;

  return read_kind (element, pointer, &kind, error);
}

static void
write_finishes (guint finishes, JsonObject *element)
{
  JsonArray *list = json_array_new ();

  for (int i = 0; i < BW_N_FINISHES; i++)
    if (finishes & 1u << i)
      json_array_add_string_element (list, bw_finish_word ((BwFinish)i));
  json_object_set_array_member (element, "finishes", list);
  if (!finishes)
    json_object_remove_member (element, "finishes");
}

static void
write_kind (const BwBeadKind *kind, JsonObject *element)
{
  json_object_set_string_member (element, "name", kind->bead.name);
  bw_key_write_number (element, "diameter_mm", kind->bead.diameter_mm);
  bw_key_write_number (element, "length_mm", kind->bead.length_mm);
  bw_key_write_number (element, "hole_mm", kind->bead.hole_mm);
  bw_key_write_number (element, "glass_g_cm3", kind->bead.glass_g_cm3);
  write_finishes (kind->finishes, element);
  bw_key_write_text (element, "article", kind->article);
  bw_key_write_known (element, "price", kind->price);
  bw_key_write_known (element, "pack_g", kind->pack_g);
  bw_key_write_text (element, "currency", kind->currency);
  bw_key_write_known (element, "per_100_g", kind->per_100_g);
  bw_key_write_text (element, "lot", kind->lot);
  bw_key_write_text (element, "note", kind->note);
}

/* --- All of them -------------------------------------------------------------------------------
 */

/* By what it weighs, told or by its size: what prints a kind tells its weight in either case. */
static void
weigh (BwBeadKind *kind)
{
  BwBead bead = bw_bead_kind_bead (kind);

  kind->per_100_g = 100 * bw_bead_mass_g (&bead);
  kind->bead.glass_g_cm3 = bead.glass_g_cm3;
}

#define WEIGHED 1e-6 /* a share: weights that come from one size, printed and read */

static gboolean
weigh_the_same (const BwBeadKind *a, const BwBeadKind *b)
{
  return fabs (a->per_100_g - b->per_100_g) <= WEIGHED * a->per_100_g;
}

static gboolean
is_same_kind (JsonObject *a, JsonObject *b)
{
  JsonObject *one_says = json_object_new (), *other_says = json_object_new ();
  BwBeadKind one, other;

  read_kind (a, "", &one, NULL);
  read_kind (b, "", &other, NULL);
  weigh (&one);
  weigh (&other);
  bw_bead_set_name (&other.bead, one.bead.name);
  if (weigh_the_same (&one, &other)) {
    other.per_100_g = one.per_100_g;
    other.bead.glass_g_cm3 = one.bead.glass_g_cm3;
  }
  write_kind (&one, one_says);
  write_kind (&other, other_says);
  return bw_key_same_objects (one_says, other_says);
}

static const BwBookList beads = { "beads", BW_BEAD_KINDS_MAX, check, FALSE, is_same_kind };

gboolean
bw_book_check_beads (const BwBook *book, GError **error)
{
  return bw_book_list_check (book, &beads, error);
}

gboolean
bw_book_take_in_beads (BwBook *book, const BwBook *other, GError **error)
{
  return bw_book_list_take_in (book, &beads, other, error);
}

guint
bw_book_n_beads (const BwBook *book)
{
  return bw_book_list_length (book, &beads);
}

const char *
bw_book_bead_name (const BwBook *book, guint i)
{
  return bw_book_list_name (book, &beads, i);
}

void
bw_book_get_bead (const BwBook *book, guint i, BwBeadKind *kind)
{
  read_kind (bw_book_list_at (book, &beads, i), "", kind, NULL);
}

int
bw_book_find_bead (const BwBook *book, const char *name)
{
  return bw_book_list_find (book, &beads, name);
}

GArray *
bw_book_bead_sizes (const BwBook *book)
{
  guint n = bw_book_n_beads (book);
  GArray *sizes = g_array_sized_new (FALSE, FALSE, sizeof (BwBead), n);

  for (guint i = 0; i < n; i++) {
    BwBeadKind kind;

    bw_book_get_bead (book, i, &kind);
    BwBead bead = bw_bead_kind_bead (&kind);
    g_array_append_val (sizes, bead);
  }
  return sizes;
}

/* --- Changing ----------------------------------------------------------------------------------
 */

static gboolean
is_as_it_was (const BwBook *book, int at, const BwBeadKind *before)
{
  JsonObject *now = json_object_new (), *then = json_object_new ();
  BwBeadKind kind;

  bw_book_get_bead (book, (guint)at, &kind);
  write_kind (&kind, now);
  write_kind (before, then);
  return bw_key_same_objects (now, then);
}

static int
find_again (const BwBook *book, const BwBeadKind *before, GError **error)
{
  int at = bw_book_find_bead (book, before->bead.name);

  if (at >= 0 && is_as_it_was (book, at, before))
    return at;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                       _ ("this bead was changed by another program meanwhile"));
  return -1;
}

gboolean
bw_book_change_bead (BwBook *book, const BwBeadKind *before, const BwBeadKind *kind, GError **error)
{
  int at = before ? find_again (book, before, error) : -1;

  if (before && at < 0)
    return FALSE;
  if (!kind) {
    bw_book_list_remove (book, &beads, (guint)at);
    return TRUE;
  }
  JsonObject *element = bw_book_list_draft (book, &beads, at, kind->bead.name);
  write_kind (kind, element);
  return bw_book_list_put (book, &beads, at, element, error);
}
