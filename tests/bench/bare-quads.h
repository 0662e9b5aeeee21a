/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bare draw of ray-cast beads: one quad for each bead the stone does not hide, each pixel of it
 * met with the tube, its hole and its rounded rims, one lamp, its depth written. No soft edges, no
 * stone, no finishes. What the stone view is measured against, in the same run. */
#pragma once

#include "preview/scene/camera.h"

typedef struct _BareQuads BareQuads;

BareQuads *bare_quads_new (const BwScene *scene);
void bare_quads_free (BareQuads *quads);
/* Takes the beads that are to be drawn for this eye; no part of the draw. */
void bare_quads_take (BareQuads *quads, const BwScene *scene, const BwEye *eye);
/* Clears the bound framebuffer and draws into it. */
void bare_quads_draw (const BareQuads *quads, const BwScene *scene, const BwEye *eye, int width,
                      int height);
