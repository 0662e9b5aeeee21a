/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fault is a value like any other; what it means in words is for others to say. */
#include "core/base/fault.h"

gboolean
bw_fault_of (BwFault *fault, BwFaultKind kind, BwFaultKey key, int index, double first,
             double second, double third)
{
  if (fault)
    *fault = (BwFault){ kind, key, index, { first, second, third } };
  return FALSE;
}

gboolean
bw_fault_is (BwFault *fault, BwFaultKind kind, BwFaultKey key, double first, double second,
             double third)
{
  return bw_fault_of (fault, kind, key, BW_WHOLE, first, second, third);
}

gboolean
bw_check_range_of (double value, double lo, double hi, BwFaultKey key, int index, BwFault *fault)
{
  return (value >= lo && value <= hi)
         || bw_fault_of (fault, BW_FAULTY_RANGE, key, index, value, lo, hi);
}

gboolean
bw_check_range (double value, double lo, double hi, BwFaultKey key, BwFault *fault)
{
  return bw_check_range_of (value, lo, hi, key, BW_WHOLE, fault);
}
