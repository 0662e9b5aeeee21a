/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/book/stash-item.h"

#include "core/base/tolerance.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

const char *const bw_stash_words[]
    = { "beads", "bed-cord", "thread", "hanging-cord", "stopper-bead", "ring", "clasp", NULL };

BwStashMeasure
bw_stash_measure (BwStashWhat what)
{
  if (what == BW_STASH_BEADS)
    return BW_STASH_BY_GRAMS;
  return what <= BW_STASH_HANGING_CORD ? BW_STASH_BY_LENGTH : BW_STASH_BY_COUNT;
}

gboolean
bw_stash_item_is (const BwStashItem *a, const BwStashItem *b)
{
  return a->what == b->what && g_str_equal (a->name, b->name) && g_str_equal (a->bead, b->bead)
         && a->finish == b->finish && g_str_equal (a->article, b->article)
         && g_str_equal (a->lot, b->lot) && bw_same_number (a->width_mm, b->width_mm);
}

static gboolean
check_needed (const char *text, const char *pointer, const char *key, const char *sentence,
              GError **error)
{
  g_autofree char *at = g_strconcat (pointer, key, NULL);

  if (!bw_line_check (text, at, error))
    return FALSE;
  if (strspn (text, " ") < strlen (text))
    return TRUE;
  bw_fault_set (error, BW_FAULT_MISSING, at, "%s", sentence);
  return FALSE;
}

static gboolean
check_texts (const BwStashItem *item, const char *pointer, GError **error)
{
  const char *const texts[][2]
      = { { "/article", item->article }, { "/lot", item->lot }, { "/note", item->note } };

  if (!check_needed (item->name, pointer, "/name", _ ("a name is needed."), error)
      || (item->what == BW_STASH_BEADS
          && !check_needed (item->bead, pointer, "/bead",
                            _ ("which bead it is of must be told, such as 11/0 cylinder."), error)))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autofree char *at = g_strconcat (pointer, texts[i][0], NULL);

    if (!bw_line_check (texts[i][1], at, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
check_amount (const BwStashItem *item, const char *pointer, GError **error)
{
  static const struct {
    const char *key;
    double most;
  } bounds[] = { [BW_STASH_BY_GRAMS] = { "/grams", BW_IN_HAND_MAX_G },
                 [BW_STASH_BY_LENGTH] = { "/length_mm", BW_STASH_LENGTH_MAX_MM },
                 [BW_STASH_BY_COUNT] = { "/count", BW_STASH_COUNT_MAX } };
  BwStashMeasure measure = bw_stash_measure (item->what);
  g_autofree char *at = g_strconcat (pointer, bounds[measure].key, NULL);

  if (!bw_fault_check_range (item->amount, 0, bounds[measure].most, at, error))
    return FALSE;
  if (measure != BW_STASH_BY_COUNT || !(floor (item->amount) < item->amount))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, at, _ ("%.10g was found; these are whole pieces."),
                item->amount);
  return FALSE;
}

gboolean
bw_stash_item_validate (const BwStashItem *item, const char *pointer, GError **error)
{
  g_autofree char *width = g_strconcat (pointer, "/width_mm", NULL);

  return check_texts (item, pointer, error)
         && bw_fault_check_range (item->width_mm, 0, BW_BEAD_KIND_MOST_MM, width, error)
         && check_amount (item, pointer, error);
}
