/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* What has just been unfolded under its head at the foot of a scrolled page would open out of
 * sight: once it is laid out the page is rolled until it can be seen, or its head has come to the
 * top. Where enough of it is in sight already nothing moves under the pointer. body: the unfolded
 * part; whole: it and its head. */
void bw_show_opened (GtkWidget *whole, GtkWidget *body);
