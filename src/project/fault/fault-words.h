/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The core's faults in words: where in the project file, and what is wrong, with the numbers found
 * and allowed. Every sentence about a measurement or a design is here and nowhere else. */
#pragma once

#include "core/base/fault.h"
#include "project/fault/fault-error.h"

/* The JSON Pointer of the key at fault: "/stone/values_mm/2". Owned. */
char *bw_fault_pointer (const BwFault *fault);

/* The sentence, in the user's language; lengths are told in mm, faces counted from 1. Owned. */
char *bw_fault_words (const BwFault *fault);

/* What kind of error the fault is. */
BwFaultCode bw_fault_code (const BwFault *fault);

/* Sets *error (when not NULL) to the BW_FAULT of it. Always FALSE, to be returned at once. */
gboolean bw_fault_tell (const BwFault *fault, GError **error);

/* TRUE when lo ≤ value ≤ hi and value is finite; else a BW_FAULT_RANGE at pointer that tells the
 * value found and the range: for values the core knows nothing of. */
gboolean bw_fault_check_range (double value, double lo, double hi, const char *pointer,
                               GError **error);
