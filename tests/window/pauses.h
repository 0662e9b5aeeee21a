/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own pauses: what it puts off by g_timeout_add () or g_timeout_add_full (). At the
 * desk no pause ends because time goes by, but when a test lets it, so that the order of things is
 * the same on a quick machine and on one that is busy. The toolkit's own timers are left alone. */
#pragma once

#include <glib.h>

/* Pauses end by themselves again, as for a maker: for benchmarks. */
void pauses_follow_time (void);
/* Ends every pause that goes on now: what was put off is due at once. FALSE when there was none.
 * What the program does again and again follows time once it has been done. */
gboolean pauses_end (void);
/* Has the windows' next frames painted, and the pointer's moves taken, as soon as the main loop
 * runs on. FALSE when no window asks for a frame. */
gboolean pauses_hurry_frame (void);
