/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trays from and for other programs' palettes. */
#include "fixture.h"

#include "project/document/document.h"
#include "project/file/palette.h"

#include <string.h>

static gboolean
read_text (const char *text, BwTray *tray, GError **error)
{
  return bw_palette_read (text, strlen (text), tray, error);
}

/* As the GIMP's own documentation has the format: a head, a name, and a colour a line. */
static void
a_gimp_palette_becomes_a_tray (void **state)
{
  BwTray tray;
  g_autoptr (GError) error = NULL;
  assert_true (read_text ("GIMP Palette\r\nName: Ebb\r\nColumns: 3\r\n# made by hand\r\n"
                          " 27  42  65\tNight water\r\n233 196 106  Lamp glass\r\n  0   0   0\r\n",
                          &tray, &error));
  assert_int_equal (tray.n_colours, 3);
  assert_int_equal (tray.colour[0].srgb, 0x1b2a41);
  assert_string_equal (tray.colour[0].name, "Night water");
  assert_string_equal (tray.colour[1].name, "Lamp glass");
  assert_int_equal (tray.colour[1].srgb, 0xe9c46a);
  assert_string_equal (tray.colour[2].name, "");
  assert_int_equal (tray.colour[2].id, 'c');
  assert_true (bw_tray_validate (&tray, &error));
}

static void
css_colours_become_a_tray_wherever_they_stand (void **state)
{
  BwTray tray;
  g_autoptr (GError) error = NULL;
  assert_true (read_text (":root { --night-water: #1b2a41; --lamp: #FC0 }\n"
                          "a#abcdefg { color: #abc; background: #1b2a41 } b { color: #12345 }",
                          &tray, &error));
  assert_int_equal (tray.n_colours, 4);
  assert_string_equal (tray.colour[0].name, "Night water");
  assert_int_equal (tray.colour[1].srgb, 0xffcc00);
  assert_int_equal (tray.colour[2].srgb, 0xaabbcc);
  assert_string_equal (tray.colour[3].name, "");
  assert_true (bw_tray_validate (&tray, &error));
}

static void
what_is_written_is_read_again (void **state)
{
  g_autoptr (BwProject) project = corpus_project ("sound.bandwright");
  const BwTray *own = bw_project_get_tray (project);
  g_autofree char *gpl = bw_palette_to_gpl (own, "Harbour\nNight");
  g_autofree char *css = bw_palette_to_css (own);
  BwTray tray;
  assert_non_null (strstr (gpl, "Name: Harbour Night\n"));
  assert_true (read_text (gpl, &tray, NULL));
  assert_int_equal (tray.n_colours, own->n_colours);
  for (int i = 0; i < own->n_colours; i++) {
    assert_int_equal (tray.colour[i].srgb, own->colour[i].srgb);
    assert_string_equal (tray.colour[i].name, own->colour[i].name);
  }
  assert_true (read_text (css, &tray, NULL));
  assert_int_equal (tray.n_colours, own->n_colours);
  assert_string_equal (tray.colour[0].name, own->colour[0].name);
}

static void
what_is_no_palette_is_one_sentence (void **state)
{
  static const char *const bad[][2] = {
    { "", "no colours were found" },
    { "GIMP Palette\n", "no colours were found" },
    { "GIMP Palette\nName: x\n12 300 4 Red\n", "line 3 of the palette" },
    { "GIMP Palette\n12 30\n", "line 2 of the palette" },
    { "just words, #nothing", "no colours were found" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    BwTray tray;
    assert_false (read_text (bad[i][0], &tray, &error));
    if (!strstr (error->message, bad[i][1]))
      fail_msg ("%s: %s", bad[i][0], error->message);
  }
}

static void
more_colours_than_a_tray_holds_are_refused (void **state)
{
  g_autoptr (GString) text = g_string_new ("GIMP Palette\n");
  g_autoptr (GError) error = NULL;
  BwTray tray;
  for (int i = 0; i <= BW_TRAY_MAX; i++)
    g_string_append_printf (text, "%d %d 7\tcolour %d\n", i % 256, i / 256, i);
  assert_false (read_text (text->str, &tray, &error));
  assert_non_null (strstr (error->message, "a tray holds"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_gimp_palette_becomes_a_tray),
    cmocka_unit_test (css_colours_become_a_tray_wherever_they_stand),
    cmocka_unit_test (what_is_written_is_read_again),
    cmocka_unit_test (what_is_no_palette_is_one_sentence),
    cmocka_unit_test (more_colours_than_a_tray_holds_are_refused),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
