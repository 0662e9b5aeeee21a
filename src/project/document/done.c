/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/document/done.h"

#include "core/base/limits.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const char *const bw_fate_words[] = { "kept", "sold", "given", NULL };

static gboolean
check_rows (int rows, const char *pointer, const char *key, GError **error)
{
  g_autofree char *at = g_strconcat (pointer, key, NULL);

  if (!bw_fault_check_range (rows, 6, BW_ROWS_MAX, at, error))
    return FALSE;
  if (rows % 2 == 0)
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, at,
                _ ("%d was found; a band closes with an even number of rows alone."), rows);
  return FALSE;
}

static gboolean
check_number (double number, double most, const char *pointer, const char *key, GError **error)
{
  g_autofree char *at = g_strconcat (pointer, key, NULL);

  return bw_fault_check_range (number, 0, most, at, error);
}

gboolean
bw_done_validate (const BwDone *done, const char *pointer, GError **error)
{
  g_autofree char *picture = g_strconcat (pointer, "/picture", NULL);

  return done->rows == 0
         || (check_rows (done->rows, pointer, "/rows", error)
             && (done->planned == 0 || check_rows (done->planned, pointer, "/planned", error))
             && check_number (done->told, 1, pointer, "/told", error)
             && check_number (done->hours, BW_DONE_HOURS_MAX, pointer, "/hours", error)
             && check_number (done->price, BW_DONE_PRICE_MAX, pointer, "/price", error)
             && bw_line_check (done->picture, picture, error));
}

static gboolean
same (double a, double b)
{
  return !(fabs (a - b) > 0);
}

gboolean
bw_done_equal (const BwDone *a, const BwDone *b)
{
  return a->rows == b->rows
         && (a->rows == 0
             || (a->planned == b->planned && a->fate == b->fate && same (a->told, b->told)
                 && same (a->hours, b->hours) && same (a->price, b->price)
                 && g_str_equal (a->picture, b->picture)));
}
