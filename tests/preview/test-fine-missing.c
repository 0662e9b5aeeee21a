/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program that was built without the ray library says so, and that is all that is lost. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pieces.h"
#include "preview/fine/fine.h"
#include <string.h>

static void
a_fine_picture_is_refused_in_words (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (BwProject) project = piece_new (0);
  g_autoptr (BwScene) scene = bw_scene_new (project, FALSE);
  BwStill still = { .camera = { .zoom = 1 }, .layers = BW_LAYER_ALL, .width = 64, .height = 64 };
  assert_null (bw_fine_new (scene, &still, &BW_FINE_USUAL, NULL, NULL, NULL, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED));
  assert_non_null (strstr (error->message, "built without"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (a_fine_picture_is_refused_in_words) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
