/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/workshop.h"

#include "output/report/report-hands.h"
#include "project/book/book-file.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>

/* The user's own unless another is named; one that is named must be there. */
static BwBook *
load_book (const BwOptions *options, GError **error)
{
  g_autofree char *path = options->book ? g_strdup (options->book) : bw_book_usual_path ();
  g_autofree char *name = g_filename_display_name (path);
  g_autoptr (GError) failure = NULL;
  BwBook *book = NULL;
  if (options->book && !g_file_test (path, G_FILE_TEST_EXISTS))
    g_set_error_literal (&failure, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, "");
  else
    book = bw_book_load (path, &failure);
  if (!book)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name,
                 failure->domain == BW_FAULT ? failure->message
                                             : bw_io_words (failure, BW_IO_READ));
  return book;
}

char *
bw_workshop_run_hands (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_hands (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}
