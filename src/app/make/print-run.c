/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit's print operation round our own pages. The strip proves measurements, so nothing is
 * ever scaled to a paper: a paper that does not hold a page is refused. */
#include "config.h"

#include "app/make/print-run.h"
#include "app/kit/settings.h"
#include "project/piece-name.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Printers round their papers to whole points or tenths of a millimetre. */
#define ROUNDING_PT 3.0
#define LARGER 1.3 /* times A4 */
#define ALL_PARTS (BW_PRINT_WITHOUT (BW_N_SHEET_PARTS) - BW_PRINT_WITHOUT (0))

/* A whole paper laid out takes seconds; the toolkit asks after it whenever it has nothing else to
 * do, and would ask without a rest. */
#define ASKED_AFTER_US 5000

/* Held by the operation's handlers and by the layout that is under way. */
typedef struct {
  BwProject *project;
  BwPrintKind kind;
  BwPaper preferred; /* with what is wished for, as the maker ordered */
  BwPageSet *seen;   /* NULL: none */
  BwPageSet *set;    /* what is printed; NULL until it is laid out */
  GCancellable *stop;
  BwPrintTold told;
  GWeakRef owner;
  char *fault; /* our own sentence, why nothing was printed */
  gboolean ended;
  gboolean cancelled; /* by the maker, who knows */
  gboolean gave_up;   /* the printer did, or so the toolkit says of what was cancelled too */
} Run;

static guint
wishes (void)
{
  BwSettings *settings = bw_settings_get ();
  return (bw_settings_get_flag (settings, "print-large") ? BW_PRINT_LARGE : 0)
         | (bw_settings_get_flag (settings, "print-sparing") ? BW_PRINT_SPARING : 0)
         | (bw_settings_get_flag (settings, "print-costs") ? BW_PRINT_COSTS : 0)
         | (bw_settings_get_unit (settings) == BW_UNIT_INCH ? BW_PRINT_INCHES : 0)
         | ((guint)bw_settings_get_count (settings, "print-left-out") & ALL_PARTS);
}

BwPaper
bw_print_paper_named (const char *word)
{
  BwPaper paper;
  if (!bw_paper_from_word (word, &paper))
    paper = g_str_equal (gtk_paper_size_get_default (), GTK_PAPER_NAME_LETTER) ? BW_PAPER_LETTER
                                                                               : BW_PAPER_A4;
  paper.wishes = wishes ();
  return paper;
}

BwPaper
bw_print_paper (void)
{
  g_autofree char *word = NULL;
  g_object_get (bw_settings_get (), "paper", &word, NULL);
  return bw_print_paper_named (word);
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

/* A size of its own is told as it is. */
static GtkPaperSize *
paper_size_new (BwPaper paper)
{
  static const struct {
    BwPaper paper;
    const char *name;
  } usual[] = { { BW_PAPER_A4, GTK_PAPER_NAME_A4 },
                { BW_PAPER_A5, GTK_PAPER_NAME_A5 },
                { BW_PAPER_LETTER, GTK_PAPER_NAME_LETTER } };
  for (gsize i = 0; i < G_N_ELEMENTS (usual); i++)
    if (bw_paper_equal (paper, usual[i].paper))
      return gtk_paper_size_new (usual[i].name);
  return gtk_paper_size_new_custom ("bandwright", _ ("Own size"), paper.width, paper.height,
                                    GTK_UNIT_POINTS);
}

static GtkPageSetup *
page_setup_new (BwPaper paper)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  GtkPaperSize *size = paper_size_new (paper);
  gtk_page_setup_set_paper_size_and_default_margins (setup, size);
  gtk_paper_size_free (size);
  return setup;
}

static gboolean
same_size (const GtkPageSetup *setup, BwPaper paper)
{
  return fabs (gtk_page_setup_get_paper_width ((GtkPageSetup *)setup, GTK_UNIT_POINTS)
               - paper.width)
             < ROUNDING_PT
         && fabs (gtk_page_setup_get_paper_height ((GtkPageSetup *)setup, GTK_UNIT_POINTS)
                  - paper.height)
                < ROUNDING_PT;
}

/* What was preferred is laid out as preferred, whatever else the paper could hold. */
static gboolean
paper_for (const Run *run, GtkPageSetup *setup, BwPaper *paper)
{
  *paper = run->preferred;
  if (same_size (setup, *paper))
    return TRUE;
  gboolean found
      = bw_print_paper_for (gtk_page_setup_get_paper_width (setup, GTK_UNIT_POINTS),
                            gtk_page_setup_get_paper_height (setup, GTK_UNIT_POINTS), paper);
  paper->wishes = run->preferred.wishes;
  return found;
}

static void
run_clear (gpointer data)
{
  Run *run = data;
  g_clear_pointer (&run->seen, bw_page_set_unref);
  g_clear_pointer (&run->set, bw_page_set_unref);
  g_object_unref (run->stop);
  g_object_unref (run->project);
  g_weak_ref_clear (&run->owner);
  g_free (run->fault);
}

static void
run_release (gpointer run)
{
  g_rc_box_release_full (run, run_clear);
}

static void
laid_out (GObject *source, GAsyncResult *result, gpointer data)
{
  Run *run = data;
  g_autoptr (GError) error = NULL;
  run->set = bw_page_set_finish (result, &error);
  if (error && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) && !run->fault)
    run->fault = g_strdup (error->message);
  run_release (run);
}

static void
begin_print (GtkPrintOperation *operation, GtkPrintContext *context, Run *run)
{
  BwPaper paper;
  if (!paper_for (run, gtk_print_context_get_page_setup (context), &paper)) {
    run->fault = g_strdup (_ ("The pages are printed at true size and do not fit that paper. "
                              "Choose A4, A5, Letter or another of at least 180 mm each way."));
    gtk_print_operation_cancel (operation);
    return;
  }
  if (run->seen && bw_paper_equal (bw_page_set_get_asked (run->seen), paper)) {
    run->set = bw_page_set_ref (run->seen);
    return;
  }
  g_autoptr (BwPageCopy) copy = bw_page_copy_new (run->project);
  bw_page_set_ask (copy, run->kind, paper, run->stop, laid_out, g_rc_box_acquire (run));
}

static gboolean
paginate (GtkPrintOperation *operation, GtkPrintContext *context, Run *run)
{
  if (run->set) {
    gtk_print_operation_set_n_pages (operation, bw_page_set_n_pages (run->set));
    return TRUE;
  }
  if (run->fault)
    gtk_print_operation_cancel (operation);
  else
    g_usleep (ASKED_AFTER_US);
  return FALSE;
}

static void
draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, Run *run)
{
  bw_page_set_draw (run->set, gtk_print_context_get_cairo_context (context), page);
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
  g_cancellable_cancel (run->stop);
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
closed (gpointer run, GClosure *closure)
{
  run_release (run);
}

static Run *
run_new (const BwPrintOrder *order)
{
  Run *run = g_rc_box_new0 (Run);
  run->project = g_object_ref (order->project);
  run->kind = order->kind;
  run->seen = order->seen ? bw_page_set_ref (order->seen) : NULL;
  run->preferred = order->seen ? bw_page_set_get_asked (order->seen) : bw_print_paper ();
  run->stop = g_cancellable_new ();
  run->told = order->told;
  g_weak_ref_init (&run->owner, order->owner);
  return run;
}

static void
set_up (GtkPrintOperation *operation, const Run *run)
{
  g_autoptr (GtkPageSetup) setup = page_setup_new (run->preferred);
  g_autofree char *piece = bw_piece_name (run->project);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_job_name (operation, piece);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_track_print_status (operation, TRUE);
}

void
bw_print_operate (GtkPrintOperation *operation, GtkPrintOperationAction action, GtkWindow *parent,
                  const BwPrintOrder *order)
{
  g_autoptr (GError) error = NULL;
  Run *run = run_new (order);
  set_up (operation, run);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print), run);
  g_signal_connect (operation, "paginate", G_CALLBACK (paginate), run);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page), run);
  g_signal_connect (operation, "status-changed", G_CALLBACK (status_changed), run);
  g_signal_connect_data (operation, "done", G_CALLBACK (done), run, closed, 0);
  if (gtk_print_operation_run (operation, action, parent, &error)
          == GTK_PRINT_OPERATION_RESULT_ERROR
      && !run->ended)
    tell_error (run, error);
}

void
bw_print_run (GtkWindow *parent, const BwPrintOrder *order)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  gtk_print_operation_set_allow_async (operation, TRUE);
  bw_print_operate (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, order);
}
