/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimensions stand in columns at either side of each view, at the height of what they tell; where
 * two would touch they are moved apart in order. So hairlines do not cross, and a column needs no
 * more than its widest entry. */
#include "config.h"

#include "app/measure/sheet-plan.h"
#include "app/form/sketch.h"
#include "app/form/stone-outline.h"
#include "core/stone/section.h"

#include <math.h>

#define MARGIN 14.0      /* round the sheet */
#define GAP 14.0         /* between a view and its dimensions */
#define BETWEEN 24.0     /* between the two views */
#define APART 3.0        /* between two entries */
#define VIEW_LEAST 110.0 /* no drawing is narrower */

/* --- Which dimensions there are ----------------------------------------------------------------
 */

static BwSheetNote *
add_note (BwSheetPlan *plan, BwNoteKind kind, const char *pointer)
{
  BwSheetNote *note = &plan->note[plan->n_notes++];
  *note = (BwSheetNote){ .kind = kind };
  g_strlcpy (note->pointer, pointer, sizeof note->pointer);
  return note;
}

static void
add_value (BwSheetPlan *plan, const BwStoneMeasures *stone, int i)
{
  static const BwNoteKind kinds[] = { [BW_MEASURED_ACROSS_FLATS] = BW_NOTE_ACROSS,
                                      [BW_MEASURED_FACE_WIDTHS] = BW_NOTE_WIDTH,
                                      [BW_MEASURED_GIRTH] = BW_NOTE_GIRTH };
  g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
  BwSheetNote *note = add_note (plan, kinds[stone->measured], pointer);
  gboolean girth = stone->measured == BW_MEASURED_GIRTH;
  note->index = i;
  note->azimuth = girth ? -G_PI / 4 : 2 * G_PI * i / stone->faces;
}

static void
add_mark (BwSheetPlan *plan, const char *pointer, double degrees)
{
  add_note (plan, BW_NOTE_MARK, pointer)->azimuth = bw_radians (degrees);
}

static void
add_height (BwSheetPlan *plan, BwNoteKind kind, const char *pointer, double z_mm)
{
  add_note (plan, kind, pointer)->z_mm = z_mm;
}

static void
list_section (BwSheetPlan *plan, const BwDesign *design)
{
  int n = bw_stone_value_count (design->stone.measured, design->stone.faces);
  for (int i = 0; i < n && n <= BW_SHEET_VALUES_MOST; i++)
    add_value (plan, &design->stone, i);
  add_mark (plan, "/band/seam_deg", design->band.seam_deg);
  if (design->bail.style != BW_BAIL_NONE)
    add_mark (plan, "/bail/at_deg", design->bail.at_deg);
}

/* A second girth that is not there yet has its blank at four fifths of the prism. */
static void
list_taper (BwSheetPlan *plan, const BwStoneMeasures *measures, const BwStone *stone)
{
  double prism = stone->shoulder_mm - stone->base_shoulder_mm;
  double z = measures->has_second ? measures->second_at_mm : stone->base_shoulder_mm + 0.8 * prism;
  add_height (plan, BW_NOTE_HEIGHT, "/stone/second_girth_mm", z);
  if (measures->has_second)
    add_height (plan, BW_NOTE_HEIGHT, "/stone/second_at_mm", z);
}

static void
list_profile (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone)
{
  const BwStoneMeasures *measures = &design->stone;
  BwBandSpan span = bw_design_span (design);
  add_height (plan, BW_NOTE_TALL, "/stone/length_mm", stone->length_mm);
  if (measures->has_shoulder)
    add_height (plan, BW_NOTE_TALL, "/stone/shoulder_mm", stone->shoulder_mm);
  else
    add_height (plan, BW_NOTE_HEIGHT, "/stone/natural_angle_deg", stone->shoulder_mm);
  list_taper (plan, measures, stone);
  add_height (plan, BW_NOTE_HEIGHT, "/band/columns", bw_band_span_mid (span));
  add_height (plan, BW_NOTE_HEIGHT, "/stone/at_mm", stone->at_mm);
  add_height (plan, BW_NOTE_HEIGHT, "/band/bottom_mm", span.bottom_mm);
  if (measures->base == BW_BASE_POINT)
    add_height (plan, BW_NOTE_HEIGHT, "/stone/base_shoulder_mm", stone->base_shoulder_mm);
}

void
bw_sheet_plan_list (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone)
{
  plan->n_notes = 0;
  list_section (plan, design);
  list_profile (plan, design, stone);
}

/* --- How much room they want -------------------------------------------------------------------
 */

static gboolean
is_of_section (const BwSheetNote *note)
{
  return note->kind != BW_NOTE_TALL && note->kind != BW_NOTE_HEIGHT;
}

/* Round the section: right of the axis or left of it; straight above and below, right. */
static gboolean
is_right (const BwSheetNote *note)
{
  return cos (note->azimuth) > -1e-6;
}

typedef enum { SECTION_LEFT, SECTION_RIGHT, PROFILE_LEFT, PROFILE_RIGHT } Column;

static Column
column_of (const BwSheetPlan *plan, const BwSheetNote *note)
{
  if (is_of_section (note))
    return is_right (note) ? SECTION_RIGHT : SECTION_LEFT;
  if (note->kind == BW_NOTE_HEIGHT || plan->slim)
    return PROFILE_RIGHT;
  return PROFILE_LEFT;
}

static double
column_width (const BwSheetPlan *plan, Column column)
{
  double widest = 0;
  for (int i = 0; i < plan->n_notes; i++)
    if (column_of (plan, &plan->note[i]) == column)
      widest = MAX (widest, plan->note[i].w);
  return widest;
}

/* How far apart the figures of a column must be; up and down: how far the entries reach at most
 * above and below their figures' middles. */
static double
pitch_of (const BwSheetPlan *plan, Column column, double *up, double *down)
{
  *up = *down = plan->line / 2;
  for (int i = 0; i < plan->n_notes; i++) {
    const BwSheetNote *note = &plan->note[i];
    if (column_of (plan, note) != column)
      continue;
    *up = MAX (*up, note->mid);
    *down = MAX (*down, note->h - note->mid);
  }
  return *up + *down + APART;
}

/* Marks may come to stand on either side as they are dragged round: room is kept for both, so that
 * the section stays where it is. */
static double
section_side (const BwSheetPlan *plan)
{
  return MAX (column_width (plan, SECTION_LEFT), column_width (plan, SECTION_RIGHT)) + GAP;
}

/* How far apart the lines of the two heights left of the stone stand: neither entry reaches the
 * other's line. */
static double
tall_step (const BwSheetPlan *plan)
{
  return column_width (plan, PROFILE_LEFT) / 2 + 6;
}

/* Room for both, though the shoulder's may be told by an angle. */
static double
profile_left (const BwSheetPlan *plan)
{
  return plan->slim ? 0 : column_width (plan, PROFILE_LEFT) + tall_step (plan) + GAP;
}

static double
profile_sides (const BwSheetPlan *plan)
{
  return profile_left (plan) + GAP + column_width (plan, PROFILE_RIGHT);
}

static double
least_of_section (const BwSheetPlan *plan)
{
  return 2 * section_side (plan) + VIEW_LEAST;
}

static double
least_of_profile (const BwSheetPlan *plan)
{
  return profile_sides (plan) + VIEW_LEAST;
}

double
bw_sheet_plan_least_width (const BwSheetPlan *plan)
{
  BwSheetPlan slim = *plan;
  slim.slim = TRUE;
  return 2 * MARGIN + MAX (least_of_section (&slim), least_of_profile (&slim));
}

/* The sheet's height goes by its width and the size of writing alone, or the page would jump when
 * the stone becomes another; only a column that is fuller than that stretches it. */
static double
view_height (const BwSheetPlan *plan, double wanted, Column first, Column last)
{
  double up, down, high = CLAMP (wanted, 12 * plan->line, 24 * plan->line);
  for (int column = first; column <= (int)last; column++) {
    int n = 0;
    for (int i = 0; i < plan->n_notes; i++)
      n += (int)column_of (plan, &plan->note[i]) == column;
    high = MAX (high, n * pitch_of (plan, (Column)column, &up, &down));
  }
  return high;
}

/* --- Views -------------------------------------------------------------------------------------
 */

static void
place_below_each_other (BwSheetPlan *plan, double room, double foot)
{
  double top = MARGIN + plan->head;
  double h = view_height (plan, 0.42 * room, SECTION_LEFT, SECTION_RIGHT);
  plan->section = (BwSheetBox){ MARGIN, top, room, h };
  top += h + foot + BETWEEN;
  h = view_height (plan, 0.6 * room, PROFILE_LEFT, PROFILE_RIGHT);
  plan->profile = (BwSheetBox){ MARGIN, top, room, h };
}

/* The profile as wide as its height lets it be. */
static void
place_beside_each_other (BwSheetPlan *plan, const BwStone *stone, double room)
{
  double top = MARGIN + plan->head;
  double h = view_height (plan, MAX (0.36 * room, 15 * plan->line), SECTION_LEFT, PROFILE_RIGHT);
  double least_section = least_of_section (plan), least_profile = least_of_profile (plan);
  double spare = MAX (room - least_section - least_profile - BETWEEN, 0);
  double wanted_profile = MAX (2 * plan->reach_mm * h / stone->length_mm - VIEW_LEAST, 0);
  double wanted_section = MAX (h - VIEW_LEAST, 0);
  double share = spare * wanted_section / MAX (wanted_section + wanted_profile, 1);
  double width = least_section + MAX (MIN (share, spare), (spare - wanted_profile) / 2);
  plan->section = (BwSheetBox){ MARGIN, top, width, h };
  plan->profile = (BwSheetBox){ MARGIN + width + BETWEEN, top, room - width - BETWEEN, h };
}

/* Side by side where both have room, if need be with all heights at one side of the profile. */
static void
place_views (BwSheetPlan *plan, const BwStone *stone)
{
  double room = plan->width - 2 * MARGIN, foot = MAX (plan->foot, plan->line) + 6;
  plan->slim = FALSE;
  plan->beside = room >= least_of_section (plan) + least_of_profile (plan) + BETWEEN;
  if (!plan->beside) {
    plan->slim = TRUE;
    plan->beside = room >= least_of_section (plan) + least_of_profile (plan) + BETWEEN;
  }
  if (!plan->beside) {
    plan->slim = FALSE;
    plan->slim = room < least_of_profile (plan);
  }
  if (plan->beside)
    place_beside_each_other (plan, stone, room);
  else
    place_below_each_other (plan, room, foot);
  plan->height = plan->profile.y + plan->profile.h + foot + MARGIN;
}

static double
bed_thickness (const BwDesign *design, const BwStone *stone)
{
  BwBandSpan span = bw_design_span (design);
  BwBedding bedding;
  if (!bw_bedding_init (&bedding, &design->bed, stone, span, NULL))
    return 0;
  return MAX (bw_bedding_thickness (&bedding, bw_band_span_mid (span)), 0);
}

static double
farthest_corner (const BwStone *stone, double z_mm)
{
  BwSection section;
  double reach = 0;
  bw_section_init (&section, stone, z_mm);
  for (int i = 0; i < section.edges; i++)
    reach = MAX (reach, bw_vec2_length (section.corner[i]));
  return reach;
}

static void
measure_stone (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone)
{
  double mid = bw_band_span_mid (bw_design_span (design));
  double worn = bed_thickness (design, stone) + design->bead.diameter_mm;
  plan->outer_mm = MAX (farthest_corner (stone, stone->at_mm), farthest_corner (stone, mid)) + worn;
  plan->reach_mm = bw_outline_reach (stone, 0) + worn + 0.5;
}

static void
scale_views (BwSheetPlan *plan, const BwStone *stone)
{
  const BwSheetBox *s = &plan->section, *p = &plan->profile;
  double radius = MIN (s->w / 2 - section_side (plan), s->h / 2 - 6);
  plan->section_scale = MAX (radius, 4) / plan->outer_mm;
  plan->cx = s->x + s->w / 2;
  plan->cy = s->y + s->h / 2;
  double across = MAX (p->w - profile_sides (plan), 8);
  plan->profile_scale = MIN (across / (2 * plan->reach_mm), (p->h - 12) / stone->length_mm);
  double half = plan->reach_mm * plan->profile_scale;
  double spare = MAX (across - 2 * half, 0);
  plan->px = p->x + profile_left (plan) + spare / 2 + half;
  plan->base = p->y + (p->h + stone->length_mm * plan->profile_scale) / 2;
}

/* --- Dimensions --------------------------------------------------------------------------------
 */

/* Where a ray from the axis leaves what lies round the section at the band's middle. */
static double
edge_of (const BwSheetPlan *plan, const BwSection *section, double worn_mm, double azimuth)
{
  BwVec2 way = bw_vec2 (cos (azimuth), sin (azimuth));
  double least = plan->outer_mm;
  for (int i = 0; i < section->edges; i++) {
    double along = bw_vec2_dot (section->normal[i], way);
    if (along > 1e-6)
      least = MIN (least, (bw_vec2_dot (section->normal[i], section->corner[i]) + worn_mm) / along);
  }
  return least;
}

static void
begin_lines (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone)
{
  BwSection section;
  double worn = bed_thickness (design, stone) + design->bead.diameter_mm;
  bw_section_init (&section, stone, bw_band_span_mid (bw_design_span (design)));
  for (int i = 0; i < plan->n_notes; i++) {
    BwSheetNote *note = &plan->note[i];
    if (is_of_section (note)) {
      double r = edge_of (plan, &section, worn, note->azimuth) * plan->section_scale + 3;
      note->from_x = plan->cx + r * cos (note->azimuth);
      note->from_y = plan->cy - r * sin (note->azimuth);
    } else {
      double left, right;
      bw_outline_extent (stone, CLAMP (note->z_mm, 0, stone->length_mm), 0, 0, &left, &right);
      note->from_x = plan->px + right * plan->profile_scale;
      note->from_y = plan->base - note->z_mm * plan->profile_scale;
    }
  }
}

/* The notes of a column one under the other, each as near to what it tells as the others let it. */
static void
stack (BwSheetPlan *plan, Column column, double edge, double anchor)
{
  double y[BW_SHEET_NOTES_MOST];
  BwSheetNote *notes[BW_SHEET_NOTES_MOST];
  const BwSheetBox *box = column <= SECTION_RIGHT ? &plan->section : &plan->profile;
  double up, down, pitch = pitch_of (plan, column, &up, &down);
  int n = 0;
  for (int i = 0; i < plan->n_notes; i++)
    if (column_of (plan, &plan->note[i]) == column) {
      /* What stands at one height keeps the order it was listed in. */
      y[n] = plan->note[i].from_y + 1e-3 * n;
      notes[n++] = &plan->note[i];
    }
  bw_sketch_spread (y, n, pitch, box->y + up, box->y + box->h - down);
  for (int i = 0; i < n; i++) {
    notes[i]->x = edge - anchor * notes[i]->w;
    notes[i]->y = y[i] - notes[i]->mid;
    notes[i]->to_x = anchor > 0 ? notes[i]->x + notes[i]->w + 2 : notes[i]->x - 2;
    notes[i]->to_y = y[i];
  }
}

static gboolean
is_shoulder (const BwSheetNote *note)
{
  return g_str_equal (note->pointer, "/stone/shoulder_mm");
}

/* Where on its line a height's entry would stand: in the middle of the shoulder's; of the length's
 * above the shoulder, where no other line is. */
static double
wanted_y (const BwSheetPlan *plan, const BwSheetNote *note, double shoulder_y)
{
  return (note->from_y + (is_shoulder (note) ? plan->base : shoulder_y)) / 2;
}

/* The heights left of the stone: their lines go from the base up, their entries stand on them. */
static void
stand (BwSheetPlan *plan, double x)
{
  double y[2], up, down, pitch = pitch_of (plan, PROFILE_LEFT, &up, &down);
  double shoulder_y = plan->base;
  BwSheetNote *tall[2];
  int n = 0;
  for (int i = 0; i < plan->n_notes && n < 2; i++)
    if (column_of (plan, &plan->note[i]) == PROFILE_LEFT) {
      tall[n++] = &plan->note[i];
      if (is_shoulder (&plan->note[i]))
        shoulder_y = plan->note[i].from_y;
    }
  for (int i = 0; i < n; i++)
    y[i] = wanted_y (plan, tall[i], shoulder_y);
  bw_sketch_spread (y, n, pitch, plan->profile.y + up, plan->profile.y + plan->profile.h - down);
  for (int i = 0; i < n; i++) {
    tall[i]->from_x = tall[i]->to_x = x - (is_shoulder (tall[i]) ? 0 : tall_step (plan));
    tall[i]->to_y = plan->base;
    tall[i]->x = tall[i]->from_x - tall[i]->w / 2;
    tall[i]->y = y[i] - tall[i]->mid;
  }
}

static void
place_heights (BwSheetPlan *plan)
{
  double half = plan->reach_mm * plan->profile_scale;
  stack (plan, PROFILE_RIGHT, plan->px + half + GAP, 0);
  stand (plan, plan->px - half - GAP / 2 - column_width (plan, PROFILE_LEFT) / 2);
}

void
bw_sheet_plan_place (BwSheetPlan *plan, const BwDesign *design, const BwStone *stone)
{
  measure_stone (plan, design, stone);
  place_views (plan, stone);
  scale_views (plan, stone);
  begin_lines (plan, design, stone);
  double radius = plan->outer_mm * plan->section_scale;
  stack (plan, SECTION_RIGHT, plan->cx + radius + GAP, 0);
  stack (plan, SECTION_LEFT, plan->cx - radius - GAP, 1);
  place_heights (plan);
}
