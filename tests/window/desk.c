/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The virtual desk: one X server and one session bus per test program, and hands. */
#include "desk.h"

#include "pauses.h"

#include <X11/XKBlib.h>
#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>
#include <dlfcn.h>
#include <gdk/x11/gdkx.h>
#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

/* The last resort: nothing waits for these, they end a test that would never end, and loudly. */
#define PATIENCE_US (120 * G_USEC_PER_SEC)
/* So many frames one upon the other: something moves by itself, and all else is done. */
#define FRAMES_ALONE 40

static GPid server;
static GTestDBus *bus;
static gboolean bus_is_down;
static Display *hands; /* a connection of its own, apart from GTK's */

/* Libraries stay loaded until the program has ended: what a graphics driver still holds then can be
 * traced to it, and is not taken for a leak of ours. */
int
dlclose (void *library)
{
  return 0;
}

#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>
#else
#define __lsan_disable() ((void)0)
#define __lsan_enable() ((void)0)
#define __lsan_do_leak_check() ((void)0)
#endif

void
desk_foreign_begin (void)
{
  __lsan_disable ();
}

void
desk_foreign_end (void)
{
  __lsan_enable ();
}

/* What libraries set up before main () is theirs: GLib's first table of quarks is left behind on
 * purpose when a second one is needed. */
__attribute__ ((section (".preinit_array"), used)) static void (*const before_libraries) (void)
    = desk_foreign_begin;

__attribute__ ((constructor)) static void
after_libraries (void)
{
  desk_foreign_end ();
}

/* The first file dialog of a program loads the list of cloud folders for its side bar, and the
 * library that does so leaves a path behind for each data folder without such a list. It is loaded
 * here, so that the check can be strict about every dialog that a test opens. */
static void
load_side_bar (void)
{
#ifdef __SANITIZE_ADDRESS__
  desk_foreign_begin ();
  GtkWidget *dialog
      = gtk_file_chooser_dialog_new ("", NULL, GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  gtk_window_present (GTK_WINDOW (dialog));
  desk_rest ();
  gtk_window_destroy (GTK_WINDOW (dialog));
  desk_settle ();
  desk_foreign_end ();
#endif
}

/* The X server dies with us, also when a test crashes. */
static void
die_with_parent (gpointer data)
{
  prctl (PR_SET_PDEATHSIG, SIGKILL);
}

/* The display's name; GTestDBus forgets $DISPLAY, so it is set after that. */
static char *
start_server (void)
{
  int ready[2];
  assert_int_equal (pipe (ready), 0);
  g_autofree char *fd = g_strdup_printf ("%d", ready[1]);
  char *argv[] = { "Xvfb",        "-displayfd", fd,    "-screen",  "0",
                   "1400x900x24", "-nolisten",  "tcp", "-noreset", NULL };
  g_autoptr (GError) error = NULL;
  if (!g_spawn_async (NULL, argv, NULL,
                      G_SPAWN_SEARCH_PATH | G_SPAWN_LEAVE_DESCRIPTORS_OPEN
                          | G_SPAWN_DO_NOT_REAP_CHILD | G_SPAWN_STDERR_TO_DEV_NULL,
                      die_with_parent, NULL, &server, &error))
    fail_msg ("no virtual display: %s", error->message);
  close (ready[1]);
  char number[16] = { 0 };
  gsize length = 0;
  while (strchr (number, '\n') == NULL) {
    gssize got = read (ready[0], number + length, sizeof number - 1 - length);
    assert_true (got > 0);
    length += (gsize)got;
  }
  close (ready[0]);
  return g_strconcat (":", g_strstrip (number), NULL);
}

/* The session bus is empty otherwise; with the system's services it can start the accessibility
 * bus.
 */
static void
add_services (GTestDBus *to)
{
  for (const char *const *data = g_get_system_data_dirs (); *data; data++) {
    g_autofree char *folder = g_build_filename (*data, "dbus-1", "services", NULL);
    if (g_file_test (folder, G_FILE_TEST_IS_DIR))
      g_test_dbus_add_service_dir (to, folder);
  }
}

/* What its services print belongs among the messages: standard output is the test's own report. */
static void
start_bus (void)
{
  int out = dup (STDOUT_FILENO);
  bus = g_test_dbus_new (G_TEST_DBUS_NONE);
  if (g_strcmp0 (g_getenv ("GTK_A11Y"), "none") != 0)
    add_services (bus);
  dup2 (STDERR_FILENO, STDOUT_FILENO);
  g_test_dbus_up (bus);
  dup2 (out, STDOUT_FILENO);
  close (out);
}

/* A thread that ends while the leak checker looks through its memory ends the checker. Threads of
 * the pool end by themselves, after some seconds without work or when there are many: not here. */
static void
keep_threads (void)
{
  g_thread_pool_set_max_idle_time (0);
  g_thread_pool_set_max_unused_threads (-1);
}

#define OCCASION_US 250000
#define OCCASIONS_MOST 3

/* While the screen has not yet given a window the room it asked for the toolkit may paint it, and
 * then leaves out, with a warning for each, buttons that have just come: they are there in the next
 * picture. What is said in one breath is one occasion, and a few of these are passed over in a
 * program; a widget of ours that is painted without its room is so in picture after picture. */
static gboolean
is_passed_over (const char *message)
{
  static gint64 last_us;
  static int occasions;
  if (!g_str_has_prefix (message, "Trying to snapshot GtkButton ")
      || !g_str_has_suffix (message, "without a current allocation"))
    return FALSE;
  gint64 now_us = g_get_monotonic_time ();
  occasions += now_us - last_us > OCCASION_US;
  last_us = now_us;
  return occasions <= OCCASIONS_MOST;
}

static GLogWriterOutput
write_log (GLogLevelFlags level, const GLogField *fields, gsize n, gpointer data)
{
  for (gsize i = 0; i < n; i++)
    if (g_str_equal (fields[i].key, "MESSAGE") && is_passed_over (fields[i].value)) {
      fprintf (stderr, "passed over: %s\n", (const char *)fields[i].value);
      return G_LOG_WRITER_HANDLED;
    }
  return g_log_writer_default (level, fields, n, data);
}

void
desk_open (void)
{
  g_log_set_writer_func (write_log, NULL, NULL);
  keep_threads ();
  g_unsetenv ("WAYLAND_DISPLAY");
  g_setenv ("GDK_BACKEND", "x11", TRUE);
  g_setenv ("GSETTINGS_BACKEND", "memory", TRUE);
  g_setenv ("NO_AT_BRIDGE", "1", FALSE);
  g_autofree char *display = start_server ();
  start_bus ();
  g_setenv ("DISPLAY", display, TRUE);
  hands = XOpenDisplay (NULL);
  assert_non_null (hands);
  assert_true (gtk_init_check ());
  /* A caret that fades in and out draws sixty times a second: the desk would never be at rest. With
   * nothing sliding or fading either, what is called for is there as soon as the desk is. */
  g_object_set (gtk_settings_get_default (), "gtk-cursor-blink", FALSE, "gtk-enable-animations",
                FALSE, NULL);
  XTestGrabControl (hands, True);
  load_side_bar ();
}

void
desk_close (void)
{
  if (hands)
    XCloseDisplay (hands);
  hands = NULL;
  if (server) {
    kill (server, SIGKILL);
    waitpid (server, NULL, 0);
  }
  server = 0;
  /* The object stays: its end would end every connection to the bus, and the program with them. */
  if (bus && !bus_is_down)
    g_test_dbus_stop (bus);
  bus_is_down = TRUE;
}

/* One that is on its way out is at work, or gone already. */
static gboolean
is_asleep (const char *thread)
{
  g_autofree char *path = g_build_filename ("/proc/self/task", thread, "stat", NULL);
  g_autofree char *stat = NULL;
  if (!g_file_get_contents (path, &stat, NULL, NULL))
    return FALSE;
  const char *state = strrchr (stat, ')');
  return state && g_str_has_prefix (state, ") S ");
}

static gboolean
others_are_asleep (void)
{
  g_autofree char *own = g_strdup_printf ("%d", (int)getpid ());
  g_autoptr (GDir) threads = g_dir_open ("/proc/self/task", 0, NULL);
  assert_non_null (threads);
  for (const char *thread; (thread = g_dir_read_name (threads));)
    if (!g_str_equal (thread, own) && !is_asleep (thread))
      return FALSE;
  return TRUE;
}

int
desk_end (int failed)
{
  if (failed) {
    fflush (NULL);
    _exit (failed);
  }
  gint64 give_up = g_get_monotonic_time () + PATIENCE_US;
  while (!others_are_asleep () && g_get_monotonic_time () < give_up)
    g_thread_yield ();
  __lsan_do_leak_check ();
  return failed;
}

/* Everything that the hands have done has then reached the program's own queue. */
static void
deliver (void)
{
  if (hands)
    XSync (hands, False);
  gdk_display_sync (gdk_display_get_default ());
}

/* Does all that can be done at once, and the frames it calls for. */
static gboolean
work_off (gint64 give_up)
{
  int frames = 0;
  deliver ();
  while (frames < FRAMES_ALONE) {
    if (g_get_monotonic_time () > give_up)
      fail_msg ("the desk is still at work after two minutes");
    if (g_main_context_iteration (NULL, FALSE))
      continue;
    deliver ();
    if (g_main_context_pending (NULL))
      continue;
    if (!pauses_hurry_frame ())
      return TRUE;
    frames++;
  }
  return FALSE;
}

gboolean
desk_settle (void)
{
  return work_off (g_get_monotonic_time () + PATIENCE_US);
}

gboolean
desk_rest (void)
{
  gint64 give_up = g_get_monotonic_time () + PATIENCE_US;
  gboolean at_rest = work_off (give_up);
  while (pauses_end ())
    at_rest = work_off (give_up);
  return at_rest;
}

static gboolean
wake (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

/* Looks again after whatever the main loop does, and ten times a second for what happens outside.
 */
void
desk_until_ (gboolean (*check) (gpointer data), gpointer data, const char *words, const char *file,
             int line)
{
  gint64 give_up = g_get_monotonic_time () + PATIENCE_US;
  g_autoptr (GSource) beat = g_timeout_source_new (100);
  g_source_set_callback (beat, wake, NULL, NULL);
  g_source_attach (beat, NULL);
  deliver ();
  while (!check (data) && g_get_monotonic_time () < give_up) {
    if (!g_main_context_pending (NULL))
      pauses_end ();
    g_main_context_iteration (NULL, TRUE);
  }
  g_source_destroy (beat);
  if (check (data))
    return;
  desk_keep ("gave-up");
  fail_msg ("%s:%d: %s does not come to hold", file, line, words);
}

/* The window of the screen that is seen at the widget's point, or none. */
static Window
point_of (GtkWidget *widget, double x, double y, int *root_x, int *root_y)
{
  GtkNative *native = gtk_widget_get_native (widget);
  GdkSurface *surface = gtk_native_get_surface (native);
  double in_native_x, in_native_y, offset_x, offset_y;
  assert_true (gtk_widget_translate_coordinates (widget, GTK_WIDGET (native), x, y, &in_native_x,
                                                 &in_native_y));
  gtk_native_get_surface_transform (native, &offset_x, &offset_y);
  int scale = gdk_surface_get_scale_factor (surface);
  Window own = gdk_x11_surface_get_xid (surface), root = DefaultRootWindow (hands), child;
  assert_true (XTranslateCoordinates (
      hands, own, root, (int)lround ((in_native_x + offset_x) * scale),
      (int)lround ((in_native_y + offset_y) * scale), root_x, root_y, &child));
  assert_true (XTranslateCoordinates (hands, root, root, *root_x, *root_y, &(int){ 0 }, &(int){ 0 },
                                      &child));
  return child;
}

void
desk_point (GtkWidget *widget, double x, double y, int *root_x, int *root_y)
{
  point_of (widget, x, y, root_x, root_y);
}

/* A window manager keeps a dialog before the window that it belongs to, whichever of the two came
 * to the screen last; this screen has none. */
static void
keep_dialog_before (GtkWidget *widget, Window seen)
{
  GtkNative *native = gtk_widget_get_native (widget);
  Window own = gdk_x11_surface_get_xid (gtk_native_get_surface (native));
  if (GTK_IS_WINDOW (native) && gtk_window_get_transient_for (GTK_WINDOW (native)) && seen != own) {
    XRaiseWindow (hands, own);
    desk_settle ();
  }
}

/* A window manager gives the keys to a dialog that comes; without one they go to what lies under
 * the hand, which may be elsewhere. */
void
desk_give_keys (GtkWindow *window)
{
  Window own = gdk_x11_surface_get_xid (gtk_native_get_surface (GTK_NATIVE (window)));
  XWindowAttributes seen;
  if (!XGetWindowAttributes (hands, own, &seen) || seen.map_state != IsViewable)
    return;
  XRaiseWindow (hands, own);
  XSetInputFocus (hands, own, RevertToPointerRoot, CurrentTime);
  XSync (hands, False);
}

void
desk_move (GtkWidget *widget, double x, double y)
{
  int root_x, root_y;
  keep_dialog_before (widget, point_of (widget, x, y, &root_x, &root_y));
  XTestFakeMotionEvent (hands, -1, root_x, root_y, CurrentTime);
  desk_settle ();
}

void
desk_press (int button)
{
  XTestFakeButtonEvent (hands, (unsigned)button, True, CurrentTime);
  desk_settle ();
}

void
desk_release (int button)
{
  XTestFakeButtonEvent (hands, (unsigned)button, False, CurrentTime);
  desk_settle ();
}

/* A hand follows what has moved on while it came. */
static void
move_after (GtkWidget *widget, double x, double y)
{
  enum { TRIES = 10 };
  int root_x, root_y, now_x, now_y;
  desk_point (widget, x, y, &now_x, &now_y);
  for (int i = 0; i < TRIES && (i == 0 || now_x != root_x || now_y != root_y); i++) {
    root_x = now_x;
    root_y = now_y;
    desk_move (widget, x, y);
    desk_point (widget, x, y, &now_x, &now_y);
  }
}

void
desk_click_at (GtkWidget *widget, double x, double y, int button)
{
  move_after (widget, x, y);
  desk_press (button);
  desk_release (button);
}

void
desk_click (GtkWidget *widget)
{
  desk_click_at (widget, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0,
                 1);
}

void
desk_drag (GtkWidget *widget, double x0, double y0, double x1, double y1, int steps, int button)
{
  desk_move (widget, x0, y0);
  desk_press (button);
  for (int i = 1; i <= steps; i++)
    desk_move (widget, x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps);
  desk_release (button);
}

void
desk_double_click_at (GtkWidget *widget, double x, double y)
{
  enum { MS = 15, EVER_MS = 60000 };
  int usual;
  /* The toolkit's patience is of this clock and not of the server's. */
  g_object_get (gtk_settings_get_default (), "gtk-double-click-time", &usual, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", EVER_MS, NULL);
  desk_move (widget, x, y);
  for (int i = 0; i < 4; i++)
    XTestFakeButtonEvent (hands, 1, i % 2 == 0, MS);
  XSync (hands, False);
  desk_settle ();
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", usual, NULL);
}

void
desk_flick (GtkWidget *widget, double x0, double y0, double x1, double y1)
{
  enum { STEPS = 12, MS = 10 };
  int root_x, root_y;
  desk_move (widget, x0, y0);
  desk_press (1);
  for (int i = 1; i <= STEPS; i++) {
    desk_point (widget, x0 + (x1 - x0) * i / STEPS, y0 + (y1 - y0) * i / STEPS, &root_x, &root_y);
    XTestFakeMotionEvent (hands, -1, root_x, root_y, MS);
  }
  XTestFakeButtonEvent (hands, 1, False, MS);
  XSync (hands, False);
}

void
desk_scroll (GtkWidget *widget, double x, double y, int clicks)
{
  unsigned button = clicks > 0 ? 4 : 5;
  desk_move (widget, x, y);
  for (int i = 0; i < ABS (clicks); i++) {
    XTestFakeButtonEvent (hands, button, True, CurrentTime);
    XTestFakeButtonEvent (hands, button, False, CurrentTime);
  }
  desk_settle ();
}

static void
tap (KeySym symbol, gboolean down)
{
  KeyCode code = XKeysymToKeycode (hands, symbol);
  assert_int_not_equal (code, 0);
  XTestFakeKeyEvent (hands, code, down, CurrentTime);
}

static void
modifiers_down (GdkModifierType modifiers, gboolean down)
{
  if (modifiers & GDK_CONTROL_MASK)
    tap (XK_Control_L, down);
  if (modifiers & GDK_SHIFT_MASK)
    tap (XK_Shift_L, down);
  if (modifiers & GDK_ALT_MASK)
    tap (XK_Alt_L, down);
}

static void
strike (KeySym symbol, GdkModifierType modifiers)
{
  modifiers_down (modifiers, True);
  tap (symbol, True);
  tap (symbol, False);
  modifiers_down (modifiers, False);
  XSync (hands, False);
}

void
desk_hold (GdkModifierType modifiers)
{
  modifiers_down (modifiers, True);
  desk_settle ();
}

void
desk_let_go (GdkModifierType modifiers)
{
  modifiers_down (modifiers, False);
  desk_settle ();
}

void
desk_strike (const char *name, GdkModifierType modifiers)
{
  KeySym symbol = XStringToKeysym (name);
  assert_int_not_equal (symbol, NoSymbol);
  strike (symbol, modifiers);
}

void
desk_key (const char *name, GdkModifierType modifiers)
{
  desk_strike (name, modifiers);
  desk_settle ();
}

/* The keysym of an ASCII character is its code; whether it wants Shift the keyboard map tells. */
static void
type_one (char c)
{
  KeyCode code = XKeysymToKeycode (hands, (KeySym)(guchar)c);
  assert_int_not_equal (code, 0);
  gboolean shifted = XkbKeycodeToKeysym (hands, code, 0, 0) != (KeySym)(guchar)c;
  strike ((KeySym)(guchar)c, shifted ? GDK_SHIFT_MASK : 0);
}

void
desk_type (const char *text)
{
  for (const char *c = text; *c; c++) {
    type_one (*c);
    desk_settle ();
  }
}

cairo_surface_t *
desk_picture (void)
{
  int width = DisplayWidth (hands, 0), height = DisplayHeight (hands, 0);
  XImage *image = XGetImage (hands, DefaultRootWindow (hands), 0, 0, (unsigned)width,
                             (unsigned)height, AllPlanes, ZPixmap);
  assert_non_null (image);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_surface_flush (surface);
  guchar *pixels = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      ((guint32 *)(void *)(pixels + y * stride))[x]
          = 0xff000000u | (guint32)(XGetPixel (image, x, y) & 0xffffff);
  cairo_surface_mark_dirty (surface);
  XDestroyImage (image);
  return surface;
}

guint32
desk_pixel (GtkWidget *widget, double x, double y)
{
  int root_x, root_y;
  desk_point (widget, x, y, &root_x, &root_y);
  XImage *image
      = XGetImage (hands, DefaultRootWindow (hands), root_x, root_y, 1, 1, AllPlanes, ZPixmap);
  assert_non_null (image);
  guint32 colour = (guint32)(XGetPixel (image, 0, 0) & 0xffffff);
  XDestroyImage (image);
  return colour;
}

void
desk_keep (const char *name)
{
  const char *folder = g_getenv ("BW_PICTURES");
  if (!folder)
    return;
  g_mkdir_with_parents (folder, 0755);
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  cairo_surface_t *surface = desk_picture ();
  cairo_surface_write_to_png (surface, path);
  cairo_surface_destroy (surface);
}

GtkWidget *
desk_look_for (GtkWidget *root, gboolean (*match) (GtkWidget *widget, gconstpointer data),
               gconstpointer data)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (match (root, data))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = desk_look_for (child, match, data);
    if (found)
      return found;
  }
  return NULL;
}

static gboolean
has_type (GtkWidget *widget, gconstpointer data)
{
  return g_type_is_a (G_OBJECT_TYPE (widget), *(const GType *)data);
}

GtkWidget *
desk_find_type (GtkWidget *root, GType type)
{
  GtkWidget *found = desk_look_for (root, has_type, &type);
  if (!found)
    fail_msg ("no %s is shown", g_type_name (type));
  return found;
}

static gboolean
shows_words (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), data) == 0;
}

static gboolean
begins_with (GtkWidget *widget, gconstpointer data)
{
  return GTK_IS_LABEL (widget) && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (widget)), data);
}

GtkWidget *
desk_look_for_prefix (GtkWidget *root, const char *beginning)
{
  return desk_look_for (root, begins_with, beginning);
}

GtkWidget *
desk_look_for_label (GtkWidget *root, const char *label)
{
  return desk_look_for (root, shows_words, label);
}

GtkWidget *
desk_find_label (GtkWidget *root, const char *label)
{
  GtkWidget *found = desk_look_for_label (root, label);
  if (!found)
    fail_msg ("nothing shows the words “%s”", label);
  return found;
}

GtkWindow *
desk_dialog (GtkWindow *window)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWindow) other = g_list_model_get_item (all, i);
    if (other != window && gtk_widget_get_mapped (GTK_WIDGET (other)))
      return other;
  }
  return NULL;
}

int
desk_count_mapped (void)
{
  int n = 0;
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);
    n += gtk_widget_get_mapped (window);
  }
  return n;
}
