/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application: one process, a window per document, files from the command line or the desktop.
 */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_APPLICATION (bw_application_get_type ())
G_DECLARE_FINAL_TYPE (BwApplication, bw_application, BW, APPLICATION, GtkApplication)

BwApplication *bw_application_new (void);
