/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own face: its tints under the names that style sheets and drawings ask for, by day
 * or in the dark. Where the system's theme is one of high contrast it is left alone. */
#pragma once

#include <gtk/gtk.h>

/* Loads the style sheets for this display and follows its theme from now on. */
void bw_face_follow (GdkDisplay *display);
