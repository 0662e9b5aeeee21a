/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A desk to test a real window on: a virtual X display and a session bus of its own, and hands that
 * move the pointer and press keys through the X server, as a person's would. Every call that cannot
 * do what it says fails the test. */
#pragma once

#include <gtk/gtk.h>

/* Starts the display and the bus, and GTK on them. Once per program, before anything else of GTK.
 */
void desk_open (void);
/* Ends both. */
void desk_close (void);
/* The last word of a test program, for main () to return: under a leak checker the look at what is
 * left, while every other thread sleeps. What a test leaves behind that failed half-way is no leak
 * and is not looked at. */
int desk_end (int failed);

/* What is allocated between the two is a library's own and counts as no leak; for where it is known
 * that none of our code runs. */
void desk_foreign_begin (void);
void desk_foreign_end (void);

/* Nothing here waits for time: a machine that is busy with other work makes a test slow and no
 * more. What the program itself leaves for a while later (a run of steps that ends when the keys
 * rest, a finer picture) happens only where a test lets it: in desk_rest () and desk_until ().
 *
 * Runs the main loop until every event has been taken, everything that is due is done and the frame
 * that shows it is painted. FALSE when frames go on being painted with nothing else to do: then
 * something moves by itself. */
gboolean desk_settle (void);
/* The same, and all that the program had put off is done and painted too. */
gboolean desk_rest (void);
/* Runs the main loop until check (data) holds; fails the test when it does not within two minutes.
 */
#define desk_until(check, data) desk_until_ (check, data, #check, __FILE__, __LINE__)
void desk_until_ (gboolean (*check) (gpointer data), gpointer data, const char *words,
                  const char *file, int line);

/* Where a point of a widget lies on the screen. */
void desk_point (GtkWidget *widget, double x, double y, int *root_x, int *root_y);

/* Gives a window that is on the screen the keys, and brings it before the others. */
void desk_give_keys (GtkWindow *window);
void desk_move (GtkWidget *widget, double x, double y);
void desk_press (int button);
void desk_release (int button);
/* Moves to the widget's middle and clicks. */
void desk_click (GtkWidget *widget);
void desk_click_at (GtkWidget *widget, double x, double y, int button);
/* Presses at one point, moves to the other in `steps` moves, releases. */
void desk_drag (GtkWidget *widget, double x0, double y0, double x1, double y1, int steps,
                int button);
/* Two clicks as quick as one double-click must be, however busy the program is. */
void desk_double_click_at (GtkWidget *widget, double x, double y);
/* Presses at one point and lets go at the other while it moves, some 120 ms later by the X server's
 * own clock, however busy the program is. */
void desk_flick (GtkWidget *widget, double x0, double y0, double x1, double y1);
/* A turn of the wheel at a point: up when clicks > 0. */
void desk_scroll (GtkWidget *widget, double x, double y, int clicks);
/* A key by its X name ("Left", "space", "z"), with modifiers of GDK_CONTROL_MASK, GDK_SHIFT_MASK,
 * GDK_ALT_MASK. */
void desk_key (const char *name, GdkModifierType modifiers);
/* The same without waiting for what it does. */
void desk_strike (const char *name, GdkModifierType modifiers);
/* Holds modifiers down, and lets them go, while other things are done. */
void desk_hold (GdkModifierType modifiers);
void desk_let_go (GdkModifierType modifiers);
/* Types ASCII text. */
void desk_type (const char *text);

/* What the screen shows, root window whole: ARGB32 in a cairo image surface, owned. */
cairo_surface_t *desk_picture (void);
/* The colour of one pixel of the screen: 0xRRGGBB. */
guint32 desk_pixel (GtkWidget *widget, double x, double y);
/* Saves the screen when BW_PICTURES names a folder: pictures to look at. */
void desk_keep (const char *name);

/* The first mapped widget below (and with) root for which its type, or its name or label says so.
 * Each fails the test when there is none. */
GtkWidget *desk_find_type (GtkWidget *root, GType type);
GtkWidget *desk_find_label (GtkWidget *root, const char *label);
/* NULL when there is none. */
GtkWidget *desk_look_for (GtkWidget *root,
                          gboolean (*match) (GtkWidget *widget, gconstpointer data),
                          gconstpointer data);
/* A button, menu item or label that shows these words; NULL when none is mapped. */
GtkWidget *desk_look_for_label (GtkWidget *root, const char *label);
/* A label whose words begin so. */
GtkWidget *desk_look_for_prefix (GtkWidget *root, const char *beginning);
/* The topmost visible toplevel other than `window`; NULL when there is none. */
GtkWindow *desk_dialog (GtkWindow *window);
/* How many toplevels are on screen. */
int desk_count_mapped (void);
