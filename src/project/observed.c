/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/observed.h"

#include "project/book/book-file.h"
#include "project/document/line.h"
#include "project/fault/fault-error.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>

/* Whether so many beads close round, with some pull, were the pitch this one. */
static gboolean
closes_at (const BwDesign *design, const BwStone *stone, int rows, double pitch_mm)
{
  BwDesign at = *design;
  BwFit fit;

  at.pitch.mm = pitch_mm;
  at.tried = (BwBelief){ 0 };
  bw_fit_init (&fit, &at, stone, rows);
  for (int c = 0; c < fit.n_columns; c++)
    if (!fit.column[c].closes)
      return FALSE;
  return TRUE;
}

#define HALVINGS 40

/* The least pitch at which they close: shorter strips do not reach round. */
static double
closing_pitch_mm (const BwDesign *design, const BwStone *stone, int rows)
{
  double low = 0.5 * design->bead.diameter_mm, high = 2 * design->bead.diameter_mm;

  for (int i = 0; i < HALVINGS; i++) {
    double middle = (low + high) / 2;

    if (closes_at (design, stone, rows, middle))
      high = middle;
    else
      low = middle;
  }
  return (low + high) / 2;
}

static void
take_end (BwWoven *piece, BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwMaterials *needs = bw_project_materials (project);
  const BwDone *done = bw_project_get_done (project);

  piece->has_end = done->rows > 0;
  if (!piece->has_end)
    return;
  piece->end = (BwWovenEnd){
    .rows = done->rows,
    .columns = design->band.columns,
    .closing_pitch_mm = closing_pitch_mm (design, bw_project_stone (project), done->rows),
    .girth_sd_mm = design->stone.girth_sd_mm,
    .done = *done,
    .cost = needs->has_cost ? needs->cost.piece : 0,
  };
  g_strlcpy (piece->end.currency, design->supply.currency, sizeof piece->end.currency);
}

gboolean
bw_observed_check_rows (BwProject *project, int rows, GError **error)
{
  const BwDesign *design = bw_project_get_design (project);
  double pitch_mm = closing_pitch_mm (design, bw_project_stone (project), rows);

  if (bw_woven_can_have (design->bead.diameter_mm, pitch_mm))
    return TRUE;
  bw_fault_set (error, BW_FAULT_RANGE, "/finished/rows",
                _ ("to come round this stone with %d rows, bead would have to follow bead by "
                   "%.2f mm, which beads of %.2f mm cannot."),
                rows, pitch_mm, design->bead.diameter_mm);
  return FALSE;
}

static void
take_gives (BwWoven *piece, const BwDesign *design)
{
  piece->has_stretch = design->thread.has_pulled;
  piece->thread_mm = design->thread.diameter_mm;
  piece->stretch = design->thread.pulled;
  piece->has_squeeze = design->bed.has_pulled;
  piece->cord_width_mm = design->bed.cord_width_mm;
  piece->squeeze = design->bed.pulled;
}

gboolean
bw_observed_piece (BwWoven *piece, BwProject *project, const char *date)
{
  const BwDesign *design = bw_project_get_design (project);
  int n_checks;
  const BwCheck *checks = bw_project_get_checks (project, &n_checks);

  *piece = (BwWoven){ .diameter_mm = design->bead.diameter_mm };
  g_strlcpy (piece->id, bw_project_get_id (project), sizeof piece->id);
  g_strlcpy (piece->bead, design->bead.name, sizeof piece->bead);
  g_strlcpy (piece->date, date, sizeof piece->date);
  piece->has_swatch = design->gauge.has_swatch;
  piece->swatch = design->gauge.swatch;
  if (n_checks > 0) {
    piece->checks = g_array_new (FALSE, FALSE, sizeof (BwCheck));
    g_array_append_vals (piece->checks, checks, (guint)n_checks);
  }
  if (*bw_project_get_title (project) || bw_project_get_file (project)) {
    g_autofree char *name = bw_piece_name (project);
    bw_copy_text (piece->title, sizeof piece->title, name);
  }
  take_gives (piece, design);
  take_end (piece, project);
  bw_woven_drop_impossible (piece);
  return piece->has_swatch || (piece->checks && piece->checks->len > 0) || piece->has_stretch
         || piece->has_squeeze || piece->has_end;
}

/* What the maker said of the piece in the book and the project knows nothing of. */
static void
keep_what_the_book_says (BwWoven *piece, const BwWoven *before)
{
  piece->left_out = before->left_out;
  if (!piece->has_end) {
    piece->has_end = before->has_end;
    piece->end = before->end;
  }
  g_strlcpy (piece->thread, before->thread, sizeof piece->thread);
  g_strlcpy (piece->date, before->date, sizeof piece->date);
}

static gboolean
put (BwBook *book, gpointer data, GError **error)
{
  BwWoven *piece = data;
  int found = bw_book_find_piece (book, piece->id);

  if (found >= 0)
    keep_what_the_book_says (piece, bw_book_get_piece (book, (guint)found));
  return bw_book_put_piece (book, piece, error);
}

gboolean
bw_observed_put (BwWoven *piece, const char *path, GError **error)
{
  return bw_book_change (path, put, piece, error);
}

gboolean
bw_observed_note (BwProject *project, const char *path, const char *date, GError **error)
{
  g_auto (BwWoven) piece = { 0 };

  return !bw_observed_piece (&piece, project, date) || bw_observed_put (&piece, path, error);
}

char *
bw_observed_today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%F");
}
