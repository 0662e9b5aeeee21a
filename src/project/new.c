/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project a maker starts from: an invented stone of everyday size with a plain band that fits,
 * so that every number on the screen means something before the first measurement is typed. */
#include "config.h"

#include "core/band/fit.h"
#include "project/fault/fault-words.h"
#include "project/project-private.h"
#include <glib/gi18n-lib.h>

static void
describe_stone (BwStoneMeasures *stone)
{
  stone->faces = 6;
  stone->measured = BW_MEASURED_ACROSS_FLATS;
  stone->values_mm[0] = 21.4;
  stone->values_mm[1] = 20.8;
  stone->values_mm[2] = 22.1;
  stone->at_mm = 16;
  stone->length_mm = 52;
  stone->has_shoulder = TRUE;
  stone->shoulder_mm = 37;
}

static void
pick_bead (BwDesign *design)
{
  int n_sizes;
  const BwBead *size = bw_bead_sizes (&n_sizes);

  for (int i = 0; i < n_sizes; i++)
    if (i == 0 || g_str_equal (size[i].name, "11/0 cylinder"))
      design->bead = size[i];
  design->gauge.column_mm = design->bead.length_mm;
  design->gauge.pitch_mm = design->bead.diameter_mm;
}

static void
fill_tray (BwTray *tray)
{
  static const struct {
    guint32 srgb;
    BwFinish finish;
    const char *name;
  } colours[] = {
    { 0x2f4858, BW_FINISH_MATTE, N_ ("Slate tide") },
    { 0xd9a441, BW_FINISH_LUSTRE, N_ ("Straw light") },
    { 0xe8e3d5, BW_FINISH_OPAQUE, N_ ("Shell") },
    { 0xa23b2a, BW_FINISH_CLEAR, N_ ("Rosehip") },
  };

  tray->n_colours = G_N_ELEMENTS (colours);
  for (int i = 0; i < tray->n_colours; i++) {
    BwColour *colour = &tray->colour[i];

    *colour = (BwColour){ .id = (gunichar)('a' + i),
                          .srgb = colours[i].srgb,
                          .finish = colours[i].finish };
    g_strlcpy (colour->name, _ (colours[i].name), sizeof colour->name);
  }
}

/* Prices are for a pack of a certain size; the rest of the supply belongs to the piece. */
static void
take_prices (BwSupply *supply, const BwSupply *given)
{
  BwSupply priced = *given;
  priced.spare = supply->spare;
  priced.pieces = supply->pieces;
  priced.neck_mm = supply->neck_mm;
  priced.closing = supply->closing;
  priced.closing_mm = supply->closing_mm;
  if (bw_supply_validate (&priced, NULL))
    *supply = priced;
}

BwProject *
bw_project_new (void)
{
  return bw_project_new_priced (NULL);
}

BwProject *
bw_project_new_priced (const BwSupply *supply)
{
  BwDocument *document = bw_document_new ();
  BwFrame *frame = document->head.frame;
  BwDesign *design = &frame->design;
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));
  BwStone stone;

  describe_stone (&design->stone);
  pick_bead (design);
  fill_tray (&document->head.tray->tray);
  if (supply)
    take_prices (&design->supply, supply);
  design->band.columns = 12;
  design->band.rows = 2;
  if (!bw_design_settle (design, document->head.progress, NULL)
      || !bw_stone_init (&stone, &design->stone, NULL))
    g_error ("the stone to start from is not sound");
  design->band.bottom_mm = bw_design_centred_bottom (design, &stone);
  if (!bw_design_validate (design, NULL, NULL))
    g_error ("the project to start from is not sound");
  design->band.rows = 2 * bw_fit_recommended (design, &stone);
  frame->examples = bw_examples_all (&design->stone);
  bw_canvas_follow (document, log, frame);
  return bw_project_new_for_document (document);
}

/* Another thread's readings tell how hard the maker draws, and so count for every thread. */
static void
begin_with_gives (BwDesign *design, const BwBookHands *hands)
{
  int pieces;

  design->thread.has_hands = hands->stretch.pieces > 0;
  design->thread.hands = bw_book_give_of (&hands->stretch, design->thread.diameter_mm, &pieces);
  design->bed.has_hands = hands->squeeze.pieces > 0;
  design->bed.hands = bw_book_give_of (&hands->squeeze, design->bed.cord_width_mm, &pieces);
}

void
bw_project_begin_with_hands (BwProject *self, const BwBookHands *hands)
{
  BwDocument *document = self->document;
  BwFrame *frame = document->head.frame;
  BwDesign design = frame->design;
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));
  BwStone stone;
  int pieces;

  g_return_if_fail (!bw_project_can_undo (self));
  design.gauge.hands = bw_book_hands_of (hands, design.bead.name, design.bead.diameter_mm, &pieces);
  design.gauge.has_hands = pieces > 0;
  begin_with_gives (&design, hands);
  if (bw_design_difference (&design, &frame->design) == 0
      || !bw_stone_init (&stone, &design.stone, NULL)
      || !bw_design_settle (&design, document->head.progress, NULL))
    return;
  design.band.rows = 2 * bw_fit_recommended (&design, &stone);
  if (!bw_design_validate (&design, NULL, NULL))
    return;
  frame->design = design;
  bw_canvas_follow (document, log, frame);
  bw_derived_drop (self->derived, ~0u, TRUE, TRUE);
}

/* The design with the band in its middle and as many rows as recommended; FALSE when it is not
 * sound. */
static gboolean
fit_new (BwDesign *design, const BwProgress *progress)
{
  BwStone stone;

  if (!bw_stone_init (&stone, &design->stone, NULL) || !bw_design_settle (design, progress, NULL))
    return FALSE;
  design->band.rows = 2;
  design->band.bottom_mm = bw_design_centred_bottom (design, &stone);
  if (!bw_design_validate (design, NULL, NULL))
    return FALSE;
  design->band.rows = 2 * bw_fit_recommended (design, &stone);
  return bw_design_validate (design, NULL, NULL);
}

/* Each is tried on what stands already. */
static void
start_bead (BwDesign *design, const BwStart *start)
{
  if (!start->bead)
    return;
  design->bead = *start->bead;
  design->gauge.column_mm = design->bead.length_mm;
  design->gauge.pitch_mm = design->bead.diameter_mm;
}

static void
take (double *value, double wanted)
{
  if (wanted > 0)
    *value = wanted;
}

static void
start_needle (BwDesign *design, const BwStart *start)
{
  take (&design->thread.needle_mm, start->needle_mm);
}

static void
start_tail (BwDesign *design, const BwStart *start)
{
  take (&design->thread.tail_mm, start->tail_mm);
}

static void
start_bed (BwDesign *design, const BwStart *start)
{
  take (&design->bed.cord_thickness_mm, start->cord_thickness_mm);
  take (&design->bed.cord_width_mm, start->cord_width_mm);
}

static void
start_hanging (BwDesign *design, const BwStart *start)
{
  take (&design->bail.cord_mm, start->hanging_cord_mm);
}

void
bw_project_begin_with (BwProject *self, const BwStart *start)
{
  static void (*const parts[]) (BwDesign * design, const BwStart *start)
      = { start_bead, start_needle, start_tail, start_bed, start_hanging };
  BwDocument *document = self->document;
  BwFrame *frame = document->head.frame;
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));

  g_return_if_fail (!bw_project_can_undo (self));
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++) {
    BwDesign design = frame->design;

    parts[i](&design, start);
    if (bw_design_difference (&design, &frame->design) != 0
        && fit_new (&design, document->head.progress))
      frame->design = design;
  }
  bw_canvas_follow (document, log, frame);
  bw_derived_drop (self->derived, ~0u, TRUE, TRUE);
}

/* Columns are taken away, two and two, until the band has room. */
static gboolean
fit_narrower (BwDesign *design, const BwProgress *progress)
{
  for (; design->band.columns >= BW_COLUMNS_MIN; design->band.columns -= 2)
    if (fit_new (design, progress))
      return TRUE;
  return FALSE;
}

gboolean
bw_project_begin_on_stone (BwProject *self, const BwStoneMeasures *measures,
                           const BwStoneLook *look, const char *mineral, GError **error)
{
  BwDocument *document = self->document;
  BwHead *head = &document->head;
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));
  BwDesign design = head->frame->design;
  BwFault fault;
  BwText *text;

  g_return_val_if_fail (!bw_project_can_undo (self), FALSE);
  design.stone = *measures;
  design.look = *look;
  if (!bw_stone_measures_validate (measures, &fault))
    return bw_fault_tell (&fault, error);
  if (!fit_narrower (&design, head->progress)) {
    bw_fault_set (error, BW_FAULT_GEOMETRY, "/stone", _ ("no band has room on this stone."));
    return FALSE;
  }
  text = bw_text_with_mineral (head->text, mineral);
  bw_text_unref (head->text);
  head->text = text;
  head->frame->design = design;
  head->frame->examples = (BwExamples){ 0 };
  bw_canvas_follow (document, log, head->frame);
  bw_derived_drop (self->derived, ~0u, TRUE, TRUE);
  return TRUE;
}

void
bw_project_begin_with_habits (BwProject *self, const BwHabits *habits)
{
  BwDocument *document = self->document;
  BwFrame *frame = document->head.frame;
  g_autoptr (GArray) log = g_array_new (FALSE, FALSE, sizeof (BwChange));

  g_return_if_fail (!bw_project_can_undo (self));
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    BwDesign design = frame->design;

    if (!habits->has[habit])
      continue;
    *bw_habit_in (habit, &design) = habits->value[habit];
    if (fit_new (&design, document->head.progress))
      frame->design = design;
  }
  bw_canvas_follow (document, log, frame);
  bw_derived_drop (self->derived, ~0u, TRUE, TRUE);
}
