/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/workshop.h"

#include "output/report/report-beads.h"
#include "output/report/report-calibrate.h"
#include "output/report/report-hands.h"
#include "output/report/report-own.h"
#include "output/report/report-stash.h"
#include "output/report/report-ways.h"
#include "project/book/book-beads.h"
#include "project/book/book-file.h"
#include "project/book/book-stash.h"
#include "project/observed.h"
#include "project/fault/fault-error.h"
#include "project/file/sizes.h"
#include "tool/failed-file.h"

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
  g_autoptr (GError) failure = NULL;
  BwBook *book = NULL;
  if (options->book && !g_file_test (path, G_FILE_TEST_EXISTS))
    g_set_error_literal (&failure, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, "");
  else
    book = bw_book_load (path, &failure);
  if (!book)
    bw_failed_file (path, failure, BW_IO_READ, error);
  return book;
}

char *
bw_workshop_run_hands (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_hands (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}

char *
bw_workshop_run_beads (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  if (!book)
    return NULL;
  if (options->given & BW_OPTION_CSV)
    return bw_report_beads_csv (book);
  char *report = bw_report_beads (book, options->bead, (options->given & BW_OPTION_JSON) != 0);
  if (!report)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _ ("no bead of yours is called “%s”."),
                 options->bead);
  return report;
}

char *
bw_workshop_run_stash (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  if (!book)
    return NULL;
  if (options->given & BW_OPTION_CSV)
    return bw_report_stash_csv (book);
  return bw_report_stash (book, (options->given & BW_OPTION_JSON) != 0);
}

char *
bw_workshop_run_trays (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_trays (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}

char *
bw_workshop_run_stones (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_stones (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}

char *
bw_workshop_run_habits (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  return book ? bw_report_habits (book, (options->given & BW_OPTION_JSON) != 0) : NULL;
}

gboolean
bw_workshop_know (const BwOptions *options, GError **error)
{
  g_autoptr (BwBook) book = load_book (options, error);
  if (!book)
    return FALSE;
  g_autoptr (GArray) sizes = bw_book_bead_sizes (book);
  g_autoptr (BwStash) stash = bw_stash_new (book);
  bw_sizes_set_own (sizes);
  bw_stash_set_own (stash);
  return TRUE;
}

static gboolean
take_in (BwBook *book, gpointer other, GError **error)
{
  return bw_book_take_in (book, other, error);
}

char *
bw_workshop_run_read_in (const BwOptions *options, GError **error)
{
  BwOptions from = { .book = options->from };
  g_autoptr (BwBook) other = load_book (&from, error);
  g_autofree char *path = book_path (options);
  g_autoptr (GError) failure = NULL;
  if (!other)
    return NULL;
  if (bw_book_change (path, take_in, other, &failure))
    return g_strdup ("");
  bw_failed_file (path, failure, BW_IO_WRITE, error);
  return NULL;
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
  if (!bw_workshop_know (options, error))
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
  g_autoptr (GError) failure = NULL;
  if (!*bw_project_get_id (project)) {
    g_set_error_literal (error, BW_FAULT, BW_FAULT_MISSING,
                         _ ("/id: this project was never saved by the window since it keeps a "
                            "book: save it there once, or write an id of its own into it."));
    return NULL;
  }
  if (bw_observed_note (project, path, date, &failure))
    return g_strdup ("");
  bw_failed_file (path, failure, BW_IO_WRITE, error);
  return NULL;
}
