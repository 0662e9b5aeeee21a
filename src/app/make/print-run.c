/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's print operation round our own pages. The strip proves measurements, so nothing is
 * ever scaled to a paper: a paper that does not hold a page is refused. */
#include "config.h"

#include "app/make/print-run.h"
#include "app/kit/settings.h"
#include "preview/picture/portrait.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>

/* Printers round their papers to whole points or tenths of a millimetre. */
#define ROUNDING_PT 3.0
#define LARGER 1.3 /* times A4 */

typedef struct {
  BwProject *project;
  BwPrintKind kind;
  BwSheet *sheet; /* while printing */
  BwPrintTold told;
  GWeakRef owner;
  char *fault; /* our own sentence, why nothing was printed */
  gboolean ended;
  gboolean cancelled; /* by the maker, who knows */
  gboolean gave_up;   /* the printer did, or so the toolkit says of what was cancelled too */
} Run;

BwSheet *
bw_print_sheet_new (BwProject *project, BwPrintKind kind, BwPaper paper)
{
  if (kind == BW_PRINT_STRIP)
    return bw_strip_new (project, paper);
  cairo_surface_t *hanging = bw_portrait_new (project, BW_PORTRAIT_HANGING, BW_PORTRAIT_SIDE, NULL);
  cairo_surface_t *join = NULL;
  if (hanging && kind == BW_PRINT_SHEET)
    join = bw_portrait_new (project, BW_PORTRAIT_JOIN, BW_PORTRAIT_SIDE, NULL);
  int makers = bw_project_get_design (project)->supply.pieces;
  BwSheet *sheet = kind == BW_PRINT_KIT ? bw_kit_new (project, paper, makers, hanging)
                                        : bw_sheet_new (project, paper, hanging, join);
  g_clear_pointer (&hanging, cairo_surface_destroy);
  g_clear_pointer (&join, cairo_surface_destroy);
  return sheet;
}

static guint
wishes (void)
{
  BwSettings *settings = bw_settings_get ();
  return (bw_settings_get_flag (settings, "print-large") ? BW_PRINT_LARGE : 0)
         | (bw_settings_get_flag (settings, "print-sparing") ? BW_PRINT_SPARING : 0)
         | (bw_settings_get_flag (settings, "print-costs") ? BW_PRINT_COSTS : 0);
}

BwPaper
bw_print_paper (void)
{
  g_autofree char *word = NULL;
  BwPaper paper;
  g_object_get (bw_settings_get (), "paper", &word, NULL);
  if (!bw_paper_from_word (word, &paper))
    paper = g_str_equal (gtk_paper_size_get_default (), GTK_PAPER_NAME_LETTER) ? BW_PAPER_LETTER
                                                                               : BW_PAPER_A4;
  paper.wishes = wishes ();
  return paper;
}

static gboolean
holds (double width, double height, BwPaper paper)
{
  return width >= paper.width - ROUNDING_PT && height >= paper.height - ROUNDING_PT;
}

static gboolean
can_be_laid_out (double width, double height)
{
  double least = BW_PAPER_LEAST_MM * BW_POINTS_PER_MM, most = BW_PAPER_MOST_MM * BW_POINTS_PER_MM;
  return MIN (width, height) >= least && MAX (width, height) <= most;
}

/* A larger paper is used, for pages grow with it; one a little larger than the usual gets the usual
 * page, one of another shape pages of its own, and one too small for that those of A5. */
gboolean
bw_print_paper_for (double width, double height, BwPaper *paper)
{
  const BwPaper order[] = { BW_PAPER_A4, BW_PAPER_LETTER, BW_PAPER_A5 };
  gboolean larger = MIN (width / BW_PAPER_A4.width, height / BW_PAPER_A4.height) > LARGER;
  gboolean own = can_be_laid_out (width, height);
  *paper = (BwPaper){ width, height, wishes () };
  if (larger && own)
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    if (holds (width, height, order[i]) && (!own || i < 2)) {
      *paper = order[i];
      paper->wishes = wishes ();
      return TRUE;
    }
  return own;
}

static GtkPageSetup *
page_setup_new (void)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  BwPaper paper = bw_print_paper ();
  GtkPaperSize *size
      = gtk_paper_size_new (bw_paper_equal (paper, BW_PAPER_LETTER) ? GTK_PAPER_NAME_LETTER
                            : bw_paper_equal (paper, BW_PAPER_A5)   ? GTK_PAPER_NAME_A5
                                                                    : GTK_PAPER_NAME_A4);
  gtk_page_setup_set_paper_size_and_default_margins (setup, size);
  gtk_paper_size_free (size);
  return setup;
}

static void
begin_print (GtkPrintOperation *operation, GtkPrintContext *context, Run *run)
{
  GtkPageSetup *setup = gtk_print_context_get_page_setup (context);
  BwPaper paper;
  if (!bw_print_paper_for (gtk_page_setup_get_paper_width (setup, GTK_UNIT_POINTS),
                           gtk_page_setup_get_paper_height (setup, GTK_UNIT_POINTS), &paper)) {
    run->fault = g_strdup (_ ("The pages are printed at true size and do not fit that paper. "
                              "Choose A4, A5, Letter or another of at least 180 mm each way."));
    gtk_print_operation_cancel (operation);
    return;
  }
  run->sheet = bw_print_sheet_new (run->project, run->kind, paper);
  gtk_print_operation_set_n_pages (operation, bw_sheet_n_pages (run->sheet));
}

static void
draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, Run *run)
{
  bw_sheet_draw_page (run->sheet, gtk_print_context_get_cairo_context (context), page);
}

static void
tell (Run *run, const char *sentence)
{
  g_autoptr (GObject) owner = g_weak_ref_get (&run->owner);
  if (owner)
    run->told (sentence, owner);
}

static void
tell_error (Run *run, const GError *error)
{
  g_autofree char *piece = bw_piece_name (run->project);
  g_autofree char *sentence
      = g_strdup_printf (_ ("“%s” could not be printed: %s"), piece,
                         error ? error->message : _ ("the printer does not say why."));
  tell (run, sentence);
}

static void
tell_gave_up (Run *run)
{
  g_autofree char *piece = bw_piece_name (run->project);
  g_autofree char *sentence
      = g_strdup_printf (_ ("“%s” could not be printed: the printer gave up."), piece);
  tell (run, sentence);
}

static void
done (GtkPrintOperation *operation, GtkPrintOperationResult result, Run *run)
{
  run->ended = TRUE;
  run->cancelled = result == GTK_PRINT_OPERATION_RESULT_CANCEL;
  if (run->fault) {
    tell (run, run->fault);
  } else if (result == GTK_PRINT_OPERATION_RESULT_ERROR) {
    g_autoptr (GError) error = NULL;
    gtk_print_operation_get_error (operation, &error);
    tell_error (run, error);
  } else if (run->gave_up && !run->cancelled) {
    tell_gave_up (run);
  }
}

/* A printer can fail long after the pages have gone out. Of an operation that the maker cancelled
 * the toolkit says the same, before it says who ended it. */
static void
status_changed (GtkPrintOperation *operation, Run *run)
{
  if (gtk_print_operation_get_status (operation) != GTK_PRINT_STATUS_FINISHED_ABORTED
      || run->gave_up)
    return;
  run->gave_up = TRUE;
  if (run->ended && !run->cancelled && !run->fault)
    tell_gave_up (run);
}

static void
run_free (gpointer data, GClosure *closure)
{
  Run *run = data;
  g_clear_pointer (&run->sheet, bw_sheet_free);
  g_object_unref (run->project);
  g_weak_ref_clear (&run->owner);
  g_free (run->fault);
  g_free (run);
}

void
bw_print_operate (GtkPrintOperation *operation, GtkPrintOperationAction action, GtkWindow *parent,
                  BwProject *project, BwPrintKind kind, BwPrintTold told, GObject *owner)
{
  g_autoptr (GtkPageSetup) setup = page_setup_new ();
  g_autoptr (GError) error = NULL;
  Run *run = g_new0 (Run, 1);
  run->project = g_object_ref (project);
  run->kind = kind;
  run->told = told;
  g_weak_ref_init (&run->owner, owner);
  gtk_print_operation_set_default_page_setup (operation, setup);
  g_autofree char *piece = bw_piece_name (project);
  gtk_print_operation_set_job_name (operation, piece);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_track_print_status (operation, TRUE);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print), run);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page), run);
  g_signal_connect (operation, "status-changed", G_CALLBACK (status_changed), run);
  g_signal_connect_data (operation, "done", G_CALLBACK (done), run, run_free, 0);
  if (gtk_print_operation_run (operation, action, parent, &error)
          == GTK_PRINT_OPERATION_RESULT_ERROR
      && !run->ended)
    tell_error (run, error);
}

void
bw_print_run (GtkWindow *parent, BwProject *project, BwPrintKind kind, BwPrintTold told,
              GObject *owner)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  gtk_print_operation_set_allow_async (operation, TRUE);
  bw_print_operate (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, project, kind, told,
                    owner);
}
