/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each rule sets a number beside another the maker has said, and asks when they are further apart
 * than beads or stones are. Where the point has slipped by one place, the number meant is offered.
 */
#include "config.h"

#include "app/form/doubt.h"
#include "project/document/length.h"
#include "project/girth-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a number is held against: ratios between `least` and `most` are believed. */
typedef struct {
  double other; /* 0: nothing to hold it against */
  double least, most;
  const char *tenth, *tenfold, *far; /* untranslated */
} Measure;

static Measure
against_bead (double other)
{
  return (Measure){ other,
                    0.6,
                    1.8,
                    N_ ("That is a tenth of the bead’s size."),
                    N_ ("That is ten times the bead’s size."),
                    N_ ("That is far from the bead’s own size.") };
}

static double
mean_of_others (const BwStoneMeasures *stone, int skip)
{
  int n = bw_stone_value_count (stone->measured, stone->faces);
  double sum = 0;
  for (int i = 0; i < n; i++)
    sum += i == skip ? 0 : stone->values_mm[i];
  return n > 1 ? sum / (n - 1) : 0;
}

/* About how thick the stone is; 0 when it is measured in a way that does not tell. */
static double
thickness_of (const BwStoneMeasures *stone)
{
  double mean = mean_of_others (stone, -1);
  int n = bw_stone_value_count (stone->measured, stone->faces);
  switch (stone->measured) {
  case BW_MEASURED_ACROSS_FLATS:
    return mean * (n - 1) / n;
  case BW_MEASURED_FACE_WIDTHS:
    return mean * (n - 1) / G_PI;
  case BW_MEASURED_GIRTH:
  default:
    return stone->values_mm[0] / G_PI;
  }
}

static Measure
against_other_widths (const BwStoneMeasures *stone, int i)
{
  /* A face may be a sliver; what is measured across two of them is not. */
  double least = stone->measured == BW_MEASURED_FACE_WIDTHS ? 0.12 : 0.4;
  return (Measure){ mean_of_others (stone, i),
                    least,
                    1 / least,
                    N_ ("That is about a tenth of the others."),
                    N_ ("That is about ten times the others."),
                    N_ ("That is far from the others.") };
}

/* Points are one to eight times as long as they are thick. */
static Measure
against_length (double length_mm)
{
  return (Measure){ length_mm * G_PI / 3.5,
                    0.3,
                    4,
                    N_ ("That is very thin for a stone this long."),
                    N_ ("That is very thick for a stone this long."),
                    N_ ("That is a strange girth for a stone this long.") };
}

static gboolean
ends_in (const BwField *field, const char *pointer)
{
  return g_str_equal (field->pointer, pointer);
}

static Measure
measure_of_stone (const BwField *field, const BwStoneMeasures *stone)
{
  if (g_str_has_prefix (field->pointer, "/stone/values_mm/")) {
    int i = atoi (field->pointer + strlen ("/stone/values_mm/"));
    if (stone->measured == BW_MEASURED_GIRTH)
      return against_length (stone->length_mm);
    return i < bw_stone_value_count (stone->measured, stone->faces)
               ? against_other_widths (stone, i)
               : (Measure){ 0 };
  }
  if (ends_in (field, "/stone/second_girth_mm"))
    return (Measure){ thickness_of (stone) * G_PI,
                      0.35,
                      2.8,
                      N_ ("That is about a tenth of the first girth."),
                      N_ ("That is about ten times the first girth."),
                      N_ ("That is far from the first girth.") };
  if (ends_in (field, "/stone/length_mm"))
    return (Measure){ thickness_of (stone) * 2.5,
                      0.3,
                      6,
                      N_ ("That is very short for a stone this thick."),
                      N_ ("That is very long for a stone this thick."),
                      N_ ("That is a strange length for a stone this thick.") };
  return (Measure){ 0 };
}

static Measure
measure_of_work (const BwField *field, const BwDesign *design)
{
  static const struct {
    const char *pointer;
    double usual, least, most;
  } usual[] = {
    { "/bead/diameter_mm", 2, 0.4, 4 },         { "/bead/length_mm", 1.6, 0.35, 4 },
    { "/bed/cord_thickness_mm", 0.4, 0.12, 4 }, { "/thread/diameter_mm", 0.16, 0.3, 3 },
    { "/thread/needle_mm", 0.4, 0.4, 2.5 },
  };
  if (ends_in (field, "/gauge/pitch_mm"))
    return against_bead (design->bead.diameter_mm);
  if (ends_in (field, "/gauge/column_mm"))
    return against_bead (design->bead.length_mm);
  for (gsize i = 0; i < G_N_ELEMENTS (usual); i++)
    if (ends_in (field, usual[i].pointer))
      return (Measure){ usual[i].usual,
                        usual[i].least,
                        usual[i].most,
                        N_ ("That is very small."),
                        N_ ("That is very large."),
                        N_ ("That is an unusual size.") };
  return (Measure){ 0 };
}

/* Whether the number would be believed with its point one place further on; the number meant then.
 */
static gboolean
shift_point (const Measure *measure, double value, double by, double *better)
{
  double ratio = value * by / measure->other;
  *better = round (value * by * 1e6) / 1e6;
  return ratio >= measure->least && ratio <= measure->most;
}

static gboolean
judge (BwDoubt *doubt, const Measure *measure, double value)
{
  double ratio = value / measure->other;
  if (!(measure->other > 0) || !(value > 0) || (ratio >= measure->least && ratio <= measure->most))
    return FALSE;
  doubt->has_better = shift_point (measure, value, ratio < 1 ? 10 : 0.1, &doubt->better);
  doubt->question = g_strdup (_ (!doubt->has_better ? measure->far
                                 : ratio < 1        ? measure->tenth
                                                    : measure->tenfold));
  return TRUE;
}

/* Minerals grow with three, four, six, eight or twelve faces; a digit struck twice makes more. */
static gboolean
judge_faces (BwDoubt *doubt, int faces)
{
  if (faces <= 16)
    return FALSE;
  int last = faces % 10;
  doubt->has_better = TRUE;
  doubt->better = last >= 3 ? last : 6;
  doubt->question = g_strdup_printf (_ ("A stone of %d faces is rare."), faces);
  return TRUE;
}

/* A face is read to about so much; a misfit of three times what that makes of all of them is no
 * calliper's. */
#define FACE_ERROR_MM 0.2
#define FACE_ERRORS 3

/* What its width would have to lose for the misfit to go, as far as one face can help: the misfit
 * along the face's own direction. */
static double
share_of_misfit (const BwStoneMeasures *stone, int face)
{
  double along = 0;
  for (int i = 0; i < stone->faces; i++)
    along += stone->values_mm[i] * cos (2 * G_PI * (i - face) / stone->faces);
  return along;
}

static double
misfit_mm (const BwStoneMeasures *stone)
{
  double x = 0, y = 0;
  for (int i = 0; i < stone->faces; i++) {
    x += stone->values_mm[i] * cos (2 * G_PI * i / stone->faces);
    y += stone->values_mm[i] * sin (2 * G_PI * i / stone->faces);
  }
  return hypot (x, y);
}

/* Opposite faces explain a misfit alike, one by being too long, the other by being too short: the
 * one that its number sets further apart from the others is asked about. */
static int
likeliest_slip (const BwStoneMeasures *stone)
{
  int slip = 0;
  double most = 0, furthest = 0;
  for (int i = 0; i < stone->faces; i++) {
    double share = fabs (share_of_misfit (stone, i));
    double apart = fabs (stone->values_mm[i] - mean_of_others (stone, i));
    gboolean as_good = share > 0.99 * most;
    if (share > most / 0.99 || (as_good && apart > furthest)) {
      slip = i;
      furthest = apart;
    }
    most = MAX (most, share);
  }
  return slip;
}

static gboolean
judge_misfit (BwDoubt *doubt, const BwField *field, const BwStoneMeasures *stone)
{
  static const char values[] = "/stone/values_mm/";
  if (stone->measured != BW_MEASURED_FACE_WIDTHS || !g_str_has_prefix (field->pointer, values)
      || misfit_mm (stone) <= FACE_ERRORS * FACE_ERROR_MM * sqrt (stone->faces))
    return FALSE;
  int face = atoi (field->pointer + strlen (values));
  if (face != likeliest_slip (stone))
    return FALSE;
  doubt->better = round (10 * (stone->values_mm[face] - share_of_misfit (stone, face))) / 10;
  doubt->has_better = doubt->better > 0;
  doubt->question
      = g_strdup (_ ("The faces do not meet, by more than callipers do: is it this one?"));
  return TRUE;
}

static gboolean
judge_girths (BwDoubt *doubt, const BwField *field, const BwStoneMeasures *stone, BwUnit unit)
{
  if (ends_in (field, "/stone/second_girth_mm"))
    doubt->question = bw_girth_words (stone, unit);
  return doubt->question != NULL;
}

gboolean
bw_doubt_find (BwDoubt *doubt, const BwField *field, const BwDesign *design,
               const BwExamples *made_up, BwUnit unit)
{
  *doubt = (BwDoubt){ 0 };
  if (!bw_field_is_there (field, design))
    return FALSE;
  if (ends_in (field, "/stone/faces"))
    return judge_faces (doubt, design->stone.faces);
  Measure measure = g_str_has_prefix (field->pointer, "/stone/")
                        ? measure_of_stone (field, &design->stone)
                        : measure_of_work (field, design);
  return judge (doubt, &measure, bw_field_get (field, design))
         || (!made_up->values && judge_misfit (doubt, field, &design->stone))
         || judge_girths (doubt, field, &design->stone, unit);
}

/* Between hands a pitch differs by up to a third; on a short strip the ruler's error counts too. */
#define STRIP_LEAST 0.75
#define STRIP_MOST 1.35
#define RULER_ERRORS 3
#define STRIP_LEAST_OF_ALL 0.3

static Measure
measure_of_strip (double expected_mm)
{
  double ruler = RULER_ERRORS * bw_strip_error_mm (BW_STRIP_BY_RULER) / expected_mm;
  return (Measure){ .other = expected_mm,
                    .least = MAX (STRIP_LEAST - ruler, STRIP_LEAST_OF_ALL),
                    .most = STRIP_MOST + ruler };
}

gboolean
bw_doubt_find_strip (BwDoubt *doubt, const BwDesign *design, int rows, double length_mm,
                     BwUnit unit)
{
  double pitches = (rows + 1) / 2.0;
  Measure measure = measure_of_strip (pitches * design->pitch.mm);
  double ratio = length_mm / measure.other;
  *doubt = (BwDoubt){ 0 };
  if (ratio >= measure.least && ratio <= measure.most)
    return FALSE;
  doubt->has_better = shift_point (&measure, length_mm, ratio < 1 ? 10 : 0.1, &doubt->better);
  g_autofree char *length = bw_length_format (length_mm, unit, 2);
  g_autofree char *pitch = bw_length_format (length_mm / pitches, unit, 2);
  g_autofree char *bead = bw_length_format (design->bead.diameter_mm, unit, 2);
  g_autofree char *known = bw_length_format (design->pitch.mm, unit, 2);
  doubt->question = g_strdup_printf (
      _ ("That is hard to believe: with %d rows on %s, bead would follow bead by %s. The bead is "
         "%s across, and until now bead followed bead by %s."),
      rows, length, pitch, bead, known);
  return TRUE;
}

void
bw_doubt_clear (BwDoubt *doubt)
{
  g_clear_pointer (&doubt->question, g_free);
}
