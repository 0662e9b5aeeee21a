/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the maker is used to, kept in the book; a new project starts with it:
 *
 *   "habits": { "needle_mm": 0.4, "tail_mm": 120, … }
 *
 * Every key is optional; keys that are not known are kept. What things cost is remembered with the
 * prices, lengths and paper with the preferences. */
#pragma once

#include "project/book/book.h"

typedef enum {
  BW_HABIT_NEEDLE,
  BW_HABIT_THREAD,
  BW_HABIT_WORKING,
  BW_HABIT_TAIL,
  BW_HABIT_CORD_THICKNESS,
  BW_HABIT_CORD_WIDTH,
  BW_HABIT_OVERHANG,
  BW_HABIT_HANGING_CORD,
  BW_HABIT_CLEARANCE,
  BW_HABIT_SPARE,
  BW_N_HABITS
} BwHabit;

/* A plain value. */
typedef struct {
  gboolean has[BW_N_HABITS];
  double value[BW_N_HABITS]; /* mm; spare is a share */
} BwHabits;

/* Where it stands in a project: "/thread/needle_mm". */
const char *bw_habit_pointer (BwHabit habit);
double *bw_habit_in (BwHabit habit, BwDesign *design);

void bw_book_get_habits (const BwBook *book, BwHabits *habits);
/* FALSE with an error, and nothing done, when the book's are no longer `before`, or one of the new
 * ones is out of its range. */
gboolean bw_book_change_habits (BwBook *book, const BwHabits *before, const BwHabits *habits,
                                GError **error);
