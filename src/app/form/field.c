/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of everything a maker can type. One line a field keeps forms, undo labels and the
 * marking of faults from drifting apart. */
#include "config.h"

#include "app/form/field.h"
#include "app/form/measures.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#define AT(member) offsetof (BwDesign, member)

static const BwField fields[] = {
  { "/stone/density_g_cm3", N_ ("Density"), NULL, BW_QUANTITY_DENSITY, AT (stone.density_g_cm3), 0,
    0.01 },
  { "/stone/faces", N_ ("Faces round the stone"), NULL, BW_QUANTITY_COUNT, AT (stone.faces), 0, 1 },
  { "/stone/values_mm", N_ ("Measurement"), NULL, BW_QUANTITY_LENGTH, AT (stone.values_mm), 0,
    0.1 },
  { "/stone/at_mm", N_ ("Measured at height"),
    N_ ("Height above the base at which the section was measured"), BW_QUANTITY_LENGTH,
    AT (stone.at_mm), 0, 0.5 },
  { "/stone/second_girth_mm", N_ ("Second girth"),
    N_ ("A paper-strip girth at another height tells the taper"), BW_QUANTITY_LENGTH,
    AT (stone.second_girth_mm), AT (stone.has_second), 0.1 },
  { "/stone/second_at_mm", N_ ("Second girth at height"), NULL, BW_QUANTITY_LENGTH,
    AT (stone.second_at_mm), AT (stone.has_second), 0.5 },
  { "/stone/length_mm", N_ ("Length, base to tip"), NULL, BW_QUANTITY_LENGTH, AT (stone.length_mm),
    0, 0.5 },
  { "/stone/shoulder_mm", N_ ("Shoulder height"), N_ ("Where the prism ends and the point begins"),
    BW_QUANTITY_LENGTH, AT (stone.shoulder_mm), AT (stone.has_shoulder), 0.5 },
  { "/stone/natural_angle_deg", N_ ("Natural angle"),
    N_ ("How far a face of the point turns in from the face below it; quartz 38.22°"),
    BW_QUANTITY_ANGLE, AT (stone.natural_angle_deg), AT (stone.has_natural_angle), 0.1 },
  { "/stone/apex_offset_mm/0", N_ ("Tip off the axis, across"), N_ ("Towards face 1"),
    BW_QUANTITY_LENGTH, AT (stone.apex_offset_mm[0]), 0, 0.1 },
  { "/stone/apex_offset_mm/1", N_ ("Tip off the axis, along"),
    N_ ("A quarter turn counter-clockwise from face 1, seen from the tip"), BW_QUANTITY_LENGTH,
    AT (stone.apex_offset_mm[1]), 0, 0.1 },
  { "/stone/base_shoulder_mm", N_ ("Lower shoulder height"), NULL, BW_QUANTITY_LENGTH,
    AT (stone.base_shoulder_mm), AT (stone.has_base_shoulder), 0.5 },
  { "/stone/base_apex_offset_mm/0", N_ ("Lower tip off the axis, across"), NULL, BW_QUANTITY_LENGTH,
    AT (stone.base_apex_offset_mm[0]), 0, 0.1 },
  { "/stone/base_apex_offset_mm/1", N_ ("Lower tip off the axis, along"), NULL, BW_QUANTITY_LENGTH,
    AT (stone.base_apex_offset_mm[1]), 0, 0.1 },
  { "/stone/girth_sd_mm", N_ ("Girth may be off by"),
    N_ ("How far a girth is usually off: 0.4 mm for a careful paper strip"), BW_QUANTITY_LENGTH,
    AT (stone.girth_sd_mm), 0, 0.05 },

  { "/stone/look/growth_lines", N_ ("Growth lines"),
    N_ ("Fine steps on the faces; glass and massive stones have none"), BW_QUANTITY_SHARE,
    AT (look.growth_lines), 0, 0.05 },
  { "/stone/look/veils", N_ ("Veils inside"), N_ ("Beyond those usual in its mineral"),
    BW_QUANTITY_SHARE, AT (look.veils), 0, 0.05 },
  { "/stone/look/needles", N_ ("Needles inside"), NULL, BW_QUANTITY_SHARE, AT (look.needles), 0,
    0.05 },
  { "/stone/look/chips", N_ ("Chips on the edges"), NULL, BW_QUANTITY_SHARE, AT (look.chips), 0,
    0.05 },

  { "/bead/diameter_mm", N_ ("Bead diameter"), NULL, BW_QUANTITY_LENGTH, AT (bead.diameter_mm), 0,
    0.05 },
  { "/bead/length_mm", N_ ("Bead length"), N_ ("Along the hole"), BW_QUANTITY_LENGTH,
    AT (bead.length_mm), 0, 0.05 },
  { "/bead/hole_mm", N_ ("Bead hole"), NULL, BW_QUANTITY_LENGTH, AT (bead.hole_mm), 0, 0.05 },
  { "/bead/glass_g_cm3", N_ ("Glass density"), NULL, BW_QUANTITY_DENSITY, AT (bead.glass_g_cm3), 0,
    0.01 },

  { "/gauge/column_mm", N_ ("Column to column"),
    N_ ("From one column to the next, as your hands weave"), BW_QUANTITY_LENGTH,
    AT (gauge.column_mm), 0, 0.01 },
  { "/gauge/pitch_mm", N_ ("Bead to bead"),
    N_ ("From one bead of a column to the next; a row adds half"), BW_QUANTITY_LENGTH,
    AT (gauge.pitch_mm), 0, 0.01 },

  { "/bed/cord_thickness_mm", N_ ("Cord thickness, as laid"), NULL, BW_QUANTITY_LENGTH,
    AT (bed.cord_thickness_mm), 0, 0.05 },
  { "/bed/cord_width_mm", N_ ("Cord width, as laid"), NULL, BW_QUANTITY_LENGTH,
    AT (bed.cord_width_mm), 0, 0.1 },
  { "/bed/layers", N_ ("Layers of cord"), NULL, BW_QUANTITY_COUNT, AT (bed.layers), 0, 1 },
  { "/bed/top_extra_mm", N_ ("Thicker at the top edge by"),
    N_ ("More turns on the thin end make a tapered stone straight"), BW_QUANTITY_LENGTH,
    AT (bed.top_extra_mm), 0, 0.05 },
  { "/bed/squeeze", N_ ("Squeeze under the band"), N_ ("15 % is common practice"),
    BW_QUANTITY_SHARE, AT (bed.squeeze), 0, 0.01 },
  { "/bed/overhang_mm", N_ ("Band overhangs the bed by"), NULL, BW_QUANTITY_LENGTH,
    AT (bed.overhang_mm), 0, 0.1 },
  { "/bed/girth_over_mm", N_ ("Girth over the bed"),
    N_ ("Measured over the finished bed at the band’s middle; leave empty to go by the layers"),
    BW_QUANTITY_LENGTH, AT (bed.girth_over_mm), AT (bed.has_girth_over), 0.1 },

  { "/band/columns", N_ ("Columns"), N_ ("Beads across the band, an even number"),
    BW_QUANTITY_COUNT, AT (band.columns), 0, 2 },
  { "/band/rows", N_ ("Rows"), N_ ("An even number closes"), BW_QUANTITY_COUNT, AT (band.rows), 0,
    2 },
  { "/band/bottom_mm", N_ ("Lower edge at height"), NULL, BW_QUANTITY_LENGTH, AT (band.bottom_mm),
    0, 0.5 },
  { "/band/seam_deg", N_ ("Join"),
    N_ ("Where round the stone the join lies; 0° is the middle of face 1"), BW_QUANTITY_ANGLE,
    AT (band.seam_deg), 0, 5 },

  { "/bail/columns", N_ ("Bail columns"), N_ ("An even number, at least two fewer than the band"),
    BW_QUANTITY_COUNT, AT (bail.columns), 0, 2 },
  { "/bail/rows", N_ ("Bail rows"), NULL, BW_QUANTITY_COUNT, AT (bail.rows), 0, 2 },
  { "/bail/base_beads", N_ ("Foot of the loop, beads"), NULL, BW_QUANTITY_NUMBER,
    AT (bail.base_beads), 0, 1 },
  { "/bail/at_deg", N_ ("Bail at"),
    N_ ("Where round the stone the bail stands; at the join it hides it"), BW_QUANTITY_ANGLE,
    AT (bail.at_deg), 0, 5 },
  { "/bail/cord_mm", N_ ("Hanging cord"), NULL, BW_QUANTITY_LENGTH, AT (bail.cord_mm), 0, 0.5 },
  { "/bail/clearance_mm", N_ ("Clearance round the cord"), N_ ("2 mm is common practice"),
    BW_QUANTITY_LENGTH, AT (bail.clearance_mm), 0, 0.5 },

  { "/thread/diameter_mm", N_ ("Thread diameter"), NULL, BW_QUANTITY_LENGTH,
    AT (thread.diameter_mm), 0, 0.01 },
  { "/thread/needle_mm", N_ ("Needle diameter"), NULL, BW_QUANTITY_LENGTH, AT (thread.needle_mm), 0,
    0.01 },
  { "/thread/working_mm", N_ ("Working length"), N_ ("The longest length you like to sew with"),
    BW_QUANTITY_LENGTH, AT (thread.working_mm), 0, 50 },
  { "/thread/tail_mm", N_ ("Tail"), NULL, BW_QUANTITY_LENGTH, AT (thread.tail_mm), 0, 5 },
  { "/thread/stretch", N_ ("Thread stretch"), N_ ("1 % is common practice"), BW_QUANTITY_SHARE,
    AT (thread.stretch), 0, 0.001 },

  { "/fit/slack_mm", N_ ("Slack allowed"), N_ ("A strip longer than this does not grip"),
    BW_QUANTITY_LENGTH, AT (limits.slack_mm), 0, 0.1 },
  { "/fit/friction", N_ ("Friction of the bed on the stone"), N_ ("An assumption, no promise"),
    BW_QUANTITY_NUMBER, AT (limits.friction), 0, 0.01 },

  { "/materials/spare", N_ ("Spare beads"), NULL, BW_QUANTITY_SHARE, AT (supply.spare), 0, 0.01 },
  { "/materials/pack_g", N_ ("Beads in a pack"), NULL, BW_QUANTITY_GRAMS, AT (supply.pack_g), 0,
    1 },
  { "/materials/pieces", N_ ("Pieces to make"), NULL, BW_QUANTITY_COUNT, AT (supply.pieces), 0, 1 },
  { "/materials/neck_mm", N_ ("Length of the necklace"), N_ ("As worn, closed behind the neck"),
    BW_QUANTITY_LENGTH, AT (supply.neck_mm), 0, 10 },
  { "/materials/closing_mm", N_ ("Cord for closing it"),
    N_ ("What the knots or the ends in a clasp take, both ends together"), BW_QUANTITY_LENGTH,
    AT (supply.closing_mm), 0, 10 },
  { "/materials/prices/pack", N_ ("A pack of beads"), NULL, BW_QUANTITY_NUMBER, AT (supply.pack),
    AT (supply.has_prices), 0.1 },
  { "/materials/prices/thread_per_m", N_ ("Thread, a metre"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.thread_per_m), AT (supply.has_prices), 0.05 },
  { "/materials/prices/bed_cord_per_m", N_ ("Bed cord, a metre"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.bed_cord_per_m), AT (supply.has_prices), 0.05 },
  { "/materials/prices/hanging_cord_per_m", N_ ("Hanging cord, a metre"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.hanging_cord_per_m), AT (supply.has_prices), 0.05 },
  { "/materials/prices/findings", N_ ("Ring and clasp, a piece"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.findings), AT (supply.has_prices), 0.1 },
  { "/materials/prices/markup", N_ ("Mark-up on the cost"), NULL, BW_QUANTITY_SHARE,
    AT (supply.markup), AT (supply.has_prices), 0.05 },
  { "/materials/prices/round_to", N_ ("Round the price up to whole"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.round_to), AT (supply.has_prices), 0.5 },
  { "/materials/prices/stone", N_ ("The stone"), NULL, BW_QUANTITY_NUMBER, AT (supply.stone),
    AT (supply.has_prices), 0.5 },
  { "/materials/prices/hour", N_ ("An hour’s work"), NULL, BW_QUANTITY_NUMBER, AT (supply.hour),
    AT (supply.has_prices), 1 },
  { "/materials/prices/rows_per_hour", N_ ("Rows in an hour"), NULL, BW_QUANTITY_NUMBER,
    AT (supply.rows_per_hour), AT (supply.has_prices), 1 },
};

/* "/stone/values_mm/2" is the third value of "/stone/values_mm". */
static gboolean
find_value (BwField *field, const char *pointer)
{
  static const char prefix[] = "/stone/values_mm/";
  if (!g_str_has_prefix (pointer, prefix))
    return FALSE;
  char *end;
  const char *digits = pointer + strlen (prefix);
  guint64 index = g_ascii_strtoull (digits, &end, 10);
  if (!g_ascii_isdigit (*digits) || *end || index >= BW_FACES_MAX)
    return FALSE;
  bw_field_find (field, "/stone/values_mm");
  g_strlcpy (field->pointer, pointer, sizeof field->pointer);
  field->offset += (gsize)index * sizeof (double);
  return TRUE;
}

gboolean
bw_field_find (BwField *field, const char *pointer)
{
  if (find_value (field, pointer))
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    if (g_str_equal (fields[i].pointer, pointer)) {
      *field = fields[i];
      return TRUE;
    }
  return FALSE;
}

/* Where the value lies; a count is an int, everything else a double. */
static void *
place_of (const BwField *field, const BwDesign *design)
{
  return (char *)design + field->offset;
}

double
bw_field_get (const BwField *field, const BwDesign *design)
{
  const void *place = place_of (field, design);
  return field->quantity == BW_QUANTITY_COUNT ? *(const int *)place : *(const double *)place;
}

gboolean
bw_field_is_there (const BwField *field, const BwDesign *design)
{
  return !field->flag || *(const gboolean *)(const void *)((const char *)design + field->flag);
}

static void
set_flag (const BwField *field, BwDesign *design, gboolean there)
{
  if (field->flag)
    *(gboolean *)(void *)((char *)design + field->flag) = there;
}

/* What was learnt speaks of one cord and one thread; a value that is typed counts instead. */
static void
forget_squeeze (const BwField *field, BwDesign *design)
{
  double value = bw_field_get (field, design);
  bw_bed_unlearn (&design->bed);
  *(double *)place_of (field, design) = value;
}

static void
forget_stretch (const BwField *field, BwDesign *design)
{
  double value = bw_field_get (field, design);
  bw_thread_unlearn (&design->thread);
  *(double *)place_of (field, design) = value;
}

/* What a new value makes void. */
static void
drop_what_no_longer_holds (const BwField *field, BwDesign *design)
{
  const char *pointer = field->pointer;
  if (g_str_equal (pointer, "/gauge/pitch_mm") || g_str_equal (pointer, "/bead/diameter_mm"))
    design->gauge.has_hands = FALSE;
  if (g_str_has_prefix (pointer, "/gauge/"))
    design->gauge.has_swatch = FALSE;
  else if (g_str_has_prefix (pointer, "/bead/") && !g_str_has_suffix (pointer, "glass_g_cm3"))
    bw_bead_set_name (&design->bead, "");
  else if (g_str_equal (pointer, "/bed/squeeze") || g_str_equal (pointer, "/bed/cord_width_mm"))
    forget_squeeze (field, design);
  else if (g_str_equal (pointer, "/thread/stretch") || g_str_equal (pointer, "/thread/diameter_mm"))
    forget_stretch (field, design);
  else if (g_str_equal (pointer, "/bed/layers") || g_str_equal (pointer, "/bed/cord_thickness_mm"))
    design->bed.has_girth_over = FALSE;
  else if (g_str_equal (pointer, "/materials/prices/rows_per_hour"))
    design->supply.pace_columns = 0;
  else if (g_str_equal (pointer, "/stone/natural_angle_deg"))
    design->stone.has_shoulder = FALSE;
  else if (g_str_equal (pointer, "/stone/shoulder_mm"))
    design->stone.has_natural_angle = FALSE;
}

void
bw_field_set (const BwField *field, BwDesign *design, double value)
{
  void *place = place_of (field, design);
  if (g_str_equal (field->pointer, "/stone/second_girth_mm") && !design->stone.has_second)
    bw_measures_set_taper (&design->stone, TRUE);
  if (g_str_equal (field->pointer, "/stone/faces"))
    bw_measures_set_faces (&design->stone, (int)CLAMP (value, 0, 1e6));
  else if (field->quantity == BW_QUANTITY_COUNT)
    *(int *)place = (int)CLAMP (value, -1e9, 1e9);
  else
    *(double *)place = value;
  set_flag (field, design, TRUE);
  drop_what_no_longer_holds (field, design);
}

void
bw_field_clear (const BwField *field, BwDesign *design)
{
  set_flag (field, design, FALSE);
}

double
bw_field_step (const BwField *field, BwUnit unit)
{
  if (field->quantity != BW_QUANTITY_LENGTH || unit == BW_UNIT_MM)
    return field->step;
  /* A twenty-fifth of an inch for a millimetre: 0.5 mm becomes 0.02 in, 0.1 mm 0.004 in. */
  return field->step / 25 * 25.4;
}
