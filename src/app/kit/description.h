/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Describes a control to a screen reader by what the label shows: nothing while it is hidden or
 * empty. Newer toolkits hear no words of a label that a control is merely said to be described by.
 */
void bw_describe (GtkWidget *control, GtkLabel *by);
