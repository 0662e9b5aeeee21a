/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same design on another stone, or on its own after the rows have changed. What belongs to the
 * stone, to its strip and to its file stays behind; what belongs to the design and to the hands
 * goes along. */
#include "config.h"

#include "core/bail/bail-loop.h"
#include "core/band/made-band.h"
#include "project/document/canvas.h"
#include "project/fault/fault-words.h"
#include "project/project-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define ON_A_FACE_DEG 0.5 /* that near to its middle it stands on it */

/* --- The motifs and the beads ------------------------------------------------------------------
 */

/* Those that can be laid on the design, and what they are there. */
typedef struct {
  BwMade made[BW_MADE_MAX], renewed[BW_MADE_MAX];
  int n, left_out;
} Motifs;

static void
renew_motifs (const BwMotifs *old, const BwDesign *design, const BwStone *stone, Motifs *motifs)
{
  motifs->n = motifs->left_out = 0;
  for (int i = 0; i < old->n; i++) {
    if (bw_made_band_renew (&old->made[i], design, stone, &motifs->renewed[motifs->n], NULL))
      motifs->made[motifs->n++] = old->made[i];
    else
      motifs->left_out++;
  }
}

static BwDrawing *
draw_anew (const BwDrawing *old, const Motifs *motifs, const BwDesign *design, BwAnewWay way)
{
  BwDrawing *drawing = bw_drawing_new (design->band.columns, design->band.rows, 0);

  bw_anew_draw (old, motifs->made, motifs->renewed, motifs->n, way, drawing);
  return drawing;
}

/* --- The design --------------------------------------------------------------------------------
 */

/* The middle of the nearest face where it stood on one, for other stones have faces elsewhere. */
static double
azimuth_on (double deg, int from_faces, int faces)
{
  double off = remainder (deg, 360.0 / from_faces), share = 360.0 / faces;

  if (from_faces == faces || fabs (off) > ON_A_FACE_DEG)
    return deg;
  return round (100 * share * round (deg / share)) / 100;
}

static void
turn_to_faces (BwDesign *design, int from_faces)
{
  int faces = design->stone.faces;

  design->band.seam_deg = azimuth_on (design->band.seam_deg, from_faces, faces);
  design->bail.at_deg = azimuth_on (design->bail.at_deg, from_faces, faces);
}

/* Strip lengths speak for the hands as well as for the strip: without a swatch the pitch they have
 * told goes along. */
static void
keep_hands (BwDesign *design, const BwProgress *progress)
{
  if (!design->gauge.has_swatch && !design->gauge.has_hands && progress->n_checks > 0)
    design->gauge.pitch_mm = design->pitch.mm;
}

/* What was measured of bed and thread belongs to the piece it was measured of, and is told to the
 * book as that; what it taught goes along. */
static void
keep_give (BwDesign *design)
{
  if (design->bed.has_pulled)
    design->bed.hands = (BwGive){ design->bed.squeeze, design->bed.squeeze_sd };
  if (design->thread.has_pulled)
    design->thread.hands = (BwGive){ design->thread.stretch, design->thread.stretch_sd };
  design->bed.has_hands |= design->bed.has_pulled;
  design->thread.has_hands |= design->thread.has_pulled;
  design->bed.has_pulled = design->thread.has_pulled = FALSE;
}

/* Rows as recommended, and the band in the middle of the prism. */
static gboolean
fit_to_stone (BwDesign *design, BwStone *stone, GError **error)
{
  BwFault fault;

  if (!bw_stone_init (stone, &design->stone, &fault))
    return bw_fault_tell (&fault, error);
  design->band.bottom_mm = bw_design_centred_bottom (design, stone);
  design->band.rows = BW_ROWS_MAX;
  if (!bw_design_validate (design, stone, &fault))
    return bw_fault_tell (&fault, error);
  design->band.rows = 2 * bw_fit_recommended (design, stone);
  return bw_design_validate (design, NULL, &fault) || bw_fault_tell (&fault, error);
}

/* A loop over the tip is as long as its stone makes it, its feet as far apart as they were. */
static void
reach_over (BwDesign *design, const BwStone *stone, double share)
{
  BwLoop loop;

  design->bail.base_beads = MAX (1, round (share * design->band.rows)) / 2;
  if (bw_bail_loop_init (&loop, NULL, design, stone, NULL) && loop.rows_needed > 0)
    design->bail.rows = loop.rows_needed;
}

static gboolean
put_on_stone (BwDesign *design, const BwStoneMeasures *measures, BwStone *stone, GError **error)
{
  int from_faces = design->stone.faces;
  double share = 2 * design->bail.base_beads / design->band.rows;

  design->stone = *measures;
  design->look = (BwStoneLook){ 0 };
  design->bed.has_girth_over = FALSE;
  turn_to_faces (design, from_faces);
  if (!fit_to_stone (design, stone, error))
    return FALSE;
  if (design->bail.style == BW_BAIL_OVER)
    reach_over (design, stone, share);
  return TRUE;
}

/* --- A new document ----------------------------------------------------------------------------
 */

static void
replace_progress (BwHead *head)
{
  bw_progress_unref (head->progress);
  head->progress = bw_progress_new ();
}

static void
replace_title (BwHead *head)
{
  BwText *text = bw_text_with_title (head->text, "");

  bw_text_unref (head->text);
  head->text = text;
}

static void
replace_motifs (BwHead *head, const Motifs *motifs)
{
  BwMotifs *value = bw_motifs_new ();

  value->n = motifs->n;
  memcpy (value->made, motifs->renewed, sizeof value->made);
  bw_motifs_unref (head->motifs);
  head->motifs = value;
}

static void
replace_band (BwDocument *document, BwDrawing *drawing)
{
  BwSeen *seen = &document->head.frame->seen[BW_CANVAS_BAND];

  bw_drawing_free (document->drawing[BW_CANVAS_BAND]);
  document->drawing[BW_CANVAS_BAND] = drawing;
  *seen = (BwSeen){ bw_drawing_columns (drawing), bw_drawing_rows (drawing) };
}

BwProject *
bw_project_restone (BwProject *self, const BwStoneMeasures *measures, const BwExamples *examples,
                    BwAnewWay way, int *left_out, GError **error)
{
  g_autoptr (BwDocument) document = bw_document_copy (self->document);
  BwDesign *design = &document->head.frame->design;
  g_autofree Motifs *motifs = g_new0 (Motifs, 1);
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));
  BwStone stone;

  keep_hands (design, document->head.progress);
  keep_give (design);
  replace_progress (&document->head);
  if (!put_on_stone (design, measures, &stone, error)
      || !bw_design_settle (design, document->head.progress, error))
    return NULL;
  renew_motifs (self->document->head.motifs, design, &stone, motifs);
  replace_band (document, draw_anew (bw_project_get_drawing (self), motifs, design, way));
  bw_canvas_follow (document, log, document->head.frame);
  replace_motifs (&document->head, motifs);
  replace_title (&document->head);
  document->head.frame->examples = examples ? *examples : (BwExamples){ 0 };
  g_hash_table_remove_all (document->extras);
  g_clear_pointer (&document->id, g_free);
  if (left_out)
    *left_out = motifs->left_out;
  return bw_project_new_for_document (g_steal_pointer (&document));
}

/* --- On its own stone --------------------------------------------------------------------------
 */

static void
fit_again (BwProject *self, BwDesign *design, Motifs *motifs)
{
  *design = *bw_project_get_design (self);
  design->band.rows = 2 * bw_fit_recommended (design, bw_project_stone (self));
  renew_motifs (self->document->head.motifs, design, bw_project_stone (self), motifs);
}

BwDrawing *
bw_project_draw_anew (BwProject *self, BwAnewWay way)
{
  g_autofree Motifs *motifs = g_new0 (Motifs, 1);
  BwDesign design;

  fit_again (self, &design, motifs);
  return draw_anew (bw_project_get_drawing (self), motifs, &design, way);
}

gboolean
bw_project_lay_anew (BwProject *self, const char *label, BwAnewWay way, int *left_out,
                     GError **error)
{
  g_autofree Motifs *motifs = g_new0 (Motifs, 1);
  BwDesign design;

  fit_again (self, &design, motifs);
  if (!bw_project_check_design (self, &design, error))
    return FALSE;
  g_autoptr (BwDrawing) drawing = draw_anew (bw_project_get_drawing (self), motifs, &design, way);
  bw_project_begin (self, label);
  bw_project_set_design (self, "", &design, NULL);
  bw_project_set_drawing (self, "", FALSE, drawing, NULL);
  bw_project_set_motifs (self, "", motifs->renewed, motifs->n);
  bw_project_commit (self);
  if (left_out)
    *left_out = motifs->left_out;
  return TRUE;
}
