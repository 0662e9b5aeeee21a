/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The live symmetry: which of those the lattice allows, about which line, how often. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_SYMMETRY_BUTTON (bw_symmetry_button_get_type ())
G_DECLARE_FINAL_TYPE (BwSymmetryButton, bw_symmetry_button, BW, SYMMETRY_BUTTON, GtkWidget)

/* Signal: "closed" (): the choices have been left.
 *
 * Opens the choices. */
void bw_symmetry_button_open (BwSymmetryButton *self);
void bw_symmetry_button_bind (BwSymmetryButton *self, BwSession *session);
