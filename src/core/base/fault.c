/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults carry the place before the sentence, so that the command line can print the message as it
 * stands while the window takes it apart again and marks the field. */
#include "config.h"

#include "core/base/fault.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Looked up each time: the core keeps no state, not even this number. */
GQuark
bw_fault_quark (void)
{
  return g_quark_from_static_string ("bw-fault-quark");
}

#define SEPARATOR ": "

void
bw_fault_set (GError **error, BwFaultCode code, const char *pointer, const char *format, ...)
{
  if (!error)
    return;
  va_list args;
  va_start (args, format);
  g_autofree char *sentence = g_strdup_vprintf (format, args);
  va_end (args);
  const char *separator = *pointer ? SEPARATOR : "";
  g_set_error (error, BW_FAULT, code, "%s%s%s", pointer, separator, sentence);
}

/* Where the separator stands in the message of a fault with a pointer, else NULL. A pointer begins
 * with a slash (RFC 6901); no sentence does. */
static const char *
separator_of (const GError *error)
{
  if (error->domain != BW_FAULT || error->message[0] != '/')
    return NULL;
  return strstr (error->message, SEPARATOR);
}

char *
bw_fault_dup_pointer (const GError *error)
{
  g_return_val_if_fail (error, NULL);
  const char *separator = separator_of (error);
  return separator ? g_strndup (error->message, separator - error->message) : NULL;
}

const char *
bw_fault_sentence (const GError *error)
{
  g_return_val_if_fail (error, NULL);
  const char *separator = separator_of (error);
  return separator ? separator + strlen (SEPARATOR) : error->message;
}

gboolean
bw_fault_check_range (double value, double lo, double hi, const char *pointer, GError **error)
{
  if (value >= lo && value <= hi)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("%.10g is not between %.10g and %.10g."), value,
                lo, hi);
  return FALSE;
}
