/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's hands and the program they work on. */
#include "maker.h"

#include "app/form/field-entry.h"
#include "app/measure/fold-card.h"
#include "app/make/make-fold.h"
#include "app/kit/gsk-choice.h"
#include "app/kit/settings.h"
#include "app/colours/tray-panel.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define AGAIN_US (100 * 1000)

static char *folder;
static BwApplication *application;

static void
own_folder (const char *variable, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  if (g_mkdir_with_parents (path, 0700) != 0)
    g_error ("%s cannot be made", path);
  g_setenv (variable, path, TRUE);
}

/* A program that its own test has started finds the folders of that test. */
static void
make_folders (void)
{
  g_autoptr (GError) error = NULL;
  const char *given = g_getenv ("BW_TEST_FOLDER");
  folder = given ? g_strdup (given) : g_dir_make_tmp ("bandwright-XXXXXX", &error);
  if (!folder)
    g_error ("no temporary folder: %s", error->message);
  own_folder ("HOME", "home");
  own_folder ("XDG_CONFIG_HOME", "config");
  own_folder ("XDG_DATA_HOME", "data");
  own_folder ("XDG_STATE_HOME", "state");
  own_folder ("XDG_CACHE_HOME", "cache");
  own_folder ("XDG_RUNTIME_DIR", "run");
  g_chdir (folder);
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  for (const char *name; dir && (name = g_dir_read_name (dir));) {
    g_autofree char *below = g_build_filename (path, name, NULL);
    gboolean link = g_file_test (below, G_FILE_TEST_IS_SYMLINK);
    if (!link && g_file_test (below, G_FILE_TEST_IS_DIR))
      remove_tree (below);
    else
      g_unlink (below);
  }
  g_rmdir (path);
}

static void
remove_folders (void)
{
  g_chdir ("/");
  if (!g_getenv ("BW_TEST_FOLDER"))
    remove_tree (folder);
  g_clear_pointer (&folder, g_free);
}

typedef struct {
  int (*work) (gconstpointer data);
  gconstpointer data;
  int result;
} Work;

static gboolean
do_work (gpointer data)
{
  Work *work = data;
  work->result = work->work (work->data);
  g_application_release (G_APPLICATION (application));
  return G_SOURCE_REMOVE;
}

/* Held, so that it outlives the windows of one test. */
static void
started (GApplication *self, Work *work)
{
  g_application_hold (self);
  g_idle_add (do_work, work);
}

/* As the program's own main () does, but that the tests say when a window opens: as a service it
 * opens none by itself. */
int
maker_work (int (*work) (gconstpointer data), gconstpointer data)
{
  Work all = { work, data, 1 };
  make_folders ();
  g_setenv ("BANDWRIGHT_DATA_DIR", g_getenv ("BW_TEST_DATA"), TRUE);
  bw_gsk_choose ();
  desk_open ();
  application = bw_application_new ();
  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_HANDLES_OPEN | G_APPLICATION_IS_SERVICE);
  g_signal_connect_after (application, "startup", G_CALLBACK (started), &all);
  g_application_run (G_APPLICATION (application), 0, NULL);
  g_clear_object (&application);
  desk_close ();
  remove_folders ();
  return desk_end (all.result);
}

typedef struct {
  const char *name;
  const struct CMUnitTest *tests;
  gsize n;
} Group;

static int
run_group (gconstpointer data)
{
  const Group *group = data;
  return _cmocka_run_group_tests (group->name, group->tests, group->n, NULL, NULL);
}

int
maker_run_ (const char *name, const struct CMUnitTest *tests, gsize n_tests)
{
  Group group = { name, tests, n_tests };
  return maker_work (run_group, &group);
}

/* Our folders, and no leak check: what a program that is started again does, its test does too, and
 * a check that fails would look as if the work had. */
static char **
again_environment (void)
{
  const char *given = g_getenv ("ASAN_OPTIONS");
  g_autofree char *options
      = g_strconcat (given ? given : "", given ? ":" : "", "detect_leaks=0", NULL);
  char **environment = g_environ_setenv (g_get_environ (), "BW_TEST_FOLDER", folder, TRUE);
  return g_environ_setenv (environment, "ASAN_OPTIONS", options, TRUE);
}

int
maker_run_again (const char *what)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *own_path = g_file_read_link ("/proc/self/exe", NULL);
  g_auto (GStrv) environment = again_environment ();
  char *argv[] = { own_path, (char *)what, NULL };
  int status;
  if (!g_spawn_sync (NULL, argv, environment, G_SPAWN_CHILD_INHERITS_STDIN, NULL, NULL, NULL, NULL,
                     &status, &error))
    fail_msg ("%s", error->message);
  return status;
}

GtkApplication *
maker_application (void)
{
  return GTK_APPLICATION (application);
}

char *
maker_path (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static gboolean
is_drawn (gpointer data)
{
  GtkWidget *widget = data;
  return gtk_widget_get_mapped (widget) && gtk_widget_get_width (widget) > 1;
}

static gboolean
is_opened (gpointer data)
{
  return !bw_window_is_opening (data);
}

static BwWindow *
any_window (void)
{
  GList *item = gtk_application_get_windows (maker_application ());
  for (; item; item = item->next)
    if (BW_IS_WINDOW (item->data))
      return item->data;
  return NULL;
}

static void
begin (Maker *maker)
{
  g_set_weak_pointer (&maker->window, any_window ());
  assert_non_null (maker->window);
  desk_until (is_opened, maker->window);
  desk_until (is_drawn, maker->window);
  desk_settle ();
}

/* The test library takes a crash for a test that failed and goes on in the middle of it, where
 * locks are held that nobody gives back: it would wait for ever. A crash ends the program. */
static void
let_crash (void)
{
  static const int crashes[] = { SIGSEGV, SIGBUS, SIGFPE, SIGILL };
  for (gsize i = 0; i < G_N_ELEMENTS (crashes); i++)
    signal (crashes[i], SIG_DFL);
}

/* Painting the stone is a third of a window's work. Where it is not looked at it is folded away. */
static void
fold_stone (void)
{
  if (g_getenv ("BW_TEST_STONE_FOLDED"))
    g_object_set (bw_settings_get (), "stone-folded", TRUE, NULL);
}

void
maker_start_at_shelf (Maker *maker)
{
  let_crash ();
  fold_stone ();
  g_application_activate (G_APPLICATION (application));
  begin (maker);
}

void
maker_start (Maker *maker, const char *path)
{
  if (!path) {
    maker_start_at_shelf (maker);
    g_action_group_activate_action (G_ACTION_GROUP (maker->window), "new-stone", NULL);
    desk_settle ();
    return;
  }
  let_crash ();
  fold_stone ();
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_application_open (G_APPLICATION (application), &file, 1, "");
  begin (maker);
}

void
maker_stop (Maker *maker)
{
  BwProject *project = NULL;
  BwWindow *window;
  if (maker->window)
    g_set_weak_pointer (&project, maker_project (maker));
  while ((window = any_window ())) {
    g_autoptr (BwProject) nothing = bw_project_new ();
    bw_window_set_project (window, nothing);
    gtk_window_close (GTK_WINDOW (window));
    desk_settle ();
  }
  assert_null (maker->window);
  assert_null (project);
}

int
maker_set_up (void **state)
{
  Maker *maker = g_new0 (Maker, 1);
  maker_start (maker, NULL);
  *state = maker;
  return 0;
}

int
maker_tear_down (void **state)
{
  maker_stop (*state);
  g_free (*state);
  return 0;
}

BwProject *
maker_project (Maker *maker)
{
  return bw_window_get_project (maker->window);
}

BwSession *
maker_session (Maker *maker)
{
  return bw_window_get_session (maker->window);
}

const BwDesign *
maker_design (Maker *maker)
{
  return bw_project_get_design (maker_project (maker));
}

GtkWidget *
maker_find (Maker *maker, GType type)
{
  return desk_find_type (GTK_WIDGET (maker->window), type);
}

static gboolean
is_folded (GtkWidget *widget, gconstpointer data)
{
  return BW_IS_MAKE_FOLD (widget) && !bw_make_fold_is_open (BW_MAKE_FOLD (widget));
}

void
maker_unfold_all (Maker *maker)
{
  for (GtkWidget *fold; (fold = desk_look_for (GTK_WIDGET (maker->window), is_folded, NULL));) {
    gtk_widget_grab_focus (desk_find_type (fold, GTK_TYPE_BUTTON));
    desk_key ("space", 0);
    desk_settle ();
    assert_true (bw_make_fold_is_open (BW_MAKE_FOLD (fold)));
  }
}

void
maker_stage (Maker *maker, const char *name)
{
  static const char *const stages[] = { "measure", "draw", "hang", "make" };
  for (int i = 0; i < 4; i++) {
    const char key[] = { (char)('1' + i), '\0' };
    if (g_str_equal (name, stages[i]))
      desk_key (key, GDK_CONTROL_MASK);
  }
  /* The whole band in view, so that every bead of it can be pointed at. */
  if (g_str_equal (name, "draw"))
    desk_key ("0", GDK_CONTROL_MASK);
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (maker->window), "stage");
  assert_string_equal (g_variant_get_string (state, NULL), name);
  if (g_str_equal (name, "make"))
    maker_unfold_all (maker);
}

/* How far the widget lies above (negative) or below what is seen of its page. */
static double
out_of_sight (GtkWidget *widget, GtkWidget *page)
{
  graphene_rect_t bounds;
  assert_true (gtk_widget_compute_bounds (widget, page, &bounds));
  double top = (double)bounds.origin.y, end = top + (double)bounds.size.height;
  double height = gtk_widget_get_height (page);
  return top < 0 ? top : end > height ? end - height : 0;
}

void
maker_reveal (GtkWidget *widget)
{
  GtkWidget *page = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  for (int i = 0; page && i < 80; i++) {
    double out = out_of_sight (widget, page);
    if (out == 0)
      return;
    /* At the very edge of the page no entry takes the wheel for itself. */
    desk_scroll (page, 3, gtk_widget_get_height (page) / 2.0, out < 0 ? 1 : -1);
  }
  if (page)
    fail_msg ("the wheel does not bring a %s into sight", G_OBJECT_TYPE_NAME (widget));
}

static gboolean
shows_pointer (GtkWidget *widget, gconstpointer pointer)
{
  return BW_IS_FIELD_ENTRY (widget)
         && g_str_equal (bw_field_entry_get_pointer (BW_FIELD_ENTRY (widget)), pointer);
}

/* As desk_look_for(), and what is folded away as well. */
static GtkWidget *
look_everywhere (GtkWidget *root, gboolean (*match) (GtkWidget *widget, gconstpointer data),
                 gconstpointer data)
{
  if (match (root, data))
    return root;
  if (BW_IS_FOLD_CARD (root))
    bw_fold_card_fill (BW_FOLD_CARD (root));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = look_everywhere (child, match, data);
    if (found)
      return found;
  }
  return NULL;
}

void
maker_unfold (GtkWidget *root, gboolean (*match) (GtkWidget *widget, gconstpointer data),
              gconstpointer data)
{
  GtkWidget *widget
      = desk_look_for (root, match, data) ? NULL : look_everywhere (root, match, data);
  GtkWidget *fold = widget ? gtk_widget_get_ancestor (widget, BW_TYPE_FOLD_CARD) : NULL;
  if (!fold || bw_fold_card_get_open (BW_FOLD_CARD (fold)))
    return;
  GtkWidget *head = desk_find_type (fold, GTK_TYPE_BUTTON);
  maker_reveal (head);
  desk_click (head);
}

GtkWidget *
maker_entry (Maker *maker, const char *pointer)
{
  maker_unfold (GTK_WIDGET (maker->window), shows_pointer, pointer);
  GtkWidget *field = desk_look_for (GTK_WIDGET (maker->window), shows_pointer, pointer);
  if (!field)
    fail_msg ("no field shows %s", pointer);
  return desk_find_type (field, GTK_TYPE_ENTRY);
}

const char *
maker_entry_text (Maker *maker, const char *pointer)
{
  return gtk_editable_get_text (GTK_EDITABLE (maker_entry (maker, pointer)));
}

void
maker_fill (Maker *maker, const char *pointer, const char *text)
{
  GtkWidget *entry = maker_entry (maker, pointer);
  maker_reveal (entry);
  desk_click (entry);
  desk_key ("a", GDK_CONTROL_MASK);
  desk_type (text);
  desk_key ("Return", 0);
}

static gboolean
has_words (GtkWidget *widget, gconstpointer words)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), words) == 0;
}

void
maker_click_words (GtkWidget *root, const char *words)
{
  maker_unfold (root, has_words, words);
  GtkWidget *label = desk_find_label (root, words);
  maker_reveal (label);
  desk_click (label);
}

static gboolean
has_dialog (gpointer window)
{
  return desk_dialog (window) != NULL;
}

static gboolean
has_no_dialog (gpointer window)
{
  return desk_dialog (window) == NULL;
}

GtkWindow *
maker_dialog (Maker *maker)
{
  desk_until (has_dialog, maker->window);
  desk_settle ();
  return desk_dialog (GTK_WINDOW (maker->window));
}

void
maker_no_dialog (Maker *maker)
{
  desk_until (has_no_dialog, maker->window);
  desk_settle ();
}

typedef struct {
  GtkWidget *dialog;
  int n_mapped;
  gint64 asked_us;
} Answer;

/* An answer is lost that comes while the toolkit still reads the folder that was typed, and nothing
 * tells when it has: then it is given once more, but not while the dialog looks at a file, which
 * shows by the pointer. */
static gboolean
is_answered (gpointer data)
{
  Answer *answer = data;
  gint64 now = g_get_monotonic_time ();
  if (!answer->dialog || !gtk_widget_get_mapped (answer->dialog)
      || desk_count_mapped () != answer->n_mapped)
    return TRUE;
  if (!gtk_widget_get_cursor (answer->dialog) && now - answer->asked_us > AGAIN_US) {
    /* An end that the toolkit added is selected: it goes, and nothing goes where there is none. */
    if (GTK_IS_EDITABLE (gtk_window_get_focus (GTK_WINDOW (answer->dialog))))
      desk_strike ("Delete", 0);
    desk_key ("Return", 0);
    answer->asked_us = g_get_monotonic_time ();
  }
  return FALSE;
}

typedef struct {
  GtkWindow *dialog;
  const char *text;
  gint64 asked_us;
} Pasted;

/* Where a dialog shows the files alone, the key that asks for a place to type brings it. */
static GtkWidget *
entry_of (GtkWindow *dialog)
{
  if (!GTK_IS_EDITABLE (gtk_window_get_focus (dialog)))
    desk_key ("l", GDK_CONTROL_MASK);
  return gtk_window_get_focus (dialog);
}

/* A dialog that has just read its folder puts the name it offers in place of what was pasted, and
 * nothing tells when it has: then it is pasted once more. */
static gboolean
is_pasted (gpointer data)
{
  Pasted *pasted = data;
  gint64 now = g_get_monotonic_time ();
  GtkWidget *entry = gtk_window_get_focus (pasted->dialog);
  if (GTK_IS_EDITABLE (entry)
      && g_str_has_prefix (gtk_editable_get_text (GTK_EDITABLE (entry)), pasted->text))
    return TRUE;
  if (now - pasted->asked_us > AGAIN_US) {
    entry_of (pasted->dialog);
    desk_key ("a", GDK_CONTROL_MASK);
    desk_key ("v", GDK_CONTROL_MASK);
    pasted->asked_us = g_get_monotonic_time ();
  }
  return FALSE;
}

/* Not typed: newer toolkits add the end of a name that is there, and what hands faster than a
 * person's type goes on before it. */
static void
paste (GtkWindow *dialog, const char *text)
{
  Pasted pasted = { .dialog = dialog, .text = text };
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (dialog)), text);
  desk_until (is_pasted, &pasted);
}

/* Its own, or that of a window before it. */
static gboolean
belongs_to (GtkWindow *window, GtkWindow *parent)
{
  while ((window = gtk_window_get_transient_for (window)))
    if (window == parent)
      return TRUE;
  return FALSE;
}

static GtkWidget *
file_dialog_of (GtkWindow *parent)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWindow) window = g_list_model_get_item (all, i);
    if (GTK_IS_FILE_CHOOSER (window) && gtk_widget_get_mapped (GTK_WIDGET (window))
        && belongs_to (window, parent))
      return GTK_WIDGET (window);
  }
  return NULL;
}

static gboolean
asks_for_a_file (gpointer window)
{
  return file_dialog_of (window) != NULL;
}

static gboolean
is_active (gpointer window)
{
  if (gtk_window_is_active (window))
    return TRUE;
  desk_give_keys (window);
  return FALSE;
}

void
maker_answer_path (Maker *maker, const char *path)
{
  Answer answer = { 0 };
  GtkWindow *window = GTK_WINDOW (maker->window);
  desk_until (asks_for_a_file, window);
  desk_settle ();
  g_set_weak_pointer (&answer.dialog, file_dialog_of (window));
  desk_until (is_active, answer.dialog);
  /* The toolkit's entry looks for names to complete and in GTK 4.8 never frees the strings it
   * compares: traced to its completion model. */
  desk_foreign_begin ();
  paste (GTK_WINDOW (answer.dialog), path);
  desk_rest ();
  desk_foreign_end ();
  answer.n_mapped = desk_count_mapped ();
  desk_until (is_answered, &answer);
  g_clear_weak_pointer (&answer.dialog);
}

void
maker_bead_point (Maker *maker, int row, int column, double *x, double *y)
{
  BwBandCanvas *canvas = BW_BAND_CANVAS (maker_find (maker, BW_TYPE_BAND_CANVAS));
  if (!bw_band_canvas_bead_point (canvas, row, column, x, y))
    fail_msg ("the band has no bead in row %d, column %d", row, column);
}

void
maker_drag_beads (Maker *maker, int row0, int column0, int row1, int column1)
{
  double x0, y0, x1, y1;
  maker_bead_point (maker, row0, column0, &x0, &y0);
  maker_bead_point (maker, row1, column1, &x1, &y1);
  desk_drag (maker_find (maker, BW_TYPE_BAND_CANVAS), x0, y0, x1, y1, 1, 1);
}

void
maker_click_bead (Maker *maker, int row, int column)
{
  double x, y;
  maker_bead_point (maker, row, column, &x, &y);
  desk_click_at (maker_find (maker, BW_TYPE_BAND_CANVAS), x, y, 1);
}

guint8
maker_bead (Maker *maker, int row, int column)
{
  return bw_drawing_get (bw_project_shown_drawing (maker_project (maker)), row, column);
}

int
maker_count (Maker *maker, guint8 colour)
{
  guint64 counts[256] = { 0 };
  bw_drawing_count (bw_project_shown_drawing (maker_project (maker)), counts);
  return (int)counts[colour];
}

typedef struct {
  BwSession *session;
  int colour;
} Wanted;

static gboolean
has_colour (gpointer data)
{
  Wanted *wanted = data;
  return bw_session_get_colour (wanted->session) == wanted->colour;
}

void
maker_take_colour (Maker *maker, int colour)
{
  Wanted wanted = { maker_session (maker), colour };
  GtkWidget *tray = maker_find (maker, BW_TYPE_TRAY_PANEL);
  GtkListBox *list = GTK_LIST_BOX (desk_find_type (tray, GTK_TYPE_LIST_BOX));
  GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (list, colour));
  assert_non_null (row);
  maker_reveal (row);
  desk_click (row);
  desk_until (has_colour, &wanted);
}

char *
maker_save (BwProject *project, const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = maker_path (name);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  if (!bw_project_save (project, file, &error))
    fail_msg ("%s", error->message);
  return g_steal_pointer (&path);
}

char *
maker_read (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text;
  if (!g_file_get_contents (path, &text, NULL, &error))
    fail_msg ("%s", error->message);
  return text;
}
