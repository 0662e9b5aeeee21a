/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages laid out, drawn and written elsewhere: the very pages that would be printed, of the project
 * as it was when they were asked for. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "app/make/page-set.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static void
take (GObject *source, GAsyncResult *result, gpointer data)
{
  GAsyncResult **taken = data;
  *taken = g_object_ref (result);
}

static void
wait_for (GAsyncResult **result)
{
  while (!*result)
    g_main_context_iteration (NULL, TRUE);
}

static BwPageSet *
lay_out (BwPageCopy *copy, BwPrintKind kind, BwPaper paper)
{
  g_autoptr (GAsyncResult) result = NULL;
  bw_page_set_ask (copy, kind, paper, NULL, take, &result);
  wait_for (&result);
  return bw_page_set_finish (result, NULL);
}

static GdkTexture *
picture (BwPageSet *set, int page, double scale)
{
  g_autoptr (GAsyncResult) result = NULL;
  bw_page_set_ask_picture (set, page, scale, NULL, take, &result);
  wait_for (&result);
  return bw_page_set_finish_picture (result, NULL);
}

/* The same page drawn here, on white and at the same size. */
static cairo_surface_t *
draw_here (BwPageSet *set, int page, double scale)
{
  BwPaper paper = bw_page_set_get_paper (set);
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, (int)lround (paper.width * scale), (int)lround (paper.height * scale));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  bw_page_set_draw (set, cr, page);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
are_same (GdkTexture *texture, cairo_surface_t *here)
{
  int stride = cairo_image_surface_get_stride (here), width = gdk_texture_get_width (texture);
  int height = gdk_texture_get_height (texture);
  if (width != cairo_image_surface_get_width (here)
      || height != cairo_image_surface_get_height (here))
    return FALSE;
  g_autofree guchar *bytes = g_malloc ((gsize)stride * (gsize)height);
  gdk_texture_download (texture, bytes, (gsize)stride);
  return memcmp (bytes, cairo_image_surface_get_data (here), (gsize)stride * (gsize)height) == 0;
}

static void
each_kind_is_drawn_as_it_is_printed (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (project);
  for (BwPrintKind kind = 0; kind < BW_N_PRINT_KINDS; kind++) {
    g_autoptr (BwPageSet) set = lay_out (copy, kind, BW_PAPER_LETTER);
    int last = bw_page_set_n_pages (set) - 1;
    assert_true (last >= 0);
    assert_int_equal (bw_page_set_get_kind (set), kind);
    assert_true (bw_paper_equal (bw_page_set_get_asked (set), BW_PAPER_LETTER));
    assert_int_equal (bw_paper_equal (bw_page_set_get_paper (set), BW_PAPER_LETTER),
                      bw_print_kind_has_paper (kind));
    g_autoptr (GdkTexture) texture = picture (set, last, 0.5);
    cairo_surface_t *here = draw_here (set, last, 0.5);
    assert_true (are_same (texture, here));
    cairo_surface_destroy (here);
  }
}

static void
a_title_changed_meanwhile_is_not_on_the_pages (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (project);
  bw_project_set_title (project, "Title", "Another title altogether");
  g_autoptr (BwPageCopy) later = bw_page_copy_new (project);
  g_autoptr (BwPageSet) old = lay_out (copy, BW_PRINT_STRIP, BW_PAPER_A4);
  g_autoptr (BwPageSet) again = lay_out (copy, BW_PRINT_STRIP, BW_PAPER_A4);
  g_autoptr (BwPageSet) new = lay_out (later, BW_PRINT_STRIP, BW_PAPER_A4);
  g_autoptr (GdkTexture) texture = picture (old, 0, 0.5);
  cairo_surface_t *same = draw_here (again, 0, 0.5), *other = draw_here (new, 0, 0.5);
  assert_true (are_same (texture, same));
  assert_false (are_same (texture, other));
  cairo_surface_destroy (same);
  cairo_surface_destroy (other);
}

static void
what_is_stopped_gives_nothing (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (project);
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  g_cancellable_cancel (stop);
  bw_page_set_ask (copy, BW_PRINT_STRIP, BW_PAPER_A4, stop, take, &result);
  wait_for (&result);
  assert_null (bw_page_set_finish (result, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}

/* However near a maker goes. */
static void
no_picture_is_too_large_for_the_memory (void **state)
{
  BwPaper poster = { BW_PAPER_MOST_MM * BW_POINTS_PER_MM, BW_PAPER_MOST_MM * BW_POINTS_PER_MM, 0 };
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (project);
  g_autoptr (BwPageSet) set = lay_out (copy, BW_PRINT_STRIP, poster);
  g_autoptr (GdkTexture) texture = picture (set, 0, 10);
  double pixels = (double)gdk_texture_get_width (texture) * gdk_texture_get_height (texture);
  assert_true (pixels > 0.9 * BW_PAGE_PIXELS_MOST && pixels < 1.1 * BW_PAGE_PIXELS_MOST);
}

static gboolean
write_to (BwPageSet *set, const char *path, GError **error)
{
  g_autoptr (GAsyncResult) result = NULL;
  bw_page_set_ask_written (set, path, NULL, take, &result);
  wait_for (&result);
  return bw_page_set_finish_written (result, error);
}

static void
pages_are_written_as_pdf_and_the_shops_picture_as_png (void **state)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("page-set-XXXXXX", NULL);
  g_autofree char *pdf = g_build_filename (folder, "tags.pdf", NULL);
  g_autofree char *png = g_build_filename (folder, "listing.png", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "none", "tags.pdf", NULL), *bytes = NULL;
  g_autoptr (BwProject) project = bw_project_new ();
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (project);
  g_autoptr (BwPageSet) tags = lay_out (copy, BW_PRINT_TAGS, BW_PAPER_A4);
  g_autoptr (BwPageSet) listing = lay_out (copy, BW_PRINT_LISTING, BW_PAPER_A4);
  assert_true (write_to (tags, pdf, NULL));
  assert_true (g_file_get_contents (pdf, &bytes, NULL, NULL));
  assert_true (g_str_has_prefix (bytes, "%PDF-"));
  assert_true (write_to (listing, png, NULL));
  cairo_surface_t *surface = cairo_image_surface_create_from_png (png);
  assert_int_equal (cairo_image_surface_get_width (surface), 1600);
  assert_int_equal (cairo_image_surface_get_height (surface), 1600);
  cairo_surface_destroy (surface);
  assert_false (write_to (tags, nowhere, &error));
  assert_non_null (strstr (error->message, "tags.pdf"));
  g_unlink (pdf);
  g_unlink (png);
  g_rmdir (folder);
}

static void
every_kind_is_found_again_by_its_word (void **state)
{
  for (BwPrintKind kind = 0; kind < BW_N_PRINT_KINDS; kind++) {
    assert_int_equal (bw_print_kind_from_word (bw_print_kind_word (kind)), kind);
    assert_string_not_equal (bw_print_kind_name (kind), bw_print_kind_use (kind));
  }
  assert_int_equal (bw_print_kind_from_word ("poster"), BW_PRINT_SHEET);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_kind_is_drawn_as_it_is_printed),
    cmocka_unit_test (a_title_changed_meanwhile_is_not_on_the_pages),
    cmocka_unit_test (what_is_stopped_gives_nothing),
    cmocka_unit_test (no_picture_is_too_large_for_the_memory),
    cmocka_unit_test (pages_are_written_as_pdf_and_the_shops_picture_as_png),
    cmocka_unit_test (every_kind_is_found_again_by_its_word),
  };
  return cmocka_run_group_tests_name ("page-set", tests, NULL, NULL);
}
