/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture laid on the band: opened or dropped, placed by numbers or by the pointer (see
 * picture-frame.h), shown as beads while it is placed, laid as one step.
 *
 * Signal "placed" (): the picture, where it lies, or whether it is laid over the band, is another.
 */
#pragma once

#include "app/form/card.h"
#include "core/pattern/mapping.h"

#define BW_TYPE_PICTURE_PANEL (bw_picture_panel_get_type ())
G_DECLARE_FINAL_TYPE (BwPicturePanel, bw_picture_panel, BW, PICTURE_PANEL, BwCard)

/* Reads a file beside the main loop and lays it over the band. */
void bw_picture_panel_open (BwPicturePanel *self, GFile *file);

/* FALSE when no picture is laid over the band, or the panel is not seen. aspect: height to width.
 */
gboolean bw_picture_panel_get_placement (BwPicturePanel *self, BwPlacement *placement,
                                         double *aspect);
void bw_picture_panel_set_placement (BwPicturePanel *self, const BwPlacement *placement);
