/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project itself stays with the main thread: what a thread reads is what would be saved. Read
 * once and pictured once, a copy serves every layout until the project changes. */
#include "config.h"

#include "app/make/page-copy.h"

#include "output/sheet/tags.h"
#include "preview/picture/portrait.h"
#include "project/snapshot.h"

static GMutex drawing;
static gboolean ended; /* under drawing */

struct _BwPageCopy {
  BwSnapshot *snapshot;
  GFile *file; /* whose name the pages bear where there is no title; NULL for never saved */
  /* Under drawing: */
  BwProject *project; /* NULL until it is read */
  cairo_surface_t *portrait[BW_N_PORTRAITS];
};

BwPageCopy *
bw_page_copy_new (BwProject *project)
{
  BwPageCopy *copy = g_atomic_rc_box_new0 (BwPageCopy);
  copy->snapshot = bw_snapshot_new (project);
  g_set_object (&copy->file, bw_project_get_file (project));
  return copy;
}

BwPageCopy *
bw_page_copy_ref (BwPageCopy *copy)
{
  return g_atomic_rc_box_acquire (copy);
}

static void
clear (gpointer data)
{
  BwPageCopy *copy = data;
  bw_snapshot_free (copy->snapshot);
  g_clear_object (&copy->file);
  g_clear_object (&copy->project);
  for (int i = 0; i < BW_N_PORTRAITS; i++)
    g_clear_pointer (&copy->portrait[i], cairo_surface_destroy);
}

void
bw_page_copy_unref (BwPageCopy *copy)
{
  g_atomic_rc_box_release_full (copy, clear);
}

static gboolean
read_once (BwPageCopy *copy, GError **error)
{
  gsize length;
  if (copy->project)
    return TRUE;
  g_autofree char *text = bw_snapshot_to_data (copy->snapshot, &length);
  copy->project = bw_project_load_data (text, length, error);
  if (!copy->project)
    return FALSE;
  bw_project_set_file (copy->project, copy->file);
  return TRUE;
}

static cairo_surface_t *
portrait (BwPageCopy *copy, BwPortrait from)
{
  if (!copy->portrait[from])
    copy->portrait[from] = bw_portrait_new (copy->project, from, BW_PORTRAIT_SIDE, NULL);
  return copy->portrait[from];
}

/* Larger than those for paper. */
static BwSheet *
lay_out_listing (BwPageCopy *copy)
{
  cairo_surface_t *large
      = bw_portrait_new (copy->project, BW_PORTRAIT_HANGING, BW_LISTING_SIDE, NULL);
  BwSheet *sheet = bw_listing_new (copy->project, large);
  g_clear_pointer (&large, cairo_surface_destroy);
  return sheet;
}

BwSheet *
bw_page_copy_lay_out (BwPageCopy *copy, BwPrintKind kind, BwPaper paper, GError **error)
{
  if (!read_once (copy, error))
    return NULL;
  switch (kind) {
  case BW_PRINT_STRIP:
    return bw_strip_new (copy->project, paper);
  case BW_PRINT_KIT:
    return bw_kit_new (copy->project, paper, bw_project_get_design (copy->project)->supply.pieces,
                       portrait (copy, BW_PORTRAIT_HANGING));
  case BW_PRINT_CHART:
    return bw_chart_sheet_new (copy->project, paper);
  case BW_PRINT_ORDER:
    return bw_order_sheet_new (copy->project, paper);
  case BW_PRINT_TAGS:
    return bw_tags_new (copy->project, paper, portrait (copy, BW_PORTRAIT_HANGING));
  case BW_PRINT_LISTING:
    return lay_out_listing (copy);
  case BW_PRINT_SHEET:
  default:
    return bw_sheet_new (copy->project, paper, portrait (copy, BW_PORTRAIT_HANGING),
                         portrait (copy, BW_PORTRAIT_JOIN));
  }
}

gboolean
bw_page_lock (void)
{
  g_mutex_lock (&drawing);
  if (ended)
    g_mutex_unlock (&drawing);
  return !ended;
}

void
bw_page_unlock (void)
{
  g_mutex_unlock (&drawing);
}

void
bw_page_end (void)
{
  g_mutex_lock (&drawing);
  ended = TRUE;
  g_mutex_unlock (&drawing);
}
