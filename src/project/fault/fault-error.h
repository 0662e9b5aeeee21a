/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fault as everybody outside the core tells it: one GError whose message is "POINTER: sentence",
 * POINTER being the JSON Pointer (RFC 6901) of the key at fault ("/stone/values_mm/2"; "" = the
 * whole document). The sentence says what was found and what is allowed. The window marks the field
 * the pointer names; the command-line tool prints the message as it stands. */
#pragma once

#include <glib.h>

#define BW_FAULT (bw_fault_quark ())

typedef enum {
  BW_FAULT_SYNTAX,   /* not JSON, not UTF-8, nested too deep */
  BW_FAULT_MISSING,  /* a required key is absent */
  BW_FAULT_TYPE,     /* a key holds another kind of value than it must */
  BW_FAULT_RANGE,    /* a value outside its range, not finite, or not one of the words allowed */
  BW_FAULT_GEOMETRY, /* each value is possible alone, but not together (a face vanishes, …) */
  BW_FAULT_VERSION,  /* written by a newer program */
} BwFaultCode;

GQuark bw_fault_quark (void);

/* Sets *error (when not NULL) to a BW_FAULT. pointer may be "". */
void bw_fault_set (GError **error, BwFaultCode code, const char *pointer, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

/* The pointer of a BW_FAULT error, newly allocated; NULL for another error or when it is "". */
char *bw_fault_dup_pointer (const GError *error);

/* The sentence of a fault without its pointer (the whole message of another error). Borrowed. */
const char *bw_fault_sentence (const GError *error);
