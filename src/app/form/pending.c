/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The waiting room for values that cannot stand yet, so that a new stone may be typed in any order
 * and nothing typed is ever thrown away or half taken. What can stand is the project's to say: a
 * check of our own would let through what the project then refuses, and the value would be lost. */
#include "config.h"

#include "app/form/pending.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

static void
pending_free (gpointer data)
{
  BwPending *pending = data;
  g_free (pending->text);
  g_free (pending->reason);
  g_free (pending->blamed);
  g_free (pending);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwPending, pending_free)

GPtrArray *
bw_pendings_new (void)
{
  return g_ptr_array_new_with_free_func (pending_free);
}

static gboolean
is_for (gconstpointer pending, gconstpointer pointer)
{
  return g_str_equal (((const BwPending *)pending)->field.pointer, pointer);
}

const BwPending *
bw_pendings_find (GPtrArray *pendings, const char *pointer)
{
  guint index;
  if (!g_ptr_array_find_with_equal_func (pendings, pointer, is_for, &index))
    return NULL;
  return g_ptr_array_index (pendings, index);
}

void
bw_pendings_drop (GPtrArray *pendings, const char *pointer)
{
  guint index;
  if (g_ptr_array_find_with_equal_func (pendings, pointer, is_for, &index))
    g_ptr_array_remove_index (pendings, index);
}

static void
apply (const BwPending *pending, BwDesign *design)
{
  if (pending->is_clear)
    bw_field_clear (&pending->field, design);
  else if (pending->is_number)
    bw_field_set (&pending->field, design, pending->value);
}

static gboolean
can_be_tried (const BwPending *pending)
{
  return pending->is_number || pending->is_clear;
}

static void
blame (BwPending *pending, const GError *error)
{
  g_free (pending->reason);
  g_free (pending->blamed);
  pending->reason = g_strdup (bw_fault_sentence (error));
  pending->blamed = bw_fault_dup_pointer (error);
}

static gboolean
stands_alone (BwPending *pending, BwProject *project, const BwDesign *base, BwDesign *result)
{
  g_autoptr (GError) error = NULL;
  BwDesign design = *base;
  apply (pending, &design);
  if (!bw_project_check_design (project, &design, &error)) {
    blame (pending, error);
    return FALSE;
  }
  *result = design;
  return TRUE;
}

/* Everything that waits, and `one` last so that it wins over what it makes void. */
static gboolean
stands_with_all (GPtrArray *pendings, const BwPending *one, BwProject *project, BwDesign *result)
{
  BwDesign design = *bw_project_get_design (project);
  for (guint i = 0; i < pendings->len; i++)
    apply (g_ptr_array_index (pendings, i), &design);
  if (one)
    apply (one, &design);
  if (!bw_project_check_design (project, &design, NULL))
    return FALSE;
  *result = design;
  return TRUE;
}

static void
drop_all_tried (GPtrArray *pendings)
{
  for (guint i = pendings->len; i > 0; i--)
    if (can_be_tried (g_ptr_array_index (pendings, i - 1)))
      g_ptr_array_remove_index (pendings, i - 1);
}

static gboolean
stands_with_another (GPtrArray *pendings, const BwPending *one, BwProject *project,
                     BwDesign *result)
{
  for (guint i = 0; i < pendings->len; i++) {
    BwDesign design = *bw_project_get_design (project);
    const BwPending *other = g_ptr_array_index (pendings, i);
    if (!can_be_tried (other))
      continue;
    apply (other, &design);
    apply (one, &design);
    if (!bw_project_check_design (project, &design, NULL))
      continue;
    *result = design;
    g_ptr_array_remove_index (pendings, i);
    return TRUE;
  }
  return FALSE;
}

/* One after the other, as long as one more of them can stand. */
static gboolean
take_in_what_stands (GPtrArray *pendings, BwProject *project, BwDesign *design)
{
  gboolean any = FALSE;
  for (guint i = 0; i < pendings->len;) {
    BwPending *pending = g_ptr_array_index (pendings, i);
    if (can_be_tried (pending) && stands_alone (pending, project, design, design)) {
      g_ptr_array_remove_index (pendings, i);
      any = TRUE;
      i = 0;
    } else {
      i++;
    }
  }
  return any;
}

static BwPending *
pending_new (const BwField *field, const char *text, BwUnit unit)
{
  g_autoptr (GError) error = NULL;
  BwPending *pending = g_new0 (BwPending, 1);
  g_autofree char *bare = g_strstrip (g_strdup (text));
  pending->field = *field;
  pending->text = g_strdup (text);
  pending->is_clear = !*bare && field->flag;
  if (!pending->is_clear) {
    pending->is_number = bw_field_parse (field, text, unit, &pending->value, &error);
    if (error)
      blame (pending, error);
  }
  return pending;
}

gboolean
bw_pendings_offer (GPtrArray *pendings, BwProject *project, const BwField *field, const char *text,
                   BwUnit unit, BwDesign *result)
{
  const BwDesign *base = bw_project_get_design (project);
  g_autoptr (BwPending) one = pending_new (field, text, unit);
  bw_pendings_drop (pendings, field->pointer);
  if (can_be_tried (one)) {
    if (stands_with_all (pendings, one, project, result)) {
      drop_all_tried (pendings);
      return TRUE;
    }
    if (stands_alone (one, project, base, result)
        || stands_with_another (pendings, one, project, result)) {
      take_in_what_stands (pendings, project, result);
      return TRUE;
    }
  }
  g_ptr_array_add (pendings, g_steal_pointer (&one));
  return FALSE;
}

gboolean
bw_pendings_retry (GPtrArray *pendings, BwProject *project, BwDesign *result)
{
  if (pendings->len == 0)
    return FALSE;
  *result = *bw_project_get_design (project);
  if (take_in_what_stands (pendings, project, result))
    return TRUE;
  if (!stands_with_all (pendings, NULL, project, result))
    return FALSE;
  drop_all_tried (pendings);
  return TRUE;
}
