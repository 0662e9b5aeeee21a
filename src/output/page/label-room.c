/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output/page/label-room.h"

void
bw_label_room_init (BwLabelRoom *room, BwLabelBox frame)
{
  *room = (BwLabelRoom){ frame, g_array_new (FALSE, FALSE, sizeof (BwLabelBox)), 0 };
}

void
bw_label_room_clear (BwLabelRoom *room)
{
  g_clear_pointer (&room->taken, g_array_unref);
}

#define AIR 0.15 /* of a line's height, above the ink and below it */

void
bw_label_room_take (BwLabelRoom *room, BwLabelBox box)
{
  box.y += AIR * box.height;
  box.height *= 1 - 2 * AIR;
  g_array_append_val (room->taken, box);
}

static gboolean
touch (const BwLabelBox *a, const BwLabelBox *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height
         && b->y < a->y + a->height;
}

static gboolean
is_within (const BwLabelBox *box, const BwLabelBox *frame)
{
  return box->x >= frame->x && box->x + box->width <= frame->x + frame->width && box->y >= frame->y
         && box->y + box->height <= frame->y + frame->height;
}

static gboolean
is_free (const BwLabelRoom *room, BwLabelBox ink)
{
  double side = room->between * ink.height;
  ink.y += AIR * ink.height;
  ink.height *= 1 - 2 * AIR;
  if (!is_within (&ink, &room->frame))
    return FALSE;
  BwLabelBox wide = { ink.x - side, ink.y, ink.width + 2 * side, ink.height };
  for (guint i = 0; i < room->taken->len; i++)
    if (touch (&wide, &g_array_index (room->taken, BwLabelBox, i)))
      return FALSE;
  return TRUE;
}

int
bw_label_room_place (BwLabelRoom *room, double width, double height, const BwVec2 *corner, int n)
{
  for (int i = 0; i < n; i++) {
    BwLabelBox box = { corner[i].x, corner[i].y, width, height };
    if (!is_free (room, box))
      continue;
    bw_label_room_take (room, box);
    return i;
  }
  return -1;
}
