/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A field's value as words in an entry, and back. Lengths have their own reader; everything else is
 * a number with the user's decimal sign and perhaps its unit behind it. */
#include "config.h"

#include "app/form/field.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Units that may stand behind a number, longest first; the first is the one written. */
static const char *const *
units_of (BwQuantity quantity)
{
  static const char *const angle[] = { "°", "deg", NULL };
  static const char *const share[] = { "%", NULL };
  static const char *const density[] = { "g/cm³", "g/cm3", NULL };
  static const char *const grams[] = { "g", NULL };
  static const char *const none[] = { NULL };
  switch (quantity) {
  case BW_QUANTITY_ANGLE:
    return angle;
  case BW_QUANTITY_SHARE:
    return share;
  case BW_QUANTITY_DENSITY:
    return density;
  case BW_QUANTITY_GRAMS:
    return grams;
  case BW_QUANTITY_LENGTH:
  case BW_QUANTITY_COUNT:
  case BW_QUANTITY_NUMBER:
  default:
    return none;
  }
}

/* Cuts blanks off both ends, also those that do not break, which stand before our own units. */
static char *
strip (char *text)
{
  char *end = text + strlen (text);
  char *start = text;
  while (*start && g_unichar_isspace (g_utf8_get_char (start)))
    start = g_utf8_next_char (start);
  while (end > start) {
    char *last = g_utf8_prev_char (end);
    if (!g_unichar_isspace (g_utf8_get_char (last)))
      break;
    end = last;
  }
  *end = '\0';
  memmove (text, start, (gsize)(end - start) + 1);
  return text;
}

/* The text without blanks round it and without its unit. Owned. */
static char *
bare_number (BwQuantity quantity, const char *text)
{
  char *bare = strip (g_strdup (text));
  for (const char *const *unit = units_of (quantity); *unit; unit++)
    if (g_str_has_suffix (bare, *unit)) {
      bare[strlen (bare) - strlen (*unit)] = '\0';
      return strip (bare);
    }
  return bare;
}

/* Point and comma are both taken for the decimal sign; a number has one at most. */
static gboolean
read_number (const char *text, double *number)
{
  g_autofree char *plain = g_strdelimit (g_strdup (text), ",", '.');
  if (!*plain || strspn (plain, "+-.0123456789") != strlen (plain))
    return FALSE;
  char *end;
  *number = g_ascii_strtod (plain, &end);
  return *end == '\0' && isfinite (*number);
}

static gboolean
refuse (const BwField *field, const char *text, const char *wanted, GError **error)
{
  bw_fault_set (error, BW_FAULT_RANGE, field->pointer, _ ("“%s” is not %s"), text, wanted);
  return FALSE;
}

static gboolean
parse_length (const BwField *field, const char *text, BwUnit unit, double *value, GError **error)
{
  g_autoptr (GError) local = NULL;
  if (bw_length_parse (text, unit, value, &local))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, field->pointer, "%s", bw_fault_sentence (local));
  return FALSE;
}

gboolean
bw_field_parse (const BwField *field, const char *text, BwUnit unit, double *value, GError **error)
{
  if (field->quantity == BW_QUANTITY_LENGTH)
    return parse_length (field, text, unit, value, error);
  g_autofree char *bare = bare_number (field->quantity, text);
  if (!read_number (bare, value))
    return refuse (field, text, _ ("a number"), error);
  if (field->quantity == BW_QUANTITY_COUNT && (*value != floor (*value) || fabs (*value) > 1e9))
    return refuse (field, text, _ ("a whole number"), error);
  if (field->quantity == BW_QUANTITY_SHARE)
    *value /= 100;
  return TRUE;
}

/* A number with the user's decimal sign and no zeros behind it. Owned. */
static char *
plain_number (double value, int decimals)
{
  g_autofree char *text = g_strdup_printf ("%.*f", decimals, value);
  if (decimals > 0) {
    gsize length = strlen (text);
    while (text[length - 1] == '0')
      length--;
    if (!g_ascii_isdigit (text[length - 1]))
      length--;
    text[length] = '\0';
  }
  return g_strdup (g_str_equal (text, "-0") ? "0" : text);
}

#define TYPED_DECIMALS 3 /* more nobody types, and more is not shown */
#define INCH_PARTS 64    /* of an inch, the finest on a rule */

static gboolean
is_whole (double value)
{
  return fabs (value - round (value)) <= 1e-9 * MAX (1, fabs (value));
}

/* Whether a number can have been typed so, as a decimal or, a length, in inches; else it was
 * reckoned. */
static gboolean
is_as_typed (const BwField *field, double value)
{
  double inches = value / BW_MM_PER_INCH, fine = pow (10, TYPED_DECIMALS);
  if (is_whole (value * fine))
    return TRUE;
  return field->quantity == BW_QUANTITY_LENGTH
         && (is_whole (inches * 10 * fine) || is_whole (inches * INCH_PARTS));
}

/* What is typed stays as it was typed. What was reckoned is shown as finely as anybody measures:
 * lengths of a stone to a tenth, of beads, cord and thread to a hundredth, which their steps tell
 * apart; shares and angles to a tenth. */
static int
decimals_of (const BwField *field, double value, BwUnit unit)
{
  if (is_as_typed (field, value))
    return TYPED_DECIMALS;
  switch (field->quantity) {
  case BW_QUANTITY_LENGTH:
    return unit == BW_UNIT_MM && field->step >= 0.1 ? 1 : 2;
  case BW_QUANTITY_SHARE:
  case BW_QUANTITY_ANGLE:
    return 1;
  default:
    return 2;
  }
}

char *
bw_field_format (const BwField *field, double value, BwUnit unit)
{
  if (field->quantity == BW_QUANTITY_SHARE)
    value *= 100;
  int decimals = decimals_of (field, value, unit);
  if (field->quantity == BW_QUANTITY_LENGTH)
    return bw_length_format (value, unit, decimals);
  g_autofree char *number
      = plain_number (value, field->quantity == BW_QUANTITY_COUNT ? 0 : decimals);
  const char *sign = units_of (field->quantity)[0];
  if (!sign)
    return g_steal_pointer (&number);
  return g_strconcat (number, field->quantity == BW_QUANTITY_ANGLE ? "" : "\u00a0", sign, NULL);
}
