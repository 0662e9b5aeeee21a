/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bench measures come off a calliper in millimetres, off a tape in fractions of an inch, with a
 * comma or a point. People type what they read; this file turns it into millimetres and back. */
#include "config.h"

#include "project/document/length.h"
#include "project/fault/fault-error.h"
#include <glib/gi18n-lib.h>
#include <locale.h>
#include <math.h>
#include <string.h>

typedef struct {
  const char *sign;
  double mm;
} UnitSign;

static const UnitSign unit_signs[] = {
  { "mm", 1 },
  { "cm", 10 },
  { "in", BW_MM_PER_INCH },
  { "inch", BW_MM_PER_INCH },
  { "inches", BW_MM_PER_INCH },
  { "\"", BW_MM_PER_INCH },
  { "″", BW_MM_PER_INCH },
  { "”", BW_MM_PER_INCH },
  { "''", BW_MM_PER_INCH },
};

/* The vulgar fractions of the usual keyboards and of pasted text. */
typedef struct {
  const char *sign;
  double value;
} FractionSign;

static const FractionSign fraction_signs[] = {
  { "½", 1 / 2.0 }, { "¼", 1 / 4.0 }, { "¾", 3 / 4.0 }, { "⅓", 1 / 3.0 }, { "⅔", 2 / 3.0 },
  { "⅛", 1 / 8.0 }, { "⅜", 3 / 8.0 }, { "⅝", 5 / 8.0 }, { "⅞", 7 / 8.0 },
};

static const char *
skip_spaces (const char *p)
{
  while (*p && g_unichar_isspace (g_utf8_get_char (p)))
    p = g_utf8_next_char (p);
  return p;
}

static gboolean
take (const char **p, const char *sign)
{
  if (!*sign || !g_str_has_prefix (*p, sign))
    return FALSE;
  *p += strlen (sign);
  return TRUE;
}

/* Reads digits into *value; returns how many there were. */
static int
take_digits (const char **p, double *value)
{
  int n = 0;

  for (*value = 0; g_ascii_isdigit (**p); (*p)++, n++)
    *value = *value * 10 + g_ascii_digit_value (**p);
  return n;
}

static gboolean
take_decimal_sign (const char **p)
{
  return take (p, ".") || take (p, ",") || take (p, localeconv ()->decimal_point);
}

static gboolean
take_vulgar (const char **p, double *value)
{
  for (gsize i = 0; i < G_N_ELEMENTS (fraction_signs); i++)
    if (take (p, fraction_signs[i].sign)) {
      *value = fraction_signs[i].value;
      return TRUE;
    }
  return FALSE;
}

/* "3/8", digits only, also with the fraction slash that word processors put. */
static gboolean
take_fraction (const char **p, double *value)
{
  const char *q = *p;
  double over, under;

  if (take_vulgar (p, value))
    return TRUE;
  if (!take_digits (&q, &over) || !(take (&q, "/") || take (&q, "⁄")) || !take_digits (&q, &under)
      || under <= 0)
    return FALSE;
  *value = over / under;
  *p = q;
  return TRUE;
}

/* A decimal number. It is handed to g_ascii_strtod() as text so that it is rounded only once. */
static gboolean
take_decimal (const char **p, double *value, gboolean *whole)
{
  g_autoptr (GString) text = g_string_new (NULL);
  const char *start = *p;
  double ignored;
  int digits = take_digits (p, &ignored);

  g_string_append_len (text, start, *p - start);
  *whole = !take_decimal_sign (p);
  if (!*whole) {
    g_string_append_c (text, '.');
    start = *p;
    digits += take_digits (p, &ignored);
    g_string_append_len (text, start, *p - start);
  }
  *value = g_ascii_strtod (text->str, NULL);
  return digits > 0;
}

/* "9.5", "3/8", "1 3/8" or "1⅜". */
static gboolean
take_amount (const char **p, double *value)
{
  gboolean whole;
  double part;

  if (take_fraction (p, value))
    return TRUE;
  if (!take_decimal (p, value, &whole))
    return FALSE;
  if (whole) {
    const char *q = skip_spaces (*p);

    if ((q > *p || !g_ascii_isdigit (*q)) && take_fraction (&q, &part)) {
      *value += part;
      *p = q;
    }
  }
  return TRUE;
}

static gboolean
unit_factor (const char *p, BwUnit unit, double *mm)
{
  g_autofree char *sign = g_strstrip (g_ascii_strdown (p, -1));

  *mm = unit == BW_UNIT_INCH ? BW_MM_PER_INCH : 1;
  if (!*sign)
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (unit_signs); i++)
    if (g_str_equal (sign, unit_signs[i].sign)) {
      *mm = unit_signs[i].mm;
      return TRUE;
    }
  return FALSE;
}

/* 2.6 in is 66.04 mm and not 66.03999999999999: what multiplying adds is no length. */
static double
tidy (double mm)
{
  return fabs (mm) < 1000 ? round (mm * 1e12) / 1e12 : mm;
}

gboolean
bw_length_parse (const char *text, BwUnit unit, double *mm, GError **error)
{
  const char *p = skip_spaces (text);
  gboolean minus = take (&p, "-") || take (&p, "−");
  double value = 0, factor = 1;

  if (!minus)
    take (&p, "+");
  p = skip_spaces (p);
  if (!take_amount (&p, &value) || !unit_factor (p, unit, &factor) || !isfinite (value * factor)) {
    bw_fault_set (error, BW_FAULT_RANGE, "",
                  _ ("“%s” is not a length; write for example 9.5 mm, 0.375 in or 3/8\""), text);
    return FALSE;
  }
  *mm = tidy ((minus ? -value : value) * factor);
  return TRUE;
}

/* Drops the zeros after the decimal sign, and the sign with them; "-0" becomes "0". */
static void
drop_trailing_zeros (char *number, const char *decimal_sign)
{
  char *sign = strstr (number, decimal_sign);

  if (sign) {
    char *end = number + strlen (number);

    while (end > sign && end[-1] == '0')
      end--;
    *(end == sign + strlen (decimal_sign) ? sign : end) = '\0';
  }
  if (g_str_equal (number, "-0"))
    strcpy (number, "0");
}

#define AT_A_HALF 1e-9 /* as near to one, in the number's own size, as arithmetic comes */

double
bw_length_half_up (double value)
{
  return value * (1 + AT_A_HALF);
}

char *
bw_length_format (double mm, BwUnit unit, int decimals)
{
  gboolean inch = unit == BW_UNIT_INCH;
  double shown = inch ? mm / BW_MM_PER_INCH : mm;
  g_autofree char *number
      = g_strdup_printf ("%.*f", inch ? decimals + 1 : decimals, bw_length_half_up (shown));

  drop_trailing_zeros (number, localeconv ()->decimal_point);
  /* A hyphen is no minus sign: it is short, and a line may break after it. */
  if (*number == '-') {
    g_autofree char *hyphened = number;
    number = g_strconcat ("−", hyphened + 1, NULL);
  }
  /* Translators: a length in inches, and one in millimetres. */
  return inch ? g_strdup_printf (_ ("%s in"), number) : g_strdup_printf (_ ("%s mm"), number);
}
