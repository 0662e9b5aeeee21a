/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bead is a tube of glass: what it weighs and which tubes are commonly sold. */

#include "core/design/bead.h"
#include "core/base/fault.h"
#include "core/base/tolerance.h"

#include <string.h>

#define MM3_PER_CM3 1000.0

gboolean
bw_bead_same_size (const BwBead *a, const BwBead *b)
{
  return bw_same_number (a->diameter_mm, b->diameter_mm)
         && bw_same_number (a->length_mm, b->length_mm) && bw_same_number (a->hole_mm, b->hole_mm);
}

double
bw_bead_mass_g (const BwBead *bead)
{
  double ring = bead->diameter_mm * bead->diameter_mm - bead->hole_mm * bead->hole_mm;
  return bead->glass_g_cm3 * (G_PI / 4) * ring * bead->length_mm / MM3_PER_CM3;
}

/* Common practice, no source, from memory. Soda-lime glass of 2.5 g/cm³. Round beads are shorter
 * along the hole than they are thick; reckoned as tubes they come out a little too heavy. */
static const BwBead sizes[] = {
  { "15/0 cylinder", 1.3, 1.0, 0.65, 2.5 },  { "11/0 cylinder", 1.6, 1.3, 0.8, 2.5 },
  { "10/0 cylinder", 2.2, 1.7, 1.0, 2.5 },   { "8/0 cylinder", 3.0, 2.5, 1.3, 2.5 },
  { "15/0 round seed", 1.5, 1.1, 0.6, 2.5 }, { "11/0 round seed", 2.2, 1.5, 0.8, 2.5 },
  { "8/0 round seed", 3.0, 2.1, 1.1, 2.5 },  { "6/0 round seed", 4.0, 2.9, 1.5, 2.5 },
};

const BwBead *
bw_bead_sizes (int *n_sizes)
{
  *n_sizes = G_N_ELEMENTS (sizes);
  return sizes;
}

void
bw_bead_set_name (BwBead *bead, const char *name)
{
  gsize room = sizeof bead->name - 1;
  gsize length = strlen (name);
  if (length > room) {
    const char *end = g_utf8_find_prev_char (name, name + room + 1);
    length = end ? (gsize)(end - name) : 0;
  }
  memset (bead->name, 0, sizeof bead->name);
  memcpy (bead->name, name, length);
}

gboolean
bw_bead_validate (const BwBead *bead, BwFault *fault)
{
  if (!bw_check_range (bead->diameter_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_BEAD_DIAMETER,
                       fault)
      || !bw_check_range (bead->length_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_BEAD_LENGTH,
                          fault)
      || !bw_check_range (bead->hole_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, BW_AT_BEAD_HOLE, fault)
      || !bw_check_range (bead->glass_g_cm3, BW_DENSITY_MIN, BW_DENSITY_MAX, BW_AT_BEAD_GLASS,
                          fault))
    return FALSE;
  if (bead->hole_mm < bead->diameter_mm)
    return TRUE;
  return bw_fault_is (fault, BW_FAULTY_NO_GLASS, BW_AT_BEAD_HOLE, bead->hole_mm, bead->diameter_mm,
                      0);
}
