/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small pictures of what can be printed: drawn elsewhere, and the very first pages. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/make/page-pictures.h"

#include <string.h>

static void
take (GObject *source, GAsyncResult *result, gpointer data)
{
  GAsyncResult **taken = data;
  *taken = g_object_ref (result);
}

static BwPagePictures *
ask (BwProject *project, GCancellable *stop)
{
  g_autoptr (GAsyncResult) result = NULL;
  bw_page_pictures_ask (project, BW_PAPER_A4, stop, take, &result);
  while (!result)
    g_main_context_iteration (NULL, TRUE);
  return bw_page_pictures_finish (result);
}

/* The same page drawn here, on white and at the same size. */
static cairo_surface_t *
draw_here (BwProject *project, BwPrintKind kind, int *pages)
{
  g_autoptr (BwSheet) sheet = bw_print_sheet_new (project, kind, BW_PAPER_A4);
  double scale = BW_PAGE_PICTURE_HEIGHT / BW_PAPER_A4.height;
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 255, BW_PAGE_PICTURE_HEIGHT);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  bw_sheet_draw_page (sheet, cr, 0);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  *pages = bw_sheet_n_pages (sheet);
  return surface;
}

static gboolean
are_same (cairo_surface_t *a, cairo_surface_t *b)
{
  int stride = cairo_image_surface_get_stride (a), height = cairo_image_surface_get_height (a);
  assert_int_equal (cairo_image_surface_get_width (a), cairo_image_surface_get_width (b));
  assert_int_equal (height, cairo_image_surface_get_height (b));
  return memcmp (cairo_image_surface_get_data (a), cairo_image_surface_get_data (b),
                 (gsize)stride * (gsize)height)
         == 0;
}

static void
each_is_the_first_page_as_it_would_be_printed (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  g_autoptr (BwPagePictures) pictures = ask (project, NULL);
  assert_non_null (pictures);
  for (int kind = 0; kind < BW_PAGE_PICTURES; kind++) {
    int pages;
    cairo_surface_t *here = draw_here (project, (BwPrintKind)kind, &pages);
    assert_int_equal (pictures->pages[kind], pages);
    assert_true (are_same (pictures->first[kind], here));
    if (kind > 0)
      assert_false (are_same (pictures->first[kind], pictures->first[kind - 1]));
    cairo_surface_destroy (here);
  }
}

static void
a_title_changed_meanwhile_is_not_in_the_picture (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GAsyncResult) result = NULL;
  int pages;
  cairo_surface_t *before = draw_here (project, BW_PRINT_STRIP, &pages);
  bw_page_pictures_ask (project, BW_PAPER_A4, NULL, take, &result);
  bw_project_set_title (project, "Title", "Another title altogether");
  while (!result)
    g_main_context_iteration (NULL, TRUE);
  g_autoptr (BwPagePictures) pictures = bw_page_pictures_finish (result);
  assert_true (are_same (pictures->first[BW_PRINT_STRIP], before));
  cairo_surface_destroy (before);
}

static void
what_is_stopped_gives_nothing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_cancellable_cancel (stop);
  assert_null (ask (project, stop));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_is_the_first_page_as_it_would_be_printed),
    cmocka_unit_test (a_title_changed_meanwhile_is_not_in_the_picture),
    cmocka_unit_test (what_is_stopped_gives_nothing),
  };
  return cmocka_run_group_tests_name ("page-pictures", tests, NULL, NULL);
}
