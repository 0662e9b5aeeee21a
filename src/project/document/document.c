/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document's values: making, sharing, comparing, and the ranges that belong to no other room.
 */
#include "config.h"

#include "project/document/document.h"
#include "project/document/line.h"
#include "project/fault/fault-words.h"
#include <math.h>
#include <glib/gi18n-lib.h>
#include <string.h>

/* A strip length that would mean a pitch outside these is a slip of the pen, whatever the bead. */
#define CHECK_PITCH_MIN_MM 0.1
#define CHECK_PITCH_MAX_MM 50.0

BwFrame *
bw_frame_new (const BwFrame *from)
{
  BwFrame *frame = g_rc_box_new0 (BwFrame);

  if (from)
    *frame = *from;
  else
    bw_design_defaults (&frame->design);
  return frame;
}

void
bw_frame_unref (BwFrame *frame)
{
  g_rc_box_release (frame);
}

BwTrayValue *
bw_tray_value_new (void)
{
  BwTrayValue *tray = g_rc_box_new0 (BwTrayValue);

  bw_tray_init (&tray->tray);
  return tray;
}

static void
clear_extras (JsonObject **extra, int n)
{
  for (int i = 0; i < n; i++)
    g_clear_pointer (&extra[i], json_object_unref);
}

static void
tray_value_clear (gpointer tray)
{
  clear_extras (((BwTrayValue *)tray)->extra, BW_TRAY_MAX);
}

void
bw_tray_value_unref (BwTrayValue *tray)
{
  g_rc_box_release_full (tray, tray_value_clear);
}

BwText *
bw_text_new (const char *title, const char *mineral)
{
  BwText *text = g_rc_box_new (BwText);

  text->title = bw_line_make (title);
  text->mineral = bw_line_make (mineral);
  for (int i = 0; i < BW_N_ABOUT; i++)
    text->about[i] = g_strdup ("");
  return text;
}

/* Owned by its maker alone. */
static BwText *
text_like (const BwText *from, const char *title, const char *mineral)
{
  BwText *text = bw_text_new (title, mineral);

  for (int i = 0; i < BW_N_ABOUT; i++) {
    g_free (text->about[i]);
    text->about[i] = g_strdup (from->about[i]);
  }
  return text;
}

BwText *
bw_text_with_title (const BwText *text, const char *title)
{
  return text_like (text, title, text->mineral);
}

BwText *
bw_text_with_mineral (const BwText *text, const char *mineral)
{
  return text_like (text, text->title, mineral);
}

BwText *
bw_text_with_about (const BwText *text, BwAbout about, const char *words)
{
  BwText *with = text_like (text, text->title, text->mineral);

  g_free (with->about[about]);
  with->about[about] = bw_line_make (words);
  return with;
}

static void
text_clear (gpointer data)
{
  BwText *text = data;

  g_free (text->title);
  g_free (text->mineral);
  for (int i = 0; i < BW_N_ABOUT; i++)
    g_free (text->about[i]);
}

void
bw_text_unref (BwText *text)
{
  g_rc_box_release_full (text, text_clear);
}

BwProgress *
bw_progress_new (void)
{
  return g_rc_box_new0 (BwProgress);
}

BwProgress *
bw_progress_like (const BwProgress *from)
{
  BwProgress *progress = bw_progress_new ();

  *progress = *from;
  progress->tried_extra = NULL;
  progress->done_extra = NULL;
  memset (progress->extra, 0, sizeof progress->extra);
  return progress;
}

static void
progress_clear (gpointer progress)
{
  clear_extras (((BwProgress *)progress)->extra, BW_CHECKS_MAX);
  clear_extras (&((BwProgress *)progress)->tried_extra, 1);
  clear_extras (&((BwProgress *)progress)->done_extra, 1);
}

void
bw_progress_unref (BwProgress *progress)
{
  g_rc_box_release_full (progress, progress_clear);
}

BwMotifs *
bw_motifs_new (void)
{
  return g_rc_box_new0 (BwMotifs);
}

static void
motifs_clear (gpointer motifs)
{
  clear_extras (((BwMotifs *)motifs)->extra, BW_MADE_MAX);
}

void
bw_motifs_unref (BwMotifs *motifs)
{
  g_rc_box_release_full (motifs, motifs_clear);
}

static void
take_over (JsonObject **extra, JsonObject *const from)
{
  if (from && !*extra)
    *extra = json_object_ref (from);
}

void
bw_tray_value_inherit (BwTrayValue *tray, const BwTrayValue *old)
{
  gboolean same_places = tray->tray.n_colours == old->tray.n_colours;

  for (int i = 0; i < tray->tray.n_colours; i++) {
    int was = bw_tray_find (&old->tray, tray->tray.colour[i].id);

    if (was < 0 && same_places && bw_tray_find (&tray->tray, old->tray.colour[i].id) < 0)
      was = i;
    if (was >= 0)
      take_over (&tray->extra[i], old->extra[was]);
  }
}

static gboolean
checks_equal (const BwCheck *a, const BwCheck *b)
{
  return a->rows == b->rows && !(a->length_mm < b->length_mm) && !(a->length_mm > b->length_mm);
}

void
bw_progress_inherit (BwProgress *progress, const BwProgress *old)
{
  int next = 0;

  if (progress->tried.rows > 0 && old->tried.rows > 0)
    take_over (&progress->tried_extra, old->tried_extra);
  if (progress->done.rows > 0 && old->done.rows > 0)
    take_over (&progress->done_extra, old->done_extra);
  for (int i = 0; i < progress->n_checks; i++) {
    int was = next;

    while (was < old->n_checks && !checks_equal (&progress->check[i], &old->check[was]))
      was++;
    if (was < old->n_checks)
      next = was + 1;
    else if (progress->n_checks == old->n_checks)
      was = i;
    if (was < old->n_checks)
      take_over (&progress->extra[i], old->extra[was]);
  }
}

void
bw_motifs_inherit (BwMotifs *motifs, const BwMotifs *old)
{
  for (int i = 0; i < motifs->n; i++)
    for (int was = 0; was < old->n; was++)
      if (bw_made_equal (&motifs->made[i], &old->made[was]))
        take_over (&motifs->extra[i], old->extra[was]);
}

void
bw_head_share (BwHead *head, const BwHead *from)
{
  head->frame = g_rc_box_acquire (from->frame);
  head->tray = g_rc_box_acquire (from->tray);
  head->text = g_rc_box_acquire (from->text);
  head->progress = g_rc_box_acquire (from->progress);
  head->motifs = g_rc_box_acquire (from->motifs);
}

void
bw_head_clear (BwHead *head)
{
  g_clear_pointer (&head->frame, bw_frame_unref);
  g_clear_pointer (&head->tray, bw_tray_value_unref);
  g_clear_pointer (&head->text, bw_text_unref);
  g_clear_pointer (&head->progress, bw_progress_unref);
  g_clear_pointer (&head->motifs, bw_motifs_unref);
}

void
bw_head_assign (BwHead *head, const BwHead *from)
{
  BwHead shared;

  bw_head_share (&shared, from);
  bw_head_clear (head);
  *head = shared;
}

static gboolean
frames_equal (const BwFrame *a, const BwFrame *b)
{
  return a == b
         || (bw_examples_equal (&a->examples, &b->examples)
             && bw_design_difference (&a->design, &b->design) == 0);
}

static gboolean
colours_equal (const BwColour *a, const BwColour *b)
{
  return a->id == b->id && a->srgb == b->srgb && a->finish == b->finish
         && g_str_equal (a->name, b->name) && g_str_equal (a->article, b->article)
         && !(fabs (a->in_hand_g - b->in_hand_g) > 0);
}

static gboolean
trays_equal (const BwTrayValue *a, const BwTrayValue *b)
{
  if (a == b)
    return TRUE;
  if (a->tray.n_colours != b->tray.n_colours)
    return FALSE;
  for (int i = 0; i < a->tray.n_colours; i++)
    if (!colours_equal (&a->tray.colour[i], &b->tray.colour[i]) || a->extra[i] != b->extra[i])
      return FALSE;
  return TRUE;
}

static gboolean
texts_equal (const BwText *a, const BwText *b)
{
  if (a == b)
    return TRUE;
  for (int i = 0; i < BW_N_ABOUT; i++)
    if (!g_str_equal (a->about[i], b->about[i]))
      return FALSE;
  return g_str_equal (a->title, b->title) && g_str_equal (a->mineral, b->mineral);
}

static gboolean
tried_equal (const BwTried *a, const BwTried *b)
{
  if (a->rows == 0 || b->rows == 0)
    return a->rows == b->rows;
  return a->rows == b->rows && a->reading.how == b->reading.how
         && a->reading.tool == b->reading.tool && !(a->reading.short_mm < b->reading.short_mm)
         && !(a->reading.short_mm > b->reading.short_mm);
}

static gboolean
progresses_equal (const BwProgress *a, const BwProgress *b)
{
  if (a == b)
    return TRUE;
  if (a->rows_done != b->rows_done || a->n_checks != b->n_checks || a->join_done != b->join_done
      || a->bail_rows_done != b->bail_rows_done || !tried_equal (&a->tried, &b->tried))
    return FALSE;
  if (a->tried_extra != b->tried_extra || a->done_extra != b->done_extra
      || !bw_done_equal (&a->done, &b->done))
    return FALSE;
  for (int i = 0; i < a->n_checks; i++)
    if (!checks_equal (&a->check[i], &b->check[i]) || a->extra[i] != b->extra[i])
      return FALSE;
  return TRUE;
}

static gboolean
motifs_equal (const BwMotifs *a, const BwMotifs *b)
{
  if (a == b)
    return TRUE;
  if (a->n != b->n)
    return FALSE;
  for (int i = 0; i < a->n; i++)
    if (!bw_made_equal (&a->made[i], &b->made[i]) || a->extra[i] != b->extra[i])
      return FALSE;
  return TRUE;
}

gboolean
bw_head_equal (const BwHead *a, const BwHead *b)
{
  return frames_equal (a->frame, b->frame) && trays_equal (a->tray, b->tray)
         && texts_equal (a->text, b->text) && progresses_equal (a->progress, b->progress)
         && motifs_equal (a->motifs, b->motifs);
}

BwDocument *
bw_document_new (void)
{
  BwDocument *document = g_new0 (BwDocument, 1);

  document->head = (BwHead){
    .frame = bw_frame_new (NULL),
    .tray = bw_tray_value_new (),
    .text = bw_text_new ("", "quartz"),
    .progress = bw_progress_new (),
    .motifs = bw_motifs_new (),
  };
  document->extras
      = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)json_object_unref);
  bw_touched_init (&document->touched);
  return document;
}

void
bw_document_free (BwDocument *document)
{
  bw_head_clear (&document->head);
  for (int c = 0; c < BW_N_CANVASES; c++)
    g_clear_pointer (&document->drawing[c], bw_drawing_free);
  bw_touched_clear (&document->touched);
  g_free (document->id);
  g_hash_table_unref (document->extras);
  g_free (document);
}

void
bw_document_canvas_size (const BwDesign *design, BwCanvas canvas, int *columns, int *rows)
{
  *columns = canvas == BW_CANVAS_BAIL ? design->bail.columns : design->band.columns;
  *rows = canvas == BW_CANVAS_BAIL ? design->bail.rows : design->band.rows;
}

static gboolean
colour_validate (const BwTray *tray, int i, GError **error)
{
  const BwColour *colour = &tray->colour[i];
  g_autofree char *pointer = g_strdup_printf ("/tray/%d", i);
  g_autofree char *id_pointer = g_strconcat (pointer, "/id", NULL);
  g_autofree char *name_pointer = g_strconcat (pointer, "/name", NULL);
  g_autofree char *article_pointer = g_strconcat (pointer, "/article", NULL);
  g_autofree char *hand_pointer = g_strconcat (pointer, "/in_hand_g", NULL);

  if (!bw_tray_is_letter (colour->id)) {
    bw_fault_set (error, BW_FAULT_RANGE, id_pointer,
                  _ ("a colour's letter must be one visible character."));
    return FALSE;
  }
  if (bw_tray_find (tray, colour->id) != i) {
    bw_fault_set (error, BW_FAULT_RANGE, id_pointer,
                  _ ("this letter already stands for colour %d of the tray."),
                  bw_tray_find (tray, colour->id) + 1);
    return FALSE;
  }
  if (colour->srgb > 0xffffff || colour->finish >= BW_N_FINISHES
      || !g_utf8_validate (colour->name, -1, NULL)
      || !g_utf8_validate (colour->article, -1, NULL)) {
    bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("this is not a colour."));
    return FALSE;
  }
  return bw_line_check (colour->name, name_pointer, error)
         && bw_line_check (colour->article, article_pointer, error)
         && bw_fault_check_range (colour->in_hand_g, 0, BW_IN_HAND_MAX_G, hand_pointer, error);
}

gboolean
bw_tray_validate (const BwTray *tray, GError **error)
{
  if (tray->n_colours < 1 || tray->n_colours > BW_TRAY_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, "/tray",
                  _ ("%d colours were found; a tray holds 1 to %d."), tray->n_colours, BW_TRAY_MAX);
    return FALSE;
  }
  for (int i = 0; i < tray->n_colours; i++)
    if (!colour_validate (tray, i, error))
      return FALSE;
  return TRUE;
}

static gboolean
check_validate (const BwCheck *check, int i, GError **error)
{
  g_autofree char *rows = g_strdup_printf ("/progress/checks/%d/rows", i);
  g_autofree char *length = g_strdup_printf ("/progress/checks/%d/length_mm", i);

  return bw_fault_check_range (check->rows, 1, BW_ROWS_MAX, rows, error)
         && bw_fault_check_range (check->length_mm, CHECK_PITCH_MIN_MM * (check->rows + 1) / 2,
                                  CHECK_PITCH_MAX_MM * (check->rows + 1) / 2, length, error);
}

/* No strip overlaps by more than it is long, and none lacks more than all the beads there can be.
 */
static gboolean
tried_validate (const BwProgress *progress, GError **error)
{
  const BwTried *tried = &progress->tried;
  double most = CHECK_PITCH_MAX_MM * BW_ROWS_MAX / 2;

  if (tried->rows == 0)
    return TRUE;
  return bw_fault_check_range (tried->rows, 2, MAX (progress->rows_done, 2), "/progress/tried/rows",
                               error)
         && bw_fault_check_range (progress->rows_done, 2, BW_ROWS_MAX, "/progress/rows_done", error)
         && bw_fault_check_range (tried->reading.short_mm,
                                  -CHECK_PITCH_MAX_MM * bw_try_on_most_over (tried->rows), most,
                                  "/progress/tried/short_mm", error);
}

gboolean
bw_progress_validate (const BwProgress *progress, GError **error)
{
  if (!bw_fault_check_range (progress->rows_done, 0, BW_ROWS_MAX, "/progress/rows_done", error)
      || !bw_fault_check_range (progress->bail_rows_done, 0, BW_ROWS_MAX,
                                "/progress/bail_rows_done", error)
      || !bw_fault_check_range (progress->join_done, 0, BW_ROWS_MAX, "/progress/join_done", error)
      || !tried_validate (progress, error)
      || !bw_done_validate (&progress->done, "/finished", error))
    return FALSE;
  if (progress->n_checks < 0 || progress->n_checks > BW_CHECKS_MAX) {
    bw_fault_set (error, BW_FAULT_RANGE, "/progress/checks",
                  _ ("%d lengths were found; at most %d can be kept."), progress->n_checks,
                  BW_CHECKS_MAX);
    return FALSE;
  }
  for (int i = 0; i < progress->n_checks; i++)
    if (!check_validate (&progress->check[i], i, error))
      return FALSE;
  return TRUE;
}

static gboolean
text_validate (const char *text, gsize bytes, const char *pointer, GError **error)
{
  const char *end = memchr (text, '\0', bytes);

  if (end && g_utf8_validate (text, end - text, NULL))
    return bw_line_check (text, pointer, error);
  bw_fault_set (error, BW_FAULT_RANGE, pointer, _ ("this text is too long or not UTF-8."));
  return FALSE;
}

gboolean
bw_design_settle (BwDesign *design, const BwProgress *progress, GError **error)
{
  BwGauge *gauge = &design->gauge;
  BwFault fault;

  if (gauge->has_swatch && gauge->swatch.columns > 0 && gauge->swatch.rows > 0) {
    gauge->column_mm = bw_swatch_column_mm (&gauge->swatch);
    gauge->pitch_mm = bw_swatch_pitch_mm (&gauge->swatch);
  } else if (gauge->has_hands) {
    gauge->pitch_mm = gauge->hands.pitch_mm;
  }
  if (!text_validate (design->bead.name, BW_NAME_BYTES, "/bead/name", error)
      || !text_validate (design->supply.currency, BW_CURRENCY_BYTES, "/materials/prices/currency",
                         error))
    return FALSE;
  if (!bw_gauge_validate (gauge, &fault))
    return bw_fault_tell (&fault, error);
  design->pitch = bw_gauge_pitch (gauge, progress->check, progress->n_checks);
  bw_design_give (design);
  return TRUE;
}

void
bw_design_believe (BwDesign *design, const BwStone *stone, const BwProgress *progress)
{
  design->tried = bw_tried_belief (design, stone, &progress->tried);
}

static gboolean
differs (double a, double b)
{
  return a < b || a > b;
}

/* Another bead, or a strip of another width: what was read speaks of neither. */
static gboolean
is_another_strip (const BwDesign *a, const BwDesign *b)
{
  return a->band.columns != b->band.columns || differs (a->bead.diameter_mm, b->bead.diameter_mm)
         || differs (a->bead.length_mm, b->bead.length_mm);
}

static gboolean
lies_elsewhere (const BwDesign *a, const BwDesign *b)
{
  return (bw_design_difference (a, b) & 1u << BW_GROUP_BED)
         || differs (a->band.bottom_mm, b->band.bottom_mm);
}

static BwTried
tried_after (const BwTried *tried, const BwDesign *before, const BwDesign *after)
{
  BwStone stone;

  if (tried->rows == 0 || is_another_strip (before, after))
    return (BwTried){ 0 };
  if (!lies_elsewhere (before, after) || !bw_stone_init (&stone, &after->stone, NULL))
    return *tried;
  BwDesign there = *after;
  there.bed = before->bed;
  there.band.bottom_mm = before->band.bottom_mm;
  return bw_tried_carry (tried, &there, after, &stone, tried->rows);
}

gboolean
bw_progress_follow (const BwProgress *progress, const BwDesign *before, const BwDesign *after,
                    BwProgress *next)
{
  gboolean same_bail
      = before->bail.style == after->bail.style && before->bail.columns == after->bail.columns
        && before->bail.rows == after->bail.rows && before->band.rows == after->band.rows;

  *next = *progress;
  next->tried = tried_after (&progress->tried, before, after);
  if (!same_bail)
    next->bail_rows_done = 0;
  if (before->band.rows != after->band.rows)
    next->join_done = 0;
  return next->bail_rows_done != progress->bail_rows_done || next->join_done != progress->join_done
         || !tried_equal (&next->tried, &progress->tried);
}
