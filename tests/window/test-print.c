/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comes out of the toolkit's print operation is what the file has, page by page; and what
 * cannot be printed is told in one sentence, once. */
#include "maker.h"

#include "app/make/print-run.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#define PAGES_PX 60 /* dots per inch that pages are compared at */
#define ALIKE 40    /* of 255: how far a channel of one dot may be off, by rounding at edges */

typedef struct {
  Maker maker;
  int told;
  char *sentence;
} Bench;

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  g_autofree char *path = maker_save (project, "kelp.bandwright");
  maker_start (&bench->maker, path);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->sentence);
  g_free (bench);
  return 0;
}

static void
take_sentence (const char *sentence, gpointer owner)
{
  Bench *bench = g_object_get_data (owner, "test-bench");
  bench->told++;
  g_free (bench->sentence);
  bench->sentence = g_strdup (sentence);
}

static void
export_to (Bench *bench, BwPrintKind kind, const char *path, GtkPageSetup *setup)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_object_set_data (G_OBJECT (bench->maker.window), "test-bench", bench);
  gtk_print_operation_set_export_filename (operation, path);
  if (setup) {
    g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
    gtk_print_settings_set_paper_size (settings, gtk_page_setup_get_paper_size (setup));
    gtk_print_operation_set_print_settings (operation, settings);
  }
  bw_print_operate (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, GTK_WINDOW (bench->maker.window),
                    &(BwPrintOrder){ maker_project (&bench->maker), kind, NULL, take_sentence,
                                     G_OBJECT (bench->maker.window) });
  desk_settle ();
}

static void
run (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  int status;
  if (!g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL,
                     &status, &error)
      || !g_spawn_check_wait_status (status, &error))
    fail_msg ("%s: %s", argv[0], error->message);
}

/* The pages of a PDF as pictures NAME-1.png, NAME-2.png …, by poppler; how many. */
static int
page_pictures (const char *pdf, const char *stem)
{
  g_autofree char *dots = g_strdup_printf ("%d", PAGES_PX);
  const char *argv[] = { "pdftoppm", "-png", "-r", dots, pdf, stem, NULL };
  run (argv);
  g_autofree char *folder = g_path_get_dirname (stem), *name = g_path_get_basename (stem);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  for (const char *entry; (entry = g_dir_read_name (dir));)
    n += g_str_has_prefix (entry, name) && g_str_has_suffix (entry, ".png");
  return n;
}

static cairo_surface_t *
page (const char *stem, int number, int n)
{
  g_autofree char *path = n > 9 ? g_strdup_printf ("%s-%02d.png", stem, number)
                                : g_strdup_printf ("%s-%d.png", stem, number);
  cairo_surface_t *surface = cairo_image_surface_create_from_png (path);
  assert_int_equal (cairo_surface_status (surface), CAIRO_STATUS_SUCCESS);
  return surface;
}

/* How many dots of two pictures of one size differ to the eye. */
static int
count_unlike (cairo_surface_t *a, cairo_surface_t *b)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);
  int stride = cairo_image_surface_get_stride (a), unlike = 0;
  assert_int_equal (width, cairo_image_surface_get_width (b));
  assert_int_equal (height, cairo_image_surface_get_height (b));
  const guchar *p = cairo_image_surface_get_data (a), *q = cairo_image_surface_get_data (b);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      for (int channel = 0; channel < 3; channel++)
        if (ABS (p[y * stride + 4 * x + channel] - q[y * stride + 4 * x + channel]) > ALIKE) {
          unlike++;
          break;
        }
  return unlike;
}

static void
expect_same_pages (Bench *bench, BwPrintKind kind, const char *name)
{
  g_autofree char *printed = g_strconcat (name, "-printed.pdf", NULL);
  g_autofree char *written = g_strconcat (name, "-written.pdf", NULL);
  g_autofree char *printed_pages = maker_path (printed), *written_pages = maker_path (written);
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (maker_project (&bench->maker));
  assert_true (bw_page_lock ());
  g_autoptr (BwSheet) sheet = bw_page_copy_lay_out (copy, kind, bw_print_paper (), NULL);
  bw_page_unlock ();
  export_to (bench, kind, printed_pages, NULL);
  assert_int_equal (bench->told, 0);
  assert_true (bw_sheet_write_pdf (sheet, written_pages, NULL));
  int n = page_pictures (printed_pages, printed_pages);
  assert_int_equal (n, bw_sheet_n_pages (sheet));
  assert_int_equal (n, page_pictures (written_pages, written_pages));
  for (int i = 1; i <= n; i++) {
    cairo_surface_t *a = page (printed_pages, i, n), *b = page (written_pages, i, n);
    assert_int_equal (count_unlike (a, b), 0);
    cairo_surface_destroy (a);
    cairo_surface_destroy (b);
  }
}

static void
the_printer_gets_the_pages_of_the_file (void **state)
{
  expect_same_pages (*state, BW_PRINT_SHEET, "sheet");
  expect_same_pages (*state, BW_PRINT_STRIP, "strip");
  expect_same_pages (*state, BW_PRINT_KIT, "kit");
}

static void
a_printer_that_fails_is_told_once_and_by_name (void **state)
{
  Bench *bench = *state;
  g_autofree char *path = maker_path ("no such folder/out.pdf");
  g_autofree char *before = bw_project_to_data (maker_project (&bench->maker), NULL);
  export_to (bench, BW_PRINT_STRIP, path, NULL);
  assert_int_equal (bench->told, 1);
  assert_true (g_str_has_prefix (bench->sentence, "“Kelp lantern” could not be printed: "));
  assert_null (strchr (bench->sentence, '\n'));
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_autofree char *after = bw_project_to_data (maker_project (&bench->maker), NULL);
  assert_string_equal (after, before);
}

static void
a_paper_that_is_too_small_is_told_once (void **state)
{
  Bench *bench = *state;
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  GtkPaperSize *size = gtk_paper_size_new_custom ("ticket", "Ticket", 60, 60, GTK_UNIT_MM);
  g_autofree char *path = maker_path ("small.pdf");
  gtk_page_setup_set_paper_size_and_default_margins (setup, size);
  gtk_paper_size_free (size);
  export_to (bench, BW_PRINT_STRIP, path, setup);
  assert_int_equal (bench->told, 1);
  assert_non_null (strstr (bench->sentence, "do not fit that paper"));
}

static void
cancel (GtkPrintOperation *operation)
{
  gtk_print_operation_cancel (operation);
}

static void
what_is_cancelled_while_it_prints_accuses_no_printer (void **state)
{
  Bench *bench = *state;
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autofree char *path = maker_path ("cancelled.pdf");
  g_object_set_data (G_OBJECT (bench->maker.window), "test-bench", bench);
  gtk_print_operation_set_export_filename (operation, path);
  g_signal_connect (operation, "begin-print", G_CALLBACK (cancel), NULL);
  bw_print_operate (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, GTK_WINDOW (bench->maker.window),
                    &(BwPrintOrder){ maker_project (&bench->maker), BW_PRINT_STRIP, NULL,
                                     take_sentence, G_OBJECT (bench->maker.window) });
  desk_settle ();
  assert_int_equal (gtk_print_operation_get_status (operation), GTK_PRINT_STATUS_FINISHED_ABORTED);
  assert_int_equal (bench->told, 0);
}

int
main (void)
{
#define IN_WINDOW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    IN_WINDOW (the_printer_gets_the_pages_of_the_file),
    IN_WINDOW (a_printer_that_fails_is_told_once_and_by_name),
    IN_WINDOW (a_paper_that_is_too_small_is_told_once),
    IN_WINDOW (what_is_cancelled_while_it_prints_accuses_no_printer),
  };
  return maker_run (tests);
}
