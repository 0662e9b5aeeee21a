/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/document/examples.h"

#include <string.h>

#define VALUES "/stone/values_mm/"

static guint64
all_values (const BwStoneMeasures *stone)
{
  int n = bw_stone_value_count (stone->measured, stone->faces);

  return n >= 64 ? ~(guint64)0 : ((guint64)1 << n) - 1;
}

BwExamples
bw_examples_all (const BwStoneMeasures *stone)
{
  return (BwExamples){
    .values = all_values (stone), .at = TRUE, .length = TRUE, .shoulder = stone->has_shoulder
  };
}

static gboolean
differ (double a, double b)
{
  return a < b || a > b;
}

static guint64
values_after (guint64 values, const BwStoneMeasures *before, const BwStoneMeasures *now)
{
  if (before->measured != now->measured || before->faces != now->faces)
    return values ? all_values (now) : 0;
  for (int i = 0; i < bw_stone_value_count (now->measured, now->faces); i++)
    if (differ (before->values_mm[i], now->values_mm[i]))
      values &= ~((guint64)1 << i);
  return values;
}

BwExamples
bw_examples_after (const BwExamples *examples, const BwStoneMeasures *before,
                   const BwStoneMeasures *now)
{
  gboolean same_way = before->has_shoulder == now->has_shoulder;

  return (BwExamples){
    .values = values_after (examples->values, before, now),
    .at = examples->at && !differ (before->at_mm, now->at_mm),
    .length = examples->length && !differ (before->length_mm, now->length_mm),
    .shoulder = examples->shoulder && !(same_way && differ (before->shoulder_mm, now->shoulder_mm)),
  };
}

gboolean
bw_examples_equal (const BwExamples *a, const BwExamples *b)
{
  return a->values == b->values && a->at == b->at && a->length == b->length
         && a->shoulder == b->shoulder;
}

/* The bit of a measured value; 0 when the pointer names none. */
static guint64
value_bit (const char *pointer)
{
  guint64 index;

  if (!g_str_has_prefix (pointer, VALUES)
      || !g_ascii_string_to_unsigned (pointer + strlen (VALUES), 10, 0, 63, &index, NULL))
    return 0;
  return (guint64)1 << index;
}

gboolean
bw_examples_has (const BwExamples *examples, const char *pointer)
{
  if (g_str_equal (pointer, "/stone/at_mm"))
    return examples->at;
  if (g_str_equal (pointer, "/stone/length_mm"))
    return examples->length;
  if (g_str_equal (pointer, "/stone/shoulder_mm"))
    return examples->shoulder;
  return (examples->values & value_bit (pointer)) != 0;
}

void
bw_examples_own (BwExamples *examples, const char *pointer)
{
  if (g_str_equal (pointer, "/stone/at_mm"))
    examples->at = FALSE;
  else if (g_str_equal (pointer, "/stone/length_mm"))
    examples->length = FALSE;
  else if (g_str_equal (pointer, "/stone/shoulder_mm"))
    examples->shoulder = FALSE;
  else
    examples->values &= ~value_bit (pointer);
}

/* --- As text ------------------------------------------------------------------------------------
 */

static const char *const alone[] = { "/stone/at_mm", "/stone/length_mm", "/stone/shoulder_mm" };

char *
bw_examples_to_text (const BwExamples *examples)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < 64; i++)
    if (examples->values >> i & 1)
      g_string_append_printf (text, VALUES "%u ", i);
  for (gsize i = 0; i < G_N_ELEMENTS (alone); i++)
    if (bw_examples_has (examples, alone[i]))
      g_string_append_printf (text, "%s ", alone[i]);
  if (text->len == 0)
    return NULL;
  g_string_truncate (text, text->len - 1);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Whatever is not named is the maker's own. */
BwExamples
bw_examples_from_text (const char *text, const BwStoneMeasures *stone)
{
  g_auto (GStrv) named = g_strsplit (text ? text : "", " ", -1);
  BwExamples all = bw_examples_all (stone), own = all;

  for (char **name = named; *name; name++)
    bw_examples_own (&own, *name);
  return (BwExamples){
    .values = all.values & ~own.values,
    .at = all.at && !own.at,
    .length = all.length && !own.length,
    .shoulder = all.shoulder && !own.shoulder,
  };
}
