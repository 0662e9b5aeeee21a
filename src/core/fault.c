/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One shape for every fault, so that window and command line can both point at the key. */
#include "config.h"
#include "fault.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

G_DEFINE_QUARK (bw - fault - quark, bw_fault)

void
bw_fault_set (GError **error, BwFaultCode code, const char *pointer, const char *format, ...)
{
  va_list arguments;
  if (!error)
    return;
  va_start (arguments, format);
  g_autofree char *sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, BW_FAULT, (int)code, "%s: %s", pointer, sentence);
}

/* Where the sentence begins: a pointer holds no ": " of ours, since our own keys have no colon and
 * a foreign key is never named with a sentence of ours before it. */
static const char *
after_pointer (const GError *error)
{
  const char *message = error->message;
  const char *colon = strstr (message, ": ");
  if (error->domain != BW_FAULT || !colon || (message[0] != '/' && colon != message))
    return NULL;
  return colon;
}

char *
bw_fault_dup_pointer (const GError *error)
{
  const char *colon = after_pointer (error);
  if (!colon || colon == error->message)
    return NULL;
  return g_strndup (error->message, (gsize)(colon - error->message));
}

const char *
bw_fault_sentence (const GError *error)
{
  const char *colon = after_pointer (error);
  return colon ? colon + 2 : error->message;
}

gboolean
bw_fault_check_range (double value, double lo, double hi, const char *pointer, GError **error)
{
  if (isfinite (value) && value >= lo && value <= hi)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, pointer,
                /* Translators: a value found, then the least and the greatest allowed. */
                _ ("%g was found; it must lie between %g and %g."), value, lo, hi);
  return FALSE;
}
