/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing the maker keeps, typed in. It stays open until the book has it, so that nothing typed
 * is lost to a disk that is full or another program's change. */
#pragma once

#include "app/things/things.h"

#define BW_TYPE_THING_DIALOG (bw_thing_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwThingDialog, bw_thing_dialog, BW, THING_DIALOG, GtkWindow)

/* Called with the name of what was saved. */
typedef void (*BwThingSaved) (const char *name, gpointer data);

/* before: the thing to be changed; NULL: a new one, begun from the design (NULL: from none). data
 * is an object, and saved is not called once it is gone. */
void bw_thing_dialog_show (GtkWindow *parent, const BwThings *things, BwWorkbook *book,
                           gconstpointer before, const BwDesign *design, BwThingSaved saved,
                           GObject *data);
