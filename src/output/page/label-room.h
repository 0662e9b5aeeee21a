/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room for the words of a drawing: each takes the first place offered to it where it touches no
 * other and stays within the frame. */
#pragma once

#include "core/base/vec.h"
#include <glib.h>

/* Points; x, y: the top left corner. */
typedef struct {
  double x, y, width, height;
} BwLabelBox;

typedef struct {
  BwLabelBox frame;
  GArray *taken;  /* of BwLabelBox */
  double between; /* of a line's height, what is left free beside it: 0 unless set */
} BwLabelRoom;

void bw_label_room_init (BwLabelRoom *room, BwLabelBox frame);
void bw_label_room_clear (BwLabelRoom *room);

/* Takes a place whatever lies there; of a line of letters, all but its air. */
void bw_label_room_take (BwLabelRoom *room, BwLabelBox box);

/* Takes the first of n places for the top left corner at which a line of letters of this size is
 * free, and tells which; −1, and takes none, where all are taken. Of a line's height the air above
 * and below the ink may be shared. */
int bw_label_room_place (BwLabelRoom *room, double width, double height, const BwVec2 *corner,
                         int n);
