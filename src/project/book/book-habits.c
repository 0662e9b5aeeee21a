/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/book-habits-private.h"
#include "project/book/book-habits.h"
#include "project/book/book-private.h"
#include "project/fault/fault-words.h"
#include "project/file/take.h"
#include "project/json/json.h"

#include <glib/gi18n-lib.h>

#define SPARE_MOST 10

static const struct {
  const char *key, *pointer;
  gsize offset; /* in BwDesign */
  double least, most;
} table[BW_N_HABITS] = {
#define HABIT(id, key, pointer, field, least, most)                                                \
  [BW_HABIT_##id] = { key, pointer, offsetof (BwDesign, field), least, most }
#define LENGTH(id, key, pointer, field)                                                            \
  HABIT (id, key, pointer, field, BW_LENGTH_MIN_MM, BW_LENGTH_MAX_MM)
  LENGTH (NEEDLE, "needle_mm", "/thread/needle_mm", thread.needle_mm),
  LENGTH (THREAD, "thread_mm", "/thread/diameter_mm", thread.diameter_mm),
  HABIT (WORKING, "working_mm", "/thread/working_mm", thread.working_mm, BW_LENGTH_MIN_MM, 1e5),
  HABIT (TAIL, "tail_mm", "/thread/tail_mm", thread.tail_mm, 0, BW_LENGTH_MAX_MM),
  LENGTH (CORD_THICKNESS, "cord_thickness_mm", "/bed/cord_thickness_mm", bed.cord_thickness_mm),
  LENGTH (CORD_WIDTH, "cord_width_mm", "/bed/cord_width_mm", bed.cord_width_mm),
  HABIT (OVERHANG, "overhang_mm", "/bed/overhang_mm", bed.overhang_mm, 0, BW_LENGTH_MAX_MM),
  LENGTH (HANGING_CORD, "hanging_cord_mm", "/bail/cord_mm", bail.cord_mm),
  HABIT (CLEARANCE, "clearance_mm", "/bail/clearance_mm", bail.clearance_mm, 0, BW_LENGTH_MAX_MM),
  HABIT (SPARE, "spare", "/materials/spare", supply.spare, 0, SPARE_MOST),
#undef LENGTH
#undef HABIT
};

const char *
bw_habit_pointer (BwHabit habit)
{
  return table[habit].pointer;
}

double *
bw_habit_in (BwHabit habit, BwDesign *design)
{
  return (double *)(void *)((char *)design + table[habit].offset);
}

/* --- Reading -----------------------------------------------------------------------------------
 */

static JsonObject *
root_object (const BwBook *book)
{
  return json_node_get_object (book->root);
}

static gboolean
check_value (BwHabit habit, double value, GError **error)
{
  g_autofree char *pointer = bw_json_pointer ("/habits", table[habit].key);

  return bw_fault_check_range (value, table[habit].least, table[habit].most, pointer, error);
}

static gboolean
read_habit (JsonObject *object, BwHabit habit, BwHabits *habits, GError **error)
{
  g_autofree char *pointer = bw_json_pointer ("/habits", table[habit].key);
  JsonNode *node = json_object_get_member (object, table[habit].key);

  habits->has[habit] = node != NULL;
  return !node
         || (bw_take_number (node, pointer, &habits->value[habit], error)
             && check_value (habit, habits->value[habit], error));
}

static gboolean
read_habits (const BwBook *book, BwHabits *habits, GError **error)
{
  JsonNode *node = json_object_get_member (root_object (book), "habits");
  JsonObject *object = node ? bw_take_object (node, "/habits", error) : NULL;

  *habits = (BwHabits){ 0 };
  if (!node)
    return TRUE;
  for (BwHabit habit = 0; object && habit < BW_N_HABITS; habit++)
    if (!read_habit (object, habit, habits, error))
      return FALSE;
  return object != NULL;
}

gboolean
bw_book_check_habits (const BwBook *book, GError **error)
{
  BwHabits habits;

  return read_habits (book, &habits, error);
}

void
bw_book_get_habits (const BwBook *book, BwHabits *habits)
{
  read_habits (book, habits, NULL);
}

/* --- Changing ----------------------------------------------------------------------------------
 */

static gboolean
are_same (const BwHabits *a, const BwHabits *b)
{
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (a->has[habit] != b->has[habit]
        || (a->has[habit]
            && (a->value[habit] < b->value[habit] || a->value[habit] > b->value[habit])))
      return FALSE;
  return TRUE;
}

static void
write_habits (BwBook *book, const BwHabits *habits)
{
  JsonObject *root = root_object (book), *object;

  if (!json_object_has_member (root, "habits"))
    json_object_set_object_member (root, "habits", json_object_new ());
  object = json_object_get_object_member (root, "habits");
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (habits->has[habit])
      json_object_set_member (object, table[habit].key, bw_json_number (habits->value[habit]));
    else if (json_object_has_member (object, table[habit].key))
      json_object_remove_member (object, table[habit].key);
}

gboolean
bw_book_change_habits (BwBook *book, const BwHabits *before, const BwHabits *habits, GError **error)
{
  BwHabits now;

  bw_book_get_habits (book, &now);
  if (!are_same (&now, before)) {
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                         _ ("the habits were changed by another program meanwhile"));
    return FALSE;
  }
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (habits->has[habit] && !check_value (habit, habits->value[habit], error))
      return FALSE;
  write_habits (book, habits);
  return TRUE;
}

void
bw_book_take_in_habits (BwBook *book, const BwBook *other)
{
  BwHabits own, theirs;
  gboolean any = FALSE;

  bw_book_get_habits (book, &own);
  bw_book_get_habits (other, &theirs);
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (!own.has[habit] && theirs.has[habit]) {
      own.has[habit] = any = TRUE;
      own.value[habit] = theirs.value[habit];
    }
  if (any)
    write_habits (book, &own);
}
