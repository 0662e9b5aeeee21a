/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application's commands, its keys, and what it opens when it starts. */
#include "config.h"

#include "app/help/help-window.h"
#include "app/kit/appearance.h"
#include "app/kit/face.h"
#include "app/application.h"
#include "app/keep/workbook.h"
#include "app/make/page-copy.h"
#include "app/make/price-book.h"
#include "app/shelf/shelf-look.h"
#include "app/recovery-question.h"
#include "app/kit/settings.h"
#include "app/ask/tell.h"
#include "app/kit/wheel.h"
#include "app/window/preferences.h"
#include "app/window/window.h"
#include "app/workshop/habits-page.h"
#include "app/workshop/workshop-window.h"
#include "project/book/book-stones.h"
#include "project/fault/fault-error.h"

#include <glib-unix.h>
#include <glib/gi18n-lib.h>
#include <signal.h>

struct _BwApplication {
  GtkApplication parent_instance;
  gboolean looked_for_leftovers;
};

G_DEFINE_FINAL_TYPE (BwApplication, bw_application, GTK_TYPE_APPLICATION)

static BwWindow *
show_project (BwApplication *self, BwProject *project)
{
  BwWindow *window = bw_window_new (GTK_APPLICATION (self), project);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}

static void
begin_with_habits (BwProject *project)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  BwHabits habits;
  if (!book)
    return;
  bw_book_get_habits (book, &habits);
  bw_project_begin_with_habits (project, &habits);
}

/* What a new project began with is said where it is seen first. */
static void
tell_habits (BwWindow *window)
{
  g_autofree char *sentence = bw_habits_told (bw_workbook_get ());
  if (sentence)
    bw_window_tell (window, GTK_MESSAGE_INFO, sentence);
}

/* With the maker's prices, habits and hands, where some are remembered. */
static BwProject *
new_project (void)
{
  BwSupply supply = { 0 };
  const BwBookHands *hands = bw_workbook_get_hands (bw_workbook_get ());
  BwProject *project
      = bw_project_new_priced (bw_price_book_fill (bw_price_book_get (), &supply) ? &supply : NULL);
  bw_preferences_begin (project);
  begin_with_habits (project);
  if (hands)
    bw_project_begin_with_hands (project, hands);
  return project;
}

static void
new_window (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (BwProject) project = new_project ();
  tell_habits (show_project (data, project));
}

static void
about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autofree char *licence = g_strdup_printf (
      _ ("Bandwright is free software under the GNU General Public License, version 3 or, as you "
         "choose, any later version. It comes with no warranty.\n\nThe text of the licence is in "
         "/usr/share/common-licenses/GPL-3 on Debian and Ubuntu, and at "
         "https://www.gnu.org/licenses/gpl-3.0.html. This is told in %s as well."),
      BW_LICENCE_FILE);
  gtk_show_about_dialog (gtk_application_get_active_window (data), "program-name", _ ("Bandwright"),
                         "version", BW_VERSION, "logo-icon-name", BW_APPLICATION_ID, "license",
                         licence, "wrap-license", TRUE, "copyright", _ ("© The Bandwright makers"),
                         "comments", _ ("Fits a beaded band to a natural crystal point"), NULL);
}

static void
preferences (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_preferences_show (data, gtk_application_get_active_window (data));
}

/* The window worked in last; NULL: there is none. */
static BwWindow *
work_window (GtkApplication *application)
{
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (BW_IS_WINDOW (item->data))
      return item->data;
  return NULL;
}

static void
workshop (GSimpleAction *action, GVariant *page, gpointer data)
{
  BwWindow *work = work_window (data);
  bw_workshop_window_show (data, gtk_application_get_active_window (data),
                           work ? bw_window_get_draft (work) : NULL,
                           g_variant_get_string (page, NULL));
}

/* --- A design on a stone that waits ------------------------------------------------------------
 */

static gboolean
note_begun (BwBook *book, gpointer name, GError **error)
{
  int at = bw_book_find_stone (book, name);
  BwKeptStone before, now;
  if (at < 0)
    return TRUE;
  bw_book_get_stone (book, (guint)at, &before);
  now = before;
  now.state = BW_STONE_IN_DESIGN;
  return before.state != BW_STONE_WAITING || bw_book_change_stone (book, &before, &now, error);
}

/* In the window worked in as long as nothing in it would make way. */
static BwWindow *
show_new (GtkApplication *application, BwProject *project)
{
  BwWindow *window = work_window (application);
  if (window && bw_window_makes_way (window))
    bw_window_set_project (window, project);
  else
    window = bw_window_new (application, project);
  g_action_group_activate_action (G_ACTION_GROUP (window), "new-stone", NULL);
  gtk_window_present (GTK_WINDOW (window));
  tell_habits (window);
  return window;
}

/* NULL, told, when it cannot be begun. */
static BwWindow *
begin_on (GtkApplication *application, const char *name)
{
  const BwBook *book = bw_workbook_get_book (bw_workbook_get ());
  int at = book ? bw_book_find_stone (book, name) : -1;
  g_autoptr (BwProject) project = new_project ();
  g_autoptr (GError) error = NULL;
  BwKeptStone stone;
  if (at < 0)
    return NULL;
  bw_book_get_stone (book, (guint)at, &stone);
  if (!bw_project_begin_on_stone (project, &stone.measures, &stone.look, stone.mineral, &error)) {
    bw_tell (GTK_WIDGET (gtk_application_get_active_window (application)), GTK_MESSAGE_WARNING,
             bw_fault_sentence (error));
    return NULL;
  }
  bw_workbook_change (bw_workbook_get (), note_begun, g_strdup (name), g_free);
  return show_new (application, project);
}

/* From the shelf, where the project behind it was made before the book was read. */
static void
new_stone (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (BwProject) project = new_project ();
  show_new (data, project);
}

static void
begin_on_stone (GSimpleAction *action, GVariant *name, gpointer data)
{
  begin_on (data, g_variant_get_string (name, NULL));
}

static void
ways_for_stone (GSimpleAction *action, GVariant *name, gpointer data)
{
  BwWindow *window = begin_on (data, g_variant_get_string (name, NULL));
  if (window)
    g_action_group_activate_action (G_ACTION_GROUP (window), "ways", NULL);
}

static gpointer
hold (gconstpointer window, gpointer data)
{
  return g_object_ref ((gpointer)window);
}

/* One window after the other; the first that asks a question goes on quitting by its answer. A
 * window takes its dialogs with it, which stand in the same list: it is held meanwhile. */
static gboolean
quit_now (gpointer application)
{
  g_autolist (GtkWindow) windows
      = g_list_copy_deep (gtk_application_get_windows (application), hold, NULL);
  for (GList *item = windows; item; item = item->next)
    if (BW_IS_WINDOW (item->data) && !bw_window_close_for_quit (item->data))
      break;
  return G_SOURCE_REMOVE;
}

/* Once the key is dealt with: the toolkit holds the window it was pressed in until then, and a
 * dialog that outlives its parent lets go of a parent that is no more. */
static void
quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, quit_now, g_object_ref (data), g_object_unref);
}

static void
help (GSimpleAction *action, GVariant *page, gpointer data)
{
  bw_help_show (data, g_variant_get_string (page, NULL));
}

static const GActionEntry entries[] = {
  { "new", new_window },
  { "help", help, "s" },
  { "about", about },
  { "quit", quit },
  { "preferences", preferences },
  { "workshop", workshop, "s" },
  { "new-stone", new_stone },
  { "begin-on-stone", begin_on_stone, "s" },
  { "ways-for-stone", ways_for_stone, "s" },
};

static const struct {
  const char *action;
  const char *keys[3];
} accels[] = {
  { "app.new", { "<Control>n" } },
  { "app.quit", { "<Control>q" } },
  { "app.preferences", { "<Control>comma" } },
  { "win.open", { "<Control>o" } },
  { "win.shelf", { "<Alt>Home" } },
  { "win.save", { "<Control>s" } },
  { "win.save-as", { "<Control><Shift>s" } },
  { "win.close", { "<Control>w" } },
  { "win.undo", { "<Control>z" } },
  { "win.redo", { "<Control><Shift>z", "<Control>y" } },
  { "win.history", { "<Control>h" } },
  { "win.stage::measure", { "<Control>1" } },
  { "win.stage::draw", { "<Control>2" } },
  { "win.stage::hang", { "<Control>3" } },
  { "win.stage::make", { "<Control>4" } },
  { "win.export-csv", { "<Control>e" } },
  { "win.copy-list", { "<Control><Shift>c" } },
  { "win.bench", { "F11" } },
  { "win.print::", { "<Control>p" } },
  { "win.save-picture", { "<Control><Shift>p" } },
  { "win.copy-picture", { "<Control><Alt>c" } },
  { "win.zoom-in", { "<Control>plus", "<Control>equal" } },
  { "win.zoom-out", { "<Control>minus" } },
  { "win.zoom-fit", { "<Control>0" } },
  { "app.show-letters", { "<Control>l" } },
  { "app.stone-folded", { "F9" } },
  { "win.help", { "F1" } },
  { "win.show-help-overlay", { "<Control>question", "<Control>F1" } },
};

static void
keep_all_work (GApplication *application)
{
  GList *item = gtk_application_get_windows (GTK_APPLICATION (application));
  for (; item; item = item->next)
    if (BW_IS_WINDOW (item->data))
      bw_window_keep_work (item->data);
}

/* Somebody ends the program: the terminal it came from, the system that shuts down. There is no
 * time for questions; the copies are offered at the next start. */
static gboolean
ended_from_outside (gpointer data)
{
  keep_all_work (data);
  g_application_quit (data);
  return G_SOURCE_CONTINUE;
}

/* Who started us deaf to a signal meant it so. */
static void
listen_for (GApplication *application, int number)
{
  struct sigaction action;
  if (sigaction (number, NULL, &action) == 0 && action.sa_handler != SIG_IGN)
    g_unix_signal_add (number, ended_from_outside, application);
}

static void
listen_for_the_end (GApplication *application)
{
  listen_for (application, SIGTERM);
  listen_for (application, SIGHUP);
  listen_for (application, SIGINT);
  g_signal_connect (application, "query-end", G_CALLBACK (keep_all_work), NULL);
}

/* Whenever the book was read or noted into and could not be: it is told, and the work goes on. */
static void
tell_of_book (BwWorkbook *book, GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  if (bw_workbook_get_fault (book) && window)
    bw_tell (GTK_WIDGET (window), GTK_MESSAGE_WARNING, bw_workbook_get_fault (book));
}

static void
bw_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (bw_application_parent_class)->startup (application);
  g_set_application_name (_ ("Bandwright"));
  gtk_window_set_default_icon_name (BW_APPLICATION_ID);
  bw_face_follow (gdk_display_get_default ());
  bw_appearance_follow ();
  bw_wheel_scrolls_pages ();
  listen_for_the_end (application);
  g_signal_connect_object (bw_workbook_get (), "changed", G_CALLBACK (tell_of_book), application,
                           0);
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries),
                                   application);
  bw_settings_add_actions (bw_settings_get (), G_ACTION_MAP (application));
  for (gsize i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), accels[i].action,
                                           accels[i].keys);
}

static void
look_for_leftovers (BwApplication *self, BwWindow *window)
{
  if (!self->looked_for_leftovers)
    bw_recovery_question_ask (window);
  self->looked_for_leftovers = TRUE;
}

static void
bw_application_activate (GApplication *application)
{
  BwApplication *self = BW_APPLICATION (application);
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (self));
  if (active) {
    gtk_window_present (active);
    return;
  }
  g_autoptr (BwProject) project = new_project ();
  BwWindow *window = bw_window_new (GTK_APPLICATION (self), project);
  bw_window_show_shelf (window);
  gtk_window_present (GTK_WINDOW (window));
  look_for_leftovers (self, window);
}

static void
bw_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  BwApplication *self = BW_APPLICATION (application);
  g_autoptr (BwProject) plain = new_project ();
  BwWindow *window = work_window (GTK_APPLICATION (self));
  if (!window) /* seen once there is something to see in it */
    window = bw_window_new (GTK_APPLICATION (self), plain);
  for (int i = 0; i < n_files; i++)
    bw_window_open (window, files[i]);
  look_for_leftovers (self, window);
}

/* What still paints for a shelf needs what the end of the process takes away. */
static void
bw_application_shutdown (GApplication *application)
{
  bw_shelf_look_end ();
  bw_page_end ();
  G_APPLICATION_CLASS (bw_application_parent_class)->shutdown (application);
}

static int
bw_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  if (!g_variant_dict_contains (options, "version"))
    return -1;
  g_print ("%s %s\n", _ ("Bandwright"), BW_VERSION);
  return 0;
}

static void
bw_application_class_init (BwApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);
  application_class->startup = bw_application_startup;
  application_class->activate = bw_application_activate;
  application_class->open = bw_application_open;
  application_class->shutdown = bw_application_shutdown;
  application_class->handle_local_options = bw_application_handle_local_options;
}

static void
bw_application_init (BwApplication *self)
{
  GApplication *application = G_APPLICATION (self);
  g_application_add_main_option (application, "version", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE,
                                 _ ("Print the version and leave"), NULL);
  g_application_set_option_context_parameter_string (application, _ ("[FILE…]"));
  g_application_set_option_context_summary (
      application, _ ("Bandwright fits a beaded band to a natural crystal point."));
}

BwApplication *
bw_application_new (void)
{
  return g_object_new (BW_TYPE_APPLICATION, "application-id", BW_APPLICATION_ID, "flags",
                       G_APPLICATION_HANDLES_OPEN, "register-session", TRUE, NULL);
}
