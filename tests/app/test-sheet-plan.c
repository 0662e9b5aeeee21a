/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measuring sheet: whatever the stone, no dimension lies on another or off the paper. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "samples.h"
#include "app/form/measures.h"
#include "app/measure/sheet-plan.h"

#include <math.h>
#include <string.h>

/* What an entry of each kind asks for, in lines of writing: a caption and its figure. */
static void
ask_for_room (BwSheetPlan *plan, double line, GRand *rand)
{
  for (int i = 0; i < plan->n_notes; i++) {
    plan->note[i].h = line * g_rand_double_range (rand, 1.3, 2.3);
    plan->note[i].mid = plan->note[i].h * g_rand_double_range (rand, 0.5, 0.7);
    plan->note[i].w = line * g_rand_double_range (rand, 4, 8.5);
  }
}

static void
plan_sheet (BwSheetPlan *plan, const BwDesign *design, double width, double line, GRand *rand)
{
  BwStone stone;
  assert_true (bw_stone_init (&stone, &design->stone, NULL));
  *plan = (BwSheetPlan){ .line = line, .head = 2 * line };
  bw_sheet_plan_list (plan, design, &stone);
  ask_for_room (plan, line, rand);
  plan->width = MAX (width, bw_sheet_plan_least_width (plan));
  bw_sheet_plan_place (plan, design, &stone);
}

static gboolean
overlap (const BwSheetNote *a, const BwSheetNote *b)
{
  return a->x < b->x + b->w - 1e-6 && b->x < a->x + a->w - 1e-6 && a->y < b->y + b->h - 1e-6
         && b->y < a->y + a->h - 1e-6;
}

static void
assert_on_paper (const BwSheetPlan *plan, const BwSheetNote *note)
{
  gboolean section = note->kind != BW_NOTE_TALL && note->kind != BW_NOTE_HEIGHT;
  const BwSheetBox *box = section ? &plan->section : &plan->profile;
  if (note->x < box->x - 1e-6 || note->x + note->w > box->x + box->w + 1e-6
      || note->y < box->y - 1e-6 || note->y + note->h > box->y + box->h + 1e-6)
    fail_msg ("%s at %g, %g of %g × %g leaves its view %g, %g, %g × %g", note->pointer, note->x,
              note->y, note->w, note->h, box->x, box->y, box->w, box->h);
}

static void
assert_tidy (const BwSheetPlan *plan)
{
  assert_true (plan->n_notes >= 6);
  assert_true (plan->section.x >= 0 && plan->profile.x + plan->profile.w <= plan->width);
  assert_true (plan->section.y >= plan->head && plan->profile.y + plan->profile.h < plan->height);
  for (int i = 0; i < plan->n_notes; i++) {
    assert_on_paper (plan, &plan->note[i]);
    for (int k = 0; k < i; k++)
      if (overlap (&plan->note[i], &plan->note[k]))
        fail_msg ("%s lies on %s", plan->note[i].pointer, plan->note[k].pointer);
  }
}

/* Another way of measuring, another kind of point, both ends, a bail anywhere. */
static void
vary (BwDesign *design, GRand *rand)
{
  bw_measures_set_way (&design->stone, (BwMeasured)g_rand_int_range (rand, 0, 3));
  bw_measures_set_point (&design->stone, g_rand_boolean (rand));
  if (g_rand_boolean (rand))
    bw_measures_set_base (&design->stone, BW_BASE_POINT);
  design->bail.style = (BwBailStyle)g_rand_int_range (rand, 0, 4);
  design->bail.at_deg = g_rand_double_range (rand, 0, 360);
  design->band.seam_deg = 15 * g_rand_int_range (rand, 0, 24);
}

static gboolean
is_stone (const BwDesign *design)
{
  BwStone stone;
  return bw_stone_init (&stone, &design->stone, NULL);
}

static void
no_dimension_lies_on_another_or_off_the_paper (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (410);
  int planned = 0, beside = 0, slim = 0;
  for (int turn = 0; turn < 600; turn++) {
    BwStone stone;
    BwSheetPlan plan;
    BwDesign design = sample_random_design (rand, &stone);
    vary (&design, rand);
    if (!is_stone (&design))
      continue;
    double line = g_rand_boolean (rand) ? 17 : 34;
    plan_sheet (&plan, &design, g_rand_double_range (rand, 300, 1500), line, rand);
    assert_tidy (&plan);
    planned++;
    beside += plan.beside;
    slim += plan.slim;
  }
  /* All three ways of laying the sheet out were among them. */
  assert_true (planned > 300 && beside > 40 && slim > 10 && planned - beside > 40);
}

/* Sixteen widths are the most that are written round the section. */
static void
many_faces_have_room_and_more_are_told_elsewhere (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (411);
  for (int faces = 3; faces <= 64; faces++) {
    BwDesign design = sample_design ();
    BwSheetPlan plan;
    int values = 0;
    bw_measures_set_faces (&design.stone, faces);
    bw_measures_set_way (&design.stone, BW_MEASURED_FACE_WIDTHS);
    plan_sheet (&plan, &design, 800, 17, rand);
    assert_tidy (&plan);
    for (int i = 0; i < plan.n_notes; i++)
      values += plan.note[i].kind == BW_NOTE_WIDTH;
    assert_int_equal (values, faces <= BW_SHEET_VALUES_MOST ? faces : 0);
  }
}

/* Or the groups below would move under the pointer. */
static void
the_sheet_keeps_its_height_whatever_is_typed (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (412);
  for (int width = 500; width <= 1300; width += 100) {
    double height = 0;
    for (int turn = 0; turn < 60; turn++) {
      BwStone stone;
      BwSheetPlan plan = { .line = 17, .head = 30, .width = width };
      BwDesign design = sample_random_design (rand, &stone);
      vary (&design, rand);
      if (!is_stone (&design) || design.stone.faces > 12)
        continue;
      assert_true (bw_stone_init (&stone, &design.stone, NULL));
      bw_sheet_plan_list (&plan, &design, &stone);
      for (int i = 0; i < plan.n_notes; i++)
        plan.note[i].w = 100, plan.note[i].h = 24, plan.note[i].mid = 12;
      bw_sheet_plan_place (&plan, &design, &stone);
      if (height > 0 && fabs (plan.height - height) > 1e-6)
        fail_msg ("%d wide: %g high, and %g", width, plan.height, height);
      height = plan.height;
    }
  }
}

static const BwSheetNote *
note_of (const BwSheetPlan *plan, const char *pointer)
{
  for (int i = 0; i < plan->n_notes; i++)
    if (g_str_equal (plan->note[i].pointer, pointer))
      return &plan->note[i];
  return NULL;
}

static void
a_hairline_begins_where_its_dimension_is (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (413);
  BwDesign design = sample_design ();
  BwSheetPlan plan;
  plan_sheet (&plan, &design, 900, 17, rand);
  const BwSheetNote *first = note_of (&plan, "/stone/values_mm/0");
  const BwSheetNote *join = note_of (&plan, "/band/seam_deg");
  const BwSheetNote *length = note_of (&plan, "/stone/length_mm");
  const BwSheetNote *bottom = note_of (&plan, "/band/bottom_mm");
  assert_true (first->from_x > plan.cx && fabs (first->from_y - plan.cy) < 1e-6);
  assert_true (join->from_x < plan.cx && fabs (join->from_y - plan.cy) < 1e-6);
  double mm = (plan.base - bottom->from_y) / plan.profile_scale;
  assert_true (fabs (mm - bw_design_span (&design).bottom_mm) < 1e-6);
  mm = (length->to_y - length->from_y) / plan.profile_scale;
  assert_true (fabs (mm - design.stone.length_mm) < 1e-6);
  const BwSheetNote *shoulder = note_of (&plan, "/stone/shoulder_mm");
  assert_true (length->x + length->w < shoulder->from_x && length->from_x < shoulder->x);
}

static void
a_second_girth_that_is_missing_has_its_blank_on_the_prism (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (414);
  BwDesign design = sample_design ();
  BwSheetPlan plan;
  bw_measures_set_taper (&design.stone, FALSE);
  plan_sheet (&plan, &design, 900, 17, rand);
  assert_true (note_of (&plan, "/stone/second_girth_mm")->z_mm < design.stone.shoulder_mm);
  assert_null (note_of (&plan, "/stone/second_at_mm"));
  bw_measures_set_taper (&design.stone, TRUE);
  plan_sheet (&plan, &design, 900, 17, rand);
  assert_true (fabs (note_of (&plan, "/stone/second_at_mm")->z_mm - design.stone.second_at_mm)
               < 1e-9);
  assert_true (note_of (&plan, "/stone/second_girth_mm")->y
               < note_of (&plan, "/stone/second_at_mm")->y);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_dimension_lies_on_another_or_off_the_paper),
    cmocka_unit_test (many_faces_have_room_and_more_are_told_elsewhere),
    cmocka_unit_test (the_sheet_keeps_its_height_whatever_is_typed),
    cmocka_unit_test (a_hairline_begins_where_its_dimension_is),
    cmocka_unit_test (a_second_girth_that_is_missing_has_its_blank_on_the_prism),
  };
  return cmocka_run_group_tests_name ("sheet-plan", tests, NULL, NULL);
}
