/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do when another program has changed the file that is to be saved. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

typedef enum { BW_CHANGED_SAVE_AS = 1, BW_CHANGED_OVERWRITE, BW_CHANGED_RELOAD } BwChangedAnswer;

/* theirs: what is in the file now, for BW_CHANGED_RELOAD; borrowed. */
typedef void (*BwChangedAnswered) (BwChangedAnswer answer, BwProject *theirs, gpointer data);

/* Reads the file on a thread, then asks before parent, with what differs from the project here.
 * answered is not called when the maker cancels or parent goes first. */
void bw_changed_question_ask (GtkWindow *parent, BwProject *here, BwChangedAnswered answered,
                              gpointer data);
