/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts a scene is put together from; each fills its own arrays of an empty scene. */
#pragma once

#include "preview/scene.h"

void bw_scene_add_stone (BwScene *scene, const BwStone *stone, const char *mineral);
void bw_scene_add_bed (BwScene *scene, const BwDesign *design, const BwStone *stone);
/* The band's beads, without colour. */
void bw_scene_add_band (BwScene *scene, const BwPlaces *places, const BwDesign *design);
/* The bail's beads, without colour, after the band's. */
void bw_scene_add_bail (BwScene *scene, const BwHang *hang, const BwDesign *design);
/* Wants the beads in place. */
void bw_scene_add_thread (BwScene *scene, const BwPath *path, const BwDesign *design);

/* What 10 mm of a mineral leave of red, green and blue, by its everyday name: clear when unknown.
 */
void bw_mineral_keeps (const char *mineral, float keeps[3]);
