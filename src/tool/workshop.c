/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/workshop.h"

#include "output/report/report-calibrate.h"
#include "output/report/report-hands.h"
#include "output/report/report-ways.h"
#include "project/book/book-file.h"
#include "project/observed.h"
#include "project/fault/fault-error.h"
#include "project/file/io-words.h"

#include <glib/gi18n-lib.h>

static char *
book_path (const BwOptions *options)
{
  return options->book ? g_strdup (options->book) : bw_book_usual_path ();
}

/* The user's own unless another is named; one that is named must be there. */
static BwBook *
load_book (const BwOptions *options, GError **error)
{
  g_autofree char *path = book_path (options);
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

char *
bw_workshop_run_calibrate (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_calibrate (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}

char *
bw_workshop_run_ways (BwProject *project, const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  g_auto (BwBookHands) hands = { 0 };
  if (!book)
    return NULL;
  bw_book_hands_init (&hands, book);
  return bw_report_ways (project, &hands, options->given & BW_OPTION_WANT ? &options->want : NULL,
                         options->limit, (guint)options->seed,
                         (options->given & BW_OPTION_JSON) != 0);
}

char *
bw_workshop_run_note (BwProject *project, const BwOptions *options, GError **error)
{
  g_autofree char *path = book_path (options), *date = bw_observed_today ();
  g_autofree char *name = g_filename_display_name (path);
  g_autoptr (GError) failure = NULL;
  if (!*bw_project_get_id (project)) {
    g_set_error_literal (error, BW_FAULT, BW_FAULT_MISSING,
                         _ ("/id: this project was never saved by the window since it keeps a "
                            "book: save it there once, or write an id of its own into it."));
    return NULL;
  }
  if (bw_observed_note (project, path, date, &failure))
    return g_strdup ("");
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", name,
               failure->domain == BW_FAULT ? failure->message : bw_io_words (failure, BW_IO_WRITE));
  return NULL;
}
