/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table of places and one sentence a kind of fault, so that a window, a tool and a file that is
 * read all say the same of the same mistake. */
#include "config.h"

#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>

static const char *const pointers[BW_N_FAULT_KEYS] = {
  [BW_AT_STONE_FACES] = "/stone/faces",
  [BW_AT_STONE_MEASURED] = "/stone/measured",
  [BW_AT_STONE_VALUES] = "/stone/values_mm",
  [BW_AT_STONE_AT] = "/stone/at_mm",
  [BW_AT_STONE_SECOND_GIRTH] = "/stone/second_girth_mm",
  [BW_AT_STONE_SECOND_AT] = "/stone/second_at_mm",
  [BW_AT_STONE_LENGTH] = "/stone/length_mm",
  [BW_AT_STONE_SHOULDER] = "/stone/shoulder_mm",
  [BW_AT_STONE_NATURAL_ANGLE] = "/stone/natural_angle_deg",
  [BW_AT_STONE_APEX_OFFSET] = "/stone/apex_offset_mm",
  [BW_AT_STONE_BASE_SHOULDER] = "/stone/base_shoulder_mm",
  [BW_AT_STONE_BASE_APEX_OFFSET] = "/stone/base_apex_offset_mm",
  [BW_AT_STONE_GIRTH_SD] = "/stone/girth_sd_mm",
  [BW_AT_STONE_DENSITY] = "/stone/density_g_cm3",
  [BW_AT_LOOK_GROWTH_LINES] = "/stone/look/growth_lines",
  [BW_AT_LOOK_VEILS] = "/stone/look/veils",
  [BW_AT_LOOK_NEEDLES] = "/stone/look/needles",
  [BW_AT_LOOK_CHIPS] = "/stone/look/chips",
  [BW_AT_LOOK_SEED] = "/stone/look/seed",
  [BW_AT_BEAD_DIAMETER] = "/bead/diameter_mm",
  [BW_AT_BEAD_LENGTH] = "/bead/length_mm",
  [BW_AT_BEAD_HOLE] = "/bead/hole_mm",
  [BW_AT_BEAD_GLASS] = "/bead/glass_g_cm3",
  [BW_AT_GAUGE_COLUMN] = "/gauge/column_mm",
  [BW_AT_GAUGE_PITCH] = "/gauge/pitch_mm",
  [BW_AT_HANDS_PITCH] = "/gauge/hands/pitch_mm",
  [BW_AT_HANDS_PITCH_SD] = "/gauge/hands/pitch_sd_mm",
  [BW_AT_SWATCH_COLUMNS] = "/gauge/swatch/columns",
  [BW_AT_SWATCH_WIDTH] = "/gauge/swatch/width_mm",
  [BW_AT_SWATCH_ROWS] = "/gauge/swatch/rows",
  [BW_AT_SWATCH_LENGTH] = "/gauge/swatch/length_mm",
  [BW_AT_BED_CORD_THICKNESS] = "/bed/cord_thickness_mm",
  [BW_AT_BED_CORD_WIDTH] = "/bed/cord_width_mm",
  [BW_AT_BED_LAYERS] = "/bed/layers",
  [BW_AT_BED_GIRTH_OVER] = "/bed/girth_over_mm",
  [BW_AT_BED_TOP_EXTRA] = "/bed/top_extra_mm",
  [BW_AT_BED_SQUEEZE] = "/bed/squeeze",
  [BW_AT_BED_OVERHANG] = "/bed/overhang_mm",
  [BW_AT_BED_HANDS_SQUEEZE] = "/bed/hands/squeeze",
  [BW_AT_BED_HANDS_SD] = "/bed/hands/squeeze_sd",
  [BW_AT_BED_PULLED_GIRTH] = "/bed/pulled/girth_mm",
  [BW_AT_BED_PULLED_SLACK] = "/bed/pulled/slack_mm",
  [BW_AT_BED_PULLED_PULLED] = "/bed/pulled/pulled_mm",
  [BW_AT_BAND_COLUMNS] = "/band/columns",
  [BW_AT_BAND_ROWS] = "/band/rows",
  [BW_AT_BAND_BOTTOM] = "/band/bottom_mm",
  [BW_AT_BAND_SEAM] = "/band/seam_deg",
  [BW_AT_BAIL_COLUMNS] = "/bail/columns",
  [BW_AT_BAIL_ROWS] = "/bail/rows",
  [BW_AT_BAIL_BASE_BEADS] = "/bail/base_beads",
  [BW_AT_BAIL_AT] = "/bail/at_deg",
  [BW_AT_BAIL_CORD] = "/bail/cord_mm",
  [BW_AT_BAIL_CLEARANCE] = "/bail/clearance_mm",
  [BW_AT_THREAD_DIAMETER] = "/thread/diameter_mm",
  [BW_AT_THREAD_NEEDLE] = "/thread/needle_mm",
  [BW_AT_THREAD_WORKING] = "/thread/working_mm",
  [BW_AT_THREAD_TAIL] = "/thread/tail_mm",
  [BW_AT_THREAD_STRETCH] = "/thread/stretch",
  [BW_AT_THREAD_HANDS_STRETCH] = "/thread/hands/stretch",
  [BW_AT_THREAD_HANDS_SD] = "/thread/hands/stretch_sd",
  [BW_AT_THREAD_PULLED_SLACK] = "/thread/pulled/slack_mm",
  [BW_AT_THREAD_PULLED_PULLED] = "/thread/pulled/pulled_mm",
  [BW_AT_FIT_SLACK] = "/fit/slack_mm",
  [BW_AT_FIT_FRICTION] = "/fit/friction",
  [BW_AT_MATERIALS_SPARE] = "/materials/spare",
  [BW_AT_MATERIALS_PACK_G] = "/materials/pack_g",
  [BW_AT_MATERIALS_PIECES] = "/materials/pieces",
  [BW_AT_MATERIALS_NECK] = "/materials/neck_mm",
  [BW_AT_MATERIALS_CLOSING] = "/materials/closing_mm",
  [BW_AT_PRICES_PACK] = "/materials/prices/pack",
  [BW_AT_PRICES_THREAD] = "/materials/prices/thread_per_m",
  [BW_AT_PRICES_BED_CORD] = "/materials/prices/bed_cord_per_m",
  [BW_AT_PRICES_STONE] = "/materials/prices/stone",
  [BW_AT_PRICES_HOUR] = "/materials/prices/hour",
  [BW_AT_PRICES_ROWS_PER_HOUR] = "/materials/prices/rows_per_hour",
  [BW_AT_PRICES_PACE_COLUMNS] = "/materials/prices/pace_columns",
  [BW_AT_PRICES_HANGING_CORD] = "/materials/prices/hanging_cord_per_m",
  [BW_AT_PRICES_FINDINGS] = "/materials/prices/findings",
  [BW_AT_PRICES_MARKUP] = "/materials/prices/markup",
  [BW_AT_PRICES_ROUND_TO] = "/materials/prices/round_to",
  [BW_AT_PROGRESS_ROWS_DONE] = "/progress/rows_done",
  [BW_AT_PROGRESS_CHECKS] = "/progress/checks",
  [BW_AT_MOTIF_COLOURS] = "/n_colours",
  [BW_AT_MOTIF_FIRST_COLUMN] = "/first_column",
  [BW_AT_MOTIF_LAST_COLUMN] = "/last_column",
  [BW_AT_MOTIF_REPEATS] = "/repeats",
  [BW_AT_MOTIF_CENTRE] = "/centre",
  [BW_AT_MOTIF_SIZE] = "/size",
  [BW_AT_MOTIF_REACH] = "/reach",
  [BW_AT_MOTIF_SLOPE] = "/slope",
  [BW_AT_MOTIF_DENSITY] = "/density",
  [BW_AT_MOTIF_FACES] = "/n_faces",
  [BW_AT_MOTIF_TEXT] = "/text",
};

char *
bw_fault_pointer (const BwFault *fault)
{
  const char *pointer = pointers[fault->key];
  return fault->index == BW_WHOLE ? g_strdup (pointer)
                                  : g_strdup_printf ("%s/%d", pointer, fault->index);
}

BwFaultCode
bw_fault_code (const BwFault *fault)
{
  switch (fault->kind) {
  case BW_FAULTY_RANGE:
  case BW_FAULTY_ODD_COLUMNS:
  case BW_FAULTY_ODD_BAIL:
  case BW_FAULTY_HALF_BEADS:
  case BW_FAULTY_NO_STRIP:
  case BW_FAULTY_OVERLAP:
  case BW_FAULTY_NO_TEXT:
  case BW_FAULTY_NO_LETTER:
    return BW_FAULT_RANGE;
  case BW_FAULTY_NO_SHOULDER:
    return BW_FAULT_MISSING;
  default:
    return BW_FAULT_GEOMETRY;
  }
}

/* The pointer's last name tells the unit of what it points to; NULL for a bare number. */
static const char *
unit_at (const char *pointer)
{
  g_auto (GStrv) names = g_strsplit (pointer, "/", -1);
  for (guint i = 0, n = g_strv_length (names); i < n; i++) {
    if (g_str_has_suffix (names[i], "_mm"))
      return _ (" mm");
    if (g_str_has_suffix (names[i], "_deg"))
      return _ ("°");
  }
  return NULL;
}

static char *
range_words (double value, double lo, double hi, const char *pointer)
{
  const char *unit = unit_at (pointer);
  if (!unit)
    return g_strdup_printf (_ ("%.10g is not between %.10g and %.10g."), value, lo, hi);
  /* Translators: each number is followed by its unit, as “ mm” or “°”. */
  return g_strdup_printf (_ ("%.10g%s is not between %.10g%s and %.10g%s."), value, unit, lo, unit,
                          hi, unit);
}

/* The parts of bw_fault_words(): each NULL for a kind that it does not know. */

static char *
stone_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_NO_SHOULDER:
    return g_strdup (_ ("Where the point begins is not told; give the shoulder's height or the "
                        "natural angle."));
  case BW_FAULTY_NO_FLATS:
    return g_strdup_printf (_ ("A stone of %d faces has none that face each other, so it cannot be "
                               "measured across the flats; an even number of faces can."),
                            (int)n[0]);
  case BW_FAULTY_FACE_VANISHES:
    return g_strdup_printf (_ ("Face %d vanishes beside its neighbours: it would be %.4g mm wide, "
                               "and must be wider than 0."),
                            (int)n[0] + 1, n[1]);
  case BW_FAULTY_SAME_HEIGHT:
    return g_strdup_printf (_ ("The second girth is taken at %.10g mm, the height of the first "
                               "measurements; it must be taken at another height."),
                            n[0]);
  case BW_FAULTY_TAPERS_AWAY:
    return g_strdup (_ ("With this taper the prism comes to nothing before the stone ends; the "
                        "second girth must be nearer to the first."));
  case BW_FAULTY_OFF_PRISM:
    return g_strdup_printf (_ ("A height of %.10g mm is off the prism, which reaches from %.10g to "
                               "%.10g mm."),
                            n[0], n[1], n[2]);
  default:
    return NULL;
  }
}

static char *
point_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_POINT_TOO_LONG:
    return g_strdup_printf (_ ("A point at %.10g degrees would be %.4g mm long, more than the "
                               "stone's length of %.10g mm allows."),
                            n[0], n[1], n[2]);
  case BW_FAULTY_SHOULDER_HIGH:
    return g_strdup_printf (
        _ ("The shoulder lies at %.10g mm; it must lie below the tip at %.10g mm."), n[0], n[1]);
  case BW_FAULTY_POINTS_MEET:
    return g_strdup_printf (
        _ ("The lower point ends at %.10g mm; it must end below the shoulder at %.10g mm."), n[0],
        n[1]);
  case BW_FAULTY_TIP_OUT:
    return g_strdup_printf (_ ("The tip lies %.4g mm out over face %d, so the point does not lean "
                               "in from it; less than %.4g mm is allowed."),
                            n[0], (int)n[1] + 1, n[2]);
  default:
    return NULL;
  }
}

static char *
band_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_ODD_COLUMNS:
    return g_strdup_printf (
        _ ("%d columns cannot be woven in even-count peyote; the number must be even."), (int)n[0]);
  case BW_FAULTY_NO_GLASS:
    return g_strdup_printf (
        _ ("A hole of %.10g mm leaves no glass; it must be less than the diameter, %.10g mm."),
        n[0], n[1]);
  case BW_FAULTY_HOLE_TOO_SMALL:
    return g_strdup_printf (
        _ ("%.10g mm does not go through a hole of %.10g mm; it must be thinner."), n[0], n[1]);
  case BW_FAULTY_BAND_WIDE:
    return g_strdup_printf (
        _ ("%d columns make a band %.10g mm wide, wider than the stone is long, %.10g mm."),
        (int)n[0], n[1], n[2]);
  case BW_FAULTY_BAND_HIGH:
    return g_strdup_printf (_ ("A band %.10g mm wide that begins at %.10g mm reaches past the tip; "
                               "it must begin at %.10g mm or lower."),
                            n[0], n[1], n[2]);
  case BW_FAULTY_ROUND_LONG:
    return g_strdup_printf (
        _ ("At %.10g mm from bead to bead a round of %.4g mm would take more than the "
           "%d rows that are allowed."),
        n[0], n[1], (int)n[2]);
  default:
    return NULL;
  }
}

static char *
bed_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_GIRTH_UNDER:
    return g_strdup_printf (
        _ ("A girth of %.10g mm over the bed is less than the stone's own there, %.10g mm."), n[0],
        n[1]);
  case BW_FAULTY_GIRTH_FAR:
    return g_strdup_printf (
        _ ("A girth of %.10g mm over the bed is more than twice the stone's own "
           "there, %.10g mm; no bed is as thick as the stone it lies on."),
        n[0], n[1]);
  case BW_FAULTY_BED_UNDER:
    return g_strdup_printf (_ ("With a grade of %.10g mm the bed would be %.4g mm thick at one "
                               "edge; it must not be less than 0."),
                            n[0], n[1]);
  default:
    return NULL;
  }
}

static char *
bail_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_ODD_BAIL:
    return g_strdup_printf (_ ("A bail of %d columns cannot be woven in even-count peyote; the "
                               "number must be even."),
                            (int)n[0]);
  case BW_FAULTY_HALF_BEADS:
    return g_strdup_printf (_ ("%.10g is not a whole number of half beads."), n[0]);
  case BW_FAULTY_BAND_NARROW:
    return g_strdup_printf (
        _ ("A band of %d columns is too narrow for this bail; it needs at least 4."), (int)n[0]);
  case BW_FAULTY_BAIL_WIDE:
    return g_strdup_printf (
        _ ("A bail of %d columns is too wide for a band of %d; at most %d are allowed."), (int)n[0],
        (int)n[1], (int)n[2]);
  case BW_FAULTY_STRIP_WIDE:
    return g_strdup_printf (_ ("A strip of %d columns is %.4g mm wide, more than the %.4g mm round "
                               "the band."),
                            (int)n[0], n[1], n[2]);
  case BW_FAULTY_BASE_WIDE:
    return g_strdup_printf (_ ("A foot of %.10g columns is wider than the band's %.10g."), n[0],
                            n[1]);
  case BW_FAULTY_BASE_LONG:
    return g_strdup_printf (_ ("A foot of %.10g beads is longer than the band's %.10g."), n[0],
                            n[1]);
  case BW_FAULTY_LOOP_SHORT:
    return g_strdup_printf (
        _ ("%d rows make a loop %.4g mm long, too short to arch over its foot of %.4g mm."),
        (int)n[0], n[1], n[2]);
  default:
    return NULL;
  }
}

static char *
strip_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_NO_STRIP:
    return g_strdup (_ ("Count the woven rows first: a strip is tried on at a row."));
  case BW_FAULTY_OVERLAP:
    return g_strdup_printf (
        _ ("A strip of %d rows cannot lie over itself by %.1f beads: count again."), (int)n[0],
        n[1]);
  default:
    return NULL;
  }
}

static char *
letter_words (gunichar character)
{
  char letter[8] = { 0 };
  g_unichar_to_utf8 (character, letter);
  return g_strdup_printf (
      _ ("The bead alphabet has no “%s”; it has A to Z with accents, ẞ, 0 to 9, ♥ and "
         "- + . , : / ! ? & * '."),
      letter);
}

static char *
motif_words (BwFaultKind kind, const double n[3])
{
  switch ((int)kind) {
  case BW_FAULTY_FACE_NARROW:
    return g_strdup_printf (_ ("Face %d is too narrow for a motif of its own."), (int)n[0] + 1);
  case BW_FAULTY_FACES_OPEN:
    return g_strdup (_ ("The faces do not go once round."));
  case BW_FAULTY_NO_TEXT:
    return g_strdup (_ ("There is no text to set in beads."));
  case BW_FAULTY_NO_LETTER:
    return letter_words ((gunichar)n[0]);
  case BW_FAULTY_TEXT_HIGH:
    return g_strdup_printf (
        _ ("These letters need %d columns, and there are %d from the first to the "
           "last."),
        (int)n[0], (int)n[1]);
  case BW_FAULTY_TEXT_LONG:
    return g_strdup_printf (
        _ ("This text needs %d rows, and there are %d for it. Make it shorter, or "
           "give it fewer columns."),
        (int)n[0], (int)n[1]);
  default:
    return NULL;
  }
}

char *
bw_fault_words (const BwFault *fault)
{
  static char *(*const parts[]) (BwFaultKind kind, const double n[3])
      = { stone_words, point_words, band_words, bed_words, bail_words, strip_words, motif_words };
  const double *n = fault->number;
  char *words = fault->kind == BW_FAULTY_RANGE
                    ? range_words (n[0], n[1], n[2], pointers[fault->key])
                    : NULL;
  for (gsize i = 0; !words && i < G_N_ELEMENTS (parts); i++)
    words = parts[i](fault->kind, n);
  g_return_val_if_fail (words, g_strdup (""));
  return words;
}

gboolean
bw_fault_tell (const BwFault *fault, GError **error)
{
  g_autofree char *pointer = bw_fault_pointer (fault), *words = bw_fault_words (fault);
  bw_fault_set (error, bw_fault_code (fault), pointer, "%s", words);
  return FALSE;
}

gboolean
bw_fault_check_range (double value, double lo, double hi, const char *pointer, GError **error)
{
  if (value >= lo && value <= hi)
    return TRUE;
  g_autofree char *words = range_words (value, lo, hi, pointer);
  bw_fault_set (error, BW_FAULT_RANGE, pointer, "%s", words);
  return FALSE;
}
