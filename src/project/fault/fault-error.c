/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults carry the place before the sentence, so that the command line can print the message as it
 * stands; the window asks for one or the other. Where the place ends is kept beside the message: a
 * key may be any text, so it cannot be read out of it. */
#include "project/fault/fault-error.h"

#include <string.h>

#define SEPARATOR ": "

typedef struct {
  gsize pointer_bytes;
} BwFaultPrivate;

static void
bw_fault_private_init (BwFaultPrivate *private)
{
  private->pointer_bytes = 0;
}

static void
bw_fault_private_copy (const BwFaultPrivate *from, BwFaultPrivate *to)
{
  *to = *from;
}

static void
bw_fault_private_clear (BwFaultPrivate *private)
{
}

G_DEFINE_EXTENDED_ERROR (BwFault, bw_fault)

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
  g_autoptr (GError) fault
      = g_error_new (BW_FAULT, (int)code, "%s%s%s", pointer, separator, sentence);
  bw_fault_get_private (fault)->pointer_bytes = strlen (pointer);
  g_propagate_error (error, g_steal_pointer (&fault));
}

static gsize
pointer_bytes (const GError *error)
{
  return error->domain == BW_FAULT ? bw_fault_get_private (error)->pointer_bytes : 0;
}

char *
bw_fault_dup_pointer (const GError *error)
{
  g_return_val_if_fail (error, NULL);
  gsize bytes = pointer_bytes (error);
  return bytes > 0 ? g_strndup (error->message, bytes) : NULL;
}

const char *
bw_fault_sentence (const GError *error)
{
  g_return_val_if_fail (error, NULL);
  gsize bytes = pointer_bytes (error);
  return bytes > 0 ? error->message + bytes + strlen (SEPARATOR) : error->message;
}
