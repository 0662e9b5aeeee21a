/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads that are woven are on the thread: a step that gives one of them another colour is asked
 * about, until the maker once agrees for this piece; one that ends the band before the last woven
 * row is asked about each time. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

/* Watches the session's project as long as the widget lives; the question is put in its window. */
void bw_woven_question_watch (GtkWidget *widget, BwSession *session);
