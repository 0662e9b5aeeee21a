/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts a scene is put together from; each fills its own arrays of an empty scene. */
#pragma once

#include "core/stone/mineral-keeps.h"
#include "preview/scene/scene.h"

/* Wants look and nature in place. */
void bw_scene_add_stone (BwScene *scene, const BwStone *stone, const char *mineral);
void bw_scene_add_bed (BwScene *scene, const BwDesign *design, const BwStone *stone);
/* The band's beads, without colour. */
void bw_scene_add_band (BwScene *scene, const BwPlaces *places, const BwDesign *design);
/* The bail's beads, without colour, after the band's. */
void bw_scene_add_bail (BwScene *scene, const BwHang *hang, const BwDesign *design);
/* The metal ring of a ring bail, and the seat of the cord; the cord itself is laid for a stance. */
void bw_scene_add_cord (BwScene *scene, const BwHang *hang, const BwDesign *design);
/* Lays the cord with its two ends going up (unit, in the piece's axes), each so long. */
void bw_scene_lay_cord (BwScene *scene, BwVec3 up, double length);
/* Wants stone and beads in place. */
void bw_scene_add_rest (BwScene *scene, const BwHang *hang);
/* Takes out the thread from the first bead of the bail on. */
void bw_scene_leave_bail_thread (BwScene *scene);
/* Wants the beads in place. */
void bw_scene_add_thread (BwScene *scene, const BwPath *path, const BwDesign *design);
