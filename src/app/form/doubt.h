/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that the format allows and that are hard to believe: a slipped decimal point, a digit
 * struck twice. They are asked about beside the field and taken all the same. What counts as hard
 * to believe is common practice, no source. */
#pragma once

#include "app/form/field.h"
#include "project/document/examples.h"

typedef struct {
  char *question; /* one short sentence; owned by whoever asked */
  gboolean has_better;
  double better; /* what was probably meant, in the field's own unit */
} BwDoubt;

/* Whether the value the design has in this field is to be asked about. FALSE: *doubt is empty.
 * Faces are held against one another only when none of them is made up. Lengths are told in unit. */
gboolean bw_doubt_find (BwDoubt *doubt, const BwField *field, const BwDesign *design,
                        const BwExamples *made_up, BwUnit unit);
/* The same for the length, in mm, of a strip of `rows` ≥ 2 woven rows: against what the design
 * believed of the pitch before it was measured. What is meant is in mm; lengths are told in unit.
 */
gboolean bw_doubt_find_strip (BwDoubt *doubt, const BwDesign *design, int rows, double length_mm,
                              BwUnit unit);
void bw_doubt_clear (BwDoubt *doubt);
