/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every sentence with places for numbers and names, formatted in every language: a translation may
 * put the places in another order (%2$s %1$s), and must ask for nothing that is not given. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "catalogue.h"
#include <ffi.h>
#include <gio/gio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PLACES_MAX 12

/* --- places ----------------------------------------------------------------------------------- */

typedef enum { NOTHING, INT, LONG, DOUBLE, TEXT } Kind;

typedef struct {
  Kind kind[PLACES_MAX]; /* of the values given, in their order */
  int n;
} Places;

static Kind
kind_of (const char *length, char conversion)
{
  if (conversion == 's')
    return TEXT;
  if (strchr ("eEfFgGaA", conversion))
    return DOUBLE;
  return *length && *length != 'h' ? LONG : INT;
}

/* FALSE when a place asks for two kinds of value at once, or there are too many. */
static gboolean
need (Places *places, int index, Kind kind)
{
  if (index < 0 || index >= PLACES_MAX || (places->kind[index] && places->kind[index] != kind))
    return FALSE;
  places->kind[index] = kind;
  places->n = MAX (places->n, index + 1);
  return TRUE;
}

static gboolean
read_places (const char *format, Places *places)
{
  g_autoptr (GRegex) regex = g_regex_new (
      "%(?:(\\d+)\\$)?[-+ #0']*(\\d+|\\*)?(?:\\.(\\d+|\\*))?(hh|h|ll|l|z|j|t)?([A-Za-z%])", 0, 0,
      NULL);
  g_autoptr (GMatchInfo) match = NULL;
  int next = 0;
  *places = (Places){ .n = 0 };
  for (g_regex_match (regex, format, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    g_autofree char *at = g_match_info_fetch (match, 1), *width = g_match_info_fetch (match, 2),
                    *precision = g_match_info_fetch (match, 3),
                    *length = g_match_info_fetch (match, 4), *sign = g_match_info_fetch (match, 5);
    if (*sign == '%')
      continue;
    if ((g_str_equal (width, "*") && !need (places, next++, INT))
        || (g_str_equal (precision, "*") && !need (places, next++, INT))
        || !need (places, *at ? atoi (at) - 1 : next++, kind_of (length, *sign)))
      return FALSE;
  }
  return TRUE;
}

/* Formats as g_strdup_printf() would, with values of the kinds in `given`. */
static char *
format_with (const char *format, const Places *given)
{
  static char word[] = "WORD";
  char buffer[4096], *into = buffer;
  size_t room = sizeof buffer;
  int small = 7, written = 0;
  long large = 7;
  double number = 2.5;
  char *text = word;
  ffi_type *types[PLACES_MAX + 3] = { &ffi_type_pointer, &ffi_type_ulong, &ffi_type_pointer };
  void *values[PLACES_MAX + 3] = { &into, &room, (void *)&format };
  ffi_arg result;
  ffi_cif cif;
  for (int i = 0; i < given->n; i++) {
    Kind kind = given->kind[i];
    types[3 + i] = kind == TEXT     ? &ffi_type_pointer
                   : kind == DOUBLE ? &ffi_type_double
                   : kind == LONG   ? &ffi_type_slong
                                    : &ffi_type_sint;
    values[3 + i] = kind == TEXT     ? (void *)&text
                    : kind == DOUBLE ? (void *)&number
                    : kind == LONG   ? (void *)&large
                                     : (void *)&small;
  }
  assert_int_equal (
      ffi_prep_cif_var (&cif, FFI_DEFAULT_ABI, 3, (unsigned)given->n + 3, &ffi_type_sint, types),
      FFI_OK);
  ffi_call (&cif, FFI_FN (snprintf), &result, values);
  written = (int)result;
  assert_in_range (written, 0, (int)sizeof buffer - 1);
  return g_strdup (buffer);
}

/* What is wrong with one text of an entry that is given these values; NULL: nothing. Owned. */
static char *
fault_of_text (const char *text, const Places *given)
{
  Places asked;
  if (!read_places (text, &asked))
    return g_strdup_printf ("“%s” asks for one value in two ways", text);
  for (int i = 0; i < asked.n; i++)
    if (i >= given->n || (asked.kind[i] && asked.kind[i] != given->kind[i]))
      return g_strdup_printf ("“%s” asks for a value %d that is not given", text, i + 1);
  g_autofree char *said = format_with (text, given);
  if (!g_utf8_validate (said, -1, NULL) || (*text && !*said))
    return g_strdup_printf ("“%s” says nothing", text);
  return NULL;
}

/* Owned; NULL: the entry is sound. */
static char *
fault_of (const CatalogueEntry *entry)
{
  Places given;
  if (!read_places (entry->plural ? entry->plural : entry->original, &given))
    return g_strdup_printf ("“%s” asks for one value in two ways", entry->original);
  char *fault = fault_of_text (entry->original, &given);
  for (guint i = 0; !fault && i < entry->translations->len; i++)
    fault = fault_of_text (entry->translations->pdata[i], &given);
  return fault;
}

static void
every_sentence_can_be_formatted_in_every_language (void **state)
{
  const char *root = g_getenv ("BW_SOURCE_ROOT");
  g_autofree char *path = g_build_filename (root, "po", "LINGUAS", NULL), *linguas = NULL;
  assert_true (g_file_get_contents (path, &linguas, NULL, NULL));
  g_auto (GStrv) languages = g_strsplit_set (linguas, " \n", -1);
  int n_languages = 0;
  for (char **language = languages; *language; language++) {
    if (!**language || **language == '#')
      continue;
    g_autofree char *file = g_strdup_printf ("po/%s.po", *language);
    g_autoptr (GPtrArray) entries = catalogue_load (file);
    int n = 0;
    for (guint i = 0; i < entries->len; i++) {
      const CatalogueEntry *entry = entries->pdata[i];
      if (!entry->original || !entry->is_format || entry->is_fuzzy)
        continue;
      g_autofree char *fault = fault_of (entry);
      if (fault)
        fail_msg ("%s: %s", *language, fault);
      n++;
    }
    assert_true (n > 300);
    n_languages++;
  }
  assert_true (n_languages > 0);
}

static char *
fault_in (const char *entry)
{
  g_autoptr (GPtrArray) entries = catalogue_read (entry);
  return fault_of (entries->pdata[0]);
}

static void
values_may_change_places_but_not_their_kind (void **state)
{
  static const struct {
    const char *entry;
    gboolean sound;
  } cases[] = {
    { "#, c-format\nmsgid \"%s has %d\"\nmsgstr \"%2$d: %1$s\"", TRUE },
    { "#, c-format\nmsgid \"%s has %d\"\nmsgstr \"%d hat %s\"", FALSE },
    { "#, c-format\nmsgid \"%s has %.1f\"\nmsgstr \"%1$s: %d\"", FALSE },
    { "#, c-format\nmsgid \"at %d\"\nmsgstr \"bei %d von %d\"", FALSE },
    { "#, c-format\nmsgid \"%lu rows\"\nmsgstr \"%d Reihen\"", FALSE },
    { "#, c-format\nmsgid \"%d row\"\nmsgid_plural \"%d rows\"\nmsgstr[0] \"eine Reihe\"\n"
      "msgstr[1] \"%d Reihen\"",
      TRUE },
    { "#, c-format\nmsgid \"%.*f %%\"\nmsgstr \"%.*f %%\"", TRUE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *fault = fault_in (cases[i].entry);
    if (cases[i].sound != !fault)
      fail_msg ("%s: %s", cases[i].entry, fault ? fault : "no fault");
  }
}

static void
values_are_put_where_the_translation_wants_them (void **state)
{
  const Places given = { .kind = { TEXT, DOUBLE, INT, LONG }, .n = 4 };
  g_autofree char *said = format_with ("%4$ld %3$d %2$.1f %1$s", &given);
  assert_string_equal (said, "7 7 2.5 WORD");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_sentence_can_be_formatted_in_every_language),
    cmocka_unit_test (values_may_change_places_but_not_their_kind),
    cmocka_unit_test (values_are_put_where_the_translation_wants_them),
  };
  return cmocka_run_group_tests_name ("catalogues", tests, NULL, NULL);
}
