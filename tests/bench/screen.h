/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A virtual display on which programs are started, one at a time, and looked at from outside. */
#pragma once

#include <X11/Xlib.h>
#include <glib.h>

/* Starts the server; what is spawned afterwards shows there and keeps the user's own files out. */
Display *screen_open (void);
void screen_close (Display *display);
GPid screen_spawn (char **argv);
/* Until the screen is dark, or has a picture. */
void screen_wait (Display *display, gboolean dark);
/* Ends the program and waits until the screen is dark again; what it took of the processors, in
 * milliseconds. */
double screen_end (Display *display, GPid pid);
