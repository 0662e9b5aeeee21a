/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A maker at the program's window: the application started as at a bench, its folders in a
 * temporary place of their own, and the moves a maker makes. What a maker does goes through the X
 * server (desk.h); what a test asks, it asks the program's own objects. */
#pragma once

#include "app/application.h"
#include "app/window/window.h"
#include "desk.h"
#include "editor/band/band-canvas.h"
#include "preview/view/stone-view.h"

typedef struct {
  BwWindow *window; /* the first one; NULL once it is closed */
} Maker;

/* What main () does: sets up folders, display and bus, runs the program, and within it the work;
 * gives what the work gives. */
int maker_work (int (*work) (gconstpointer data), gconstpointer data);
/* The same with a group of tests. */
#define maker_run(tests) maker_run_ (#tests, tests, G_N_ELEMENTS (tests))
struct CMUnitTest;
int maker_run_ (const char *name, const struct CMUnitTest *tests, gsize n_tests);
/* Starts this test's own program once more, with one argument and the same folders; gives how it
 * ended, as wait () tells it. */
int maker_run_again (const char *what);
GtkApplication *maker_application (void);
/* A path in the temporary folder. Owned. */
char *maker_path (const char *name);

/* Opens the program's first window, on a file when path is not NULL, else on a new stone, and waits
 * until it is drawn. */
void maker_start (Maker *maker, const char *path);
/* The same as the program starts by itself: at the shelf. */
void maker_start_at_shelf (Maker *maker);
/* Closes what is open at the end of a test, unsaved work thrown away. Fails when a window or its
 * project outlives that. */
void maker_stop (Maker *maker);

/* Both for a test that wants a Maker as its state and no more: on a new stone, and the end of any.
 */
int maker_set_up (void **state);
int maker_tear_down (void **state);

BwProject *maker_project (Maker *maker);
BwSession *maker_session (Maker *maker);
const BwDesign *maker_design (Maker *maker);
GtkWidget *maker_find (Maker *maker, GType type);
/* Opens every group of the Make stage that is folded, by its key. */
void maker_unfold_all (Maker *maker);
/* "measure", "draw", "hang" or "make", by its key; "draw" with the whole band in view, "make" with
 * every group unfolded. */
void maker_stage (Maker *maker, const char *name);

/* Turns the wheel until the widget lies wholly inside its scrolled window. */
void maker_reveal (GtkWidget *widget);
/* Opens the group that what matches is folded away in; nothing where it is in sight. */
void maker_unfold (GtkWidget *root, gboolean (*match) (GtkWidget *widget, gconstpointer data),
                   gconstpointer data);
/* The entry that shows this place of the project. */
GtkWidget *maker_entry (Maker *maker, const char *pointer);
const char *maker_entry_text (Maker *maker, const char *pointer);
/* Clicks the entry, writes over what is in it, and confirms with Enter. */
void maker_fill (Maker *maker, const char *pointer, const char *text);
/* Clicks what shows these words below root. */
void maker_click_words (GtkWidget *root, const char *words);

/* Waits for a dialog and gives it. */
GtkWindow *maker_dialog (Maker *maker);
/* Waits until no dialog is left. */
void maker_no_dialog (Maker *maker);
/* Waits for the file dialog of this window, puts a path into it, and confirms. */
void maker_answer_path (Maker *maker, const char *path);

/* The middle of a bead on the canvas; the canvas must be on screen. */
void maker_bead_point (Maker *maker, int row, int column, double *x, double *y);
void maker_drag_beads (Maker *maker, int row0, int column0, int row1, int column1);
void maker_click_bead (Maker *maker, int row, int column);
/* The colour it is shown in. */
guint8 maker_bead (Maker *maker, int row, int column);
/* How many beads of the band are shown in a colour. */
int maker_count (Maker *maker, guint8 colour);
/* Takes a colour of the tray in hand by a click on its row. */
void maker_take_colour (Maker *maker, int colour);

/* Writes a project into the temporary folder. Gives the path; owned. */
char *maker_save (BwProject *project, const char *name);
/* The bytes of a file. Owned. */
char *maker_read (const char *path);
