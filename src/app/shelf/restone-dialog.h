/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same design on another stone: asks for the stone alone, shows what becomes of the drawing,
 * and makes a project of it. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

#define BW_TYPE_RESTONE_DIALOG (bw_restone_dialog_get_type ())
G_DECLARE_FINAL_TYPE (BwRestoneDialog, bw_restone_dialog, BW, RESTONE_DIALOG, GtkWindow)

/* made: the new project; its owner lets it go. */
typedef void (*BwRestoned) (BwProject *made, gpointer data);

/* project is not touched. owner: what data belongs to; nothing is called once it is gone. */
void bw_restone_dialog_show (GtkWindow *parent, BwProject *project, BwRestoned restoned,
                             GObject *owner);
/* The same for the project's own stone: lays its drawing anew for the rows recommended now, as one
 * step. */
void bw_restone_dialog_show_anew (GtkWindow *parent, BwProject *project);
