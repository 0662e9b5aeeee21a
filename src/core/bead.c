/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One cylinder bead and the sizes found in a drawer. */
#include "config.h"
#include "bead.h"

#include "fault.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Diameter × length and hole: common practice, no source, from memory. Glass: soda-lime. */
static const BwBead sizes[] = {
  { "15/0 cylinder", 1.3, 1.0, 0.65, 2.5 },
  { "11/0 cylinder", 1.6, 1.3, 0.8, 2.5 },
  { "10/0 cylinder", 2.2, 1.7, 1.0, 2.5 },
  { "8/0 cylinder", 3.0, 2.5, 1.3, 2.5 },
};

double
bw_bead_mass_g (const BwBead *bead)
{
  double d = bead->diameter_mm, hole = bead->hole_mm;
  double volume_mm3 = G_PI / 4 * (d * d - hole * hole) * bead->length_mm;
  return bead->glass_g_cm3 * volume_mm3 / 1000;
}

const BwBead *
bw_bead_sizes (int *n_sizes)
{
  *n_sizes = G_N_ELEMENTS (sizes);
  return sizes;
}

void
bw_bead_set_name (BwBead *bead, const char *name)
{
  gsize length = MIN (strlen (name), sizeof bead->name - 1);
  const char *end = name + length;
  while (end > name && (*end & 0xc0) == 0x80)
    end--;
  memset (bead->name, 0, sizeof bead->name);
  memcpy (bead->name, name, (gsize)(end - name));
}

gboolean
bw_bead_validate (const BwBead *bead, GError **error)
{
  if (!bw_fault_check_range (bead->diameter_mm, 0.1, 50, "/bead/diameter_mm", error)
      || !bw_fault_check_range (bead->length_mm, 0.1, 50, "/bead/length_mm", error)
      || !bw_fault_check_range (bead->hole_mm, 0.01, 50, "/bead/hole_mm", error)
      || !bw_fault_check_range (bead->glass_g_cm3, 0.1, 25, "/bead/glass_g_cm3", error))
    return FALSE;
  if (bead->hole_mm < bead->diameter_mm)
    return TRUE;
  bw_fault_set (error, BW_FAULT_GEOMETRY, "/bead/hole_mm",
                _ ("A hole of %g mm does not fit into a bead of %g mm."), bead->hole_mm,
                bead->diameter_mm);
  return FALSE;
}
