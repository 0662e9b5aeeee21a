/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults in words: a place and a sentence, together and apart, and one of each for every key and
 * every kind that the core has. */
#include "fixture.h"

#include "project/document/keys.h"
#include "project/fault/fault-words.h"

static void
a_fault_says_the_place_and_then_the_sentence (void **state)
{
  g_autoptr (GError) error = NULL;

  bw_fault_set (&error, BW_FAULT_RANGE, "/stone/values_mm/2", "%d is too many: at most %d.", 7, 3);
  assert_true (g_error_matches (error, BW_FAULT, BW_FAULT_RANGE));
  assert_string_equal (error->message, "/stone/values_mm/2: 7 is too many: at most 3.");
}

static void
place_and_sentence_come_apart_again (void **state)
{
  static const char *const places[] = { "/bead/hole_mm", "/a", "/a: b/c", "/: ", "/" };

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++) {
    g_autoptr (GError) error = NULL, copy = NULL;
    g_autofree char *pointer = NULL;

    bw_fault_set (&error, BW_FAULT_TYPE, places[i], "A colon: it stays.");
    copy = g_error_copy (error);
    pointer = bw_fault_dup_pointer (copy);
    assert_string_equal (pointer, places[i]);
    assert_string_equal (bw_fault_sentence (copy), "A colon: it stays.");
  }
}

static void
a_fault_of_the_whole_document_has_no_place (void **state)
{
  g_autoptr (GError) error = NULL;

  bw_fault_set (&error, BW_FAULT_SYNTAX, "", "/tmp/a is not JSON: a brace is missing.");
  assert_null (bw_fault_dup_pointer (error));
  assert_string_equal (bw_fault_sentence (error), "/tmp/a is not JSON: a brace is missing.");
}

static void
an_error_from_elsewhere_is_all_sentence (void **state)
{
  g_autoptr (GError) error
      = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOENT, "/tmp/a: no such file");

  assert_null (bw_fault_dup_pointer (error));
  assert_string_equal (bw_fault_sentence (error), "/tmp/a: no such file");
}

static void
nobody_need_listen_to_a_fault (void **state)
{
  BwFault fault = { BW_FAULTY_TAPERS_AWAY, BW_AT_STONE_SECOND_GIRTH, BW_WHOLE, { 0 } };

  bw_fault_set (NULL, BW_FAULT_RANGE, "/a", "unheard");
  assert_false (bw_fault_tell (&fault, NULL));
  assert_false (bw_fault_check_range (2, 0, 1, "/a", NULL));
  assert_true (bw_fault_check_range (1, 0, 1, "/a", NULL));
}

static void
a_range_fault_tells_what_was_found_and_what_is_allowed (void **state)
{
  g_autoptr (GError) error = NULL, told = NULL;
  BwFault fault = { BW_FAULTY_RANGE, BW_AT_FIT_SLACK, BW_WHOLE, { 7.25, 0.5, 4 } };

  assert_false (bw_fault_check_range (7.25, 0.5, 4, "/fit/slack_mm", &error));
  assert_string_equal (error->message, "/fit/slack_mm: 7.25 mm is not between 0.5 mm and 4 mm.");
  assert_false (bw_fault_tell (&fault, &told));
  assert_string_equal (told->message, error->message);
  assert_true (g_error_matches (told, BW_FAULT, BW_FAULT_RANGE));
}

/* Whether a pointer is one of the keys that fill the design. */
static gboolean
is_key_of_the_file (const char *pointer)
{
  for (BwGroupId id = 0; id < BW_N_GROUPS; id++) {
    const BwKeyGroup *group = bw_key_group (id);

    for (int i = 0; i < group->n_keys; i++) {
      g_autofree char *key = g_strconcat (group->pointer, "/", group->keys[i].name, NULL);

      if (g_str_equal (key, pointer))
        return TRUE;
    }
  }
  return g_str_equal (pointer, "/progress/checks") || g_str_equal (pointer, "/progress/rows_done");
}

static void
every_key_has_a_place_of_its_own_in_the_file (void **state)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (BwFaultKey key = 0; key < BW_N_FAULT_KEYS; key++) {
    BwFault fault = { BW_FAULTY_RANGE, key, BW_WHOLE, { 0 } };
    char *pointer = bw_fault_pointer (&fault);

    assert_true (pointer && *pointer == '/');
    if (key < BW_AT_MOTIF_COLOURS && !is_key_of_the_file (pointer))
      fail_msg ("%s is no key of the file", pointer);
    if (!g_hash_table_add (seen, pointer))
      fail_msg ("two keys lie at the same place");
  }
}

static void
one_value_of_a_list_is_counted_from_0_in_the_file (void **state)
{
  BwFault fault = { BW_FAULTY_RANGE, BW_AT_STONE_APEX_OFFSET, 1, { 0 } };
  g_autofree char *pointer = bw_fault_pointer (&fault);

  assert_string_equal (pointer, "/stone/apex_offset_mm/1");
}

/* One fault of each kind, and every word of what is said of it. */
static const struct {
  BwFaultKind kind;
  double number[3];
  BwFaultCode code;
  const char *words;
} sentences[] = {
  { BW_FAULTY_RANGE, { 7.25, 0.5, 4 }, BW_FAULT_RANGE, "7.25 is not between 0.5 and 4." },
  { BW_FAULTY_ODD_COLUMNS,
    { 7 },
    BW_FAULT_RANGE,
    "7 columns cannot be woven in even-count peyote; the number must be even." },
  { BW_FAULTY_ODD_BAIL,
    { 5 },
    BW_FAULT_RANGE,
    "A bail of 5 columns cannot be woven in even-count peyote; the number must be even." },
  { BW_FAULTY_HALF_BEADS, { 2.25 }, BW_FAULT_RANGE, "2.25 is not a whole number of half beads." },
  { BW_FAULTY_NO_SHOULDER,
    { 0 },
    BW_FAULT_MISSING,
    "Where the point begins is not told; give the shoulder's height or the natural angle." },
  { BW_FAULTY_NO_FLATS,
    { 5 },
    BW_FAULT_GEOMETRY,
    "A stone of 5 faces has none that face each other, so it cannot be measured across the flats; "
    "an even number of faces can." },
  { BW_FAULTY_FACE_VANISHES,
    { 0, -1.25 },
    BW_FAULT_GEOMETRY,
    "Face 1 vanishes beside its neighbours: it would be -1.25 mm wide, and must be wider than 0." },
  { BW_FAULTY_SAME_HEIGHT,
    { 12 },
    BW_FAULT_GEOMETRY,
    "The second girth is taken at 12 mm, the height of the first measurements; it must be taken at "
    "another height." },
  { BW_FAULTY_TAPERS_AWAY,
    { 0 },
    BW_FAULT_GEOMETRY,
    "With this taper the prism comes to nothing before the stone ends; the second girth must be "
    "nearer to the first." },
  { BW_FAULTY_POINT_TOO_LONG,
    { 10, 69.5, 58 },
    BW_FAULT_GEOMETRY,
    "A point at 10 degrees would be 69.5 mm long, more than the stone's length of 58 mm allows." },
  { BW_FAULTY_SHOULDER_HIGH,
    { 70, 58 },
    BW_FAULT_GEOMETRY,
    "The shoulder lies at 70 mm; it must lie below the tip at 58 mm." },
  { BW_FAULTY_POINTS_MEET,
    { 30, 29 },
    BW_FAULT_GEOMETRY,
    "The lower point ends at 30 mm; it must end below the shoulder at 29 mm." },
  { BW_FAULTY_OFF_PRISM,
    { 42, 3, 41 },
    BW_FAULT_GEOMETRY,
    "A height of 42 mm is off the prism, which reaches from 3 to 41 mm." },
  { BW_FAULTY_TIP_OUT,
    { 14.5, 5, 12.25 },
    BW_FAULT_GEOMETRY,
    "The tip lies 14.5 mm out over face 6, so the point does not lean in from it; less than 12.25 "
    "mm is allowed." },
  { BW_FAULTY_NO_GLASS,
    { 1.6, 1.5 },
    BW_FAULT_GEOMETRY,
    "A hole of 1.6 mm leaves no glass; it must be less than the diameter, 1.5 mm." },
  { BW_FAULTY_GIRTH_UNDER,
    { 80, 82.5 },
    BW_FAULT_GEOMETRY,
    "A girth of 80 mm over the bed is less than the stone's own there, 82.5 mm." },
  { BW_FAULTY_GIRTH_FAR,
    { 990, 82.5 },
    BW_FAULT_GEOMETRY,
    "A girth of 990 mm over the bed is more than twice the stone's own there, 82.5 mm; no bed is "
    "as thick as the stone it lies on." },
  { BW_FAULTY_BED_UNDER,
    { -1, -0.65 },
    BW_FAULT_GEOMETRY,
    "With a grade of -1 mm the bed would be -0.65 mm thick at one edge; it must not be less than "
    "0." },
  { BW_FAULTY_HOLE_TOO_SMALL,
    { 0.9, 0.8 },
    BW_FAULT_GEOMETRY,
    "0.9 mm does not go through a hole of 0.8 mm; it must be thinner." },
  { BW_FAULTY_BAND_WIDE,
    { 60, 78, 58 },
    BW_FAULT_GEOMETRY,
    "60 columns make a band 78 mm wide, wider than the stone is long, 58 mm." },
  { BW_FAULTY_BAND_HIGH,
    { 18, 45, 40 },
    BW_FAULT_GEOMETRY,
    "A band 18 mm wide that begins at 45 mm reaches past the tip; it must begin at 40 mm or "
    "lower." },
  { BW_FAULTY_ROUND_LONG,
    { 0.001, 85.5, 20000 },
    BW_FAULT_GEOMETRY,
    "At 0.001 mm from bead to bead a round of 85.5 mm would take more than the 20000 rows that are "
    "allowed." },
  { BW_FAULTY_BAND_NARROW,
    { 2 },
    BW_FAULT_GEOMETRY,
    "A band of 2 columns is too narrow for this bail; it needs at least 4." },
  { BW_FAULTY_NO_STRIP,
    { 0 },
    BW_FAULT_RANGE,
    "Count the woven rows first: a strip is tried on at a row." },
  { BW_FAULTY_OVERLAP,
    { 40, 21.5 },
    BW_FAULT_RANGE,
    "A strip of 40 rows cannot lie over itself by 21.5 beads: count again." },
  { BW_FAULTY_BAIL_WIDE,
    { 14, 12, 10 },
    BW_FAULT_GEOMETRY,
    "A bail of 14 columns is too wide for a band of 12; at most 10 are allowed." },
  { BW_FAULTY_STRIP_WIDE,
    { 80, 104, 91.2 },
    BW_FAULT_GEOMETRY,
    "A strip of 80 columns is 104 mm wide, more than the 91.2 mm round the band." },
  { BW_FAULTY_BASE_WIDE,
    { 15, 14 },
    BW_FAULT_GEOMETRY,
    "A foot of 15 columns is wider than the band's 14." },
  { BW_FAULTY_BASE_LONG,
    { 58.5, 57 },
    BW_FAULT_GEOMETRY,
    "A foot of 58.5 beads is longer than the band's 57." },
  { BW_FAULTY_LOOP_SHORT,
    { 3, 3.2, 4.8 },
    BW_FAULT_GEOMETRY,
    "3 rows make a loop 3.2 mm long, too short to arch over its foot of 4.8 mm." },
  { BW_FAULTY_FACE_NARROW,
    { 1 },
    BW_FAULT_GEOMETRY,
    "Face 2 is too narrow for a motif of its own." },
  { BW_FAULTY_FACES_OPEN, { 0 }, BW_FAULT_GEOMETRY, "The faces do not go once round." },
  { BW_FAULTY_NO_TEXT, { 0 }, BW_FAULT_RANGE, "There is no text to set in beads." },
  { BW_FAULTY_NO_LETTER,
    { 0x3a9 },
    BW_FAULT_RANGE,
    "The bead alphabet has no “Ω”; it has A to Z with accents, ẞ, 0 to 9, ♥ and - + . , : / ! ? & "
    "* "
    "'." },
  { BW_FAULTY_TEXT_HIGH,
    { 7, 5 },
    BW_FAULT_GEOMETRY,
    "These letters need 7 columns, and there are 5 from the first to the last." },
  { BW_FAULTY_TEXT_LONG,
    { 130, 114 },
    BW_FAULT_GEOMETRY,
    "This text needs 130 rows, and there are 114 for it. Make it shorter, or give it fewer "
    "columns." },
};

static void
every_kind_has_its_sentence_with_the_numbers_in_it (void **state)
{
  gboolean said[BW_N_FAULT_KINDS] = { FALSE };

  for (gsize i = 0; i < G_N_ELEMENTS (sentences); i++) {
    BwFault fault = { sentences[i].kind, BW_AT_BED_LAYERS, BW_WHOLE, { 0 } };
    g_autofree char *words = NULL, *message = NULL;
    g_autoptr (GError) error = NULL;

    memcpy (fault.number, sentences[i].number, sizeof fault.number);
    words = bw_fault_words (&fault);
    assert_string_equal (words, sentences[i].words);
    assert_false (bw_fault_tell (&fault, &error));
    assert_true (g_error_matches (error, BW_FAULT, (int)sentences[i].code));
    message = g_strconcat ("/bed/layers: ", sentences[i].words, NULL);
    assert_string_equal (error->message, message);
    said[fault.kind] = TRUE;
  }
  for (int kind = 0; kind < BW_N_FAULT_KINDS; kind++)
    assert_true (said[kind]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_fault_says_the_place_and_then_the_sentence),
    cmocka_unit_test (place_and_sentence_come_apart_again),
    cmocka_unit_test (a_fault_of_the_whole_document_has_no_place),
    cmocka_unit_test (an_error_from_elsewhere_is_all_sentence),
    cmocka_unit_test (nobody_need_listen_to_a_fault),
    cmocka_unit_test (a_range_fault_tells_what_was_found_and_what_is_allowed),
    cmocka_unit_test (every_key_has_a_place_of_its_own_in_the_file),
    cmocka_unit_test (one_value_of_a_list_is_counted_from_0_in_the_file),
    cmocka_unit_test (every_kind_has_its_sentence_with_the_numbers_in_it),
  };
  return cmocka_run_group_tests_name ("fault-words", tests, NULL, NULL);
}
