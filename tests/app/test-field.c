/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields: found by pointer, read as typed, written as read, and honest about what they make void.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/form/field.h"
#include "project/fault/fault-error.h"
#include "project/project.h"

#include <math.h>

static const char *const pointers[] = {
  "/stone/density_g_cm3",
  "/stone/faces",
  "/stone/values_mm/0",
  "/stone/values_mm/63",
  "/stone/at_mm",
  "/stone/second_girth_mm",
  "/stone/second_at_mm",
  "/stone/length_mm",
  "/stone/shoulder_mm",
  "/stone/natural_angle_deg",
  "/stone/apex_offset_mm/0",
  "/stone/apex_offset_mm/1",
  "/stone/base_shoulder_mm",
  "/stone/base_apex_offset_mm/0",
  "/stone/base_apex_offset_mm/1",
  "/stone/girth_sd_mm",
  "/bead/diameter_mm",
  "/bead/length_mm",
  "/bead/hole_mm",
  "/bead/glass_g_cm3",
  "/gauge/column_mm",
  "/gauge/pitch_mm",
  "/bed/cord_thickness_mm",
  "/bed/cord_width_mm",
  "/bed/layers",
  "/bed/top_extra_mm",
  "/bed/squeeze",
  "/bed/overhang_mm",
  "/bed/girth_over_mm",
  "/band/columns",
  "/band/rows",
  "/band/bottom_mm",
  "/band/seam_deg",
  "/bail/columns",
  "/bail/rows",
  "/bail/base_beads",
  "/bail/at_deg",
  "/bail/cord_mm",
  "/bail/clearance_mm",
  "/thread/diameter_mm",
  "/thread/needle_mm",
  "/thread/working_mm",
  "/thread/tail_mm",
  "/thread/stretch",
  "/fit/slack_mm",
  "/fit/friction",
  "/materials/spare",
  "/materials/pack_g",
  "/materials/pieces",
  "/materials/prices/pack",
  "/materials/prices/thread_per_m",
  "/materials/prices/bed_cord_per_m",
  "/materials/prices/stone",
  "/materials/prices/hour",
  "/materials/prices/rows_per_hour",
  "/materials/prices/hanging_cord_per_m",
  "/materials/prices/findings",
  "/materials/neck_mm",
  "/materials/closing_mm",
};

static BwDesign
plain_design (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  return *bw_project_get_design (project);
}

static BwField
field_of (const char *pointer)
{
  BwField field;
  if (!bw_field_find (&field, pointer))
    fail_msg ("no field %s", pointer);
  return field;
}

/* Each field owns its own place: what one sets no other shows, and it is read back. */
static void
every_field_is_found_and_keeps_its_value (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++) {
    BwDesign design = plain_design ();
    BwField field = field_of (pointers[i]);
    bw_field_set (&field, &design, 7);
    assert_string_equal (field.pointer, pointers[i]);
    assert_true (bw_field_is_there (&field, &design));
    assert_true (fabs (bw_field_get (&field, &design) - 7) < 1e-12);
  }
}

static void
no_two_fields_share_a_place (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pointers); i++)
    for (gsize j = 0; j < i; j++)
      assert_int_not_equal (field_of (pointers[i]).offset, field_of (pointers[j]).offset);
}

static void
what_is_no_field_is_not_found (void **state)
{
  static const char *const others[] = { "",
                                        "/stone",
                                        "/stone/values_mm/64",
                                        "/stone/values_mm/-1",
                                        "/stone/values_mm/",
                                        "/stone/values_mm/1x",
                                        "/stone/values_mm/99999999999999999999",
                                        "/tray/0/name" };
  BwField field;
  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    assert_false (bw_field_find (&field, others[i]));
}

static void
assert_reads (const char *pointer, const char *text, BwUnit unit, double expected)
{
  BwField field = field_of (pointer);
  double value;
  g_autoptr (GError) error = NULL;
  if (!bw_field_parse (&field, text, unit, &value, &error))
    fail_msg ("%s: “%s” was not read: %s", pointer, text, error->message);
  if (fabs (value - expected) > 1e-9)
    fail_msg ("%s: “%s” was read as %g", pointer, text, value);
}

static void
numbers_are_read_with_and_without_their_unit (void **state)
{
  assert_reads ("/stone/length_mm", "58", BW_UNIT_MM, 58);
  assert_reads ("/stone/length_mm", "2", BW_UNIT_INCH, 50.8);
  assert_reads ("/stone/length_mm", "3/8\"", BW_UNIT_MM, 9.525);
  assert_reads ("/stone/length_mm", "9.5 mm", BW_UNIT_INCH, 9.5);
  assert_reads ("/band/seam_deg", "180°", BW_UNIT_MM, 180);
  assert_reads ("/band/seam_deg", " 12,5 deg ", BW_UNIT_MM, 12.5);
  assert_reads ("/bed/squeeze", "15 %", BW_UNIT_MM, 0.15);
  assert_reads ("/bed/squeeze", "15", BW_UNIT_MM, 0.15);
  assert_reads ("/stone/density_g_cm3", "2.65 g/cm³", BW_UNIT_MM, 2.65);
  assert_reads ("/materials/pack_g", "5 g", BW_UNIT_MM, 5);
  assert_reads ("/band/rows", "114", BW_UNIT_MM, 114);
  assert_reads ("/bed/top_extra_mm", "-0.2", BW_UNIT_MM, -0.2);
}

static void
assert_refuses (const char *pointer, const char *text)
{
  BwField field = field_of (pointer);
  double value;
  g_autoptr (GError) error = NULL;
  if (bw_field_parse (&field, text, BW_UNIT_MM, &value, &error))
    fail_msg ("%s: “%s” was read as %g", pointer, text, value);
  assert_true (error->domain == BW_FAULT);
  g_autofree char *blamed = bw_fault_dup_pointer (error);
  assert_string_equal (blamed, pointer);
}

static void
what_is_no_number_is_refused_at_its_field (void **state)
{
  static const char *const texts[] = { "", "abc", "1e5000", "--3", "1.2.3", "nan", "inf", "0x10" };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    assert_refuses ("/stone/length_mm", texts[i]);
    assert_refuses ("/band/seam_deg", texts[i]);
    assert_refuses ("/band/rows", texts[i]);
    assert_refuses ("/bed/squeeze", texts[i]);
  }
}

static void
a_count_must_be_whole (void **state)
{
  assert_refuses ("/band/rows", "114.5");
  assert_refuses ("/bed/layers", "1,5");
  assert_refuses ("/band/rows", "99999999999");
}

/* What an entry shows must mean the same value when it is taken again. */
static void
what_is_shown_is_read_back_the_same (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  for (int i = 0; i < 2000; i++) {
    BwField field = field_of (pointers[g_rand_int_range (rand, 0, G_N_ELEMENTS (pointers))]);
    double value = field.quantity == BW_QUANTITY_COUNT ? g_rand_int_range (rand, 0, 20000)
                   : field.quantity == BW_QUANTITY_SHARE
                       ? g_rand_int_range (rand, 0, 900) / 1000.0
                       : g_rand_int_range (rand, -9000, 9000) / 100.0;
    double back, tolerance = field.quantity == BW_QUANTITY_LENGTH ? 0.002 : 1e-9;
    BwUnit unit = g_rand_boolean (rand) ? BW_UNIT_MM : BW_UNIT_INCH;
    g_autofree char *text = bw_field_format (&field, value, unit);
    if (!bw_field_parse (&field, text, unit, &back, NULL))
      fail_msg ("%s: %s is not read back", field.pointer, text);
    if (fabs (back - value) > tolerance)
      fail_msg ("%s: %.17g is shown as %s", field.pointer, value, text);
  }
}

static int
count_decimals (const char *text)
{
  const char *point = strchr (text, '.');
  return point ? (int)strspn (point + 1, "0123456789") : 0;
}

/* What follows from other numbers has no more decimals than anybody measures. */
static void
what_was_reckoned_is_shown_as_finely_as_it_is_measured (void **state)
{
  static const struct {
    const char *pointer, *shown;
    double value;
  } cases[] = { { "/bed/squeeze", "21.9\u00a0%", 0.2188172 },
                { "/thread/stretch", "1.2\u00a0%", 0.0123457 },
                { "/gauge/pitch_mm", "1.61\u00a0mm", 1.6133333 },
                { "/stone/second_girth_mm", "83.3\u00a0mm", 83.2766617 },
                { "/stone/natural_angle_deg", "38.2\u00a0°", 38.2133333 },
                { "/bed/cord_thickness_mm", "0.38\u00a0mm", 0.3812345 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwField field = field_of (cases[i].pointer);
    g_autofree char *text = bw_field_format (&field, cases[i].value, BW_UNIT_MM);
    if (atof (text) != atof (cases[i].shown))
      fail_msg ("%s is shown as %s", cases[i].shown, text);
  }
  for (int i = 0; i < 2000; i++) {
    BwField field = field_of (pointers[g_rand_int_range (rand, 0, G_N_ELEMENTS (pointers))]);
    g_autofree char *text
        = bw_field_format (&field, g_rand_double_range (rand, 0.01, 90), BW_UNIT_MM);
    assert_true (count_decimals (text) <= 2);
  }
}

/* Three decimals, and what a rule in inches has, stand as they were typed. */
static void
what_is_typed_stays_as_it_was_typed (void **state)
{
  static const struct {
    const char *pointer, *text;
    BwUnit unit;
  } cases[] = { { "/bed/squeeze", "21.875", BW_UNIT_MM },
                { "/gauge/pitch_mm", "1.613", BW_UNIT_MM },
                { "/stone/values_mm/0", "24.625", BW_UNIT_MM },
                { "/stone/length_mm", "2.2875", BW_UNIT_INCH },
                { "/stone/length_mm", "0.0469", BW_UNIT_INCH } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++) {
    BwField field = field_of (cases[i].pointer);
    double value;
    assert_true (bw_field_parse (&field, cases[i].text, cases[i].unit, &value, NULL));
    g_autofree char *shown = bw_field_format (&field, value, cases[i].unit);
    if (!g_str_has_prefix (shown, cases[i].text))
      fail_msg ("%s is shown as %s", cases[i].text, shown);
  }
}

static void
trailing_zeros_are_not_shown (void **state)
{
  BwField number = field_of ("/fit/friction"), share = field_of ("/bed/squeeze");
  g_autofree char *whole = bw_field_format (&number, 20, BW_UNIT_MM);
  g_autofree char *part = bw_field_format (&number, 0.25, BW_UNIT_MM);
  g_autofree char *nothing = bw_field_format (&number, -0.00001, BW_UNIT_MM);
  g_autofree char *percent = bw_field_format (&share, 0.15, BW_UNIT_MM);
  assert_string_equal (whole, "20");
  assert_string_equal (part, "0.25");
  assert_string_equal (nothing, "0");
  assert_string_equal (percent, "15\u00a0%");
}

static void
a_hand_typed_gauge_drops_the_swatch (void **state)
{
  BwDesign design = plain_design ();
  BwField field = field_of ("/gauge/pitch_mm");
  design.gauge.has_swatch = TRUE;
  bw_field_set (&field, &design, 1.62);
  assert_false (design.gauge.has_swatch);
}

static void
another_layer_voids_the_girth_over_the_bed (void **state)
{
  BwDesign design = plain_design ();
  BwField layers = field_of ("/bed/layers"), width = field_of ("/bed/cord_width_mm");
  design.bed.has_girth_over = TRUE;
  bw_field_set (&width, &design, 1.2);
  assert_true (design.bed.has_girth_over);
  bw_field_set (&layers, &design, 2);
  assert_false (design.bed.has_girth_over);
}

static void
a_beads_dimension_takes_the_tables_name_away (void **state)
{
  BwDesign design = plain_design ();
  BwField glass = field_of ("/bead/glass_g_cm3"), hole = field_of ("/bead/hole_mm");
  bw_bead_set_name (&design.bead, "11/0 cylinder");
  bw_field_set (&glass, &design, 3);
  assert_string_equal (design.bead.name, "11/0 cylinder");
  bw_field_set (&hole, &design, 0.9);
  assert_string_equal (design.bead.name, "");
}

static void
shoulder_and_natural_angle_exclude_each_other (void **state)
{
  BwDesign design = plain_design ();
  BwField shoulder = field_of ("/stone/shoulder_mm"), angle = field_of ("/stone/natural_angle_deg");
  bw_field_set (&angle, &design, 38.2);
  assert_false (design.stone.has_shoulder);
  assert_true (design.stone.has_natural_angle);
  bw_field_set (&shoulder, &design, 30);
  assert_true (design.stone.has_shoulder);
  assert_false (design.stone.has_natural_angle);
}

static void
an_optional_value_can_be_cleared (void **state)
{
  BwDesign design = plain_design ();
  BwField over = field_of ("/bed/girth_over_mm"), length = field_of ("/stone/length_mm");
  bw_field_set (&over, &design, 80);
  assert_true (bw_field_is_there (&over, &design));
  bw_field_clear (&over, &design);
  assert_false (bw_field_is_there (&over, &design));
  bw_field_clear (&length, &design);
  assert_true (bw_field_is_there (&length, &design));
}

static void
a_step_in_inches_is_a_round_number_of_thousandths (void **state)
{
  BwField length = field_of ("/stone/length_mm"), angle = field_of ("/band/seam_deg");
  double thousandths = bw_field_step (&length, BW_UNIT_INCH) / 0.0254;
  assert_true (fabs (thousandths - round (thousandths)) < 1e-9);
  assert_true (thousandths > 0.5);
  assert_true (fabs (bw_field_step (&length, BW_UNIT_MM) - 0.5) < 1e-12);
  assert_true (fabs (bw_field_step (&angle, BW_UNIT_INCH) - 5) < 1e-12);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_field_is_found_and_keeps_its_value),
    cmocka_unit_test (no_two_fields_share_a_place),
    cmocka_unit_test (what_is_no_field_is_not_found),
    cmocka_unit_test (numbers_are_read_with_and_without_their_unit),
    cmocka_unit_test (what_is_no_number_is_refused_at_its_field),
    cmocka_unit_test (a_count_must_be_whole),
    cmocka_unit_test (what_is_shown_is_read_back_the_same),
    cmocka_unit_test (what_was_reckoned_is_shown_as_finely_as_it_is_measured),
    cmocka_unit_test (what_is_typed_stays_as_it_was_typed),
    cmocka_unit_test (trailing_zeros_are_not_shown),
    cmocka_unit_test (a_hand_typed_gauge_drops_the_swatch),
    cmocka_unit_test (another_layer_voids_the_girth_over_the_bed),
    cmocka_unit_test (a_beads_dimension_takes_the_tables_name_away),
    cmocka_unit_test (shoulder_and_natural_angle_exclude_each_other),
    cmocka_unit_test (an_optional_value_can_be_cleared),
    cmocka_unit_test (a_step_in_inches_is_a_round_number_of_thousandths),
  };
  return cmocka_run_group_tests_name ("field", tests, NULL, NULL);
}
