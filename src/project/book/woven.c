/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-private.h"
#include "project/fault/fault-error.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

/* No hands set beads further apart or closer than this share of what they measure: another bead
 * was written down, or a decimal point slipped (judgement). */
#define PITCH_LEAST 0.75
#define PITCH_MOST 1.35

void
bw_woven_clear (BwWoven *piece)
{
  g_clear_pointer (&piece->checks, g_array_unref);
}

BwWoven
bw_woven_copy (const BwWoven *piece)
{
  BwWoven copy = *piece;

  if (piece->checks)
    copy.checks = g_array_copy (piece->checks);
  return copy;
}

gboolean
bw_woven_can_have (double diameter_mm, double pitch_mm)
{
  return pitch_mm >= PITCH_LEAST * diameter_mm && pitch_mm <= PITCH_MOST * diameter_mm;
}

static gboolean
validate_pitch (const BwWoven *piece, double pitch_mm, const char *pointer, const char *key,
                GError **error)
{
  g_autofree char *at = g_strconcat (pointer, key, NULL);

  if (bw_woven_can_have (piece->diameter_mm, pitch_mm))
    return TRUE;
  bw_fault_set (
      error, BW_FAULT_RANGE, at,
      _ ("this speaks for %.2f mm from bead to bead, which beads of %.2f mm cannot have."),
      pitch_mm, piece->diameter_mm);
  return FALSE;
}

/* A fault of the core at a reading of the project's, told where this one stands. */
static gboolean
tell_at (const BwFault *fault, const char *from, const char *pointer, const char *to,
         GError **error)
{
  g_autofree char *inner = bw_fault_pointer (fault), *words = bw_fault_words (fault);
  g_autofree char *at = g_strconcat (pointer, to, inner + strlen (from), NULL);

  bw_fault_set (error, bw_fault_code (fault), at, "%s", words);
  return FALSE;
}

/* A fault of the core at /gauge/swatch/…, told where this swatch stands. */
static gboolean
validate_swatch (const BwWoven *piece, const char *pointer, GError **error)
{
  BwGauge gauge = { .column_mm = 1, .pitch_mm = 1, .has_swatch = TRUE, .swatch = piece->swatch };
  BwFault fault;

  if (bw_gauge_validate (&gauge, &fault))
    return validate_pitch (piece, bw_swatch_pitch_mm (&piece->swatch), pointer, "/swatch/length_mm",
                           error);
  return tell_at (&fault, "/gauge", pointer, "", error);
}

static gboolean
validate_stretch (const BwWoven *piece, const char *pointer, GError **error)
{
  g_autofree char *size = g_strconcat (pointer, "/stretch/thread_mm", NULL);
  BwFault fault;

  return bw_fault_check_range (piece->thread_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, size, error)
         && (bw_stretch_reading_validate (&piece->stretch, &fault)
             || tell_at (&fault, "/thread/pulled", pointer, "/stretch", error));
}

static gboolean
validate_squeeze (const BwWoven *piece, const char *pointer, GError **error)
{
  g_autofree char *size = g_strconcat (pointer, "/squeeze/cord_width_mm", NULL);
  BwFault fault;

  return bw_fault_check_range (piece->cord_width_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, size,
                               error)
         && (bw_squeeze_reading_validate (&piece->squeeze, &fault)
             || tell_at (&fault, "/bed/pulled", pointer, "/squeeze", error));
}

static gboolean
validate_check (const BwWoven *piece, guint i, const char *pointer, GError **error)
{
  BwCheck check = g_array_index (piece->checks, BwCheck, i);
  g_autofree char *key = g_strdup_printf ("/checks/%u/length_mm", i);
  g_autofree char *rows = g_strdup_printf ("%s/checks/%u/rows", pointer, i);

  return bw_fault_check_range (check.rows, 1, BW_ROWS_MAX, rows, error)
         && validate_pitch (piece, 2 * check.length_mm / (check.rows + 1), pointer, key, error);
}

static gboolean
validate_end (const BwWoven *piece, const char *pointer, GError **error)
{
  g_autofree char *rows = g_strconcat (pointer, "/finished/rows", NULL);
  g_autofree char *girth = g_strconcat (pointer, "/finished/girth_sd_mm", NULL);

  if (!bw_fault_check_range (piece->end.rows, 6, BW_ROWS_MAX, rows, error)
      || !bw_fault_check_range (piece->end.girth_sd_mm, 0, BW_GIRTH_SD_MAX_MM, girth, error))
    return FALSE;
  g_autofree char *end = g_strconcat (pointer, "/finished", NULL);
  g_autofree char *cost = g_strconcat (end, "/cost", NULL);
  g_autofree char *columns = g_strconcat (end, "/columns", NULL);

  if (!bw_done_validate (&piece->end.done, end, error)
      || !bw_fault_check_range (piece->end.columns, 0, BW_COLUMNS_MAX, columns, error)
      || !bw_fault_check_range (piece->end.cost, 0, BW_DONE_PRICE_MAX, cost, error))
    return FALSE;
  if (piece->end.rows % 2 == 0)
    return validate_pitch (piece, piece->end.closing_pitch_mm, pointer,
                           "/finished/closing_pitch_mm", error);
  bw_fault_set (error, BW_FAULT_RANGE, rows,
                _ ("%d was found; a band closes with an even number of rows alone."),
                piece->end.rows);
  return FALSE;
}

gboolean
bw_date_validate (const char *date, const char *pointer, GError **error)
{
  g_autofree char *at = g_strconcat (pointer, "/date", NULL);
  int year, month, day, used = 0;

  if (strlen (date) == BW_DATE_BYTES - 1
      && sscanf (date, "%4d-%2d-%2d%n", &year, &month, &day, &used) == 3
      && used == BW_DATE_BYTES - 1 && year >= 1000 && month > 0 && day > 0
      && g_date_valid_dmy ((GDateDay)day, (GDateMonth)month, (GDateYear)year))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, at, _ ("“%s” was found; a day is written like 2026-11-29."),
                date);
  return FALSE;
}

gboolean
bw_woven_validate (const BwWoven *piece, const char *pointer, GError **error)
{
  g_autofree char *diameter = g_strconcat (pointer, "/diameter_mm", NULL);

  if (!bw_fault_check_range (piece->diameter_mm, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM, diameter,
                             error)
      || !bw_date_validate (piece->date, pointer, error)
      || (piece->has_swatch && !validate_swatch (piece, pointer, error))
      || (piece->has_stretch && !validate_stretch (piece, pointer, error))
      || (piece->has_squeeze && !validate_squeeze (piece, pointer, error)))
    return FALSE;
  for (guint i = 0; piece->checks && i < piece->checks->len; i++)
    if (!validate_check (piece, i, pointer, error))
      return FALSE;
  return !piece->has_end || validate_end (piece, pointer, error);
}

void
bw_woven_drop_impossible (BwWoven *piece)
{
  piece->has_swatch = piece->has_swatch && validate_swatch (piece, "", NULL);
  piece->has_stretch = piece->has_stretch && validate_stretch (piece, "", NULL);
  piece->has_squeeze = piece->has_squeeze && validate_squeeze (piece, "", NULL);
  for (guint i = piece->checks ? piece->checks->len : 0; i-- > 0;)
    if (!validate_check (piece, i, "", NULL))
      g_array_remove_index (piece->checks, i);
  piece->has_end = piece->has_end && validate_end (piece, "", NULL);
}

BwHandsPiece
bw_woven_hands (const BwWoven *piece, int kind)
{
  BwHandsPiece said = { kind, 0, 0 };
  double d = piece->diameter_mm;

  if (piece->left_out)
    return said;
  if (piece->has_swatch)
    bw_hands_add (&said, bw_hands_strip (piece->swatch.rows, piece->swatch.length_mm,
                                         bw_strip_error_mm (piece->swatch.tool), d));
  for (guint i = 0; piece->checks && i < piece->checks->len; i++) {
    BwCheck check = g_array_index (piece->checks, BwCheck, i);

    bw_hands_add (&said, bw_hands_strip (check.rows, check.length_mm,
                                         bw_strip_error_mm (BW_STRIP_BY_RULER), d));
  }
  if (piece->has_end)
    bw_hands_add (&said, bw_hands_finished (piece->end.rows / 2, piece->end.closing_pitch_mm,
                                            piece->end.girth_sd_mm, d));
  return said;
}
