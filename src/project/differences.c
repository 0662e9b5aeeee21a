/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that tell how much is at stake come first; values are named by what they belong to. */
#include "config.h"

#include "project/differences.h"
#include "project/document/keys.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define TITLE_MOST 40 /* characters of a title in a sentence */

/* The group's values in a maker's words. The band's size and the bail's beads are told apart. */
static const char *const group_words[BW_N_GROUPS] = {
  [BW_GROUP_STONE] = N_ ("the stone"),
  [BW_GROUP_LOOK] = N_ ("what the stone looks like"),
  [BW_GROUP_BEAD] = N_ ("the bead"),
  [BW_GROUP_GAUGE] = N_ ("how the beads lie"),
  [BW_GROUP_HANDS] = N_ ("what your hands are known to weave"),
  [BW_GROUP_SWATCH] = N_ ("the swatch"),
  [BW_GROUP_BED] = N_ ("the bed"),
  [BW_GROUP_BED_HANDS] = N_ ("what your beds are known to give"),
  [BW_GROUP_BED_PULLED] = N_ ("the bed under a pulled strip"),
  [BW_GROUP_BAND] = N_ ("where the band lies"),
  [BW_GROUP_BAIL] = N_ ("the bail"),
  [BW_GROUP_THREAD] = N_ ("the thread"),
  [BW_GROUP_THREAD_HANDS] = N_ ("what your threads are known to give"),
  [BW_GROUP_THREAD_PULLED] = N_ ("the swatch when pulled"),
  [BW_GROUP_FIT] = N_ ("slack and friction"),
  [BW_GROUP_MATERIALS] = N_ ("what to buy"),
  [BW_GROUP_PRICES] = N_ ("the prices"),
};

/* Takes the sentence. */
static void
tell (GStrvBuilder *words, char *sentence)
{
  g_strv_builder_add (words, sentence);
  g_free (sentence);
}

static char *
shortened (const char *title)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (title, -1) <= TITLE_MOST)
    return g_strdup (title);
  start = g_utf8_substring (title, 0, TITLE_MOST - 1);
  return g_strconcat (start, "…", NULL);
}

static void
compare_titles (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  g_autofree char *own = shortened (bw_project_get_title (here));
  g_autofree char *other = shortened (bw_project_get_title (file));
  g_autofree char *sentence = NULL;

  if (g_str_equal (bw_project_get_title (here), bw_project_get_title (file)))
    return;
  if (!*own)
    sentence = g_strdup_printf (_ ("It has no title here and the title “%s” in the file."), other);
  else if (!*other)
    sentence = g_strdup_printf (_ ("Its title is “%s” here; in the file it has none."), own);
  else
    sentence = g_strdup_printf (_ ("Its title is “%s” here and “%s” in the file."), own, other);
  g_strv_builder_add (words, sentence);
}

/* Beads whose letters differ; −1 when the drawings differ in size or one is missing. */
static int
beads_apart (const BwDrawing *a, const BwTray *tray_a, const BwDrawing *b, const BwTray *tray_b)
{
  int apart = 0;

  if (!a || !b || bw_drawing_columns (a) != bw_drawing_columns (b)
      || bw_drawing_rows (a) != bw_drawing_rows (b))
    return -1;
  for (int row = 1; row <= bw_drawing_rows (a); row++) {
    const guint8 *one = bw_drawing_row (a, row), *other = bw_drawing_row (b, row);

    for (int bead = 0; bead < bw_drawing_columns (a) / 2; bead++)
      apart += tray_a->colour[one[bead]].id != tray_b->colour[other[bead]].id;
  }
  return apart;
}

static void
compare_bands (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  const BwBand *own = &bw_project_get_design (here)->band;
  const BwBand *other = &bw_project_get_design (file)->band;
  int apart = beads_apart (bw_project_get_drawing (here), bw_project_get_tray (here),
                           bw_project_get_drawing (file), bw_project_get_tray (file));

  if (apart < 0) {
    g_autofree char *sentence = g_strdup_printf (
        _ ("The band has %d columns and %d rows here, %d columns and %d rows in the file."),
        own->columns, own->rows, other->columns, other->rows);

    g_strv_builder_add (words, sentence);
  }
  if (apart > 0)
    tell (words,
          g_strdup_printf (
              g_dngettext (GETTEXT_PACKAGE, "%d bead of the band has another colour in the file.",
                           "%d beads of the band have another colour in the file.", (gulong)apart),
              apart));
}

static void
compare_bails (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  int apart = beads_apart (bw_project_get_bail_drawing (here), bw_project_get_tray (here),
                           bw_project_get_bail_drawing (file), bw_project_get_tray (file));

  if (apart > 0)
    tell (words,
          g_strdup_printf (
              g_dngettext (GETTEXT_PACKAGE, "%d bead of the bail has another colour in the file.",
                           "%d beads of the bail have another colour in the file.", (gulong)apart),
              apart));
}

static gboolean
same_colour (const BwColour *a, const BwColour *b)
{
  return a->id == b->id && a->srgb == b->srgb && a->finish == b->finish
         && g_str_equal (a->name, b->name) && g_str_equal (a->article, b->article)
         && !(fabs (a->in_hand_g - b->in_hand_g) > 0);
}

static void
compare_trays (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  const BwTray *own = bw_project_get_tray (here), *other = bw_project_get_tray (file);
  gboolean same = own->n_colours == other->n_colours;

  for (int i = 0; same && i < own->n_colours; i++)
    same = same_colour (&own->colour[i], &other->colour[i]);
  if (!same)
    g_strv_builder_add (words, _ ("The tray holds other colours in the file."));
}

static void
compare_about (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  for (BwAbout about = 0; about < BW_N_ABOUT; about++)
    if (!g_str_equal (bw_project_get_about (here, about), bw_project_get_about (file, about))) {
      g_strv_builder_add (words, _ ("The file tells other things about the piece on its cover."));
      return;
    }
}

static gboolean
same_checks (BwProject *here, BwProject *file)
{
  int n_own, n_other;
  const BwCheck *own = bw_project_get_checks (here, &n_own);
  const BwCheck *other = bw_project_get_checks (file, &n_other);

  if (n_own != n_other)
    return FALSE;
  for (int i = 0; i < n_own; i++)
    if (own[i].rows != other[i].rows || fabs (own[i].length_mm - other[i].length_mm) > 0)
      return FALSE;
  return TRUE;
}

static gboolean
same_try_on (const BwTried *own, const BwTried *other)
{
  return own->rows == other->rows
         && (own->rows == 0
             || (own->reading.how == other->reading.how && own->reading.tool == other->reading.tool
                 && !(fabs (own->reading.short_mm - other->reading.short_mm) > 0)));
}

static void
compare_progress (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  int own = bw_project_get_rows_done (here), other = bw_project_get_rows_done (file);

  if (own != other) {
    g_autofree char *sentence
        = g_strdup_printf (_ ("Rows woven: %d here, %d in the file."), own, other);

    g_strv_builder_add (words, sentence);
  }
  if (!same_try_on (bw_project_get_tried (here), bw_project_get_tried (file)))
    g_strv_builder_add (words, _ ("The try-on is another in the file."));
  if (!bw_done_equal (bw_project_get_done (here), bw_project_get_done (file)))
    g_strv_builder_add (words, _ ("What is noted of the finished piece is other in the file."));
  if (!same_checks (here, file))
    g_strv_builder_add (words, _ ("Other lengths were measured at the bench in the file."));
}

static gboolean
only_the_size_differs (const BwBand *a, const BwBand *b)
{
  return !(fabs (a->bottom_mm - b->bottom_mm) > 0) && !(fabs (a->seam_deg - b->seam_deg) > 0);
}

static void
compare_values (GStrvBuilder *words, BwProject *here, BwProject *file)
{
  const BwDesign *own = bw_project_get_design (here), *other = bw_project_get_design (file);
  guint groups = bw_design_difference (own, other);
  g_autoptr (GString) list = g_string_new (NULL);
  g_autofree char *sentence = NULL;

  if (!g_str_equal (bw_project_get_mineral (here), bw_project_get_mineral (file)))
    groups |= 1u << BW_GROUP_STONE;
  if (only_the_size_differs (&own->band, &other->band))
    groups &= ~(1u << BW_GROUP_BAND);
  for (int g = 0; g < BW_N_GROUPS; g++)
    if (groups & 1u << g)
      g_string_append_printf (list, "%s%s", list->len ? ", " : "", _ (group_words[g]));
  if (list->len == 0)
    return;
  sentence = g_strdup_printf (_ ("Other values in the file: %s."), list->str);
  g_strv_builder_add (words, sentence);
}

char **
bw_project_differences (BwProject *here, BwProject *file)
{
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();

  compare_titles (words, here, file);
  compare_progress (words, here, file);
  compare_bands (words, here, file);
  compare_bails (words, here, file);
  compare_trays (words, here, file);
  compare_about (words, here, file);
  compare_values (words, here, file);
  return g_strv_builder_end (words);
}
