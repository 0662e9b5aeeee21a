/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is doubtful though not wrong, in whole sentences with the numbers that made us doubt. The
 * maker may know better, so nothing here stops anybody. */
#include "config.h"

#include "core/pattern/colour.h"
#include "project/girth-words.h"
#include "project/hang-words.h"
#include "project/project.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* A measured strip this far off the gauge (four times the prior's 2 %) is rather a slip of the pen
 * or a gauge typed for another bead. */
#define CHECK_DOUBTFUL_SHARE 0.08
/* Neither hanging upright nor lying level, as an eye sees it. */
#define TILT_DOUBTFUL_DEG 5.0
/* Peyote turns so far about its length without gaping (common practice, no source). */
#define TWIST_DOUBTFUL_DEG 30.0

/* The sentences gathered, and the unit their lengths are told in. `lengths` owns the formatted
 * lengths until all is told. */
typedef struct {
  GPtrArray *said;
  GPtrArray *lengths;
  BwUnit unit;
} Doubts;

static void G_GNUC_PRINTF (2, 3) add (Doubts *list, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_ptr_array_add (list->said, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

static const char *
told (Doubts *list, double mm, int decimals)
{
  char *text = bw_length_format (mm, list->unit, decimals);

  g_ptr_array_add (list->lengths, text);
  return text;
}

static void
warn_of_stone (BwProject *project, Doubts *list)
{
  const BwStone *stone = bw_project_stone (project);
  g_autofree char *girths = bw_girth_words (&bw_project_get_design (project)->stone, list->unit);

  if (stone->closing_error_large)
    add (list,
         _ ("The face widths do not meet: the misfit is %s, more than 2 %% of the girth of %s. "
            "Measure them again."),
         told (list, stone->closing_error_mm, 1), told (list, stone->girth_mm, 1));
  if (girths)
    add (list, "%s", girths);
}

/* The column with the greatest (or least) gap. */
static const BwFitColumn *
extreme_column (const BwFit *fit, gboolean greatest)
{
  const BwFitColumn *column = &fit->column[0];

  for (int i = 1; i < fit->n_columns; i++)
    if (greatest ? fit->column[i].gap_mm > column->gap_mm : fit->column[i].gap_mm < column->gap_mm)
      column = &fit->column[i];
  return column;
}

static void
warn_of_verdict (BwProject *project, Doubts *list)
{
  const BwFit *fit = bw_project_fit (project);
  const BwFitColumn *tight = extreme_column (fit, TRUE), *slack = extreme_column (fit, FALSE);

  if (fit->verdict == BW_VERDICT_ODD_ROWS)
    add (list,
         g_dngettext (GETTEXT_PACKAGE, "%d row is an odd number: the two ends cannot interlock.",
                      "%d rows is an odd number: the two ends cannot interlock.",
                      (gulong)fit->rows),
         fit->rows);
  else if (fit->verdict == BW_VERDICT_WILL_NOT_CLOSE)
    add (list,
         _ ("On paper the band will not close: with %d rows column %d is short by %s, and pulling "
            "gives "
            "only %s."),
         fit->rows, tight->column, told (list, tight->gap_mm, 2), told (list, tight->pull_mm, 2));
  else if (fit->verdict == BW_VERDICT_LOOSE)
    add (list, _ ("On paper the band is loose: with %d rows column %d is %s too long to grip."),
         fit->rows, slack->column, told (list, -slack->gap_mm, 2));
}

char *
bw_project_splay_words (BwProject *project, BwUnit unit)
{
  const BwSplay *splay = bw_project_splay (project);

  if (splay->max_deg <= BW_SPLAY_LIMIT_DEG)
    return NULL;
  g_autofree char *cure = bw_length_format (fmax (splay->cure_mm, 0), unit, 2);
  return g_strdup_printf (
      _ ("Thread will show at a corner of the stone: neighbouring beads turn away from each other "
         "by %.0f°, %.0f° is the limit. A bed at least %s thick cures it."),
      splay->max_deg, BW_SPLAY_LIMIT_DEG, cure);
}

static void
warn_of_splay (BwProject *project, Doubts *list)
{
  g_autofree char *words = bw_project_splay_words (project, list->unit);

  if (words)
    add (list, "%s", words);
}

static void
warn_of_point (BwProject *project, Doubts *list)
{
  const BwStone *stone = bw_project_stone (project);
  BwBandSpan span = bw_design_span (bw_project_get_design (project));
  double top = span.bottom_mm + span.width_mm;

  if (top > stone->shoulder_mm || span.bottom_mm < stone->base_shoulder_mm)
    add (list,
         _ ("The band, from %s to %s, reaches over a shoulder (the prism goes from %s to "
            "%s). On a sloping point the bed's thickness is meant horizontally."),
         told (list, span.bottom_mm, 1), told (list, top, 1),
         told (list, stone->base_shoulder_mm, 1), told (list, stone->shoulder_mm, 1));
}

/* The row count the repeat goes into that changes the least; there is always one below. */
static int
nearer_count (const BwJoin *join)
{
  gboolean above
      = join->repeat_above > 0 && join->repeat_above - join->rows < join->rows - join->repeat_below;

  return above ? join->repeat_above : join->repeat_below;
}

static void
warn_of_repeat (BwProject *project, Doubts *list)
{
  const BwJoin *join = bw_project_join (project);

  if (!join->interlocks || join->repeat_rows == 0 || join->repeat_closes)
    return;
  add (
      list,
      g_dngettext (GETTEXT_PACKAGE,
                   "The pattern repeats every %d rows, which does not go into %d: it breaks at the "
                   "join, at %u bead. With %d rows it would run on.",
                   "The pattern repeats every %d rows, which does not go into %d: it breaks at the "
                   "join, at %u beads. With %d rows it would run on.",
                   (gulong)join->broken->len),
      join->repeat_rows, join->rows, join->broken->len, nearer_count (join));
}

static double
chance_of_recommended (const BwForecast *forecast)
{
  for (int i = 0; i < forecast->n_chances; i++)
    if (forecast->chance[i].beads_around == forecast->recommended)
      return forecast->chance[i].p;
  return 0;
}

static void
warn_of_gauge (BwProject *project, Doubts *list)
{
  const BwGauge *gauge = &bw_project_get_design (project)->gauge;
  const BwForecast *forecast = bw_project_forecast (project);
  const BwCheck *checks;
  int n_checks;

  checks = bw_project_get_checks (project, &n_checks);
  if (!gauge->has_hands && !gauge->has_swatch && n_checks == 0)
    add (list,
         _ ("%s from bead to bead is the bead's size, not your hands': %d rows are right at the "
            "first try with a chance of about %.0f %%. Weave and measure a swatch, and try the "
            "strip "
            "on at row %d."),
         told (list, gauge->pitch_mm, 2), 2 * forecast->recommended,
         100 * chance_of_recommended (forecast), forecast->try_on_row);
  for (int i = 0; i < n_checks; i++) {
    double pitch = 2 * checks[i].length_mm / (checks[i].rows + 1);

    if (fabs (pitch / gauge->pitch_mm - 1) > CHECK_DOUBTFUL_SHARE)
      add (list,
           _ ("The strip of %d rows that measured %s speaks for %s from bead to bead; the gauge "
              "says "
              "%s. Is one of them a slip?"),
           checks[i].rows, told (list, checks[i].length_mm, 1), told (list, pitch, 2),
           told (list, gauge->pitch_mm, 2));
  }
}

static void
warn_of_progress (BwProject *project, Doubts *list)
{
  int done = bw_project_get_rows_done (project);
  int rows = bw_project_get_design (project)->band.rows;

  if (done > rows)
    add (list,
         g_dngettext (GETTEXT_PACKAGE, "%d row is marked as done, but the band has only %d.",
                      "%d rows are marked as done, but the band has only %d.", (gulong)done),
         done, rows);
}

static void
warn_of_fit (BwProject *project, Doubts *list)
{
  warn_of_verdict (project, list);
  warn_of_gauge (project, list);
  warn_of_splay (project, list);
  warn_of_point (project, list);
  warn_of_repeat (project, list);
  warn_of_progress (project, list);
}

static void
warn_of_opening (const BwLoop *loop, const BwBail *bail, Doubts *list)
{
  if (loop->opening_mm <= 0)
    add (list, _ ("Nothing passes through the bail: its opening comes out at %s."),
         told (list, loop->opening_mm, 1));
  else if (loop->largest_cord_mm < bail->cord_mm)
    add (list, _ ("The bail's opening of %s takes a cord of %s, not the %s wanted."),
         told (list, loop->opening_mm, 1), told (list, fmax (loop->largest_cord_mm, 0), 1),
         told (list, bail->cord_mm, 1));
  if (loop->largest_cord_mm < bail->cord_mm && loop->rows_needed > 0)
    add (list, _ ("A bail of %d rows lets the cord of %s through."), loop->rows_needed,
         told (list, bail->cord_mm, 1));
  if (!loop->parity_right)
    add (
        list,
        _ ("A bail of %d rows over a foot of %g beads does not meet the mirrored beads: take %d or "
           "%d rows."),
        bail->rows, bail->base_beads, loop->rows_below, loop->rows_above);
}

static void
warn_of_tilt (const BwHang *hang, const BwBail *bail, Doubts *list)
{
  g_autofree char *hangs = bw_hang_words (hang->up, hang->tilt_deg);

  if (hang->has_margin && !hang->level && hang->margin_mm < 0)
    add (list,
         _ ("The flap cannot hold the stone level: the balance point lies %s beyond its edge, "
            "and the piece hangs %s."),
         told (list, -hang->margin_mm, 1), hangs);
  else if (bail->style != BW_BAIL_FLAP && hang->tilt_deg > TILT_DOUBTFUL_DEG
           && hang->tilt_deg < 90 - TILT_DOUBTFUL_DEG)
    add (list, _ ("Not quite level or upright: the piece hangs %s."), hangs);
}

static void
warn_of_loop_over (const BwBailFrame *frame, const BwBail *bail, Doubts *list)
{
  if (bail->style != BW_BAIL_OVER)
    return;
  if (frame->twist_deg > TWIST_DOUBTFUL_DEG)
    add (list,
         _ ("The loop’s feet turn by %.0f° against the edge they are sewn to, and it will gape "
            "there: set them farther apart, best straight across."),
         frame->twist_deg);
  if (frame->beside_mm < 0)
    add (list,
         _ ("The stone stands in the loop’s way beside the tip, by %s: more rows give it room."),
         told (list, -frame->beside_mm, 1));
}

static void
warn_of_hang (BwProject *project, Doubts *list)
{
  const BwHang *hang = bw_project_hang (project);
  const BwDesign *design = bw_project_get_design (project);

  if (hang->has_bail) {
    warn_of_opening (&hang->loop, &design->bail, list);
    warn_of_loop_over (&hang->frame, &design->bail, list);
    warn_of_tilt (hang, &design->bail, list);
  }
  if (hang->wedge.slips)
    add (
        list,
        hang->wedge.thin_end == BW_THIN_TIP
            ? _ (
                "The band may slip towards the tip: the stone narrows by %.1f° under it, more than "
                "a friction of %.2f holds.")
            : _ ("The band may slip towards the base: the stone narrows by %.1f° under it, more "
                 "than a friction of %.2f holds."),
        fabs (hang->wedge.alpha_deg), design->limits.friction);
}

/* The first hole that was full; the maker will meet the others after it. */
static void
warn_of_full_hole (const BwFullHole *full, guint n, Doubts *list)
{
  if (full->in_bail)
    add (list,
         g_dngettext (GETTEXT_PACKAGE,
                      "%u hole is full when the needle must pass again, the first in row %d, "
                      "column %d of the bail, after %d passes. Forcing a needle breaks glass: "
                      "take a thinner thread or needle.",
                      "%u holes are full when the needle must pass again, the first in row %d, "
                      "column %d of the bail, after %d passes. Forcing a needle breaks glass: "
                      "take a thinner thread or needle.",
                      n),
         n, full->row, full->column, full->passes);
  else
    add (list,
         g_dngettext (GETTEXT_PACKAGE,
                      "%u hole is full when the needle must pass again, the first in row %d, "
                      "column %d of the band, after %d passes. Forcing a needle breaks glass: "
                      "take a thinner thread or needle.",
                      "%u holes are full when the needle must pass again, the first in row %d, "
                      "column %d of the band, after %d passes. Forcing a needle breaks glass: "
                      "take a thinner thread or needle.",
                      n),
         n, full->row, full->column, full->passes);
}

static void
warn_of_thread (BwProject *project, Doubts *list)
{
  const BwPath *path = bw_project_path (project);
  double working_mm = bw_project_get_design (project)->thread.working_mm;

  if (path->full_holes->len > 0)
    warn_of_full_hole (&g_array_index (path->full_holes, BwFullHole, 0), path->full_holes->len,
                       list);
  if (path->pass_too_long)
    add (list,
         _ ("One pass alone needs more thread than a working length of %s has, tails and "
            "weaving-in taken off."),
         told (list, working_mm, 0));
}

/* What a maker calls a colour: its name, or the letter it has on paper and its value. Owned. */
static char *
colour_words (const BwTray *tray, int i)
{
  const BwColour *colour = &tray->colour[i];
  char letter[BW_TRAY_LETTER];
  if (*colour->name)
    return g_strdup (colour->name);
  bw_tray_print_letter (tray, i, letter);
  return g_strdup_printf ("%s, #%06x", letter, colour->srgb);
}

/* Two colours in use that only a careful look tells apart. */
static void
warn_of_pair (const BwTray *tray, int i, int j, Doubts *list)
{
  const BwColour *a = &tray->colour[i], *b = &tray->colour[j];
  double difference = bw_colour_difference (bw_colour_lab (a->srgb), bw_colour_lab (b->srgb));

  if (difference >= BW_COLOUR_HARDLY || a->finish != b->finish)
    return;
  g_autofree char *first = colour_words (tray, i), *second = colour_words (tray, j);
  add (list,
       _ ("Colours “%s” and “%s” look almost alike (difference %.1f): they are easily mixed up at "
          "the "
          "bench."),
       first, second, difference);
}

static void
warn_of_materials (BwProject *project, Doubts *list)
{
  const BwMaterials *materials = bw_project_materials (project);
  const BwTray *tray = bw_project_get_tray (project);
  int rows = bw_project_get_design (project)->band.rows;

  if (materials->thread_rows != rows)
    add (list,
         _ ("A strip of %d rows cannot be zipped: the thread is estimated for %d rows, with zip, "
            "return and bail."),
         rows, materials->thread_rows);
  for (int i = 0; i < tray->n_colours; i++)
    for (int j = i + 1; materials->need[i].count > 0 && j < tray->n_colours; j++)
      if (materials->need[j].count > 0)
        warn_of_pair (tray, i, j, list);
}

char **
bw_project_warnings_about (BwProject *self, guint topics, BwUnit unit)
{
  static const struct {
    BwTopics topic;
    void (*warn) (BwProject *project, Doubts *list);
  } sources[] = {
    { BW_TOPIC_STONE, warn_of_stone },         { BW_TOPIC_FIT, warn_of_fit },
    { BW_TOPIC_HANG, warn_of_hang },           { BW_TOPIC_THREAD, warn_of_thread },
    { BW_TOPIC_MATERIALS, warn_of_materials },
  };
  g_autoptr (GPtrArray) lengths = g_ptr_array_new_with_free_func (g_free);
  Doubts doubts = { g_ptr_array_new_with_free_func (g_free), lengths, unit };

  for (gsize i = 0; i < G_N_ELEMENTS (sources); i++)
    if (topics & sources[i].topic)
      sources[i].warn (self, &doubts);
  g_ptr_array_add (doubts.said, NULL);
  return (char **)g_ptr_array_free (doubts.said, FALSE);
}

char **
bw_project_warnings (BwProject *self, BwUnit unit)
{
  return bw_project_warnings_about (self, BW_TOPIC_ALL, unit);
}
